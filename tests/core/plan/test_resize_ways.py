"""The ways to a size: each gives the size it says, they are ranked as they say, and what is met exactly comes first."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.blocks import set_made
from piecewright.edit.registry import apply, call, undo_text
from piecewright.edit.resizing import set_columns
from piecewright.edit.setting import change_setting, set_sashing
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.setting import Sashing
from piecewright.model.settings import Settings, Shrinkage
from piecewright.plan.difference import difference
from piecewright.plan.materials import materials
from piecewright.plan.resize_moves import WIDEST_BORDER
from piecewright.plan.resize_ways import Way, ways_to
from piecewright.plan.resize_wish import (
    BedWish,
    BlocksWish,
    SizeWish,
    Wish,
    blocks_at_hand,
    blocks_on,
    target_of,
)
from piecewright.plan.trade import mattresses
from piecewright.units.sizes import Finished
from tests.core.edit.quilts import at, laid
from tests.core.plan.samples import BLOCK, rails
from tests.core.soundness import assert_sound
from tests.core.strategies import designs

EIGHTHS = st.integers(8, 8 * 130).map(lambda n: Fraction(n, 8))
WISHES = st.one_of(
    st.builds(SizeWish, EIGHTHS, EIGHTHS),
    st.sampled_from(["crib", "twin", "king"]).map(lambda name: BedWish(name, "us")),
    st.just(BlocksWish()),
)


def check(design: Design, wish: Wish, ways: tuple[Way, ...]) -> None:
    """What holds of the ways to any wish."""
    before = materials(design)
    for way in ways:
        after = apply(design, way.call)
        assert_sound(after)
        assert after == way.design
        now = materials(after)
        assert (Fraction(now.size.finished.width), Fraction(now.size.finished.height)) == (
            way.size.width,
            way.size.height,
        )
        assert way.changes == difference(before, now)
        assert way.name.text()
        assert way.why.text().endswith(".")
        assert undo_text(way.call).text() == "Resize the quilt"
        if not isinstance(wish, BlocksWish):
            target = target_of(wish, design.settings)
            assert way.off == (way.size.width - target.width, way.size.height - target.height)
    if not isinstance(wish, BlocksWish):
        ranks = [(sum(map(abs, way.off)), way.cloth.rounded, way.to_make) for way in ways]
        assert ranks == sorted(ranks)
        assert not any(way.is_exact for way in ways) or ways[0].is_exact
    assert len({way.design for way in ways} | {design}) == len(ways) + 1


@settings(max_examples=40, deadline=None)
@given(design=designs(), wish=WISHES)
def test_random_designs_and_wishes(design: Design, wish: Wish) -> None:
    check(design, wish, ways_to(design, wish))


@settings(max_examples=15, deadline=None)
@given(columns=st.integers(2, 9), rows=st.integers(2, 9), border=st.integers(0, 40))
def test_a_size_that_counts_and_a_border_give_is_met(columns: int, rows: int, border: int) -> None:
    """Blocks of 6 in in whole columns and rows, and a border in eighths of an inch that is wide enough to sew."""
    around = Fraction(border, 8) if border >= 4 else Fraction(0)
    wish = SizeWish(columns * 6 + 2 * around, rows * 6 + 2 * around)
    full = rails(30)
    ways = ways_to(full, wish)
    if (columns, rows) != (10, 3) or around:
        assert ways[0].is_exact
    check(full, wish, ways)


@pytest.mark.parametrize("kind", ["straight", "on point"])
@pytest.mark.parametrize("sashing", [None, Sashing("f4", Fraction(2), Fraction(2), "f5")])
def test_every_setting_has_ways_that_leave_no_cell_free(kind: str, sashing: Sashing | None) -> None:
    design = change_setting(rails(24), kind=kind, columns=4, rows=3 if kind == "on point" else 6)  # type: ignore[arg-type]
    design = design if sashing is None else set_sashing(design, sashing=sashing)
    wish = SizeWish(Fraction(70), Fraction(84))
    ways = ways_to(design, wish)
    check(design, wish, ways)
    assert len(ways) >= 4
    more = [way for way in ways if len(way.calls) == 1 and way.calls[0].name == "continue-quilt"]
    assert more
    if not materials(design).missing:
        assert all(materials(way.design).missing == 0 for way in ways)


def test_blocks_of_unlike_sizes_are_eked_out_by_coping_strips() -> None:
    """Blocks 12 in wide in a row with one of 6 in: only whole repeats of 18 in are filled by blocks alone."""
    start = set_columns(laid("m-r", "--o"), columns=3)
    assert materials(start).missing == 0
    wish = SizeWish(Fraction(42), Fraction(12))
    ways = ways_to(start, wish)
    check(start, wish, ways)
    coped = [way for way in ways if way.design.quilt.coping is not None]
    assert all("coping strips in" in way.name.text() for way in coped)
    assert all(way.design.quilt.coping is not None or not materials(way.design).missing for way in ways)
    whole = ways_to(start, SizeWish(Fraction(36), Fraction(12)))
    assert whole[0].is_exact
    assert materials(whole[0].design).missing == 0


def test_all_kinds_of_ways_are_offered() -> None:
    ways = ways_to(rails(30), SizeWish(Fraction(72), Fraction(30)))
    names = {one.name for way in ways for one in way.calls}
    assert names == {"continue-quilt", "set-block-size", "set-sashing", "add-border"}
    assert any(len(way.calls) == 2 for way in ways)


def test_a_border_is_widened_narrowed_and_taken_away() -> None:
    design = apply(rails(100), call("add-border", border={"fabric": "f1", "width": "3"}))  # 66 x 66
    assert ways_to(design, SizeWish(Fraction(70), Fraction(70)))[0].is_exact
    wider = [way.name.text() for way in ways_to(design, SizeWish(Fraction(69), Fraction(69))) if way.is_exact]
    assert "the outer border 4 1/2 in finished, now 3 in" in wider
    bare = [way for way in ways_to(design, SizeWish(Fraction(60), Fraction(60))) if way.is_exact]
    assert "no outer border" in [way.name.text() for way in bare]


def test_a_bed_is_drop_tuck_and_shrinkage() -> None:
    """39 x 75 with 13 in of drop is 65 x 88 (Fabric shop 'Common quilt and batting sizes', 2012)."""
    plain = Settings(drop=Fraction(13))
    assert target_of(BedWish("twin"), plain) == Finished(Fraction(65), Fraction(88))
    tucked = plain.changed(tuck=Fraction(10), shrinkage=Shrinkage(take_up=Fraction(4)))
    found = target_of(BedWish("twin"), tucked)
    assert found.width == Fraction(271, 4)  # 65 / 0.96 = 67.70..., up to an eighth
    assert found.height == Fraction(817, 8)  # 98 / 0.96 = 102.08..., up to an eighth
    for country in ("us", "uk", "europe", "australia"):
        for mattress in mattresses(country):
            assert target_of(BedWish(mattress.name, country), plain).width > mattress.width


def test_a_bed_that_is_none_and_a_size_that_is_none_are_told() -> None:
    with pytest.raises(EditError) as refusal:
        ways_to(rails(10), BedWish("hammock", "us"))
    assert refusal.value.sentence().startswith('There is no mattress "hammock"')
    assert "twin" in refusal.value.sentence()
    with pytest.raises(EditError):
        ways_to(rails(10), SizeWish(Fraction(0), Fraction(10)))


@pytest.mark.parametrize(("made", "largest"), [(48, 48), (31, 30), (7, 6), (100, 100)])
def test_as_large_as_the_blocks_made_allow(made: int, largest: int) -> None:
    """Whole rows and columns of what is made: 31 blocks of 6 in give 30, as 10 x 3; none is left to make."""
    design = set_made(rails(40), block=BLOCK, made=made)
    ways = ways_to(design, BlocksWish())
    check(design, BlocksWish(), ways)
    assert all(way.to_make == 0 for way in ways)
    assert max(blocks_on(way.design).total() for way in ways) >= largest
    sizes = [way.size.width * way.size.height for way in ways]
    assert sizes == sorted(sizes, reverse=True)


def test_what_hangs_may_stay_and_get_sashing_or_a_border() -> None:
    """Also where a block is locked, so that nothing may be hung anew."""
    design = apply(rails(30), call("lock-blocks", cells=at((0, 0))))
    ways = ways_to(design, BlocksWish())
    check(design, BlocksWish(), ways)
    assert [one.name for way in ways for one in way.calls] == ["set-sashing", "add-border"]


def test_without_counts_the_blocks_that_hang_are_the_blocks_at_hand() -> None:
    design = rails(37)
    assert blocks_at_hand(design) == {BLOCK: 37}
    ways = ways_to(design, BlocksWish())
    assert all(blocks_on(way.design)[BLOCK] <= 37 for way in ways)
    assert "of the 37 blocks at hand" in ways[0].why.text()


def test_blocks_made_in_another_size_are_not_counted() -> None:
    design = set_made(rails(30), block=BLOCK, made=30)
    wish = SizeWish(Fraction(90), Fraction(27))
    for way in ways_to(design, wish):
        if any(one.name == "set-block-size" for one in way.calls):
            assert way.to_make == blocks_on(way.design).total()


def test_work_that_is_given_up_ends_with_what_was_found() -> None:
    assert ways_to(rails(30), SizeWish(Fraction(72), Fraction(36)), is_given_up=lambda: True) == ()


def test_no_border_gets_wider_than_is_sewn() -> None:
    for way in ways_to(rails(4), SizeWish(Fraction(200), Fraction(200))):
        assert all(border.width <= WIDEST_BORDER for border in way.design.quilt.borders)
