"""The materials of the design in view, worked out anew in the frame of every edit and of every preview."""

from PySide6.QtCore import QObject, Signal

from piecewright.model.design import Design
from piecewright.plan.difference import Change, difference
from piecewright.plan.materials import Materials, materials
from piecewright.plan.text import materials_text
from piecewright.units.measure import Measure
from piecewright_qt.document import Document


class Replan(QObject):
    """`standing` are the materials of the design as it stands, `shown` those of the preview while there is one.

    `changes` are what the last edit cost, or what the preview would; `planned` follows each of them.
    """

    planned = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.standing: Materials = materials(document.design)
        self.shown: Materials = self.standing
        self.changes: tuple[Change, ...] = ()
        self._last: tuple[Change, ...] = ()
        document.changed.connect(self._follow)
        document.previewed.connect(self._preview)

    @property
    def is_preview(self) -> bool:
        """Whether what is shown is only being tried out."""
        return self.shown is not self.standing

    def text(self, measure: Measure) -> str:
        """The materials as a page to print or paste."""
        return materials_text(self.standing, measure)

    def _follow(self, before: Design, after: Design) -> None:
        old, self.standing = self.standing, materials(after)
        self.shown = self.standing
        same_quilt = before.current == after.current
        self.changes = self._last = difference(old, self.standing) if same_quilt else ()
        self.planned.emit()

    def _preview(self, design: Design | None) -> None:
        self.shown = self.standing if design is None else materials(design)
        self.changes = self._last if design is None else difference(self.standing, self.shown)
        self.planned.emit()
