"""Cloth runs along its thread and unbroken over what was one strip; drawn areas are the areas of the facts."""

from collections import defaultdict
from fractions import Fraction
from math import atan2, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.motion import Motion
from piecewright.making.facts import Facts, Kind, SeenPatch
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.fabric import Fabric
from piecewright.render.block_picture import draw_block
from piecewright.render.cloth import cloth_fill, laid_fill, patch_fabrics, stand_in
from piecewright.render.path import Path, Spot
from piecewright.render.pen import ClothFill, Flat
from piecewright.render.recording_pen import Drawn, flattened, record
from tests.core.render.fabrics import STRIPED, printed
from tests.core.render.recipes import RECIPES

_motions = st.builds(
    Motion,
    quarters=st.integers(0, 3),
    degrees=st.sampled_from([0.0, 13.25, 45.0]),
    faced=st.booleans(),
    dx=st.integers(-9, 9).map(Fraction),
    dy=st.integers(-9, 9).map(Fraction),
)


def _thread(fill: ClothFill) -> float:
    """Where the lengthwise thread, which runs down in upright cloth, has come to run."""
    x, y = fill.came.direction((0, 1))
    return degrees(atan2(float(y), float(x))) % 180


def _same_line(one: float, other: float) -> bool:
    apart = (one - other) % 180
    return min(apart, 180 - apart) < 1e-6


@given(st.sampled_from([0, 45, 90]), _motions)
def test_the_thread_of_drawn_cloth_is_the_thread_of_the_strip_wherever_it_came_to_lie(
    laid: int, came: Motion
) -> None:
    now = ((180 - laid if came.faced else laid) + came.turn_degrees) % 360
    patch = SeenPatch("A", 0, ((0, 0), (1, 0), (1, 1)), now, came, 0)
    assert _same_line(_thread(laid_fill(STRIPED, laid, came)), now)
    assert _same_line(_thread(cloth_fill(STRIPED, patch)), now)
    if not came.degrees:
        assert cloth_fill(STRIPED, patch) == laid_fill(STRIPED, laid, came)


@pytest.mark.parametrize("name", RECIPES)
def test_every_patch_of_every_recipe_is_filled_along_the_thread_that_the_facts_give(name: str) -> None:
    for kind in facts(RECIPES[name], Given()).kinds:
        for patch in kind.patches:
            assert _same_line(_thread(cloth_fill(STRIPED, patch)), patch.grain_deg)


def test_two_pieces_of_one_strip_that_were_not_moved_apart_show_one_piece_of_cloth() -> None:
    """Rails cut square from a set: the second block's cloth begins where the first one's ended."""
    made = facts(RECIPES["cut-turn-sew"], Given())
    by_strip: dict[int, set[ClothFill]] = defaultdict(set)
    for patch in made.kinds[0].patches:
        fill = cloth_fill(STRIPED, patch)
        by_strip[patch.strip].add(ClothFill(fill.fabric, Motion(fill.came.quarters, fill.came.degrees)))
    assert sorted(len(ways) for ways in by_strip.values()) == [
        2,
        2,
        2,
    ]  # one half as laid, the other end for end


def _areas(drawn: list[Drawn]) -> dict[str, float]:
    """Filled area by color of what is not an underlay, the shoelace formula over straight rings."""
    found: dict[str, float] = defaultdict(float)
    for step in drawn:
        if step.fill is None or step.crisp:
            continue
        color = step.fill.color if isinstance(step.fill, Flat) else step.fill.fabric.color
        found[color] += _area(step.path)
    return found


def _area(path: Path) -> float:
    total = 0.0
    ring: list[Spot] = []
    for verb, points in path:
        if verb == "Z":
            total += (
                abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)))
                / 2
            )
            ring = []
        else:
            ring.append(points[0])
    return total


def _drawn(made: Facts, kind: Kind, colors: dict[str, Fabric]) -> list[Drawn]:
    fabrics = tuple(colors[patch.fabric] for patch in kind.patches)
    steps = flattened(record(lambda pen: draw_block(kind, fabrics, pen)))
    return [step for step in steps if isinstance(step, Drawn)]


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("prints", [False, True])
def test_drawn_areas_are_the_areas_of_the_facts(name: str, prints: bool) -> None:
    made = facts(RECIPES[name], Given())
    letters = RECIPES[name].letters
    colors = {
        letter: Fabric(
            id="", name=letter, color=f"#0000{number:02x}", print=printed("dots").print if prints else None
        )
        for number, letter in enumerate(letters)
    }
    for kind in made.kinds:
        drawn = _areas(_drawn(made, kind, colors))
        expected = {colors[letter].color: float(area) for letter, area in kind.area_by_fabric.items() if area}
        assert drawn == pytest.approx(expected, abs=1e-6)
        assert sum(drawn.values()) == pytest.approx(
            float(made.finished.width * made.finished.height), abs=1e-6
        )


@pytest.mark.parametrize("name", RECIPES)
def test_an_underlay_of_the_same_area_lies_beneath_all_cloth(name: str) -> None:
    made = facts(RECIPES[name], Given())
    colors = {letter: stand_in(letter) for letter in RECIPES[name].letters}
    for kind in made.kinds:
        steps = _drawn(made, kind, colors)
        crisp = [step for step in steps if step.crisp]
        assert steps[: len(crisp)] == crisp
        assert sum(_area(step.path) for step in crisp) == pytest.approx(
            float(made.finished.width * made.finished.height), abs=1e-6
        )


def test_a_stack_shows_each_layer_in_its_own_fabrics() -> None:
    made = facts(RECIPES["framed-four-patch"], Given())
    cloth = [Fabric(id=f"f{n}", name=str(n), color=f"#{n}{n}{n}{n}{n}{n}") for n in range(5)]
    (kind,) = made.kinds
    looks = [patch_fabrics(kind, {"A": cloth}, made.stack, layer) for layer in kind.layers]
    assert len(set(looks)) == 5
    assert all(len({fabric.id for fabric in look}) == 5 for look in looks)  # "five fabrics in every block"
    for patch, number in zip(kind.patches, range(len(kind.patches)), strict=True):
        assert [look[number] for look in looks] == [cloth[(layer + patch.layer) % 5] for layer in kind.layers]


def test_letters_without_fabric_look_unlike_each_other() -> None:
    stands = {stand_in(letter).color for letter in "ABCDEF"}
    assert len(stands) == 6
    assert len({stand_in("A", layer).color for layer in range(5)}) == 5
