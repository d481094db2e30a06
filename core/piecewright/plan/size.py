"""The size of the quilt: its center, and what each border adds."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.model.quilt import Border, Lattice
from piecewright.plan.stage import stage
from piecewright.units.sizes import Finished, Unfinished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class QuiltSize:
    """`center` is what the blocks cover.

    `finished` the quilt as seen inside its binding; `unfinished` the sewn top with its outer allowance, which
    is also the size of the bound quilt, since binding wraps the raw edge.
    """

    center: Finished
    finished: Finished
    unfinished: Unfinished
    seam: Fraction
    why: Message

    @property
    def around(self) -> Fraction:
        """The way round the unfinished top, inches."""
        return 2 * (Fraction(self.unfinished.width) + Fraction(self.unfinished.height))


@stage(keep=256)
def quilt_size(lattice: Lattice, borders: tuple[Border, ...], seam: Fraction) -> QuiltSize:
    """From the lattice and the finished widths of the borders; `seam` is the outer allowance."""
    center = Finished(lattice.unit * lattice.columns, lattice.unit * lattice.rows)
    added = 2 * sum((border.width for border in borders), Fraction(0))
    finished = Finished(center.width + added, center.height + added)
    why = message(
        "plan.size-why-borders" if borders else "plan.size-why",
        columns=lattice.columns,
        rows=lattice.rows,
        unit=lattice.unit,
        center=center,
        borders=tuple(border.width for border in borders),
        size=finished,
        seams=2 * seam,
        unfinished=finished.unfinished(seam),
    )
    return QuiltSize(center, finished, finished.unfinished(seam), seam, why)
