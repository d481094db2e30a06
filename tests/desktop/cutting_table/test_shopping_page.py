"""The shopping list as a page: what it shows, copies, saves and prints is what the engine says is to buy."""

import csv
from fractions import Fraction
from io import StringIO
from pathlib import Path

import pytest
from PySide6.QtCore import QUrl
from PySide6.QtGui import QGuiApplication
from PySide6.QtPrintSupport import QPrintDialog
from PySide6.QtWidgets import QFileDialog

from piecewright.cutting.buying import amounts
from piecewright.cutting.table import cutting_plan
from piecewright.edit.registry import apply, call
from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.plan.shopping import shopping
from piecewright.plan.shopping_text import amounts_said, shopping_csv, shopping_text
from piecewright_qt.cutting_table.shopping_page import ShoppingPage
from tests.desktop.cutting_table.conftest import Open, sample


def page_of(stand_at: Open, design: Design | None = None) -> ShoppingPage:
    """The page of a table with a design."""
    table = stand_at(design)
    table.show_page(1)
    return table.shopping


def priced() -> Design:
    """The runner, with prices and two fabrics that are had in other forms."""
    design = sample()
    first, second = design.fabrics[:2]
    design = apply(design, call("change-fabric", fabric=first.changed(price=Fraction(12))))
    held = Form("strip", 1, Fraction(5, 2), Fraction(40))
    return apply(design, call("set-forms", fabric=second.id, forms=(Form("fat quarter"), held)))


@pytest.mark.parametrize("design", [sample(), priced()], ids=["plain", "priced"])
def test_every_line_is_there_with_its_amount_and_metric_beside_it(stand_at: Open, design: Design) -> None:
    text = page_of(stand_at, design).page.toPlainText().replace("\xa0", " ")
    wanted = shopping(design, cut=amounts(cutting_plan(design)))
    for line in wanted.lines:
        for amount in amounts_said(line, wanted):
            assert amount in text
    assert wanted.lines


def test_what_there_is_enough_of_is_told_apart(stand_at: Open) -> None:
    enough = Form("bolt", 1, length=Fraction(400))
    design = sample()
    forms = call("set-forms", fabric=design.fabrics[0].id, forms=(Form("bolt"), enough))
    text = page_of(stand_at, apply(design, forms)).page.toPlainText()
    assert f"{design.fabrics[0].name}: nothing to buy" in text


def test_what_is_on_hand_comes_first_and_forms_have_their_own_lists(stand_at: Open) -> None:
    text = page_of(stand_at, priced()).page.toPlainText()
    assert text.index("First from what is on hand") < text.index("Off the bolt")
    assert "Fat quarters" in text
    assert "1 strip on hand" in text


def test_prices_are_summed_and_those_missing_are_told(stand_at: Open) -> None:
    text = page_of(stand_at, priced()).page.toPlainText()
    wanted = shopping(priced(), cut=amounts(cutting_plan(priced())))
    assert wanted.total is not None
    assert f"Together {float(wanted.total):.2f}" in text
    assert "no price yet" in text
    assert "Price" not in page_of(stand_at).page.toPlainText()


def test_an_amount_opens_to_its_sum_and_closes(stand_at: Open) -> None:
    page = page_of(stand_at)
    line = page.list.lines[0]
    assert line.why.text() not in page.page.toPlainText()
    page.page.anchorClicked.emit(QUrl(f"why:{line.fabric}"))
    assert line.why.text() in page.page.toPlainText()
    page.page.anchorClicked.emit(QUrl(f"why:{line.fabric}"))
    assert line.why.text() not in page.page.toPlainText()


def test_it_is_copied_as_the_text_that_the_command_prints(stand_at: Open) -> None:
    page = page_of(stand_at)
    page.buttons[0].click()
    assert QGuiApplication.clipboard().text() == shopping_text(page.list)


def test_it_is_saved_as_csv_and_pdf(stand_at: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = page_of(stand_at)
    places = [tmp_path / "list.csv", tmp_path / "list.pdf"]
    answers = iter(places)

    def choose(dialog: QFileDialog) -> int:
        dialog.selectFile(str(next(answers)))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", choose)
    page.buttons[1].click()
    page.buttons[2].click()
    assert places[0].read_text() == shopping_csv(page.list)
    rows = list(csv.reader(StringIO(places[0].read_text())))
    assert len(rows) == 1 + len(page.list.lines)
    assert places[1].read_bytes().startswith(b"%PDF-")


def test_a_place_that_can_not_be_written_is_said_in_words(
    stand_at: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_of(stand_at)
    told: list[str] = []
    page.said.connect(told.append)
    monkeypatch.setattr(
        "piecewright_qt.cutting_table.taking_along.ask_where_to_save",
        lambda *_given: tmp_path / "nowhere" / "list.csv",
    )
    page.buttons[1].click()
    assert told[0].startswith("Not saved.")


def test_printing_asks_first_and_giving_up_prints_nothing(
    stand_at: Open, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = page_of(stand_at)
    told: list[str] = []
    page.said.connect(told.append)
    asked: list[QPrintDialog] = []

    def give_up(dialog: QPrintDialog) -> int:
        asked.append(dialog)
        return 0

    monkeypatch.setattr(QPrintDialog, "exec", give_up)
    page.buttons[3].click()
    assert len(asked) == 1
    assert not told


def test_it_follows_an_edit_and_the_unit(stand_at: Open) -> None:
    table = stand_at()
    table.show_page(1)
    before = table.shopping.page.toPlainText()
    document = table.property("document")
    settings = document.design.settings
    document.perform(call("change-settings", settings=settings.changed(usable=Fraction(20))))
    assert table.shopping.page.toPlainText() != before
