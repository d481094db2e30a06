"""The fabrics with cloth at the left of the Cutting table: what of each is bought, what is saved, what could be."""

from collections.abc import Mapping

from PySide6.QtCore import QModelIndex, Signal
from PySide6.QtGui import QMouseEvent

from piecewright.cutting.any_order import AnyOrderPlan
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.table import DesignCutting, FabricCutting
from piecewright.cutting.table_text import range_said, used_on_hand
from piecewright.cutting.telling import findings, in_short, takes
from piecewright.cutting.why import amount_why
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.cutting_table.saying import amount_said, capital, less_said, said
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.look import Look
from piecewright_qt.materials.list_model import Index
from piecewright_qt.materials.list_view import MaterialsList
from piecewright_qt.materials.rows import Comparison, Note, Row
from piecewright_qt.materials.terms import term_rows, terms_of

FABRICS = "heading:cloth"


class FabricsList(MaterialsList):
    """Going to a fabric lays it on the table; its number opens to its sum with Enter, or pressed once more."""

    fabric_chosen = Signal(str)

    def __init__(self, work: CuttingWork, look: Look, pictures: Mapping[str, bytes]) -> None:
        super().__init__(look, pictures)
        self._work = work
        self._look = look
        self.rows.terms = self._terms
        self.setAccessibleName(self.tr("Fabrics to cut"))
        self.setAccessibleDescription(self.tr("Enter shows the sum behind a number."))
        self.selectionModel().currentChanged.connect(self._went)
        look.changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show the plans as they are."""
        table, measure = self._work.table, self._look.measure
        opened = self.rows.opened
        rows = tuple(
            fabric_row(self._work, each, measure, is_open=("cloth", each.fabric) in opened)
            for each in table.fabrics
        )
        heading = Row(FABRICS, "cloth", "heading", self.tr("Fabrics to cut"), str(len(rows)))
        self.show_rows(Comparison((heading, *rows), {}), self._work.design.shelf.fabrics)
        self.follow_fabric()

    def toggle(self, index: Index) -> None:
        """Open or close; what is open tells its whole sum."""
        super().toggle(index)
        self.refresh()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The first press on a fabric lays it on the table; one more opens its sum."""
        index = self.indexAt(event.position().toPoint())
        row = self.rows.rows[index.row()] if index.isValid() else None
        if row is not None and row.fabrics and row.kind == "line" and row.fabrics[0] != self._work.fabric:
            self.setCurrentIndex(index)
            event.accept()
            return
        super().mousePressEvent(event)

    def _terms(self, row: Row) -> tuple[Row, ...]:
        """The strips that an amount is the sum of, and further down what these are cut up into."""
        if row.kind == "term":
            return terms_of(self._work.design, row, self._look.measure)
        each = self._work.table.of(row.fabrics[0]) if row.fabrics else None
        if each is None:
            return ()
        found = amount_why(self._work.design, each, self._work.table.rounding)
        return term_rows(row, found.terms, self._look.measure)

    def follow_fabric(self) -> None:
        """The row of the fabric in view is the current one, unless the keys are at a term of a sum."""
        index = self.currentIndex()
        if index.isValid() and self.rows.rows[index.row()].kind not in ("line", "heading"):
            return
        place = self.rows.place(("cloth", self._work.fabric))
        if place is not None and place != index.row():
            self.selectionModel().blockSignals(True)  # noqa: FBT003 - Qt's own signature
            self.setCurrentIndex(self.rows.index(place))
            self.selectionModel().blockSignals(False)  # noqa: FBT003 - Qt's own signature
            self.viewport().update()

    def _went(self, now: QModelIndex, _before: QModelIndex) -> None:
        row = self.rows.rows[now.row()] if now.isValid() and now.row() < len(self.rows.rows) else None
        if row is not None and row.kind == "line" and row.fabrics:
            self.fabric_chosen.emit(row.fabrics[0])
        self.viewport().update(self.visualRect(now))


def fabric_row(work: CuttingWork, each: FabricCutting, measure: Measure, *, is_open: bool = False) -> Row:
    """One fabric: what to buy in bold, then what of it is on hand, saved, and at most to be saved.

    The whole sum is worked out only for one that `is_open`.
    """
    table = work.table
    plan = table.shown(each)
    amount = amount_said(plan, table.rounding, measure)
    return Row(
        ("cloth", each.fabric),
        "cloth",
        "line",
        capital(each.name.text(measure)),
        amount,
        None,
        tuple(_notes(each, plan, table, measure)),
        amount_why(work.design, each, table.rounding).said if is_open else takes(plan, table.rounding),
        (each.fabric,),
    )


def _notes(
    each: FabricCutting, plan: CuttingPlan | AnyOrderPlan, table: DesignCutting, measure: Measure
) -> list[Note]:
    notes = []
    held = used_on_hand(each.plan)
    if held:
        notes.append(Note(message("cutting.on-hand-first", sheets=held).text(measure)))
    if isinstance(plan, AnyOrderPlan):
        notes.append(Note(capital(less_said(plan, each.plain, measure))))
    elif table.choice != "plain":
        least = plan.proven and plan.amount == each.plain.amount
        notes.append(Note(said("no plan takes less") if least else in_short(plan, each.plain).text(measure)))
    open_length = range_said(each)
    if open_length is not None:
        notes.append(Note(open_length.text(measure)))
    notes += [
        Note(finding.message.text(measure), "error" if finding.severity == "error" else "")
        for finding in findings(each.plan)
    ]
    return notes or [Note(said("each size in strips of its own"))]
