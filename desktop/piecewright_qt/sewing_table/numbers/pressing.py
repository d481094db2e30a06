"""The pressing plan: a way for every seam, what clashes and the way out, inside the block and against its neighbors."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from PySide6.QtCore import Signal

from piecewright.errors import Finding
from piecewright.making.press_steps import opening, with_presses
from piecewright.making.pressing_plan import PlannedSeam, PressingPlan
from piecewright.making.pressing_words import (
    Decision,
    press_decisions,
    pressing_findings,
    pressing_sentences,
)
from piecewright.plan.pressing import quilt_pressing
from piecewright.plan.pressing_of_block import NeighborPressing, neighbor_pressing
from piecewright_qt.sewing_table.numbers.plans import plan_for
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
from piecewright_qt.sewing_table.numbers.wrap_button import ButtonColumn, WrapButton
from piecewright_qt.shelf.fields import CheckField


@dataclass(frozen=True, slots=True, eq=False)
class Pressed:
    """The plan, and how it meets the neighbors in the quilt."""

    plan: PressingPlan
    neighbors: NeighborPressing


class PressingSection(Section):
    """In words, with a button a clash; `overlay_asked` asks for arrows on the block's picture."""

    overlay_asked = Signal(bool)
    is_quick = False

    def build(self) -> None:
        """The switch, the plan, the ways out, the neighbors."""
        text = self.tr("Arrows on the picture of the block")
        self.switch = CheckField(text, self.tr("Show the finished block in the place of the step"))
        self.switch.box.toggled.connect(self.overlay_asked)
        self.plan_lines, self.quilt_lines, self.refused = Lines(), Lines(), Lines()
        self.clashes, self.ways_out = Lines(), ButtonColumn()
        self.write = WrapButton(self.tr("Write the plan into the steps"))
        self.write.clicked.connect(self._write_plan)
        self.found: Pressed | None = None
        self.add(self.switch, self.plan_lines, self.clashes, self.ways_out)
        self.add(self.write, self.refused, self.quilt_lines)

    def beside(self, question: Question) -> tuple[object, ...]:
        """The whole quilt, for its joins; and the fabrics, where a seam is pressed toward the darker."""
        return (question.design,)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The plan of the block, and that of the quilt."""
        return partial(_pressed, question)

    def show_answer(self, _question: Question, answer: Pressed) -> None:
        """Decisions first, then how it comes out, then the joins."""
        self.found = answer
        plan = answer.plan
        *decisions, summary = pressing_sentences(plan)
        tone = "warn" if plan.clashes else "good"
        sign = "⚠ " if plan.clashes else "✓ "
        lines = [Line(f"{sign}{self.said(summary)}", "strong", tone if plan.crossings else "")]
        lines += [Line(self.said(decision)) for decision in decisions]
        self.plan_lines.show_lines(lines)
        self._show_ways_out(pressing_findings(plan), plan.press_open)
        self.write.setVisible(any(not seam.fixed for seam in plan.seams))
        self.refused.show_lines([])
        self.quilt_lines.show_lines(self._beside_neighbors(answer.neighbors))

    def _beside_neighbors(self, found: NeighborPressing) -> list[Line]:
        head = Line(self.tr("Against its neighbors in the quilt"), "strong")
        tone = "warn" if found.clashes else ""
        return [head, *(Line(self.said(sentence), "small", tone) for sentence in found.sentences)]

    def _show_ways_out(self, findings: tuple[Finding, ...], to_open: tuple[PlannedSeam, ...]) -> None:
        self.clashes.show_lines([Line(f"⚠ {self.said(finding.message)}", "", "warn") for finding in findings])
        by_name: dict[str, list[PlannedSeam]] = {}
        for planned in to_open:
            by_name.setdefault(planned.name, []).append(planned)
        self.ways_out.show_buttons(
            [
                (self.tr("Press {seam} open").format(seam=name), partial(self._open, tuple(seams)))
                for name, seams in by_name.items()
            ]
        )

    def _open(self, seams: tuple[PlannedSeam, ...]) -> None:
        making = self.bench.making
        if making is not None:
            self._decide(opening(seams, making.recipe.stack))

    def _write_plan(self) -> None:
        if self.found is not None:
            self._decide(press_decisions(self.found.plan))

    def _decide(self, decisions: tuple[Decision, ...]) -> None:
        """One undo step; what no step can say, because a recipe that is used sews it, is said instead."""
        standing, making = self.bench.standing, self.bench.making
        if standing is None or making is None or self.is_behind:
            return
        after = with_presses(standing.plain, decisions, making.outcomes)
        if after == standing.plain:
            used = self.tr("A recipe that is used here sews these seams: press them in that recipe.")
            self.refused.show_lines([Line(used, "small", "warn")])
        else:
            self.bench.change(after)


def _pressed(question: Question) -> Pressed:
    quilt = quilt_pressing(question.design)
    return Pressed(plan_for(question), neighbor_pressing(question.design, question.block, quilt))
