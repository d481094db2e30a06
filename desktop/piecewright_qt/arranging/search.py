"""Looking for a better scatter while the first one is on the wall: one round at a time, off the window's thread."""

from collections.abc import Callable, Iterator

from piecewright.arrange.arranging import Arranged
from piecewright_qt.runner import Job, Runner

_KEY = "arrange"


class Search:
    """Hands over every answer as it comes; the newest search takes the place of the one before."""

    def __init__(
        self, runner: Runner, found: Callable[[Arranged], object], ended: Callable[[], object]
    ) -> None:
        self._runner, self._found, self._ended = runner, found, ended
        self._answers: Iterator[Arranged] | None = None
        self.rounds = 0

    @property
    def is_going(self) -> bool:
        """Whether it still looks."""
        return self._answers is not None

    def start(self, answers: Iterator[Arranged]) -> None:
        """Go on with these answers, which are worked out as they are asked for."""
        self.stop()
        self._answers = answers
        self.rounds = 0
        self._go_on()

    def stop(self) -> None:
        """Look no further."""
        self._runner.give_up(_KEY)
        self._answers = None

    def _go_on(self) -> None:
        answers = self._answers

        def next_one(_job: Job) -> Arranged | None:
            return next(answers, None) if answers is not None else None

        self._runner.run(_KEY, next_one, self._take)

    def _take(self, answer: Arranged | None) -> None:
        if answer is None:
            self._answers = None
            self._ended()
            return
        self.rounds += 1
        self._found(answer)
        self._go_on()
