"""The planner of a resize: a wish on top, and the ways to it worked out off the window's thread, as cards."""

from fractions import Fraction

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from piecewright.model.design import Design
from piecewright.plan.resize_ways import RULER, Way, ways_to
from piecewright.plan.resize_wish import BlocksWish, Wish
from piecewright.units.scale import CM
from piecewright_qt.look import Look
from piecewright_qt.materials.way_cards import WayList
from piecewright_qt.materials.wish_field import WishField, say
from piecewright_qt.runner import Job, Runner
from piecewright_qt.theme.tokens import SPACE_TIGHT

_KEY = "resize"


class WaysPart(QWidget):
    """`chosen` tells which way was chosen, `hovered` which lies under the pointer, None for none.

    `kept`: the chosen one is taken. `complained` says a sentence. `resized`: it needs more or less room. `arrived`:
    there are ways to be seen.
    """

    chosen = Signal(object)
    hovered = Signal(object)
    kept = Signal()
    complained = Signal(str)
    resized = Signal()
    arrived = Signal()

    def __init__(self, look: Look, runner: Runner) -> None:
        super().__init__()
        self._look = look
        self._runner = runner
        self._design: Design | None = None
        self._asked: Wish | None = None
        self.wish = WishField()
        self.status = QLabel()
        self.status.setProperty("type", "small")
        self.status.setWordWrap(True)
        self.list = WayList(look)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE_TIGHT)
        for widget in (self.wish, self.status, self.list):
            column.addWidget(widget)
        self.status.hide()
        self.wish.asked.connect(self.ask)
        self.wish.complained.connect(self.complained)
        self.list.chosen.connect(self.chosen)
        self.list.hovered.connect(self.hovered)
        self.list.taken.connect(self.kept)

    def begin(self, design: Design) -> None:
        """Start from a design; a wish that was asked for is worked out anew for it."""
        same = design is self._design
        self._design = design
        self.wish.show_design(design, self._look.measure)
        if not same:
            self.list.show_ways(())
            self._say("")
            if self._asked is not None:
                self.ask(self._asked)

    def leave(self) -> None:
        """Nothing is asked any more."""
        self._runner.give_up(_KEY)
        self._asked = self._design = None
        self.list.show_ways(())
        self._say("")

    @property
    def way(self) -> Way | None:
        """The way that is chosen."""
        return self.list.way

    def forget_choice(self) -> None:
        """Other hands are at the size now."""
        self.list.forget_choice()

    def ask(self, wish: Wish) -> None:
        """Work the ways out; the newest wish wins."""
        design = self._design
        if design is None:
            return
        self._asked = wish
        ruler = RULER if self._look.measure.unit == "in" else CM / 2
        self._say(say("Working out the ways…"))
        self._runner.run(_KEY, lambda job: _work(job, design, wish, ruler), self._take)

    def _take(self, ways: tuple[Way, ...]) -> None:
        self.list.show_ways(ways)
        if ways:
            self._say(self._counted(len(ways)))
            self.list.choose_way(0)
            self.arrived.emit()
        else:
            blocks = isinstance(self._asked, BlocksWish)
            none = (
                say("No other size takes these blocks.")
                if blocks
                else say("No way leads nearer than the quilt is.")
            )
            self._say(none)

    def _counted(self, count: int) -> str:
        if count == 1:
            return say("1 way")
        largest = isinstance(self._asked, BlocksWish)
        many = say("{n} ways, largest first") if largest else say("{n} ways, nearest size first")
        return many.format(n=count)

    def _say(self, text: str) -> None:
        self.status.setText(text)
        self.status.setVisible(bool(text))
        self.resized.emit()


def _work(job: Job, design: Design, wish: Wish, ruler: Fraction) -> tuple[Way, ...]:
    return ways_to(design, wish, ruler=ruler, is_given_up=lambda: job.is_given_up)
