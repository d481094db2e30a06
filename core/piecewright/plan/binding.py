"""Double-fold binding: strips round the quilt, joined end to end, or one strip from a bias square."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.model.quilt import Binding
from piecewright.plan.bias_square import BiasSquare, bias_squares
from piecewright.plan.joining import cloth_too_narrow
from piecewright.plan.stage import stage
from piecewright.units.rounding import whole_up
from piecewright.words.message import Message, message

USUAL_EXTRA = Fraction(10)
"""What is usually left over for the corners and the closing (worked example 'Double-fold flange binding', 2019;
another shop adds 15 to 20)."""


@dataclass(frozen=True, slots=True)
class BindingPlan:
    """`strips` cut `width` wide from cloth of `usable` inches go round `around` inches.

    `length` is what is counted for, the way round and the extra; every join, the closing one among them, takes
    `lost` of it. A bias binding has `squares` instead and no strips. No fabric: not chosen yet.
    """

    fabric: str | None
    width: Fraction
    around: Fraction
    usable: Fraction
    strips: int
    why: Message
    findings: tuple[Finding, ...] = ()
    length: Fraction = Fraction(0)
    lost: Fraction = Fraction(0)
    squares: BiasSquare | None = None

    @property
    def gives(self) -> Fraction:
        """The length of the binding once it is joined and closed, inches."""
        if self.squares is not None:
            return self.squares.count * (self.squares.length - self.lost)
        return self.strips * (self.usable - self.lost)

    @property
    def to_spare(self) -> Fraction:
        """What is over once it has gone round, inches."""
        return self.gives - self.around

    @property
    def cloth(self) -> Fraction:
        """Inches off the bolt."""
        if self.squares is not None:
            return self.squares.cloth(self.usable)
        return self.strips * self.width


@stage(keep=256)
def binding_plan(
    binding: Binding, around: Fraction, usable: Fraction, lengths: str = "eighth"
) -> BindingPlan:
    """Strips = ceil((around + extra) / (usable - what a join takes)).

    A diagonal join takes the strip's width, a straight one two allowances. Borne out by published quilts, where
    around / usable is often one short. `lengths` names the rounding up of a bias square's side.
    """
    lost = binding.width if binding.join == "diagonal" else 2 * binding.seam
    length = around + binding.extra
    if binding.cut == "bias":
        plan = _on_the_bias(binding, around, usable, lost, lengths)
    else:
        each = usable - lost
        strips = whole_up(length / each) if each > 0 else 0
        why = _why_strips(binding, strips, around, usable, lost)
        plan = BindingPlan(
            binding.fabric, binding.width, around, usable, strips, why, length=length, lost=lost
        )
    return _checked(plan)


def _on_the_bias(
    binding: Binding, around: Fraction, usable: Fraction, lost: Fraction, lengths: str
) -> BindingPlan:
    length = around + binding.extra
    squares = bias_squares(length, lost, binding.width, binding.seam, usable, lengths)
    if squares is None:
        why = message("plan.bias-square-none", usable=usable, width=binding.width)
    else:
        why = message(
            "plan.bias-square-why",
            count=squares.count,
            side=squares.side,
            seam=binding.seam,
            rounds=squares.rounds,
            width=binding.width,
            length=squares.length,
            needed=length,
            lost=lost,
        )
    return BindingPlan(binding.fabric, binding.width, around, usable, 0, why, (), length, lost, squares)


def _why_strips(binding: Binding, strips: int, around: Fraction, usable: Fraction, lost: Fraction) -> Message:
    return message(
        "plan.binding-why-extra" if binding.extra else "plan.binding-why",
        strips=strips,
        around=around,
        extra=binding.extra,
        usable=usable,
        each=usable - lost,
        join=message(f"plan.join-{binding.join}", lost=lost),
    )


def _checked(plan: BindingPlan) -> BindingPlan:
    """The plan with what has to be known of it: cloth too narrow, or hardly enough to close with."""
    if plan.cloth == 0:
        findings = (cloth_too_narrow("binding", plan.usable, plan.lost),)
    elif plan.to_spare < USUAL_EXTRA:
        findings = (_tight(plan),)
    else:
        return plan
    return BindingPlan(
        plan.fabric,
        plan.width,
        plan.around,
        plan.usable,
        plan.strips,
        plan.why,
        findings,
        plan.length,
        plan.lost,
        plan.squares,
    )


def _tight(plan: BindingPlan) -> Finding:
    said = message("plan.binding-tight", spare=plan.to_spare, gives=plan.gives, usual=USUAL_EXTRA)
    return Finding("plan.binding-tight", "note", said, "binding", message("plan.binding-tight-hint"))
