"""From a shared recipe to different blocks on the shelf, by mouse: open it, draw, choose, keep, undo."""

import json
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.edit.facts_of import facts_of
from piecewright.files.design_file import load_design
from piecewright.making.shipped import shipped_recipes
from piecewright_qt.workroom import Workroom
from tests.journeys.user import new_design

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def test_blocks_drawn_by_chance_come_to_the_shelf_and_into_the_file(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    place = tmp_path / "shared.recipe.json"
    place.write_text(json.dumps(shipped_recipes()["wonky-exchange"].plain), encoding="utf-8")
    assert user.window.recipes.open(place)
    user.window.actions_by_name["sewing-table"].trigger()
    QApplication.processEvents()
    table = user.window.table
    assert table.bench.block is not None
    assert table.bench.block.name == "Wonky exchange"
    QTest.mouseClick(table.varied, LEFT)
    panel = table.draws
    assert panel is not None
    QTest.mouseClick(panel.again, LEFT)
    before = user.design
    for row in (0, 3):
        panel.sheet.scrollTo(panel.model.index(row, 0))
        at = panel.sheet.visualRect(panel.model.index(row, 0)).center()
        QTest.mouseClick(panel.sheet.viewport(), LEFT, NONE, at)
    wanted = [panel.model.sheets[row].draw for row in (0, 3)]
    QTest.mouseClick(panel.keep_button, LEFT)
    kept = user.design.blocks[len(before.blocks) :]
    assert [block.name for block in kept] == ["Wonky exchange (2)", "Wonky exchange (3)"]
    chosen.append(tmp_path / "drawn.piecewright")
    assert user.window.save()
    again = load_design(tmp_path / "drawn.piecewright").design
    for block, one in zip(kept, wanted, strict=True):
        assert dict(again.shelf.blocks[block.id].draws) == dict(one.values)
        assert facts_of(again, block.id) == one.facts
    user.window.actions_by_name["undo"].trigger()
    assert user.design == before
