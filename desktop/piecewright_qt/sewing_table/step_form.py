"""The step in view as fields: every word of it can be typed or chosen, exactly."""

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QComboBox, QFormLayout, QLabel, QLineEdit, QWidget

from piecewright.making.draft import replace_step
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench

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
    """Fields are made anew for each step; a field that is left changes the step as one undo step."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._form = QFormLayout(self)
        self._shown: tuple[int, str] | None = None
        self.setAccessibleName(self.tr("The step in fields"))
        bench.changed.connect(self.refresh)
        bench.stepped.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the fields of the step in view, unless they show it already."""
        draft = self._bench.draft
        if draft is None or self._bench.step >= len(draft.steps):
            self._clear()
            return
        step = draft.steps[self._bench.step]
        now = (self._bench.step, str(step))
        if now != self._shown:
            self._shown = now
            self._clear()
            self._add_fields(step, step)

    def _clear(self) -> None:
        while self._form.rowCount():
            self._form.removeRow(0)

    def _add_fields(self, step: dict[str, Any], part: dict[str, Any]) -> None:
        for key, value in part.items():
            if key in _SKIPPED:
                continue
            if isinstance(value, dict):
                self._add_fields(step, value)
            else:
                self._form.addRow(
                    QLabel(self._label(key)), self._field(key, value, self._setter(step, part, key))
                )

    def _field(self, key: str, value: Any, put: Set) -> QWidget:
        if key in _CHOICES:
            box = QComboBox()
            box.addItems(list(_CHOICES[key]))
            box.setCurrentText(str(value))
            box.setAccessibleName(self._label(key))
            box.activated.connect(lambda _index: put(box.currentText()))
            return box
        field = QLineEdit(", ".join(map(str, value)) if isinstance(value, list) else str(value))
        field.setAccessibleName(self._label(key))
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
            self._bench.change(replace_step(draft.plain, self._bench.step, step))

        return put

    def _label(self, key: str) -> str:
        labels = {
            "make": self.tr("Name"),
            "fabric": self.tr("Fabric letter"),
            "width": self.tr("Width"),
            "length": self.tr("Length"),
            "height": self.tr("Height"),
            "axis": self.tr("Direction"),
            "every": self.tr("Every"),
            "count": self.tr("How many"),
            "widths": self.tr("Widths"),
            "into": self.tr("Equal parts"),
            "by": self.tr("By"),
            "from": self.tr("From"),
            "to": self.tr("To"),
            "sew": self.tr("Pieces"),
            "toward": self.tr("Toward"),
            "seam": self.tr("Seam"),
        }
        return labels.get(key, key.capitalize())


def _read(key: str, old: Any, text: str) -> Any:
    """A field's text in the kind of value it had; what is no number stays text, and the step says so."""
    parts = [part.strip() for part in text.split(",") if part.strip()]
    if isinstance(old, list):
        return [int(part) if isinstance(old[0], int) and part.isdigit() else part for part in parts]
    if key in _NUMBERS and text.strip().isdigit():
        return int(text)
    return text.strip()
