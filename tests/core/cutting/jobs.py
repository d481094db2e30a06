"""Jobs for tests and benches: random ones that hypothesis shrinks, and seeded ones like the pieces of a quilt."""

from fractions import Fraction
from random import Random

from hypothesis import strategies as st

from piecewright.cutting.job import Job
from piecewright.cutting.patterns import Limits
from piecewright.cutting.pieces import Piece
from piecewright.cutting.search import Effort
from piecewright.cutting.sheets import (
    OnHand,
    Sheet,
    bolt,
    fat_eighth,
    fat_quarter,
    five_inch_square,
    roll_strip,
    strip,
    ten_inch_square,
)

QUICK = Effort(turns=3, whole=Limits(nodes=20, layouts=100), tidy=Limits(nodes=5, layouts=30))
"""Every step of a search, none of them long."""

SHEETS = (fat_quarter(), fat_eighth(), ten_inch_square(), five_inch_square())
HELD = (
    *SHEETS,
    roll_strip(Fraction(40)),
    strip(Fraction(30), Fraction(3)),
    strip(Fraction(20), Fraction(4), lengthwise=True),
)

lengths = st.one_of(
    st.integers(4, 100).map(lambda eighths: Fraction(eighths, 8)),
    st.integers(2, 14).map(Fraction),
    st.sampled_from((Fraction(13, 3), Fraction(50, 127) * 6)),
)
bolts = st.sampled_from((Fraction(40), Fraction(42), Fraction(83, 2), Fraction(12))).map(bolt)


@st.composite
def pieces(draw: st.DrawFn, most_sizes: int = 6, most: int = 30) -> tuple[Piece, ...]:
    """Pieces of a few sizes; two of them may share a size."""
    return tuple(
        Piece(
            f"p{number}",
            draw(lengths),
            draw(lengths),
            draw(st.integers(1, most)),
            may_turn=draw(st.booleans()),
            grain=draw(st.sampled_from(("crosswise", "lengthwise"))),
        )
        for number in range(draw(st.integers(1, most_sizes)))
    )


@st.composite
def jobs(draw: st.DrawFn, sheets: st.SearchStrategy[Sheet] = bolts, *, with_stock: bool = True) -> Job:
    """A job off the bolt or from sheets, with or without cloth on hand."""
    held: tuple[OnHand, ...] = ()
    if with_stock and draw(st.booleans()):
        kinds = draw(st.lists(st.sampled_from(HELD), min_size=1, max_size=2))
        held = tuple(OnHand(kind, draw(st.integers(1, 3))) for kind in kinds)
    return Job(draw(pieces()), draw(sheets), held, draw(st.sampled_from((1, 2, 4))))


def quilt_job(sizes: int, count: int, *, may_turn: bool, number: int, usable: Fraction = Fraction(42)) -> Job:
    """About `count` pieces of so many sizes from 1 1/2 to 12 1/2 in, unevenly many of each."""
    random = Random(f"{sizes} {count} {number}")
    sides: set[tuple[Fraction, Fraction]] = set()
    while len(sides) < sizes:
        sides.add((Fraction(random.randint(12, 100), 8), Fraction(random.randint(12, 100), 8)))
    shares = [random.random() + 0.1 for _ in range(sizes)]
    return Job(
        tuple(
            Piece(
                f"size {place}", width, height, max(1, round(count * share / sum(shares))), may_turn=may_turn
            )
            for place, ((width, height), share) in enumerate(zip(sorted(sides), shares, strict=True))
        ),
        bolt(usable),
    )
