"""Cut, unfinished and finished sizes as types of their own, so that one can never be mistaken for another."""

from dataclasses import dataclass
from typing import ClassVar

from piecewright.units.scale import Number


@dataclass(frozen=True, slots=True)
class Size:
    """A width and a height in inches; `word` is what is said beside it. Only sizes of one type compare equal.

    There is no arithmetic: the ways from one type to another are the named methods that take a seam
    allowance. They give nothing or less where it eats the whole piece; who sews has to refuse that.
    """

    word: ClassVar[str]
    width: Number
    height: Number


@dataclass(frozen=True, slots=True)
class Cut(Size):
    """A piece as it leaves the ruler."""

    word: ClassVar[str] = "cut"

    def finished(self, seam: Number) -> "Finished":
        """What is seen of the piece once all four edges are sewn with this allowance."""
        return Finished(self.width - 2 * seam, self.height - 2 * seam)


@dataclass(frozen=True, slots=True)
class Unfinished(Size):
    """A sewn unit or block whose outer allowance is still on."""

    word: ClassVar[str] = "unfinished"

    def finished(self, seam: Number) -> "Finished":
        """What is seen once all four edges are sewn with this allowance."""
        return Finished(self.width - 2 * seam, self.height - 2 * seam)


@dataclass(frozen=True, slots=True)
class Finished(Size):
    """As seen in the quilt."""

    word: ClassVar[str] = "finished"

    def unfinished(self, seam: Number) -> Unfinished:
        """The sewn size with this allowance on all four sides."""
        return Unfinished(self.width + 2 * seam, self.height + 2 * seam)

    def cut(self, seam: Number) -> Cut:
        """The size to cut a single patch, with this allowance on all four sides."""
        return Cut(self.width + 2 * seam, self.height + 2 * seam)
