"""The size of the quilt: its center, and what each border adds."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.model.frame import Frame
from piecewright.model.quilt import Border
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
def quilt_size(frame: Frame, borders: tuple[Border, ...], seam: Fraction) -> QuiltSize:
    """From the frame and the finished widths of the borders; `seam` is the outer allowance."""
    center, lattice = frame.size, frame.lattice
    added = 2 * sum((border.width for border in borders), Fraction(0))
    finished = Finished(center.width + added, center.height + added)
    cells = message(
        f"plan.size-cells-{'on-point' if frame.on_point else 'sashed' if frame.sashing else 'plain'}",
        columns=lattice.columns,
        rows=lattice.rows,
        unit=frame.space_width if frame.on_point else lattice.unit,
        across=frame.sash_columns,
        down=frame.sash_rows,
        floats=frame.margin,
        center=center,
    )
    why = message(
        "plan.size-why-borders" if borders else "plan.size-why",
        cells=cells,
        borders=tuple(border.width for border in borders),
        size=finished,
        seams=2 * seam,
        unfinished=finished.unfinished(seam),
    )
    return QuiltSize(center, finished, finished.unfinished(seam), seam, why)
