"""From the cutting of a design to what the shopping list asks for."""

from collections.abc import Mapping

from piecewright.cutting.table import DesignCutting
from piecewright.plan.shopping import Amount


def amounts(cutting: DesignCutting) -> Mapping[str, Amount]:
    """What each fabric takes of the form that is bought, cloth on hand used up first.

    A fabric with pieces that do not fit is left out: its plan is not all that it takes.
    """
    return {
        each.fabric: Amount(each.plan.job.sheet.kind, cutting.shown(each).amount)
        for each in cutting.fabrics
        if not each.plan.unplaced
    }
