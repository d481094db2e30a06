"""A plan in sentences: what it takes, what it saves, and how little could do."""

from collections.abc import Iterator
from fractions import Fraction

from piecewright.cutting.any_order import AnyOrderPlan
from piecewright.cutting.pieces import Piece
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.sheets import Sheet
from piecewright.errors import Finding
from piecewright.units.rounding import down_to, round_yardage
from piecewright.units.scale import YARD
from piecewright.units.sizes import Cut
from piecewright.words.message import Message, message

EIGHTH_YARD = Fraction(YARD, 8)


def takes(plan: CuttingPlan | AnyOrderPlan, rounding: str = "eighth") -> Message:
    """What the plan takes of the cloth that costs; `rounding` names how a shop rounds yardage."""
    if plan.job.sheet.length is None:
        return message("cutting.takes-cloth", inches=plan.amount, buy=round_yardage(plan.amount, rounding))
    return message("cutting.takes-sheets", sheets=sheets_said(plan.job.sheet, int(plan.amount)))


def saves(plan: CuttingPlan, plain: CuttingPlan, rounding: str = "eighth") -> Message:
    """What a plan saves against plain cutting of the same job, in cloth and in what there is to buy."""
    saved = plain.amount - plan.amount
    if saved <= 0:
        return message("cutting.saves-nothing")
    if plan.job.sheet.length is not None:
        return message("cutting.saves-sheets", sheets=sheets_said(plan.job.sheet, int(saved)))
    bought = round_yardage(plain.amount, rounding) - round_yardage(plan.amount, rounding)
    if not bought:
        return message("cutting.saves-little", saved=saved)
    return message("cutting.saves-cloth", saved=saved, bought=bought)


def least(plan: CuttingPlan) -> Message:
    """How far at most a plan is from the least that any of its kind can use."""
    if plan.bound is None:
        return message("cutting.least-unknown")
    if plan.proven:
        return message("cutting.least")
    over = plan.amount - plan.bound
    if plan.job.sheet.length is None:
        return message("cutting.least-cloth", bound=plan.bound, over=over)
    sheet = plan.job.sheet
    return message(
        "cutting.least-sheets", bound=sheets_said(sheet, int(plan.bound)), over=sheets_said(sheet, int(over))
    )


def in_short(plan: CuttingPlan, plain: CuttingPlan) -> Message:
    """Both in one line, such as "Saves 3/8 yd against plain cutting; at most 1/8 yd from the least possible".

    Yards are rounded to eighths, to the quilter's disadvantage; what is less than one is said in inches.
    """
    saved = _short_saved(plan, plain)
    if plan.bound is None:
        return message("cutting.short-unknown", saves=saved)
    over = plan.amount - plan.bound
    if over <= 0:
        return message("cutting.short-least", saves=saved)
    if plan.job.sheet.length is not None:
        return message(
            "cutting.short-over-sheets", saves=saved, sheets=sheets_said(plan.job.sheet, int(over))
        )
    if over < EIGHTH_YARD:
        return message("cutting.short-over-inches", saves=saved, over=over)
    return message("cutting.short-over", saves=saved, over=round_yardage(over, "eighth"))


def _short_saved(plan: CuttingPlan, plain: CuttingPlan) -> Message:
    saved = plain.amount - plan.amount
    if saved <= 0:
        return message("cutting.short-saves-nothing")
    if plan.job.sheet.length is not None:
        return message("cutting.short-saves-sheets", sheets=sheets_said(plan.job.sheet, int(saved)))
    if saved < EIGHTH_YARD:
        return message("cutting.short-saves-inches", saved=saved)
    return message("cutting.short-saves", saved=down_to(EIGHTH_YARD)(saved))


def kind(plan: CuttingPlan) -> Message:
    """What "a plan of this kind" means."""
    return message("cutting.kind", stack=plan.job.stack)


def sheets_said(sheet: Sheet, count: int) -> Message:
    """So many sheets of a kind, such as "3 fat quarters"."""
    return message(f"cutting.sheets-{sheet.kind.replace(' ', '-')}", count=count)


def findings(plan: CuttingPlan) -> tuple[Finding, ...]:
    """What one has to know before cutting: pieces that do not fit, or are cut larger; a search that was stopped."""
    return tuple(_findings(plan))


def _findings(plan: CuttingPlan) -> Iterator[Finding]:
    sheet = plan.job.sheet
    for piece in plan.unplaced:
        hint = message("cutting.too-large-hint")
        yield Finding("cutting.too-large", "error", _too_large(piece, sheet), piece.key, hint)
    for old, new in plan.rounded:
        said = message(
            "cutting.rounded",
            piece=old.label,
            size=Cut(old.width, old.height),
            cut=Cut(new.width, new.height),
        )
        yield Finding("cutting.rounded", "note", said, old.key)
    if plan.stopped:
        yield Finding("cutting.stopped", "note", message("cutting.stopped"))


def _too_large(piece: Piece, sheet: Sheet) -> Message:
    size = Cut(piece.width, piece.height)
    if sheet.length is None:
        return message("cutting.too-large", piece=piece.label, size=size, width=sheet.width)
    return message(
        "cutting.too-large-sheet", piece=piece.label, size=size, width=sheet.width, length=sheet.length
    )
