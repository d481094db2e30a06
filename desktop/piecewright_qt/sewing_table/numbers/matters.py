"""Which numbers matter, each with its mark, and which of them may move when a size is asked for."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import Any

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QLabel

from piecewright.making.matters import Fold, Mark, Matter, folds, matters
from piecewright.making.nudging import Length, Spot, is_size, places
from piecewright.making.reading import verb_word
from piecewright.making.verbs.verb import Place
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
from piecewright_qt.shelf.fields import CheckField

SIGNS: dict[Mark, str] = {"exact": "=", "at least": "≥", "at most": "≤", "as you like": "~"}


class FreeLengths(QObject):
    """The lengths of the block in hand that the user lets move.

    Those that its recipe lost are forgotten, and those of its steps once the steps are others.
    """

    changed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._bench = bench
        self._spots: dict[Spot, None] = {}
        self._block: str | None = None
        self._steps: tuple[str, ...] = ()
        bench.changed.connect(self._prune)

    @property
    def spots(self) -> tuple[Spot, ...]:
        """Where they stand."""
        return tuple(self._spots)

    def let(self, spot: Spot, *, move: bool) -> None:
        """Let a length move, or hold it."""
        if move:
            self._spots[spot] = None
        else:
            self._spots.pop(spot, None)
        self.changed.emit()

    def _prune(self) -> None:
        draft = self._bench.draft
        recipe = draft.sound if draft is not None else None
        before = self.spots
        if self._block != self._bench.block_id:
            self._block, self._spots = self._bench.block_id, {}
        if recipe is not None:
            steps = tuple(f"{verb_word(step)} {getattr(step, 'make', '')}" for step in recipe.steps)
            moved, self._steps = steps != self._steps, steps
            if self._spots:
                known = {length.place for length in places(recipe, self._bench.given)}
                kept = [spot for spot in self._spots if spot in known]
                self._spots = {spot: None for spot in kept if not (moved and isinstance(spot, Place))}
        if self.spots != before:
            self.changed.emit()


class MattersSection(Section):
    """One row a length: its mark as a sign and a word, and a box to let it move. `marked` follows new marks."""

    marked = Signal(object)
    is_quick = False

    def __init__(self, *args: Any, free: FreeLengths) -> None:
        self._free = free
        self._rows: list[CheckField] = []
        self._shown: tuple[tuple[Spot, str], ...] = ()
        super().__init__(*args)
        free.changed.connect(self._tick)

    def build(self) -> None:
        """What the marks mean; the rows; the folds."""
        self.note = QLabel(
            self.tr(
                "Each number was tried smaller and larger. Tick those that may move when you ask for a size; with none "
                "ticked, the sizes of the recipe move."
            )
        )
        self.note.setProperty("type", "small")
        self.note.setWordWrap(True)
        self.note.setTextFormat(Qt.TextFormat.PlainText)
        self.folds = Lines()
        self.add(self.note, self.folds)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The marks and the cuts that need no ruler."""
        return partial(_marks, question)

    def show_answer(self, question: Question, answer: Any) -> None:
        """Sizes first, then step by step."""
        found, without_ruler = answer
        lengths = places(question.recipe, question.given)
        sizes = [length for length in lengths if is_size(length.place)]
        rows = [(length.place, self._size_text(length)) for length in sizes]
        rows += [(matter.length.place, self._text(matter)) for matter in found]
        self._show_rows(rows)
        self.folds.show_lines([Line(self.said(fold.sentence), "strong") for fold in without_ruler])
        self.marked.emit({matter.length.place: matter for matter in found})

    def mark_of(self, matter: Matter) -> str:
        """A mark as its sign and its word."""
        words = {
            "exact": self.tr("exact"),
            "at least": self.tr("at least"),
            "at most": self.tr("at most"),
            "as you like": self.tr("as you like"),
        }
        return f"{SIGNS[matter.mark]} {words[matter.mark]}"

    def _text(self, matter: Matter) -> str:
        place = matter.length.place
        step = f"{place.step + 1}. " if isinstance(place, Place) else ""
        return f"{step}{SIGNS[matter.mark]}  {self.said(matter.sentence)}"

    def _size_text(self, length: Length) -> str:
        return self.tr("Size {what}").format(what=self.said(length.sentence))

    def _show_rows(self, rows: Sequence[tuple[Spot, str]]) -> None:
        if tuple(rows) == self._shown:
            self._tick()
            return
        self._shown = tuple(rows)
        for old in self._rows:
            old.deleteLater()
            old.setParent(None)
        self._rows = [self._row(spot, text) for spot, text in rows]
        for at, row in enumerate(self._rows):
            self._inner.insertWidget(1 + at, row)

    def _tick(self) -> None:
        """Tick what may move, silently."""
        for row, (spot, _) in zip(self._rows, self._shown, strict=True):
            row.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
            row.box.setChecked(spot in self._free.spots)
            row.box.blockSignals(False)  # noqa: FBT003 - Qt's own signature

    def _row(self, spot: Spot, text: str) -> CheckField:
        row = CheckField(text, self.tr("May move when a size is asked for"))
        row.box.setChecked(spot in self._free.spots)
        row.box.toggled.connect(lambda move: self._free.let(spot, move=move))
        return row


def _marks(question: Question) -> tuple[tuple[Matter, ...], tuple[Fold, ...]]:
    found = matters(question.recipe, question.given)
    return found, folds(question.recipe, question.given)
