"""What the sections ask of the engine: at once where it takes less than a frame, else off the window's thread."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import TypeVar

from PySide6.QtCore import QObject

from piecewright.errors import PiecewrightError
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.model.design import Design
from piecewright_qt.runner import Runner
from piecewright_qt.sewing_table.bench import Bench

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Question:
    """The block in hand as the engine is asked about it: sound, and made to the nominal seam."""

    recipe: Recipe
    given: Given
    block: str
    design: Design

    def key(self) -> tuple[object, ...]:
        """What tells two questions about one block apart."""
        return self.recipe, self.given, self.block


def question_of(bench: Bench) -> Question | None:
    """The block in hand; None where there is none, or its recipe can not be made as it stands."""
    draft, block = bench.draft, bench.block
    if block is None or draft is None or draft.sound is None or bench.facts is None:
        return None
    design = bench.document.shown if block.id in bench.document.shown.shelf.blocks else bench.document.design
    given = bench.making.given if bench.making is not None else bench.given
    return Question(draft.sound, given, block.id, design)


class Reckoner(QObject):
    """Hands work to a runner, newest first; without one it is done on the spot."""

    def __init__(self, runner: Runner | None, parent: QObject) -> None:
        super().__init__(parent)
        self._runner = runner
        self._name = id(self)

    def reckon(
        self,
        key: str,
        work: Callable[[], T],
        done: Callable[[T | PiecewrightError], object],
        *,
        quick: bool = False,
    ) -> None:
        """Have `done` told what `work` answers, or the error it raises; a later call under the key takes its place."""
        if self._runner is None or quick:
            self.give_up(key)
            done(_answer(work))
        else:
            self._runner.run((self._name, key), lambda _job: _answer(work), done)

    def give_up(self, key: str) -> None:
        """Nobody waits for it any more."""
        if self._runner is not None:
            self._runner.give_up((self._name, key))

    def give_up_with(self, widget: QObject, key: str) -> None:
        """When a widget goes, nobody waits for its answer any more."""
        if self._runner is not None:
            widget.destroyed.connect(partial(self._runner.give_up, (self._name, key)))


def _answer(work: Callable[[], T]) -> T | PiecewrightError:
    try:
        return work()
    except PiecewrightError as error:
        return error.with_traceback(None)
