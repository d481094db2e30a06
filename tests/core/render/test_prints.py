"""Prints: every kind, seamless, at true scale, the same every time, the right way up."""

from collections import Counter
from fractions import Fraction
from math import atan2, degrees

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.motion import Motion
from piecewright.model.fabric import Fabric, Print, PrintKind
from piecewright.render.path import placed, spots_of
from piecewright.render.pen import ClothFill, Flat
from piecewright.render.prints import Tile, tile_motion, tile_of
from piecewright.render.recording_pen import Drawn
from tests.core.render.fabrics import KINDS, printed

_inks = st.lists(st.sampled_from(["#aa2211", "#224466", "#ddbb33", "#557744"]), min_size=1, max_size=8).map(
    tuple
)


def _tile(kind: PrintKind, inks: tuple[str, ...], scale: str = "1") -> Tile:
    found = printed(kind, inks, scale).print
    assert found is not None
    return tile_of("#f4ead8", found)


def _shape(motif: Drawn, dx: float, dy: float) -> tuple[tuple[float, float], ...]:
    return tuple((round(x, 5) + 0.0, round(y, 5) + 0.0) for x, y in spots_of(placed(motif.path, dx, dy)))


@given(st.sampled_from(KINDS), _inks)
def test_what_reaches_over_one_side_of_a_repeat_comes_in_at_the_other(
    kind: PrintKind, inks: tuple[str, ...]
) -> None:
    """A field of 2 x 2 repeats is a repeat, moved: whatever is drawn in the first is drawn in the others."""
    tile = _tile(kind, inks)
    for motif in tile.motifs:
        copies = Counter(_shape(tile._copies(motif, 1), 0, 0))
        for sure, margin in (
            (True, -1e-6),
            (False, 1e-6),
        ):  # a motif that only touches a side may be left out
            reaching = Counter(spot for dx, dy in _shifts(motif, margin) for spot in _shape(motif, dx, dy))
            assert reaching <= copies if sure else copies <= reaching


def _shifts(motif: Drawn, margin: float) -> list[tuple[int, int]]:
    """The whole repeats by which a motif may be moved and still reach into the first one."""
    reach = (motif.stroke.width / 2 if motif.stroke else 0.0) + margin
    xs, ys = zip(*spots_of(motif.path), strict=True)
    return [
        (dx, dy)
        for dx in range(-3, 4)
        for dy in range(-3, 4)
        if max(xs) + reach + dx > 0 and min(xs) - reach + dx < 1
        if max(ys) + reach + dy > 0 and min(ys) - reach + dy < 1
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_gathering_like_motifs_loses_none(kind: PrintKind) -> None:
    tile = _tile(kind, ("#aa2211", "#224466"))
    gathered = sum(len(drawn.path) for drawn in tile.repeated(2))
    assert gathered == sum(len(tile._copies(motif, 2).path) for motif in tile.motifs)
    assert len(tile.repeated()) <= len(tile.motifs)


@pytest.mark.parametrize("kind", KINDS)
def test_a_print_is_the_same_every_time_and_drawn_in_its_inks(kind: PrintKind) -> None:
    inks = ("#aa2211", "#224466", "#ddbb33")
    tile = _tile(kind, inks)
    tile_of.cache_clear()
    assert _tile(kind, inks) == tile
    used = {
        paint.color
        for drawn in tile.motifs
        for paint in (drawn.fill, drawn.stroke)
        if isinstance(paint, Flat)
    }
    used |= {drawn.stroke.color for drawn in tile.motifs if drawn.stroke}
    assert used & set(inks)


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("scale", ["1/4", "3/4", "4"])
def test_the_scale_is_the_length_of_one_repeat(kind: PrintKind, scale: str) -> None:
    inch, scaled = _tile(kind, ("#aa2211",)), _tile(kind, ("#aa2211",), scale)
    factor = float(Fraction(scale))
    assert scaled.size == factor
    for one, other in zip(inch.motifs, scaled.motifs, strict=True):
        grown = [value * factor for spot in spots_of(one.path) for value in spot]
        assert grown == pytest.approx([value for spot in spots_of(other.path) for value in spot])
        if one.stroke and other.stroke:
            assert other.stroke.width == pytest.approx(one.stroke.width * factor)


@given(st.integers(0, 359), st.integers(0, 3))
def test_a_turned_print_leans_clockwise_from_the_thread(turn: int, quarters: int) -> None:
    fabric = printed("stripes", turn=turn)
    motion = tile_motion(ClothFill(fabric, Motion(quarters=quarters)))
    x, y = motion.direction((0, 1))
    lean = degrees(atan2(float(y), float(x)))
    apart = (lean - 90 - 90 * quarters - turn) % 360
    assert min(apart, 360 - apart) < 1e-6


@pytest.mark.parametrize("kind", ["florals", "leaves", "sprigs", "stars"])
def test_a_one_way_print_has_an_up(kind: PrintKind) -> None:
    inks = ("#aa2211", "#224466", "#ddbb33")
    tossed = tile_of("#f4ead8", Print(kind=kind, inks=inks))
    upright = tile_of("#f4ead8", Print(kind=kind, inks=inks, one_way=True))
    assert tossed.motifs != upright.motifs
    assert len(tossed.motifs) == len(upright.motifs)


def test_a_fabric_without_a_print_has_no_turn_of_its_own() -> None:
    plain = Fabric(id="f1", name="Plain", color="#808080")
    assert tile_motion(ClothFill(plain, Motion(quarters=1))) == Motion(quarters=1)
