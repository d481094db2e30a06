"""Double-fold straight binding: strips round the quilt, joined diagonally."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.plan.joining import cloth_too_narrow, strips_joined_diagonally
from piecewright.plan.stage import stage
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class BindingPlan:
    """`strips` cut `width` wide from cloth of `usable` inches go round `around` inches.

    No fabric: not chosen yet.
    """

    fabric: str | None
    width: Fraction
    around: Fraction
    usable: Fraction
    strips: int
    why: Message
    findings: tuple[Finding, ...] = ()


@stage(keep=256)
def binding_plan(fabric: str | None, width: Fraction, around: Fraction, usable: Fraction) -> BindingPlan:
    """Strips = ceil(around / (usable - width)).

    Borne out by published quilts, where around / usable is often one short.
    """
    strips = strips_joined_diagonally(around, usable, width)
    each = usable - width
    why = message(
        "plan.binding-why", strips=strips or 0, around=around, usable=usable, width=width, each=each
    )
    findings = () if strips else (cloth_too_narrow("binding", usable, width),)
    return BindingPlan(fabric, width, around, usable, strips or 0, why, findings)
