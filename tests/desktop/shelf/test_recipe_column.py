"""Finding a recipe among all that ship: headings, search by mouse and by keys, pictures made only when seen."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.making.shipped import families, shipped_recipes
from piecewright.render.tint import lightness
from piecewright_qt.shelf.block_draft import first_fabrics
from piecewright_qt.shelf.block_editor import BlockEditor
from piecewright_qt.shelf.recipe_cards import Heading, RecipeCard
from piecewright_qt.shelf.recipe_column import RecipeColumn
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import small_design
from tests.desktop.shelf.hands import Key, press


def adding(place: Place) -> tuple[BlockEditor, RecipeColumn]:
    place.shelf.blocks.add.click()
    editor = place.shelf.blocks.editor
    assert editor is not None
    assert editor.column is not None
    QApplication.processEvents()
    return editor, editor.column


def names(column: RecipeColumn) -> list[str]:
    return [card.recipe.name for card in column.model.recipes]


def current(column: RecipeColumn) -> RecipeCard:
    card = column.model.card(column.list.currentIndex())
    assert isinstance(card, RecipeCard)
    return card


def test_every_recipe_is_offered_once_under_its_family(set_up: SetUp) -> None:
    _, column = adding(set_up(small_design()))
    headings = [card.name for card in column.model.cards if isinstance(card, Heading)]
    assert headings == ["In this design", *families()]
    offered = {card.recipe for card in column.model.recipes}
    assert offered >= set(shipped_recipes().values())
    assert len(offered) == len(column.model.recipes)


def test_a_heading_is_passed_over_by_arrows_and_can_not_be_pressed(set_up: SetUp) -> None:
    editor, column = adding(set_up(small_design()))
    row = next(n for n, card in enumerate(column.model.cards) if n and isinstance(card, Heading))
    column.list.choose(column.model.index(row - 1, 0))
    press(column.list, Key.Key_Down)
    assert column.list.currentIndex().row() == row + 1
    press(column.list, Key.Key_Up)
    assert column.list.currentIndex().row() == row - 1
    before = editor.name.line.text()
    place = column.list.visualRect(column.model.index(row, 0)).center()
    QTest.mouseClick(column.list.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert editor.name.line.text() == before


@pytest.mark.parametrize(
    ("typed", "found", "not_found"),
    [
        ("courthouse", "Courthouse steps", "Snowball"),
        ("log cabins", "Corner logs", "Braid"),
        ("unpick", "Color stairs", "Nine-patch from strips"),
        ("shuffle", "Four-patch from a stack of four", "Piano keys"),
        ("6 x 12", "Two halves from thirds", "Rail fence of two"),
        ("12x4", "Tilted checks", "Rail fence of six"),
        ("22 1/2", "Double nine-patch", "Braid"),
        ("rail 7 1/2 x 7 1/2", "Rail fence of five", "Snowball"),
    ],
)
def test_a_recipe_is_found_by_name_family_verb_and_size(
    set_up: SetUp, typed: str, found: str, not_found: str
) -> None:
    editor, column = adding(set_up(small_design()))
    column.search.setText(typed)
    assert found in names(column)
    assert not_found not in names(column)
    assert current(column).recipe.name == names(column)[0] == editor.name.line.text().partition(" (")[0]
    column.search.clear()
    assert len(names(column)) >= len(shipped_recipes())
    assert current(column).recipe.name == editor.name.line.text().partition(" (")[0]


def test_the_recipe_marked_stays_marked_while_the_search_still_means_it(set_up: SetUp) -> None:
    editor, column = adding(set_up(small_design()))
    column.list.choose(column.model.index_of("braid"))
    editor.sizes["F"].box.setEditText("6")
    column.search.setText("braids")
    assert current(column).id == "braid"
    assert editor.sizes["F"].box.currentText() == "6"


def test_what_is_not_found_is_said_and_the_block_stays_as_it_was(set_up: SetUp) -> None:
    editor, column = adding(set_up(small_design()))
    before = editor.name.line.text()
    column.search.setText("herringbone tweed")
    assert column.none.isVisible()
    assert "herringbone tweed" in column.none.text()
    assert editor.name.line.text() == before
    assert editor.save.isEnabled()
    press(column.search, Key.Key_Escape)
    assert editor.isVisible()
    assert not column.none.isVisible()


def test_enter_in_the_search_leads_to_the_list_and_adds_nothing(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor, column = adding(place)
    QTest.keySequence(column.list, "Ctrl+F")
    assert column.search.hasFocus()
    QTest.keyClicks(column.search, "snowball")
    press(column.search, Key.Key_Return)
    assert column.list.hasFocus()
    assert place.document.undo_stack.count() == 0
    press(column.list, Key.Key_Return)
    assert place.document.design.blocks[-1].name == "Snowball"
    assert not editor.isVisible()


def test_only_recipes_in_view_are_made_until_others_are_scrolled_to(set_up: SetUp, qtbot: QtBot) -> None:
    _, column = adding(set_up(small_design()))
    qtbot.waitUntil(lambda: bool(column._looks) and not column._waiting)
    assert 0 < len(column._looks) < len(shipped_recipes()) / 2
    assert "hourglass" not in column._looks
    column.list.choose(column.model.index_of("hourglass"))
    qtbot.waitUntil(lambda: "hourglass" in column._looks)
    assert column._looks["hourglass"]


def test_rails_begin_sorted_from_dark_to_light(set_up: SetUp) -> None:
    design = small_design()
    letters = first_fabrics(design, shipped_recipes()["rail-fence-of-four"])
    known = design.shelf.fabrics
    values = [lightness(known[letters[letter][0]].color) for letter in "ABCD"]
    assert values == sorted(values)
