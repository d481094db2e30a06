"""Recipes beyond a design: kept on the quilter's own shelf, shared as files, and a stranger's opened safely."""

import json
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import keep_recipe, own_recipes, recipe_in
from piecewright.making.shipped import shipped_recipes
from piecewright_qt.my_recipes import MyRecipes
from piecewright_qt.workroom import Workroom
from tests.core.making.hostile import HOSTILE
from tests.journeys.user import User, button, new_design

NEWER = '{"recipe": 8, "name": "Tomorrow"}'
BUTTON, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def stranger(folder: Path, plain: object, name: str = "stranger.recipe.json") -> Path:
    place = folder / name
    place.write_text(json.dumps(plain), encoding="utf-8")
    return place


def notice(user: User) -> str:
    return user.window.notice.text


def drop_file(user: User, path: Path) -> bool:
    """Let a file fall on the window, as the desktop does it."""
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(path))])
    at = QPointF(user.window.width() / 2, 20)
    entered = QDragEnterEvent(at.toPoint(), Qt.DropAction.CopyAction, mime, BUTTON, NONE)
    QApplication.sendEvent(user.window, entered)
    if not entered.isAccepted():
        return False
    QApplication.sendEvent(user.window, QDropEvent(at, Qt.DropAction.CopyAction, mime, BUTTON, NONE))
    return True


def test_a_recipe_goes_to_the_own_shelf_and_to_a_file_and_comes_back_equal(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    place = tmp_path / "shared.recipe.json"
    recipe = user.design.shelf.recipes[user.design.blocks[0].recipe]
    user.window.actions_by_name["keep-recipe"].trigger()
    (kept,) = own_recipes(recipes_folder())
    assert kept.recipe == recipe
    assert user.window.status_text == f"Kept on your shelf: {recipe.name}"
    user.window.actions_by_name["keep-recipe"].trigger()
    assert "is on your shelf already" in user.window.status_text
    chosen += [place, place]
    user.window.actions_by_name["save-recipe"].trigger()
    assert recipe_in(place) == recipe
    count = len(user.design.blocks)
    user.window.actions_by_name["open-recipe"].trigger()
    assert len(user.design.blocks) == count + 1
    assert user.design.shelf.recipes[user.design.blocks[-1].recipe] == recipe
    chosen_card = user.window.shelf.blocks.chosen
    assert chosen_card is not None
    assert chosen_card.id == user.design.blocks[-1].id
    user.window.document.undo()
    assert len(user.design.blocks) == count


def test_another_recipe_of_the_same_name_is_kept_beside_and_may_replace_it(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path
) -> None:
    user = new_design(workroom, qtbot)
    plain = shipped_recipes()["cut-turn-sew"].plain
    for about in ("first", "second"):
        changed = {**plain, "name": "Mine", "about": about}
        assert user.window.recipes.open(stranger(tmp_path, changed))
        user.window.shelf.blocks.list.setFocus()
        user.window.recipes.keep()
    assert [one.name for one in own_recipes(recipes_folder())] == ["Mine", "Mine (2)"]
    assert "Your shelf has another recipe named “Mine”" in notice(user)
    button(user.window.notice, "Replace the other one").click()
    (kept,) = own_recipes(recipes_folder())
    assert kept.recipe is not None
    assert (kept.name, kept.recipe.about) == ("Mine", "second")
    assert notice(user) == ""


def test_a_recipe_file_dropped_on_the_window_adds_a_block(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path
) -> None:
    user = new_design(workroom, qtbot)
    count = len(user.design.blocks)
    assert drop_file(user, stranger(tmp_path, shipped_recipes()["wonky-cross"].plain))
    assert [block.name for block in user.design.blocks[count:]] == ["Wonky cross"]
    assert not drop_file(user, tmp_path / "letter.txt")


@pytest.mark.parametrize("trap", ["used on and on", "the finest square", "near words", "recipes in recipes"])
def test_a_trap_ends_in_a_sentence_and_changes_nothing(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, trap: str
) -> None:
    user = new_design(workroom, qtbot)
    before = user.design
    assert not user.window.recipes.open(stranger(tmp_path, HOSTILE[trap]))
    assert user.design == before
    assert "stranger.recipe.json" in notice(user)
    assert len(notice(user)) < 500


def test_a_newer_and_a_torn_recipe_are_said_and_left(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path
) -> None:
    user = new_design(workroom, qtbot)
    newer = stranger(tmp_path, {"recipe": 9, "name": "Tomorrow"})
    assert not user.window.recipes.open(newer)
    assert "It is kept as it is; open it with a newer Piecewright." in notice(user)
    torn = tmp_path / "torn.recipe.json"
    torn.write_text(newer.read_text()[:9])
    assert not user.window.recipes.open(torn)
    assert "This is not JSON" in notice(user)
    assert not user.window.recipes.open(tmp_path / "gone.recipe.json")
    assert "There is no such file or folder." in notice(user)


def test_at_the_sewing_table_the_recipe_in_work_is_kept_and_a_broken_one_is_not(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.window.open_on_table()
    bench = user.window.table.bench
    assert bench.standing is not None
    assert bench.change({**bench.standing.plain, "name": "My very own"})
    user.window.recipes.keep()
    assert [one.name for one in own_recipes(recipes_folder())] == ["My very own"]
    plain = bench.standing.plain
    bench.change({**plain, "block": ["nothing"]})
    user.window.recipes.keep()
    assert notice(user).startswith("The recipe is not in order yet.")
    assert len(own_recipes(recipes_folder())) == 1


def my_recipes(user: User) -> MyRecipes:
    user.window.actions_by_name["my-recipes"].trigger()
    drawer = user.window._side.currentWidget()
    assert isinstance(drawer, MyRecipes)
    return drawer


def test_the_own_shelf_is_renamed_taken_off_put_back_and_made_blocks_of(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    empty = my_recipes(user)
    assert empty.rows == ()
    user.window.actions_by_name["my-recipes"].trigger()
    for name in ("wonky-cross", "cut-turn-sew"):
        keep_recipe(recipes_folder(), shipped_recipes()[name])
    (recipes_folder() / "torn.recipe.json").write_text("{")
    (recipes_folder() / "new.recipe.json").write_text(NEWER)
    drawer = my_recipes(user)
    assert len(drawer.rows) == 4
    new, torn = (
        next(row for row in drawer.rows if row.own.path.name.startswith(word)) for word in ("new", "torn")
    )
    assert "This is not JSON" in torn.said.text()
    assert "open it with a newer Piecewright" in new.said.text()
    assert not new.name.isVisible()
    assert not new.add.isVisible()
    cross = next(row for row in drawer.rows if row.own.name == "Wonky cross")
    cross.name.setFocus()
    cross.name.selectAll()
    QTest.keyClicks(cross.name, "Cross roads")
    QTest.keyClick(cross.name, Qt.Key.Key_Return)
    assert recipe_in(cross.own.path).name == "Cross roads"
    count = len(user.design.blocks)
    QTest.mouseClick(cross.add, Qt.MouseButton.LeftButton)
    assert user.design.blocks[count].name == "Cross roads"
    drawer = my_recipes(user)
    torn = next(row for row in drawer.rows if row.own.path.name.startswith("torn"))
    QTest.mouseClick(torn.away, Qt.MouseButton.LeftButton)
    assert len(drawer.rows) == 3
    assert not (recipes_folder() / "torn.recipe.json").exists()
    assert drawer.back is not None
    QTest.mouseClick(drawer.back, Qt.MouseButton.LeftButton)
    assert (recipes_folder() / "torn.recipe.json").read_text() == "{"
    assert (recipes_folder() / "new.recipe.json").read_text() == NEWER
    assert len(drawer.rows) == 4


def test_a_name_that_another_has_is_said_under_it(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    for name in ("wonky-cross", "wonky-exchange"):
        keep_recipe(recipes_folder(), shipped_recipes()[name])
    drawer = my_recipes(user)
    cross = drawer.rows[0]
    cross.name.selectAll()
    QTest.keyClicks(cross.name, "wonky exchange")
    QTest.keyClick(cross.name, Qt.Key.Key_Return)
    assert cross.said.text() == 'Another recipe on your shelf is named "wonky exchange". Choose another name.'
    assert recipe_in(cross.own.path).name == "Wonky cross"


def test_a_shelf_that_takes_nothing_is_said(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    recipes_folder().parent.mkdir(parents=True, exist_ok=True)
    recipes_folder().write_text("a file in the way")
    user.window.recipes.keep()
    assert "recipes: " in notice(user)
