"""The places are always in sight: a switch in the bar leads to each and marks the one in view."""

from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import call
from piecewright_qt.actions.row import MENUS
from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.drawer import Drawer
from piecewright_qt.workroom import Workroom
from tests.journeys.user import User, new_design

_LONGEST_MENU = 21
"""Lines of the longest menu, so that it fits on a low screen with large text."""


def marked(user: User) -> list[str]:
    """The places that the switch marks."""
    return [name for name, button in user.window.bar.switch.buttons.items() if button.isChecked()]


def test_the_switch_leads_to_every_place_and_marks_it(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    assert marked(user) == ["wall"]
    for words, place in (("Sewing table", "table"), ("Cutting table", "cutting"), ("Wall", "wall")):
        user.press(words, user.window.bar)
        assert (user.window.place, marked(user)) == (place, [place])
        user.press(words, user.window.bar)
        assert (user.window.place, marked(user)) == (place, [place]), "pressed again, one stays"
    user.keys("sewing-plan")
    assert (user.window.place, marked(user)) == ("sewing_plan", [])
    user.keys("wall")
    assert (user.window.place, marked(user)) == ("wall", ["wall"])


def test_without_a_block_the_switch_stays_and_the_wall_says_why(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    for block in user.design.blocks:
        assert user.window.document.perform(call("remove-block", block=block.id))
    user.press("Cutting table", user.window.bar)
    user.press("Sewing table", user.window.bar)
    assert (user.window.place, marked(user)) == ("wall", ["wall"])
    assert "Add a block" in user.window.status_text


def test_on_a_narrow_window_the_switch_folds_into_one_button(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    user.window.look.prefer(text_percent=200)
    user.window.resize(1366, 768)
    switch = user.window.bar.switch
    qtbot.waitUntil(switch.folded.isVisible)
    assert not any(button.isVisible() for button in switch.buttons.values())
    assert user.window.bar.sizeHint().width() <= user.window.width(), "no menu falls out of the bar"
    menu = switch.folded.menu()
    assert menu is not None
    next(action for action in menu.actions() if action.text() == "Cutting table").trigger()
    assert user.window.place == "cutting"
    assert switch.folded.text().startswith("Cutting table")
    QTest.qWait(0)
    assert user.window.bar.sizeHint().width() <= user.window.width()


def test_beside_every_table_the_columns_fold_where_the_window_is_narrow(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.window.resize(1366, 768)
    for text, shelf in ((100, True), (200, False)):
        user.window.look.prefer(text_percent=text)
        for name in ("cutting-table", "sewing-plan", "sewing-table", "cutting-table"):
            user.keys(name)
            assert (user.window.shelf.isVisible(), user.window.materials.isVisible()) == (shelf, False)
        user.keys("wall")
        assert user.window.shelf.isVisible()
        assert user.window.materials.isVisible()
    user.keys("cutting-table")
    user.press("Materials", user.window.cutting)
    assert user.window.materials.isVisible()
    user.keys("settings")
    assert any(one.isVisible() for one in user.window.findChildren(Drawer)), "a drawer brings its column back"


def test_no_menu_is_longer_than_a_low_screen() -> None:
    counts = {menu: sum(row.menu == menu for row in ACTIONS) for menu in MENUS}
    assert all(0 < count <= _LONGEST_MENU for count in counts.values()), counts
