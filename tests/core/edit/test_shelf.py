"""Fabrics, recipes and blocks: added under new ids, changed everywhere, never taken from under what uses them."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.blocks import (
    add_block,
    add_recipe,
    change_block,
    change_recipe,
    remove_block,
    remove_recipe,
    set_favorite,
)
from piecewright.edit.borders import add_border, set_binding
from piecewright.edit.fabrics import (
    add_fabric,
    change_fabric,
    fabric_uses,
    remove_fabric,
    replace_fabric,
    swap_fabrics,
)
from piecewright.edit.ids import new_ids
from piecewright.edit.placing import place_block
from piecewright.edit.recoloring import recolor_letter
from piecewright.edit.registry import Cell
from piecewright.edit.settings import change_settings
from piecewright.errors import EditError
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Binding, Border
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Sizes
from tests.core.edit.quilts import RAILS, THIRDS, at, design, drawn, laid
from tests.core.edit.test_footprint import FIXED
from tests.core.strategies import designs

RAIL_OF_FOUR = shipped_recipes()["rail-fence-of-four"]


def test_new_things_come_under_new_ids() -> None:
    before = design()
    after = add_fabric(before, name="Plum", color="#5a2340")
    assert new_ids(before, after) == ("f30",)
    after = add_block(after, name="Fours", new_recipe=RAIL_OF_FOUR, fabrics=Letters({"A": ("f30",)}))
    assert new_ids(before, after) == ("f30", "r31", "b32")
    assert after.next_id == 33
    assert after.blocks[-1].recipe == "r31"


def test_a_recipe_that_is_there_already_is_not_added_again() -> None:
    before = add_recipe(design(), recipe=RAIL_OF_FOUR)
    assert add_recipe(before, recipe=RAIL_OF_FOUR) is before
    after = add_block(before, name="Fours", new_recipe=RAIL_OF_FOUR)
    assert len(after.recipes) == len(before.recipes)
    assert after.blocks[-1].recipe == "r30"


def test_ids_are_never_given_twice_even_after_removal() -> None:
    once = add_fabric(design(), name="Plum", color="#5a2340")
    gone = remove_fabric(once, fabric="f30")
    assert new_ids(gone, add_fabric(gone, name="Plum", color="#5a2340")) == ("f31",)


def _everywhere(fabric: str) -> Design:
    """A design that uses a fabric in a block, on the wall, in a border and in the binding."""
    made = recolor_letter(laid("o....."), cells=at((0, 0)), letter="B", fabric=fabric)
    made = add_border(made, border=Border(fabric, Fraction(2)))
    return set_binding(made, binding=Binding(fabric))


def test_a_used_fabric_stays_and_its_uses_are_counted() -> None:
    with pytest.raises(EditError) as refusal:
        remove_fabric(_everywhere("f3"), fabric="f3")
    assert refusal.value.sentence() == (
        '"Dusk" is still used in 2 blocks of the shelf, 1 recolored block on the wall, 1 border and 1 binding. '
        "Replace it by another fabric first."
    )


def test_a_fabric_replaced_everywhere_is_used_no_more() -> None:
    after = replace_fabric(_everywhere("f3"), fabric="f3", to="f2")
    assert fabric_uses(after, "f3") == ()
    assert after.quilt.borders[0].fabric == after.quilt.binding.fabric == "f2"
    assert [fabric.id for fabric in remove_fabric(after, fabric="f3").fabrics] == ["f1", "f2"]


@settings(max_examples=100, deadline=None)
@given(before=designs(), data=st.data())
def test_swapping_two_fabrics_swaps_what_is_seen_and_twice_is_nothing(
    before: Design, data: st.DataObject
) -> None:
    first, second = (data.draw(st.sampled_from(sorted(before.shelf.fabrics))) for _ in range(2))
    after = swap_fabrics(before, first=first, second=second)
    swap = {first: second, second: first}
    for old, new in zip(before.arrangements, after.arrangements, strict=True):
        assert [border.fabric for border in new.borders] == [
            swap.get(b.fabric, b.fabric) for b in old.borders
        ]
        for row, other in zip(old.rows, new.rows, strict=True):
            for placement, changed in zip(row.placements, other.placements, strict=True):
                assert after.letters(changed) == before.letters(placement).renamed(swap)
    back = swap_fabrics(after, first=first, second=second)
    assert back.blocks == before.blocks
    for row, other in zip(before.quilt.rows, back.quilt.rows, strict=True):
        shown = [before.letters(one) for one in row.placements]
        assert [back.letters(one) for one in other.placements] == shown


def test_a_changed_fabric_takes_the_place_of_the_old_one() -> None:
    rose = Fabric("f1", "Old rose", "#b26a72", price=Fraction(12))
    after = change_fabric(design(), fabric=rose)
    assert after.fabrics[0] == rose
    assert after.fabrics[1:] == design().fabrics[1:]


def test_a_block_on_a_wall_or_a_used_recipe_stays() -> None:
    before = laid("rr....")
    assert RAILS not in remove_block(remove_all(before), block=RAILS).shelf.blocks
    with pytest.raises(EditError) as refusal:
        remove_block(before, block=RAILS)
    assert refusal.value.sentence() == (
        '"Rails" still lies in 2 places on the wall. Take it off the wall first, or put another block in its place.'
    )
    with pytest.raises(EditError) as refusal:
        remove_recipe(before, recipe="r21")
    assert refusal.value.sentence() == (
        '"Rail fence of three" is still used by 2 blocks of the shelf. '
        "Remove these blocks first, or give them another recipe."
    )


def remove_all(made: Design) -> Design:
    return made.with_quilt(made.quilt.changed(rows=()))


def test_a_block_changed_to_a_size_that_no_longer_fits_is_refused_with_the_count() -> None:
    before = laid("rr....")
    block = before.shelf.blocks[RAILS].changed(sizes=Sizes({"F": Fraction(9)}))
    with pytest.raises(EditError) as refusal:
        change_block(before, block=block)
    assert refusal.value.sentence() == (
        'In "First" 2 placed blocks would no longer fit. The first: "Rails" comes out at 9 x 9 in finished, '
        "which is no whole number of cells of 6 in. Take such blocks off the wall first, or choose a size that "
        "covers the same cells."
    )
    assert change_block(remove_all(before), block=block).shelf.blocks[RAILS] == block


def test_a_block_may_grow_where_there_is_room() -> None:
    before = laid("r.r...", "......")
    grown = before.shelf.blocks[RAILS].changed(sizes=Sizes({"F": Fraction(12)}))
    assert drawn(change_block(before, block=grown)) == ("r-r-..", "----..")
    with pytest.raises(EditError, match="1 placed block would no longer fit"):
        change_block(laid("rr....", "......"), block=grown)


def test_another_recipe_keeps_what_its_blocks_still_know() -> None:
    before = recolor_letter(laid("r....."), cells=at((0, 0)), letter="C", fabric="f3")
    after = change_recipe(before, recipe="r21", to=shipped_recipes()["rail-fence-of-two"])
    assert after.shelf.blocks[RAILS].fabrics == Letters({"A": ("f1",), "B": ("f2",)})
    assert after.shelf.blocks[RAILS].sizes == Sizes({"F": Fraction(6)})
    assert not after.quilt.rows[0].placements[0].fabrics


def test_settings_under_which_placed_blocks_no_longer_fit_are_refused() -> None:
    before = add_block(design(), name="Fixed rails", new_recipe=Recipe.from_plain(FIXED))
    assert change_settings(before, settings=Settings(seam=Fraction(3, 8))).settings.seam == Fraction(3, 8)
    placed = place_block(before, block=before.blocks[-1].id, cell=Cell(0, 0))
    with pytest.raises(EditError, match='In "First" 1 placed block would no longer fit'):
        change_settings(placed, settings=Settings(seam=Fraction(3, 8)))


REFUSED: list[tuple[Callable[[Design], Design], str]] = [
    (lambda made: add_fabric(made, name="", color="#5a2340"), "This fabric has no name."),
    (
        lambda made: add_fabric(made, name="Plum", color="plum"),
        '"plum" is no color. Write # and six digits or letters a to f, such as #8c2f39.',
    ),
    (
        lambda made: change_fabric(made, fabric=Fabric("f9", "Plum", "#5a2340")),
        "The design has no fabric f9. Add it to the fabrics first.",
    ),
    (
        lambda made: add_block(made, name="Rails", recipe="r9"),
        'The design has no recipe "r9". Add it to the recipes first.',
    ),
    (
        lambda made: add_block(made, name="Rails", recipe="r21", fabrics=Letters({"A": ("f9",)})),
        'blocks[5].fabrics: There is no fabric "f9". Add it to the fabrics.',
    ),
    (
        lambda made: set_favorite(made, block="b9", favorite=True),
        "The shelf has no block b9. Add it to the shelf first.",
    ),
]


@pytest.mark.parametrize(("change", "sentence"), REFUSED)
def test_a_refused_change_says_why(change: Callable[[Design], Design], sentence: str) -> None:
    with pytest.raises(EditError) as refusal:
        change(design())
    assert refusal.value.sentence() == sentence


def test_favorites_are_marked_and_unmarked() -> None:
    marked = set_favorite(design(), block=THIRDS, favorite=True)
    assert [block.id for block in marked.blocks if block.favorite] == [THIRDS]
    assert set_favorite(marked, block=THIRDS, favorite=False) == design()
