"""The errors a user can cause, and the findings in a design: each says what, where and what to do."""

from dataclasses import dataclass
from typing import Literal

from piecewright.units.measure import Measure
from piecewright.words.catalogue import ENGLISH, Catalogue
from piecewright.words.message import Message

_DEFAULT = Measure()


class PiecewrightError(Exception):
    """What went wrong, the hint what to do about it, and the place ("steps[4].every", a file) or ""."""

    def __init__(self, message: Message, hint: Message | None = None, where: str = "") -> None:
        super().__init__(message, hint, where)
        self.message = message
        self.hint = hint
        self.where = where

    def sentence(self, measure: Measure = _DEFAULT, catalogue: Catalogue = ENGLISH) -> str:
        """Place, message and hint in one line: "steps[4].every: 14 1/2 in is too much. Cut 13 in."."""
        return _line(self.where, self.message, self.hint, measure, catalogue)

    def __str__(self) -> str:
        return self.sentence()


class LengthError(PiecewrightError):
    """A text that is no length, or a length out of bounds."""


class RecipeError(PiecewrightError):
    """A recipe that breaks the rules of its format."""


class MakingError(PiecewrightError):
    """A recipe in order whose cloth, once sewn or cut, does not do what a step asks."""


class DesignError(PiecewrightError):
    """A design whose parts do not belong together."""


class EditError(PiecewrightError):
    """A change that can not be made to this design."""


class FileError(PiecewrightError):
    """A file that can not be read or written."""


class UsageError(PiecewrightError):
    """A command that is not understood."""


Severity = Literal["error", "warning", "note"]


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing to know about a design: its code, how grave it is, the sentence, the place and what to do."""

    code: str
    severity: Severity
    message: Message
    where: str = ""
    hint: Message | None = None

    def sentence(self, measure: Measure = _DEFAULT, catalogue: Catalogue = ENGLISH) -> str:
        """Place, message and hint in one line, as for an error."""
        return _line(self.where, self.message, self.hint, measure, catalogue)


def _line(where: str, message: Message, hint: Message | None, measure: Measure, catalogue: Catalogue) -> str:
    said = " ".join(part.text(measure, catalogue) for part in (message, hint) if part is not None)
    return f"{where}: {said}" if where else said
