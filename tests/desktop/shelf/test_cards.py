"""The cards of a design, and the list that shows them."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QAbstractItemModel
from PySide6.QtTest import QAbstractItemModelTester

from piecewright.edit.registry import Cell, apply, call
from piecewright.model.fabric import Fabric
from piecewright.model.value import Sizes
from piecewright.plan.tray import placed_counts
from piecewright_qt.shelf.card_model import CardModel
from piecewright_qt.shelf.cards import (
    FabricCard,
    block_cards,
    fabric_cards,
    recolorings,
)
from tests.desktop.shelf.designs import block_named, fabric_named, full_design, small_design, with_placed


def test_cards_tell_size_and_how_many_are_on_the_wall() -> None:
    design = with_placed(small_design(), "Rails", (0, 0), (3, 0), (6, 0))
    by_name = {card.block.name: card for card in block_cards(design)}
    # 6 x 12 and 6 x 6: the first choice of the recipe "two-halves-from-thirds", F = 12; and 6 as given here
    assert str(by_name["Halves"].size) == "6 x 12 in finished"
    assert str(by_name["Rails"].size) == "6 x 6 in finished"
    assert {name: card.count for name, card in by_name.items()} == {"Halves": 0, "Windows": 0, "Rails": 3}
    assert str(by_name["Rails"].placed) == "3 on the wall"


def test_favorites_come_first_and_else_the_order_of_the_shelf() -> None:
    design = small_design()
    design = apply(design, call("set-favorite", block=block_named(design, "Rails"), favorite=True))
    assert [card.block.name for card in block_cards(design)] == ["Rails", "Halves", "Windows"]


def test_a_stack_shows_each_of_its_unlike_blocks_once() -> None:
    cards = {card.block.name: card for card in block_cards(small_design())}
    assert [(face.kind, face.layer) for face in cards["Windows"].faces] == [(0, n) for n in range(5)]
    assert str(cards["Windows"].faces[2].word) == "layer 3 of 5"
    assert len(cards["Rails"].faces) == 1
    assert cards["Rails"].faces[0].word is None


def test_a_stack_in_one_fabric_has_one_face() -> None:
    design = small_design()
    block = design.shelf.blocks[block_named(design, "Windows")]
    one = block.changed(fabrics=block.fabrics.with_item("A", (fabric_named(design, "Chalk"),)))
    design = apply(design, call("change-block", block=one))
    assert len(next(card for card in block_cards(design) if card.id == block.id).faces) == 1


def test_a_block_that_can_not_be_made_says_so() -> None:
    design = small_design()
    block = design.shelf.blocks[block_named(design, "Halves")]
    bad = block.changed(sizes=Sizes({"F": Fraction(9999)}))
    design = design.changed(blocks=tuple(bad if one.id == block.id else one for one in design.blocks))
    card = next(card for card in block_cards(design) if card.id == block.id)
    assert card.faces == ()
    assert str(card.size).startswith("Can not be made: ")


@given(st.lists(st.tuples(st.integers(0, 3), st.integers(0, 3)), unique=True))
def test_counts_are_those_of_the_wall(cells: list[tuple[int, int]]) -> None:
    design = with_placed(small_design(), "Rails", *((3 * column, 3 * row) for column, row in cells))
    assert placed_counts(design.quilt).get(block_named(design, "Rails"), 0) == len(cells)


def test_letters_alike_are_offered_once_and_stacks_fabric_by_fabric() -> None:
    design = with_placed(with_placed(small_design(), "Rails", (0, 0), (3, 0)), "Windows", (0, 4))
    mist = fabric_named(design, "Mist")
    rails = recolorings(design, (Cell(0, 0), Cell(3, 0)), mist)
    assert [letter for letter, _, _ in rails] == ["A", "B", "C"]
    after = apply(design, rails[1][2])
    assert all(p.fabrics.fabric("B") == mist for p in after.quilt.rows[0].placements)
    windows = recolorings(design, (Cell(0, 4),), mist)
    assert len(windows) == len(design.fabrics)
    assert {edit.name for _, _, edit in windows} == {"recolor-blocks"}


lists = st.lists(
    st.tuples(st.integers(1, 9), st.sampled_from(["#102030", "#405060"])), unique_by=lambda pair: pair[0]
)


@pytest.mark.usefixtures("qapp")
@given(st.lists(lists, min_size=2, max_size=4))
def test_the_list_follows_whatever_it_is_told(states: list[list[tuple[int, str]]]) -> None:
    model = CardModel[FabricCard](lambda card: card.fabric.name, lambda _card: "")
    tester = QAbstractItemModelTester(model, QAbstractItemModelTester.FailureReportingMode.Fatal)
    for state in states:
        cards = [FabricCard(Fabric(f"f{number}", f"Cloth {number}", color)) for number, color in state]
        model.show(cards)
        assert model.cards == tuple(cards)
    assert isinstance(tester.model(), QAbstractItemModel)


@pytest.mark.usefixtures("qapp")
def test_only_rows_that_differ_are_told_of() -> None:
    design = full_design(60, 0)
    model = CardModel[FabricCard](lambda card: card.fabric.name, lambda _card: "")
    model.show(fabric_cards(design))
    rows: list[tuple[int, int]] = []
    model.dataChanged.connect(lambda first, last, _roles: rows.append((first.row(), last.row())))
    changed = design.fabrics[17].changed(color="#abcdef")
    model.show(fabric_cards(apply(design, call("change-fabric", fabric=changed))))
    assert rows == [(17, 17)]
