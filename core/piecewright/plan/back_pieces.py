"""What else is cut for the back: a sleeve to hang the quilt by, and a label."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.model.quilt import Label, Sleeve
from piecewright.plan.joining import strips_joined_straight
from piecewright.plan.stage import stage
from piecewright.units.sizes import Cut, Unfinished
from piecewright.words.message import Message, message

NARROWER = Fraction(1)
"""A sleeve ends up so much shorter than the edge it hangs from: cut 2 in longer, with a 1 1/2 in hem at either end."""


@dataclass(frozen=True, slots=True)
class BackPiece:
    """A sleeve or a label: its cut size, and the strips it is joined of, each `usable` inches at most."""

    part: str
    size: Cut
    strips: int
    why: Message

    @property
    def cloth(self) -> Fraction:
        """Inches off the bolt."""
        return self.strips * Fraction(self.size.height)


@stage(keep=256)
def sleeve_plan(sleeve: Sleeve, quilt: Unfinished, usable: Fraction, seam: Fraction) -> BackPiece:
    """A tube along the top edge of the bound quilt, joined of strips where it is longer than the cloth is wide.

    Cut edge - 1 + 2 hems long and 2 depths + 2 seams wide ("cut edge + 2, two 1 1/2 in hems").
    """
    length = Fraction(quilt.width) - NARROWER + 2 * sleeve.hem
    height = 2 * sleeve.depth + 2 * seam
    strips = strips_joined_straight(length, usable, seam) or 0
    why = message(
        "plan.sleeve-why",
        size=Cut(length, height),
        edge=Fraction(quilt.width),
        narrower=NARROWER,
        hem=sleeve.hem,
        depth=sleeve.depth,
        seam=seam,
        strips=strips,
    )
    return BackPiece("sleeve", Cut(length, height), strips, why)


@stage(keep=256)
def label_plan(label: Label, seam: Fraction) -> BackPiece:
    """A label with an allowance to turn under all round."""
    size = Cut(label.width + 2 * seam, label.height + 2 * seam)
    return BackPiece("label", size, 1, message("plan.label-why", size=size, seam=seam))
