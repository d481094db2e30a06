"""The sizes table: every finished size of the recipe with its strips, what they give and what is left."""

from collections.abc import Callable
from fractions import Fraction
from functools import partial
from pathlib import Path
from typing import Any

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright.errors import FileError
from piecewright.files.atomic import write_whole
from piecewright.plan.packing import Truing
from piecewright.plan.sizes_rows import row_sentences
from piecewright.plan.sizes_table import ROLL_STRIP, SizeRow, SizesTable, sizes_table
from piecewright.plan.sizes_text import sizes_csv, sizes_text
from piecewright_qt.asking import ask_where_to_save
from piecewright_qt.sewing_table.numbers.choice_card import ChoiceCard
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
from piecewright_qt.sewing_table.numbers.setting import set_made
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.shelf.fields import LengthField
from piecewright_qt.theme.tokens import SPACE_TIGHT

_WIDTHS = (ROLL_STRIP, Fraction(2), Fraction(3, 2), Fraction(3), Fraction(7, 2))


class SizesSection(Section):
    """A card a size: pressing it makes the block that size."""

    is_quick = False

    def build(self) -> None:
        """The width of the strips, the sizes, and what may be done with the table."""
        self.width_field = LengthField(self.tr("Width of the strips (cut)"), self.look.measure, _WIDTHS)
        self.width_field.edited.connect(self.refresh)
        holder = QWidget()
        self._cards_column = QVBoxLayout(holder)
        self._cards_column.setContentsMargins(0, 0, 0, 0)
        self._cards_column.setSpacing(SPACE_TIGHT)
        self.cards: list[ChoiceCard] = []
        self.missing = Lines()
        self.said_done = Lines()
        self.copy = WrapButton(self.tr("Copy as text"))
        self.copy.clicked.connect(self._copy)
        self.save = WrapButton(self.tr("Save as CSV…"))
        self.save.clicked.connect(self._save)
        self.table: SizesTable | None = None
        self.add(self.width_field, self.said_done, holder, self.missing, self.copy, self.save)

    @property
    def strip_width(self) -> Fraction | None:
        """The width asked for; None while what is typed is none."""
        return self.width_field.value

    def beside(self, question: Question) -> tuple[object, ...]:
        """The width of the strips and the quilter's truing."""
        return self.strip_width, _truing(question)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The table."""
        return partial(sizes_table, question.recipe, question.given, self.strip_width, _truing(question))

    def show_answer(self, question: Question, answer: SizesTable) -> None:
        """A card a row; why sizes are missing; what was last done with the table is said no more."""
        self.table = answer
        if not self.width_field.box.hasFocus():
            self.width_field.show_measure(self.look.measure)
        while len(self.cards) < len(answer.rows):
            card = ChoiceCard(self.look)
            card.clicked.connect(partial(self._choose, len(self.cards)))
            self.cards.append(card)
            self._cards_column.addWidget(card)
        for number, card in enumerate(self.cards):
            card.setVisible(number < len(answer.rows))
            if number < len(answer.rows):
                row = answer.rows[number]
                standing = (row.recipe, row.sizes) == (question.recipe, self._sizes(question))
                card.show_lines(self._texts(row, standing=standing), standing=standing)
        self.missing.show_lines([Line(self.said(why), "small") for why in answer.missing])
        self.said_done.show_lines([])

    def _sizes(self, question: Question) -> dict[str, Fraction]:
        chosen = question.given.sizes
        return {name: chosen.get(name, first[0]) for name, first in question.recipe.sizes.items()}

    def _texts(self, row: SizeRow, *, standing: bool) -> list[str]:
        head, *rest = (self.said(sentence) for sentence in row_sentences(row))
        return [self.tr("{size} · this one").format(size=head) if standing else head, *rest]

    def _choose(self, number: int) -> None:
        if self.table is not None and number < len(self.table.rows) and not self.is_behind:
            row = self.table.rows[number]
            refused = set_made(self.bench, row.recipe, row.given)
            if refused is not None:
                self.said_done.show_lines([Line(f"⚠ {self.said(refused)}", "small", "warn")])

    def _copy(self) -> None:
        if self.table is not None:
            QGuiApplication.clipboard().setText(sizes_text(self.table, self.look.measure))
            self.said_done.show_lines([Line(self.tr("The table is on the clipboard."), "small")])

    def _save(self) -> None:
        if self.table is not None:
            suggested = Path.home() / f"{self.table.name}.csv"
            chosen = ask_where_to_save(
                self,
                self.tr("Save the sizes"),
                suggested,
                (self.tr("CSV for a spreadsheet (*.csv)"),),
                ".csv",
            )
            if chosen is not None:
                self._write(chosen, sizes_csv(self.table, self.look.measure).encode("utf-8-sig"))

    def _write(self, path: Path, data: bytes) -> None:
        try:
            write_whole(path, data)
        except FileError as error:
            self.said_done.show_lines([Line(self.said(error), "small", "error")])
        else:
            said = self.tr("Saved: {name}").format(name=path.name)
            self.said_done.show_lines([Line(said, "small")])


def _truing(question: Question) -> Truing:
    settings = question.design.settings
    return Truing(settings.trim_first, settings.trim_again, settings.trim_every)
