"""Stretch and lump: how long bias edges lie open, how thick the cloth gets, and the order that keeps both least."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import Signal

from piecewright.making.press_steps import with_presses
from piecewright.making.pressing_plan import PressingPlan
from piecewright.making.pressing_words import Decision, bulge_sentences, bulges
from piecewright.making.run import run
from piecewright.making.stretch import Stretch, stretch_of, stretch_sentences
from piecewright_qt.sewing_table.numbers.plans import plan_for
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
from piecewright_qt.sewing_table.numbers.wrap_button import ButtonColumn, WrapButton
from piecewright_qt.shelf.fields import CheckField


@dataclass(frozen=True, slots=True, eq=False)
class StretchAndLump:
    """The open edges and the plan whose seams lie on each other."""

    stretch: Stretch
    plan: PressingPlan


class StretchSection(Section):
    """In words; `overlay_asked` asks for layers and waits on the block's picture."""

    overlay_asked = Signal(bool)

    def build(self) -> None:
        """The switch, the edges, the places where seams meet."""
        text = self.tr("Layers and open edges on the picture of the block")
        self.switch = CheckField(text, self.tr("Show the finished block in the place of the step"))
        self.switch.box.toggled.connect(self.overlay_asked)
        self.edges, self.lumps = Lines(), Lines()
        self.sooner = WrapButton(self.tr("Put the steps in that order"))
        self.sooner.clicked.connect(self._reorder)
        self.openings = ButtonColumn()
        self.found: StretchAndLump | None = None
        self.add(self.switch, self.edges, self.sooner, self.lumps, self.openings)

    def beside(self, question: Question) -> tuple[object, ...]:
        """The fabrics, where a seam is pressed toward the darker."""
        return (question.design.fabrics, question.design.shelf.blocks[question.block].fabrics)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """Both."""
        return partial(_both, question)

    def show_answer(self, _question: Question, answer: StretchAndLump) -> None:
        """Edges with the order that catches them soonest, then layers with what makes them fewer."""
        self.found = answer
        stretch = answer.stretch
        edges = [Line(self.said(sentence)) for sentence in stretch_sentences(stretch)]
        self.edges.show_lines([Line(self.tr("Open bias edges"), "strong"), *edges])
        lumps = [Line(self.said(sentence)) for sentence in bulge_sentences(answer.plan)]
        none = Line(self.tr("No seams meet inside the block."))
        self.lumps.show_lines([Line(self.tr("Layers where seams meet"), "strong"), *(lumps or [none])])
        self.sooner.setVisible(stretch.order.cost < stretch.given_cost)
        to_open = dict.fromkeys(bulge.step for bulge in bulges(answer.plan) if bulge.best == "opened")
        texts = ((self.tr("Press {seam} open").format(seam=step), step) for step in to_open)
        self.openings.show_buttons([(text, partial(self._open, step)) for text, step in texts])

    def _reorder(self) -> None:
        standing = self.bench.standing
        if standing is not None and self.found is not None:
            steps = [standing.steps[number] for number in self.found.stretch.order.steps]
            self.bench.change({**standing.plain, "steps": steps})

    def _open(self, step: str) -> None:
        standing, making = self.bench.standing, self.bench.making
        if standing is not None and making is not None:
            opened = Decision(step, None, "open", None)
            self.bench.change(with_presses(standing.plain, (opened,), making.outcomes))


def _both(question: Question) -> StretchAndLump:
    making = run(question.recipe, question.given)
    return StretchAndLump(stretch_of(making), plan_for(question))
