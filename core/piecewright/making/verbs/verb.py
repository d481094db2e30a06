"""One description of a verb: it drives geometry, pictures, sentences and handles alike."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from piecewright.geometry.shapes import Segment
from piecewright.making.steps import Step
from piecewright.making.table import Hand, Outcome
from piecewright.words.message import Message


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a recipe a number stands: the step (from 0), the key, and the index in a list (None: no list)."""

    step: int
    key: str
    index: int | None = None


@dataclass(frozen=True, slots=True)
class Handle:
    """What may be dragged in a step's picture: a line of a piece, and the number it changes.

    `line` lies in the frame of `piece`, inches; the number grows by an inch as the line moves by `toward` (x, y).
    """

    place: Place
    piece: str
    line: Segment
    toward: tuple[float, float]


def no_handles(_step: Step, _outcome: Outcome) -> tuple[Handle, ...]:
    """For verbs that have no length to drag."""
    return ()


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb by its word, which is its key in a step.

    `act` does a step at the table (MakingError where the cloth does not allow it), `say` puts a step and what came of
    it into words, `handles` names the numbers that may be dragged.
    """

    word: str
    step: type[Step]
    act: Callable[[Any, Hand], None]
    say: Callable[[Any, Hand], Message]
    handles: Callable[[Any, Outcome], tuple[Handle, ...]]
