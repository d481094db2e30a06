"""From fewest sets to scrappiest: a slider of mixes, with the sets and strips that each takes beside it."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from piecewright.arrange.scrappy import free_mixes, group_of, scrappy
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright_qt.arranging.ways import say
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.look import Look
from piecewright_qt.materials.stop_slider import StopSlider
from piecewright_qt.runner import Runner
from piecewright_qt.theme.tokens import SPACE


class MixesPart(QWidget):
    """Which block of the shelf, and in how many mixes; `wished` hands over the edit that does it, or None."""

    wished = Signal(object)

    def __init__(self, document: Document, look: Look, runner: Runner) -> None:
        super().__init__()
        self._document, self._look, self._runner = document, look, runner
        self._counted: tuple[Design, str] | None = None
        self._design: Design | None = None
        self.block = ChoiceField(say("Blocks sewn as"), say("Mixes: blocks sewn as"))
        self.slider = StopSlider(say("Mixes"), say("From the fewest strip sets to the scrappiest"))
        self.cost = QLabel()
        self.cost.setWordWrap(True)
        self.cost.setTextFormat(Qt.TextFormat.PlainText)
        self.free = QLabel()
        self.free.setProperty("type", "small")
        self.free.setWordWrap(True)
        self.free.setTextFormat(Qt.TextFormat.PlainText)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE)
        for widget in (self.block, self.slider, self.cost, self.free):
            column.addWidget(widget)
        self.block.edited.connect(self._take_block)
        self.slider.moved.connect(self._try)

    def show_design(self, design: Design) -> None:
        """Offer the blocks that hang, silently."""
        if design is self._design:
            return
        self._design = design
        hung = [(block.id, block.name) for block in design.blocks if block.id in design.quilt.blocks]
        chosen = self.block.value if self.block.value in {block for block, _ in hung} else None
        self.block.show_choices(list(hung), chosen or (hung[0][0] if hung else None))
        self._take_block()

    def forget(self) -> None:
        """Nothing is tried any more."""
        self._design = None
        self.show_design(self._document.design)

    def _take_block(self) -> None:
        design, block = self._document.design, self.block.value
        if not isinstance(block, str):
            self.slider.set_stops((), None, say("Hang blocks on the wall first."))
            self.slider.say(say("none"))
            self.cost.setText("")
            self._counted = None
            self._runner.give_up("free mixes")
            self.free.setText(say("Hang blocks on the wall first."))
            return
        group = group_of(design, block)
        hung = {design.letters(one.placement) for one in group.laid}
        stops = range(1, max(group.makings, 1) + 1)
        why = say("One block has one mix.") if group.makings < 2 else ""
        self.slider.set_stops(stops, min(len(hung), group.makings), why)
        self.slider.say(say("{n} now").format(n=len(hung)))
        self._tell_cost(materials(design).set_count, materials(design).strip_count)
        self._count_free(design, block)

    def _count_free(self, design: Design, block: str) -> None:
        """How many mixes cost nothing takes many plans to find: off the window's thread, once for each design."""
        if self._counted == (design, block):
            return
        self._counted = (design, block)
        self.free.setText("")
        self._runner.run("free mixes", lambda _job: free_mixes(design, block), self._tell_free)

    def _tell_free(self, most: int) -> None:
        text = say("Up to {n} mixes take no more sets than one does.") if most > 1 else ""
        self.free.setText(text.format(n=most))

    def _try(self) -> None:
        design, block, mixes = self._document.design, self.block.value, self.slider.value
        if not isinstance(block, str) or not isinstance(mixes, int):
            return
        answer = scrappy(design, block, mixes)
        self.slider.say(str(answer.mixes))
        before = materials(design)
        self._tell_cost(answer.sets, answer.strips, before.set_count, before.strip_count)
        self.wished.emit(answer.call)

    def _tell_cost(
        self, sets: int, strips: int, sets_now: int | None = None, strips_now: int | None = None
    ) -> None:
        if sets_now is None or (sets, strips) == (sets_now, strips_now):
            self.cost.setText(say("{sets} strip sets, {strips} strips").format(sets=sets, strips=strips))
        else:
            text = say("{sets} strip sets, {strips} strips; now {sets_now} and {strips_now}")
            self.cost.setText(text.format(sets=sets, strips=strips, sets_now=sets_now, strips_now=strips_now))
