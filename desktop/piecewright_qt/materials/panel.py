"""The Materials panel: the quilt's size and totals, what the last edit or the drag costs, and the list behind them."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.alerts import Alerts
from piecewright_qt.materials.change_rows import ChangeLister
from piecewright_qt.materials.head import MaterialsHead
from piecewright_qt.materials.keep_box import KeepBox
from piecewright_qt.materials.list_view import MaterialsList
from piecewright_qt.materials.lister import Lister
from piecewright_qt.materials.rows import Comparison, compared
from piecewright_qt.materials.terms import terms_of
from piecewright_qt.replan import Replan


class MaterialsPanel(QWidget):
    """Live numbers; each says cut, unfinished or finished, and its reason when asked.

    `pointed` tells what the term of a sum that was pressed is about.
    """

    resize_asked = Signal()
    pointed = Signal(object)

    def __init__(self, document: Document, replan: Replan, look: Look) -> None:
        super().__init__()
        self._document = document
        self._replan = replan
        self._look = look
        self._lister = Lister()
        self._changes = ChangeLister()
        self.head = MaterialsHead(look)
        self.alerts = Alerts(look)
        self.keep = KeepBox(document, replan, look)
        self.list = MaterialsList(look, document.pictures)
        self.list.rows.terms = lambda row: terms_of(document.shown, row, look.measure)
        self.list.pointed.connect(self.pointed)
        self.list.rows.folded.add("changes")
        self.list.setAccessibleName(self.tr("Materials, line by line"))
        self.list.setAccessibleDescription(
            self.tr("Enter shows the sum behind a number, on a term of it its blocks, or folds a section.")
        )
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Materials"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.head)
        column.addWidget(self.keep)
        column.addWidget(self.alerts)
        column.addWidget(self.list, 1)
        self.head.resize_asked.connect(self.resize_asked)
        replan.planned.connect(self.refresh)
        look.changed.connect(self._dress)
        self.list.folding.connect(self._reword)
        self._dress()

    def refresh(self) -> None:
        """Show the materials as they are now, or as the preview would make them."""
        replan, measure = self._replan, self._look.measure
        after = self._lister.rows(replan.shown, measure)
        if replan.before is None:
            comparison = Comparison(after, {})
        else:
            comparison = compared(self._lister.rows(replan.before, measure), after, measure)
        self.head.show_plan(replan, comparison, measure)
        loud = tuple(row.label for row in after if row.tone == "error")
        loud = (self._behind(), *loud) if replan.is_behind else loud
        self.alerts.say(loud)
        if len(loud) == len(self.alerts.said):  # all of them are said above the list
            quiet = tuple(row for row in comparison.rows if row.section != "errors")
            comparison = Comparison(quiet, comparison.marks)
        changed = self._changes.rows(
            replan.before,
            replan.shown,
            measure,
            tried=replan.is_preview,
            worded="changes" not in self.list.rows.folded,
        )
        comparison = Comparison((*changed, *comparison.rows), comparison.marks)
        self.list.show_rows(comparison, self._document.shown.shelf.fabrics)
        self.keep.refresh()

    def _reword(self, section: str) -> None:
        """The changes are put into words only while their section is unfolded: there may be hundreds at every step."""
        if section == "changes":
            self.refresh()

    def _behind(self) -> str:
        return self.tr(
            "These numbers are from before the last change: it could not be worked out. Undo it, or go on."
        )

    def _dress(self) -> None:
        self.head.dress()
        self.alerts.dress()
        self.refresh()
