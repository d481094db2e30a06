"""What the Cutting table says: a piece in words, a fabric's plan in short, and a choice with its difference."""

from fractions import Fraction

from PySide6.QtCore import QCoreApplication
from PySide6.QtGui import QAccessible, QAccessibleAnnouncementEvent
from PySide6.QtWidgets import QWidget

from piecewright.cutting.any_order import AnyOrderPlan
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.table import FabricCutting
from piecewright.cutting.telling import sheets_said
from piecewright.units.measure import Measure, Yardage
from piecewright.units.rounding import round_yardage
from piecewright.units.sizes import Cut
from piecewright.words.message import message


def piece_said(each: FabricCutting, key: str, measure: Measure) -> str:
    """A piece by its key: its cut size, what it is for, and how many there are in all."""
    piece = each.plan.pieces_cut.get(key)
    if piece is None:
        return ""
    size = message("cutting.label-cut", size=Cut(piece.width, piece.height)).text(measure)
    name = piece.label if isinstance(piece.label, str) else piece.label.text(measure)
    one, many = said("{size}: {name}, the only one"), said("{size}: {name}, one of {n}")
    text = (one if piece.count == 1 else many).format(size=size, name=name, n=piece.count)
    if not piece.inside:
        return text
    parts = ", ".join(f"{count} x {measure.length(length)}" for length, count in piece.inside)
    return f"{text}; {said('cut up into {parts}').format(parts=parts)}"


def amount_said(plan: CuttingPlan | AnyOrderPlan, rounding: str, measure: Measure) -> str:
    """What a plan takes as a shop sells it: "3 1/8 yd", "4 fat quarters", or nothing beside what is on hand."""
    if plan.job.sheet.length is not None:
        return sheets_said(plan.job.sheet, int(plan.amount)).text(measure)
    return measure.yards(Yardage(plan.amount, round_yardage(plan.amount, rounding)))


def less_said(plan: CuttingPlan | AnyOrderPlan, plain: CuttingPlan, measure: Measure) -> str:
    """How much less a plan takes than plain cutting; exactly, in inches or sheets."""
    less = plain.amount - plan.amount
    if less <= Fraction(0):
        return said("as much as plain cutting")
    amount = (
        measure.length(less)
        if plan.job.sheet.length is None
        else sheets_said(plan.job.sheet, int(less)).text(measure)
    )
    return said("{amount} less than plain cutting").format(amount=amount)


def heard(widget: QWidget, text: str) -> None:
    """Let a screen reader say something of a picture."""
    if text and QAccessible.isActive():
        QAccessible.updateAccessibility(QAccessibleAnnouncementEvent(widget, text))


def capital(text: str) -> str:
    """With a capital where a line begins."""
    return text[:1].upper() + text[1:]


def said(text: str) -> str:
    """A text of the Cutting table in the user's language."""
    return QCoreApplication.translate("cutting-table", text)
