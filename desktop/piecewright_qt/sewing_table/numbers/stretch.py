"""Stretch and lump: how long bias edges lie open, how thick the cloth gets, and the order that keeps both least."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import Signal

from piecewright.making.pressing_plan import PressingPlan, plan_of
from piecewright.making.pressing_words import bulge_sentences
from piecewright.making.run import run
from piecewright.making.stretch import Stretch, stretch_of, stretch_sentences
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
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
        self.add(self.switch, self.edges, self.lumps)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """Both."""
        return partial(_both, question)

    def show_answer(self, _question: Question, answer: StretchAndLump) -> None:
        """Edges, then layers."""
        edges = [Line(self.said(sentence)) for sentence in stretch_sentences(answer.stretch)]
        self.edges.show_lines([Line(self.tr("Open bias edges"), "strong"), *edges])
        lumps = [Line(self.said(sentence)) for sentence in bulge_sentences(answer.plan)]
        none = Line(self.tr("No seams meet inside the block."))
        self.lumps.show_lines([Line(self.tr("Layers where seams meet"), "strong"), *(lumps or [none])])


def _both(question: Question) -> StretchAndLump:
    making = run(question.recipe, question.given)
    return StretchAndLump(stretch_of(making), plan_of(question.recipe, question.given))
