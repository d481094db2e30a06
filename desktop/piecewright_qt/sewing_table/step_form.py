"""The step in view as fields: every word of it can be typed or chosen, exactly."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QFormLayout, QLabel, QLineEdit, QSizePolicy, QWidget

from piecewright.making.draft import replace_step
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.theme.tokens import SPACE_TIGHT, SPACE_WIDE

_CHOICES: dict[str, tuple[str, ...]] = {
    "axis": ("across", "down"),
    "grain": ("crosswise", "lengthwise", "bias"),
    "align": ("", "centre", "start", "end"),
    "match": ("", "points"),
    "toward": ("left", "right", "up", "down", "open", "in", "out", "darker"),
    "shape": ("", "square"),
}
_NUMBERS = ("by", "count", "into")
_SKIPPED = ("note", "least")
Set = Callable[[Any], None]


class StepForm(QWidget):
    """Fields are made anew for each step; a field that is left changes the step as one undo step.

    What is wrong with what stands in a field is said under it.
    """

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._form = QFormLayout(self)
        self._form.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE_WIDE)
        self._form.setVerticalSpacing(SPACE_TIGHT)
        self._form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapAllRows)
        self._form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        self._faults: dict[str, QLabel] = {}
        self._names: dict[str, tuple[QLabel, str]] = {}
        self._marks: Mapping[str, str] = {}
        self._shown: tuple[int, str] | None = None
        self.setAccessibleName(self.tr("The step in fields"))
        bench.changed.connect(self.refresh)
        bench.stepped.connect(self.refresh)
        look.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the fields of the step in view, unless they show it already; and what is wrong with them."""
        draft = self._bench.draft
        if draft is None or self._bench.step >= len(draft.steps):
            self._clear()
            return
        step = draft.steps[self._bench.step]
        now = (self._bench.step, str(step))
        if now != self._shown:
            self._clear()
            self._shown = now
            self._add_fields(step, step, "")
            self.show_marks(self._marks)
        self._say_faults()

    def show_marks(self, marks: Mapping[str, str]) -> None:
        """Say beside the names of fields how much their numbers matter, by key; of others nothing."""
        self._marks = marks
        for key, (label, name) in self._names.items():
            label.setText(f"{name} · {marks[key]}" if key in marks else name)
            buddy = label.buddy()
            if buddy is not None:
                buddy.setAccessibleDescription(marks.get(key, ""))

    def fault_beside(self, key: str) -> str:
        """What is said to be wrong under the field of a key; nothing where nothing is."""
        label = self._faults.get(key)
        return label.text() if label is not None and label.isVisibleTo(self) else ""

    def _clear(self) -> None:
        self._shown = None
        self._faults.clear()
        self._names.clear()
        while self._form.rowCount():
            self._form.removeRow(0)

    def _add_fields(self, step: dict[str, Any], part: dict[str, Any], inside: str) -> None:
        for key, value in part.items():
            if key in _SKIPPED:
                continue
            if isinstance(value, dict):
                self._add_fields(step, value, f"{inside}{key}.")
            elif not (isinstance(value, list) and value and isinstance(value[0], dict)):
                self._add_field(f"{inside}{key}", key, value, self._setter(step, part, key))

    def _add_field(self, place: str, key: str, value: Any, put: Set) -> None:
        label, field, fault = QLabel(self._label(place, key)), self._field(place, key, value, put), QLabel()
        label.setProperty("type", "small")
        label.setWordWrap(True)
        label.setBuddy(field)
        fault.setProperty("type", "error")
        fault.setWordWrap(True)
        fault.setTextFormat(Qt.TextFormat.PlainText)
        fault.setVisible(False)
        self._form.addRow(label, field)
        self._form.addRow(fault)
        self._faults[place] = fault
        self._names[place] = (label, label.text())

    def _say_faults(self) -> None:
        fault, here = self._bench.fault, self._bench.fault_step == self._bench.step
        where = fault.where.removeprefix(f"steps[{self._bench.step}].") if fault is not None and here else ""
        for key, label in self._faults.items():
            said = fault is not None and re.fullmatch(rf"{re.escape(key)}(\[\d+\])*", where) is not None
            label.setText(words(fault, self._look.measure) if said and fault is not None else "")
            label.setVisible(said)
            label.setStyleSheet(f"color: {self._look.theme.error}")

    def _field(self, place: str, key: str, value: Any, put: Set) -> QWidget:
        if key in _CHOICES:
            box = QComboBox()
            box.addItems(list(_CHOICES[key]))
            box.setCurrentText(str(value))
            box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            box.setAccessibleName(self._label(place, key))
            box.activated.connect(lambda _index: put(box.currentText()))
            return box
        field = QLineEdit(", ".join(map(str, value)) if isinstance(value, list) else str(value))
        field.setAccessibleName(self._label(place, key))
        field.editingFinished.connect(lambda: put(_read(key, value, field.text())))
        return field

    def _setter(self, step: dict[str, Any], part: dict[str, Any], key: str) -> Set:
        def put(value: Any) -> None:
            draft = self._bench.draft
            if draft is None or part.get(key) == value:
                return
            if value == "" and key in ("align", "match", "shape"):
                part.pop(key)
            else:
                part[key] = value
            self._shown = None
            if not self._bench.change(replace_step(draft.plain, self._bench.step, step)):
                self.refresh()

        return put

    def _label(self, place: str, key: str) -> str:
        labels = {
            "make": self.tr("Makes"),
            "lay.fabric": self.tr("Fabric letter"),
            "lay.width": self.tr("Width (cut)"),
            "lay.length": self.tr("Length (cut)"),
            "lay.grain": self.tr("Thread"),
            "width": self.tr("Width"),
            "height": self.tr("Height"),
            "axis": self.tr("Direction"),
            "every": self.tr("Every (cut)"),
            "count": self.tr("How many"),
            "widths": self.tr("Widths (cut)"),
            "into": self.tr("Equal parts"),
            "trim": self.tr("Trim first"),
            "by": self.tr("By (layers)") if self._is("shuffle") else self.tr("By (degrees)"),
            "from": self.tr("From side, distance"),
            "to": self.tr("To side, distance"),
            "sew": self.tr("Pieces to sew"),
            "cut": self.tr("Piece to cut"),
            "slice": self.tr("Piece to slice"),
            "turn": self.tr("Piece to turn"),
            "shuffle": self.tr("Pile to shuffle"),
            "square": self.tr("Piece to square up"),
            "open": self.tr("Piece to open"),
            "corner": self.tr("Piece"),
            "with": self.tr("Square over its corner"),
            "at": self.tr("Corner"),
            "face": self.tr("Pieces, right sides together"),
            "which": self.tr("Which parts"),
            "step": self.tr("Step"),
            "align": self.tr("Ends even at"),
            "match": self.tr("Match"),
            "press.seam": self.tr("Seam of"),
            "press.toward": self.tr("Press toward"),
            "press.layers": self.tr("Layers"),
        }
        return labels.get(place) or labels.get(key) or key.capitalize()

    def _is(self, verb: str) -> bool:
        draft = self._bench.draft
        return draft is not None and verb in draft.steps[self._bench.step]


def _read(key: str, old: Any, text: str) -> Any:
    """A field's text in the kind of value it had; what is no number stays text, and the step says so."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if isinstance(old, list):
        return [int(part) if isinstance(old[0], int) and part.isdigit() else part for part in parts]
    if key in _NUMBERS and text.strip().isdigit():
        return int(text)
    return text.strip()
