"""What the search field asks for: words, or a finished size typed any way."""

import re
from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import LengthError
from piecewright.units.length import parse_length
from piecewright.units.scale import INCH
from piecewright.units.sizes import Finished

_LENGTH = r"[0-9][0-9 ./,½⅓⅔¼¾⅛⅜⅝⅞]*(?:\s?(?:in|cm|mm|\"|″))?"
_SIZE = re.compile(rf"(?P<width>{_LENGTH})\s*[x×*]\s*(?P<height>{_LENGTH})", re.IGNORECASE)


@dataclass(frozen=True)
class Query:
    """`words` must all be found; `size` is a width and height, or one side alone, in inches: either way round."""

    text: str
    words: tuple[str, ...]
    size: tuple[Fraction, ...] = ()

    def finds(self, words: str, finished: Finished | None = None) -> bool:
        """Whether something with these words (folded) and this size is meant."""
        if all(word in words for word in self.text.split()):
            return True
        if finished is None or not self.size or not all(word in words for word in self.words):
            return False
        return _is_of(self.size, (finished.width, finished.height))


def read_query(text: str, unit: Fraction = INCH) -> Query:
    """What a text asks for. Bare numbers are in `unit`, itself in inches. Never fails: at worst it is all words."""
    folded = " ".join(text.casefold().split())
    found = _SIZE.search(folded)
    lengths = _lengths([found["width"], found["height"]] if found else [folded], unit)
    if not lengths:
        return Query(folded, tuple(folded.split()))
    rest = folded[: found.start()] + " " + folded[found.end() :] if found else ""
    return Query(folded, tuple(rest.split()), lengths)


def _lengths(texts: list[str], unit: Fraction) -> tuple[Fraction, ...]:
    try:
        return tuple(parse_length(text, unit=unit) for text in texts)
    except LengthError:
        return ()


def _is_of(size: tuple[Fraction, ...], sides: Collection[Fraction | float]) -> bool:
    if len(size) == 1:
        return size[0] in sides
    return sorted(size) == sorted(sides)
