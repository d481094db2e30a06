"""The materials of the design in view, worked out anew in the frame of every edit and of every preview."""

from PySide6.QtCore import QObject, Signal

from piecewright.model.design import Design
from piecewright.plan.materials import Materials, materials
from piecewright.plan.text import materials_text
from piecewright.units.measure import Measure
from piecewright_qt.document import Document
from piecewright_qt.faults import log


class Replan(QObject):
    """`standing` are the materials of the design as it stands, `shown` those of the preview while there is one.

    `before` are those to compare with: of the design before its last step, or as it stands while something is tried
    out; None where there is nothing to compare. `planned` follows every edit and preview. A fault in the plan keeps
    the last numbers and sets `is_behind` until a plan works out again: the window goes on, and says so.
    """

    planned = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.is_behind = False
        planned = self._planned(document.design)
        self.standing: Materials = planned if planned is not None else materials(Design(document.design.name))
        self.shown: Materials = self.standing
        self.before: Materials | None = None
        self._last: Materials | None = None
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
        found = self._planned(after)
        if found is not None:
            self._last = self.standing if _same_view(before, after) else None
            self.standing = found
        self.shown, self.before = self.standing, self._last
        self.planned.emit()

    def _preview(self, design: Design | None) -> None:
        if design is None:
            self.is_behind = self._standing_is_behind
            self.shown, self.before = self.standing, self._last
        else:
            found = self._planned(design, standing=False)
            self.shown, self.before = (
                (found, self.standing) if found is not None else (self.standing, self._last)
            )
        self.planned.emit()

    def _planned(self, design: Design, *, standing: bool = True) -> Materials | None:
        found = planned_or_none(design)
        self.is_behind = found is None
        if standing:
            self._standing_is_behind = self.is_behind
        return found


def planned_or_none(design: Design) -> Materials | None:
    """The materials of a design; None for a fault in the plan, which is noted in the log."""
    try:
        return materials(design)
    except Exception:  # noqa: BLE001 - numbers that are behind must never stop the work
        log.exception("no plan for this design")
        return None


def _same_view(before: Design, after: Design) -> bool:
    """Whether both show the same arrangement: another one in view is not a change of it."""
    return before.current == after.current and len(before.arrangements) == len(after.arrangements)
