"""One description of a verb: it drives geometry, pictures, sentences and handles alike."""

from dataclasses import dataclass

from piecewright.making.steps import Step


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb by its word, which is its key in a step, and the type of its steps."""

    word: str
    step: type[Step]
