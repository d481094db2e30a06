"""The cutting of a design as JSON: every length exact as text and as a decimal, every sentence in words."""

from fractions import Fraction
from typing import Any

from piecewright.cutting.any_order import AnyOrderPlan, cuts_said
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.plans import CuttingPlan, Laid
from piecewright.cutting.sheets import Sheet
from piecewright.cutting.table import DesignCutting, FabricCutting
from piecewright.cutting.table_text import remarks
from piecewright.cutting.telling import findings
from piecewright.plan.keys import UNCHOSEN
from piecewright.plan.report import finding_report
from piecewright.units.measure import Measure

VERSION = 1
_EXACT = Measure()


def cutting_report(table: DesignCutting) -> dict[str, Any]:
    """JSON-able, fresh. Lengths are `{"text": "6 1/2", "inches": 6.5}`; amounts are inches, or sheets by their kind."""
    return {
        "cutting": VERSION,
        "name": table.materials.name,
        "arrangement": table.materials.arrangement,
        "choice": table.choice,
        "fabrics": [_fabric(each, table.rounding) for each in table.fabrics],
    }


def _fabric(each: FabricCutting, rounding: str) -> dict[str, Any]:
    plan = each.plan
    return {
        "fabric": None if each.fabric.startswith(UNCHOSEN) else each.fabric,
        "name": str(each.name),
        "from": _sheet(plan.job.sheet),
        "amount": _amount(plan, plan.amount),
        "plain": _amount(plan, each.plain.amount),
        "bound": None if plan.bound is None else _amount(plan, plan.bound),
        "proven": plan.proven,
        "any_order": None if each.second is None else _any_order(each.second),
        "remarks": [str(said) for said in remarks(each, rounding)],
        "pieces": [
            {
                "key": piece.key,
                "for": str(piece.label),
                "count": piece.count,
                "cut_width": _inches(piece.width),
                "cut_height": _inches(piece.height),
                "grain": piece.grain,
                "cut_again": [{"length": _inches(length), "count": count} for length, count in piece.inside],
            }
            for piece in plan.job.pieces
        ],
        "laid": [_laid(laid) for laid in plan.laid],
        "left_over": [
            {"width": _inches(left.width), "height": _inches(left.height), "count": left.count}
            for left in left_overs(plan)
        ],
        "findings": [finding_report(finding) for finding in findings(plan)],
    }


def _any_order(plan: AnyOrderPlan) -> dict[str, Any]:
    return {
        "amount": _inches(plan.amount),
        "pieces": [
            {"key": piece.key, "from_left": _inches(piece.place.x), "from_top": _inches(piece.place.y)}
            for section in plan.sections
            for piece in section.pieces
        ],
        "cuts": [str(said) for said in cuts_said(plan)],
    }


def _laid(laid: Laid) -> dict[str, Any]:
    return {
        "from": _sheet(laid.sheet),
        "on_hand": laid.source is not None,
        "sheets": laid.count,
        "direction": laid.direction,
        "strips": [
            {
                "count": strip.count,
                "cut_height": _inches(strip.height),
                "cuts": [
                    {
                        "cut_width": _inches(cut.width),
                        "cut_height": _inches(cut.height),
                        "stacked": cut.stack,
                        "pieces": [{"key": key, "count": count} for key, count in cut.pieces],
                    }
                    for cut in strip.cuts
                ],
            }
            for strip in laid.strips
        ],
    }


def _sheet(sheet: Sheet) -> dict[str, Any]:
    length = None if sheet.length is None else _inches(sheet.length)
    return {"kind": sheet.kind, "width": _inches(sheet.width), "length": length}


def _amount(plan: CuttingPlan, amount: Fraction) -> dict[str, Any]:
    return _inches(amount) if plan.job.sheet.length is None else {"sheets": int(amount)}


def _inches(length: Fraction) -> dict[str, Any]:
    return {"text": _EXACT.bare(length), "inches": float(length)}
