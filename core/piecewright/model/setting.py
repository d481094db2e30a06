"""What lies between and round the blocks: sashing, setting triangles, and the piecing of a border."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Literal

from piecewright.model.limits import check_count, check_not_negative, check_positive, refuse
from piecewright.model.value import Value

MOST_PIECES = 50
"""The most fabrics that a pieced border goes through before it begins again."""
WIDEST_SASH = Fraction(100)


class Sashing(Value, frozen=True):
    """Strips between the spaces of the lattice, finished widths: `columns` between columns, `rows` between rows.

    A width of 0 leaves that way without. `cornerstones` is the fabric of the squares where strips cross; without
    them the strips between `long` run through and the others are cut between these. `outside`: round the blocks too.
    """

    fabric: str
    columns: Fraction
    rows: Fraction
    cornerstones: str | None = None
    long: Literal["rows", "columns"] = "rows"
    outside: bool = True

    def __post_init__(self) -> None:
        check_not_negative(self.columns, "width of the sashing between columns", WIDEST_SASH)
        check_not_negative(self.rows, "width of the sashing between rows", WIDEST_SASH)
        if not self.columns and not self.rows:
            refuse("no-sashing")

    @property
    def fabrics(self) -> tuple[str, ...]:
        """The ids of its fabrics."""
        return (self.fabric,) if self.cornerstones is None else (self.fabric, self.cornerstones)

    def renamed(self, names: Mapping[str, str]) -> "Sashing":
        """A copy in which fabric ids are exchanged as `names` says."""
        stones = self.cornerstones
        fabric = names.get(self.fabric, self.fabric)
        return self.changed(fabric=fabric, cornerstones=stones and names.get(stones, stones))


class Triangles(Value, frozen=True):
    """The side and corner triangles of a setting on point; no fabric: not chosen yet.

    `float` is how far the points of the outer blocks stay inside the edge. The squares that triangles are cut
    from are as large as the geometry needs ("exact"), or as the trade's charts have them ("chart": 1 1/4 in and
    7/8 in more than the finished sides at a seam of 1/4 in); `spare` is added, and they are rounded up to `step`.
    """

    fabric: str | None = None
    float: Fraction = Fraction(0)
    allowance: Literal["chart", "exact"] = "chart"
    spare: Fraction = Fraction(0)
    step: Fraction = Fraction(1, 8)

    def __post_init__(self) -> None:
        check_not_negative(self.float, "float of the setting triangles", Fraction(100))
        check_not_negative(self.spare, "spare of the setting triangles", Fraction(100))
        check_positive(self.step, "rounding of the setting triangles", Fraction(12))

    def renamed(self, names: Mapping[str, str]) -> "Triangles":
        """A copy in which the fabric id is exchanged as `names` says."""
        return self.changed(fabric=self.fabric and names.get(self.fabric, self.fabric))


class Pieced(Value, frozen=True):
    """What a border is pieced of: `fabrics` in turn, each `length` finished along it, or the blocks `block`.

    A block lies in the top border as `turn` says and is turned on round the quilt, so that each side sees it alike;
    its `length` is that of the block as it lies. What no whole piece fills is made up by coping strips of the border's
    own fabric, half at each end.
    """

    length: Fraction
    fabrics: tuple[str, ...] = ()
    block: str | None = None
    turn: Literal[0, 90, 180, 270] = 0

    def __post_init__(self) -> None:
        check_positive(self.length, "length of a border's pieces", Fraction(1000))
        check_count(len(self.fabrics), "fabrics of a pieced border", 0 if self.block else 1, MOST_PIECES)
        if self.block is not None and self.fabrics:
            refuse("pieced-of-both")

    def renamed(self, names: Mapping[str, str]) -> "Pieced":
        """A copy in which fabric ids are exchanged as `names` says."""
        return self.changed(fabrics=tuple(names.get(one, one) for one in self.fabrics))


def ids(*fabrics: Iterable[str | None]) -> frozenset[str]:
    """The ids named, those not chosen left out."""
    return frozenset(one for several in fabrics for one in several if one is not None)
