"""Cuts that lean: diamonds, chevrons; where each begins, what is waste, what is refused."""

import itertools
from fractions import Fraction
from math import cos, radians, sin, tan

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import Polygon, box, union_all  # type: ignore[import-untyped]  # it ships without types
from shapely.affinity import rotate, translate  # type: ignore[import-untyped]

from piecewright.making.cloth import Cloth
from piecewright.making.events import Severed, first
from piecewright.making.given import Given
from piecewright.making.run import run
from piecewright.making.verbs.cut import CUT
from tests.core.making.building import (
    Plain,
    cut,
    facts,
    lay,
    rails,
    recipe,
    refusal,
    sew,
    sliced,
    square,
    turn,
)

LONG = lay("a", "A", "4", "20")


def made(steps: list[Plain], name: str) -> Cloth:
    (cloth,) = run(recipe(steps, [name]), Given()).table.piles[name]
    return cloth


def outline(cloth: Cloth) -> Polygon:
    return union_all([Polygon(patch.seen.points) for patch in cloth.patches], grid_size=1e-9)


def test_a_positive_angle_leans_clockwise_and_the_first_triangle_is_waste() -> None:
    steps = [LONG, cut("d", "a", "across", every="3", count=2, angle=45)]
    wide = 3 * 2**0.5
    assert outline(made(steps, "d.1")).equals_exact(
        Polygon([(4, 0), (4 + wide, 0), (wide, 4), (0, 4)]), 1e-9, normalize=True
    )
    event = first(run(recipe(steps, ["d.1"]), Given()).outcomes[-1].events, Severed)
    scraps = [float(scrap.raw.area) for scrap in event.scraps[0]]
    assert scraps == pytest.approx([8, 80 - 8 - 2 * 4 * wide])
    other = [LONG, cut("d", "a", "across", every="3", count=2, angle=-45)]
    assert outline(made(other, "d.1")).equals_exact(
        Polygon([(0, 0), (wide, 0), (4 + wide, 4), (4, 4)]), 1e-9, normalize=True
    )


def test_cuts_from_the_top_lean_clockwise_too() -> None:
    steps = [LONG, turn("t", "a", 90), cut("d", "t", "down", every="3", count=1, angle=30)]
    drop, high = 4 * tan(radians(30)), 3 / cos(radians(30))
    assert outline(made(steps, "d.1")).equals_exact(
        Polygon([(0, 0), (4, drop), (4, drop + high), (0, high)]), 1e-9, normalize=True
    )


eighths = st.integers(8, 80).map(lambda count: Fraction(count, 8))


@given(st.data())
def test_parts_are_what_a_turned_ruler_cuts(data: st.DataObject) -> None:
    """Against shapely: bands of a turned strip of ground, laid over the rectangle one beside the other."""
    length, width, every = data.draw(eighths) * 2, data.draw(eighths), data.draw(eighths) / 4
    angle = data.draw(st.sampled_from([-60, -45, -22.5, -1, 1, 15, 30, 45, 72.5]))
    trim = data.draw(st.sampled_from([Fraction(0), Fraction(3, 8)]))
    room = float(length) * cos(radians(angle)) - float(width) * abs(sin(radians(angle))) - float(trim)
    assume(room > float(every))
    keys = {"trim": str(trim)} if trim else {}
    laid = lay("a", "A", str(width), str(length))
    steps = [laid, cut("d", "a", "across", every=str(every), count="fit", angle=angle, **keys)]
    making = run(recipe(steps, ["d.1"]), Given())
    parts = [making.table.piles[f"d.{number}"][0] for number in range(1, making.table.parts["d"] + 1)]
    assert len(parts) == int(room / float(every) + 1e-9)
    corner = (0.0, float(width)) if angle > 0 else (0.0, 0.0)
    rect = box(0, 0, float(length), float(width))
    for number, part in enumerate(parts):
        near = float(trim) + number * float(every)
        band = rotate(box(near, -500, near + float(every), 500), angle, origin=(0, 0))
        expected = rect.intersection(translate(band, *corner))
        left, top, _, _ = expected.bounds
        found = outline(part)
        assert found.symmetric_difference(translate(expected, -left, -top), grid_size=1e-9).area < 1e-6


def test_a_stepped_set_is_trued_where_its_stairs_end() -> None:
    """Three strips, each 2 in further along: leaning like the stairs, a 45 degree cut wastes little."""
    strips = [lay(name, name.upper(), "2 1/2", "24") for name in "abc"]
    steps = [
        *strips,
        sew("set", ["a", "b", "c"], "down", align="start", step="2"),
        cut("d", "set", "across", every="2 1/2", count="fit", angle=-45),
    ]
    making = run(recipe(steps, ["d.1"]), Given())
    assert making.table.parts["d"] == 6
    event = first(making.outcomes[-1].events, Severed)
    start = event.lines[0]
    assert (float(start.start[0]), float(start.start[1])) == pytest.approx((0, 0))
    assert float(start.end[0]) == pytest.approx(6.5)
    level = [*rails(3, "24"), cut("d", "set", "across", every="2 1/2", count="fit", angle=-45)]
    assert run(recipe(level, ["d.1"]), Given()).table.parts["d"] == 4


def test_diamonds_are_cut_again_without_waste_along_their_own_lean() -> None:
    steps = [
        LONG,
        cut("d", "a", "across", every="6", count=1, angle=30),
        cut("e", "d.1", "across", into=3, angle=30),
    ]
    making = run(recipe(steps, ["e.1"]), Given())
    event = first(making.outcomes[-1].events, Severed)
    assert [float(width) for width in event.widths] == pytest.approx([2, 2, 2])
    assert sum(float(scrap.raw.area) for scrap in event.scraps[0]) == pytest.approx(0, abs=1e-9)


def test_a_diamond_of_60_degrees_is_as_wide_as_its_strip() -> None:
    """Strip and cut of one width: four equal sides, width / sin 60 long (trigonometry)."""
    steps = [lay("a", "A", "3 1/2", "20"), cut("d", "a", "across", every="3 1/2", count=3, angle=30)]
    shape = outline(made(steps, "d.2"))
    points = list(shape.exterior.coords)
    sides = [Polygon([a, b, a]).length / 2 for a, b in itertools.pairwise(points)]
    assert sides == pytest.approx([3.5 / sin(radians(60))] * 4)
    assert shape.area == pytest.approx(3.5 * 3.5 / sin(radians(60)))


def test_what_is_laid_is_accounted_for_and_a_bed_is_used_whole() -> None:
    steps = [
        *rails(3, "24"),
        cut("d", "set", "across", every="6", count=2, angle=45),
        square("block", "d.1", "3", "4"),
    ]
    found = facts(steps)
    ledger = found.ledger
    assert float(ledger.seen + ledger.allowance + ledger.waste) == pytest.approx(float(ledger.laid))
    (bed,) = found.beds
    assert bed.length == 24
    assert bed.trims
    assert not bed.cuts


REFUSED = {
    "nothing": ({"angle": 0}, "steps[1].angle: A lean of 0 degrees is a square cut. Leave \"angle\" out."),
    "steep": (
        {"angle": 81},
        "steps[1].angle: 81 can not stand here. Write a number of degrees from -80 to 80.",
    ),
    "words": (
        {"angle": "45"},
        'steps[1].angle: "45" can not stand here. Write a number of degrees from -80 to 80.',
    ),
    "short": (
        {"angle": 79},
        "steps[1].angle: Truing both ends of a at 79° leaves nothing of it. Lean less, or cut a longer piece.",
    ),
    "cloth": (
        {"angle": 60, "count": 4},
        ("steps[1].every: 4 x 3 in is 12 in, more than the 6.536 in of cloth left: 5.464 in is missing. "
        "Cut 2 of that width, or cut at most 1.634 in each."),
    ),
}  # fmt: skip


@pytest.mark.parametrize("keys", REFUSED)
def test_what_can_not_be_cut_is_refused(keys: str) -> None:
    given_keys = {"every": "3", "count": 1, **REFUSED[keys][0]}  # type: ignore[dict-item]
    assert refusal([LONG, cut("block", "a", "across", **given_keys)], "block.1") == REFUSED[keys][1]


def test_a_piece_without_level_sides_has_no_ends_to_true() -> None:
    steps = [
        LONG,
        sliced("p", "a", ("left", "1"), ("right", "3")),
        cut("block", "p.2", "across", every="2", count=1, angle=10),
    ]
    assert refusal(steps, "block.1") == (
        "steps[2].angle: Truing both ends of p.2 at 10° leaves nothing of it. Lean less, or cut a longer piece."
    )


@pytest.mark.parametrize(
    ("axis", "angle", "way"),
    [
        ("across", 45, "the top to the right"),
        ("across", -22.5, "the top to the left"),
        ("down", 20, "the right end lower"),
        ("down", -20, "the right end higher"),
    ],
)
def test_leaning_cuts_are_said_in_words(axis: str, angle: float, way: str) -> None:
    laid = lay("a", "A", "8", "20")
    making = run(recipe([laid, cut("d", "a", axis, every="1/2", count=1, angle=angle)], ["d.1"]), Given())
    assert str(making.outcomes[-1].sentence) == (
        f"Cut the a at a lean of {abs(angle):g}°, {way}, into 1 segment 1/2 in wide, "
        "measured square to the cut (cut size)."
    )


def test_the_first_cut_after_the_truing_is_the_handle_of_every() -> None:
    made_of = recipe([LONG, cut("d", "a", "across", every="3", count=2, angle=45)], ["d.1"])
    (handle,) = CUT.handles(made_of.steps[1], run(made_of, Given()).outcomes[1])
    assert handle.place.key == "every"
    assert float(handle.line.start[0]) == pytest.approx(4 + 3 * 2**0.5)
    assert handle.toward == pytest.approx((cos(radians(45)), sin(radians(45))))
