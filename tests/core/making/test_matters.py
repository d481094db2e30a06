"""Which numbers matter, found again by writing the number anew in the recipe's text and looking at the block."""

import re
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import combinations
from math import cos, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.errors import UnsatisfiedAssumption

from piecewright.errors import MakingError, PiecewrightError
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.matters import Fold, Matter, folds, matters
from piecewright.making.nudging import spot_text
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.verbs.verb import Place
from tests.core.making.building import Plain, cut, lay, rails, recipe, sew, square
from tests.core.making.strategies import Sewable, sewable_recipes

PLAIN = Given()
EIGHTH = Fraction(1, 8)
SHIPPED = sorted(shipped_recipes())
BY_EYE = {
    *("slanted-exchange", "strip-let-in", "three-slanted-parts"),
    *("wonky-cross", "wonky-exchange", "wonky-four-patch", "wonky-halves", "wonky-log-cabin"),
}
"""Recipes whose slants are slices, cut where it pleases."""
LEANING = BY_EYE | {
    "braid",
    "leaning-checkerboard",
    "string-block",
    "triangles-from-a-tube",
    "zigzag-columns",
}
"""Recipes with pieces that stand out at a slant and are trimmed."""


def marks(of: Recipe, by: Fraction = EIGHTH) -> dict[str, Matter]:
    return {spot_text(matter.length.place): matter for matter in matters(of, PLAIN, by)}


@cache
def shipped_matters(name: str) -> tuple[Matter, ...]:
    return matters(shipped_recipes()[name], PLAIN)


def with_more(plain: Plain, more: Mapping[Place, Fraction]) -> Plain:
    """The same recipe with sums written where lengths stand."""
    copy = Recipe.from_plain(plain).plain
    copy.pop("finished", None)
    for place, added in more.items():
        *inwards, last = re.findall(r"\w+", place.key) + ([] if place.index is None else [place.index])
        holder = copy["steps"][place.step]
        for key in inwards:
            holder = holder[int(key) if isinstance(holder, list) else key]
        holder[last] = f"({holder[last]}) + ({added})"
    return copy


def made(plain: Plain, when: Given = PLAIN) -> Facts | None:
    try:
        return facts_of_recipe(Recipe.from_plain(plain), when)
    except PiecewrightError:
        return None


def corners(found: Facts) -> Counter[object]:
    """Every patch by its fabric and corners."""
    return Counter(
        (patch.fabric, patch.layer, *((round(float(x), 6), round(float(y), 6)) for x, y in patch.points))
        for kind in found.kinds
        for patch in kind.patches
    )


def pieces(found: Facts) -> Counter[object]:
    return Counter(
        (patch.fabric, patch.layer, len(patch.points)) for kind in found.kinds for patch in kind.patches
    )


def square_edges(found: Facts) -> set[object]:
    """The level and upright lines that edges of each fabric lie on."""
    lines: set[object] = set()
    for kind in found.kinds:
        for patch in kind.patches:
            for (x, y), (other_x, other_y) in zip(
                patch.points, patch.points[1:] + patch.points[:1], strict=True
            ):
                if abs(float(x - other_x)) < 1e-9:
                    lines.add((patch.fabric, "upright", round(float(x), 6)))
                elif abs(float(y - other_y)) < 1e-9:
                    lines.add((patch.fabric, "level", round(float(y), 6)))
    return lines


def bands(found: Facts) -> set[object]:
    """How wide patches are between edges that both run along one thread of theirs, by fabric."""
    wide: set[object] = set()
    for patch in (patch for kind in found.kinds for patch in kind.patches):
        for turned in (0.0, 90.0):
            angle = radians(patch.grain_deg + turned)
            over = [float(x) * -sin(angle) + float(y) * cos(angle) for x, y in patch.points]
            edges = [
                one for one, other in zip(over, over[1:] + over[:1], strict=True) if abs(one - other) < 1e-7
            ]
            wide |= {(patch.fabric, round(abs(one - other), 6)) for one, other in combinations(edges, 2)}
    return wide


def unharmed(now: Facts, then: Facts | None, *, by_eye: bool) -> bool:
    """Whether a block has its size, its patches or at least its square lines, its seams, and no new warning."""
    if then is None or {warning.code for warning in then.warnings} - {
        warning.code for warning in now.warnings
    }:
        return False
    if then.finished != now.finished or then.blocks < now.blocks:
        return False
    if corners(then) == corners(now):
        return then.ledger.allowance >= now.ledger.allowance - 1e-6
    same_lines = square_edges(now) <= square_edges(then) and bands(now) <= bands(then)
    return by_eye and pieces(then) == pieces(now) and same_lines


def sewn_together(asked: Recipe) -> list[set[Place]]:
    """The lengths of strips that one step sews plainly side by side, group by group."""
    laid = {step["make"]: index for index, step in enumerate(asked.plain["steps"]) if "lay" in step}
    groups: list[set[Place]] = []
    for step in asked.plain["steps"]:
        if "sew" in step and step["axis"] == "down" and not {"align", "step", "edge", "flush"} & step.keys():
            group = {Place(laid[name], "lay.length") for name in step["sew"] if name in laid}
            if group:
                groups.append(group)
    return groups


@pytest.mark.parametrize("name", SHIPPED)
def test_every_mark_stands_up_to_brute_force(name: str) -> None:
    """At both ends of what is told the block is as it was, and a step further it is not."""
    asked = shipped_recipes()[name]
    now = made(asked.plain)
    assert now is not None
    groups = sewn_together(asked)
    for matter in shipped_matters(name):
        place, value = matter.length.place, matter.length.value
        assert isinstance(place, Place)
        group = next((group for group in groups if place in group), {place})

        def harmless(at: Fraction, group: set[Place] = group, value: Fraction = value) -> bool:
            moved = with_more(asked.plain, dict.fromkeys(group, at - value))
            return unharmed(now, made(moved), by_eye=name in BY_EYE)

        for end, outward in ((matter.low, -EIGHTH), (matter.high, EIGHTH)):
            far = value + 64 * outward if end is None else end
            assert far == value or harmless(far), f"{spot_text(place)} at {far}"
            assert end is None or not harmless(end + outward), f"{spot_text(place)} beyond {end}"
        assert matter.mark == expected_mark(matter), spot_text(place)


def expected_mark(matter: Matter) -> str:
    """The word for a range: where it ends at the length as it is, and where it has no end."""
    ends = matter.low == matter.length.value, matter.high == matter.length.value
    if any(ends):
        return {(True, True): "exact", (True, False): "at least", (False, True): "at most"}[ends]
    open_ends = matter.low is None, matter.high is None
    return {(False, True): "at least", (True, False): "at most"}.get(open_ends, "as you like")


@pytest.mark.parametrize("name", sorted(set(SHIPPED) - LEANING))
def test_all_of_a_recipe_without_slants_is_exact_but_cloth_to_spare(name: str) -> None:
    for matter in shipped_matters(name):
        place = matter.length.place
        assert isinstance(place, Place)
        assert matter.mark == "exact" or (matter.mark, place.key) == ("at least", "lay.length"), spot_text(
            place
        )
        if matter.mark == "at least":
            assert matter.low == matter.length.value, "shipped recipes lay no more than they need"


@pytest.mark.parametrize(
    ("name", "place", "mark"),
    [
        ("braid", "steps[0].lay.width", "exact"),
        ("leaning-checkerboard", "steps[5].every", "exact"),
        ("squares-on-point-in-a-band", "steps[1].lay.width", "exact"),
        ("tilted-checks", "steps[4].every", "exact"),
        ("zigzag-columns", "steps[10].every", "exact"),
        ("hourglass", "steps[2].seams[0].beside", "exact"),
        ("strip-let-in", "steps[2].lay.width", "exact"),
        ("strip-let-in", "steps[1].from[1]", "as you like"),
        ("wonky-log-cabin", "steps[5].height", "at most"),
        ("wonky-log-cabin", "steps[2].lay.width", "at least"),
        ("triangles-from-a-tube", "steps[3].from[1]", "at most"),
    ],
)
def test_slants_laid_along_a_ruler_or_a_thread_are_measured_and_slices_are_not(
    name: str, place: str, mark: str
) -> None:
    found = {spot_text(matter.length.place): matter.mark for matter in shipped_matters(name)}
    assert found[place] == mark


@settings(max_examples=15)
@given(sewable=sewable_recipes(), data=st.data())
def test_the_range_without_harm_is_without_harm_and_ends_there(sewable: Sewable, data: st.DataObject) -> None:
    asked = sewable.recipe()
    now = made(asked.plain, sewable.given)
    if now is None:
        raise UnsatisfiedAssumption
    found = [
        each
        for each in matters(asked, sewable.given)
        if getattr(each.length.place, "key", "") != "lay.length"
    ]
    if not found:
        raise UnsatisfiedAssumption
    matter = data.draw(st.sampled_from(found))
    place, value = matter.length.place, matter.length.value
    assert isinstance(place, Place)

    def harmless(at: Fraction) -> bool:
        assert isinstance(place, Place)
        return unharmed_at(asked, sewable, now, place, at - value)

    for end, outward in ((matter.low, -EIGHTH), (matter.high, EIGHTH)):
        if end is not None:
            assert end == value or harmless(end)
            assert sewable.slanted or not harmless(end + outward)
        else:
            assert harmless(value + 64 * outward)


def unharmed_at(asked: Recipe, sewable: Sewable, now: Facts, place: Place, more: Fraction) -> bool:
    plain = asked.plain
    if "." in place.key and not place.key.startswith("lay"):
        raise UnsatisfiedAssumption
    then = made(with_more(plain, {place: more}), sewable.given)
    return unharmed(now, then, by_eye=sewable.slanted)


def test_cloth_to_spare_is_told_as_the_least_that_does() -> None:
    asked = recipe(
        [*rails(2, "42"), cut("seg", "set", "across", every="6", count=6), sew("block", ["seg.*"], "down")]
    )
    found = marks(asked)
    assert found["steps[0].lay.length"].mark == "at least"
    assert found["steps[0].lay.length"].low == 36
    assert str(found["steps[0].lay.length"].sentence) == "At least 36 in: the length of the strip a."
    assert found["steps[3].every"].mark == "exact"
    assert str(found["steps[3].every"].sentence) == "Exact: the width of each segment seg, 6 in."


def test_a_trim_before_cuts_is_at_most_what_the_cloth_has_to_spare() -> None:
    asked = recipe([*rails(2, "8"), cut("seg", "set", "across", every="7", count=1, trim="1/2")], ["seg.1"])
    trim = marks(asked)["steps[3].trim"]
    assert trim.mark == "as you like"
    assert trim.low == 0
    assert trim.high == 1
    tight = recipe(
        [*rails(2, "7 1/2"), cut("seg", "set", "across", every="7", count=1, trim="1/2")], ["seg.1"]
    )
    assert marks(tight)["steps[3].trim"].mark == "at most"


def test_a_slant_is_cut_by_eye_between_its_ends() -> None:
    found = marks(shipped_recipes()["slanted-exchange"])
    start = found["steps[5].from[1]"]
    assert start.mark == "as you like"
    assert start.low is not None
    assert start.high is not None
    assert start.low < start.length.value < start.high
    assert "As you like, from" in str(start.sentence)


def improvised(**keys: object) -> Recipe:
    """Three parts that are squared up smaller after sewing, so that their own width hardly matters."""
    parts = [
        lay("a", "A", "6", "30"),
        cut("part", "a", "across", **keys),
        square("small", "part.*", "4", "4"),
        sew("block", ["small.*"], "across"),
    ]
    return recipe(parts)


def test_parts_squared_up_later_may_be_folded_instead_of_measured() -> None:
    asked = improvised(every="9", count=3)
    found = matters(asked, PLAIN)
    assert [matter.mark for matter in found if getattr(matter.length.place, "key", "") == "every"] == [
        "as you like"
    ]
    (fold,) = folds(asked, PLAIN)
    assert (fold.step, fold.piece, fold.count) == (1, "a", 3)
    assert str(fold.sentence) == "No ruler needed: fold a in 3 equal parts and cut on the folds."
    folded = facts_of_recipe(improvised(into=3), PLAIN)
    assert folded.finished == facts_of_recipe(asked, PLAIN).finished


def test_cuts_that_lengths_hang_on_are_not_folded_though_into_equal_parts() -> None:
    into = recipe([*rails(2, "27"), cut("seg", "set", "across", into=3), sew("block", ["seg.*"], "down")])
    assert folds(into, PLAIN) == (), "a fold that lies off makes edges that do not fit"


@pytest.mark.parametrize("name", SHIPPED)
def test_where_a_recipe_is_told_to_fold_folds_that_lie_off_do_no_harm(name: str) -> None:
    asked = shipped_recipes()[name]
    now = made(asked.plain)
    assert now is not None
    for fold in folds(asked, PLAIN):
        for off in (EIGHTH, -EIGHTH):
            assert unharmed(now, made(folded_off(asked, fold, off)), by_eye=name in BY_EYE)


def folded_off(asked: Recipe, fold: Fold, off: Fraction) -> Plain:
    """The recipe with a piece cut on folds, of which the first lies off."""
    plain = asked.plain
    del plain["finished"]
    step = plain["steps"][fold.step]
    cloth = run(asked, PLAIN).outcomes[fold.step].taken[fold.piece][0].box
    whole = cloth.width if step["axis"] == "across" else cloth.height
    assert isinstance(whole, Fraction)
    widths = [whole / fold.count] * fold.count
    widths[:2] = widths[0] + off, widths[1] - off
    kept = {
        key: value for key, value in step.items() if key not in ("every", "count", "into", "step", "widths")
    }
    plain["steps"][fold.step] = {**kept, "widths": [str(width) for width in widths]}
    return plain


def test_what_fails_from_the_start_is_told_and_a_sewn_seam_is_heeded() -> None:
    short = recipe([*rails(2, "8"), cut("seg", "set", "across", every="9", count=1)], ["seg.1"])
    with pytest.raises(MakingError, match="9 in is more than the 8 in of cloth left"):
        matters(short, PLAIN)
    asked = shipped_recipes()["rail-fence-of-two"]
    own = matters(asked, replace(PLAIN, lost=Fraction(1, 16)))
    assert [matter.mark for matter in own] == [matter.mark for matter in matters(asked, PLAIN)]
