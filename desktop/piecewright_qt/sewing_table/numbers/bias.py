"""Edges off the thread with what to do about them, and the thread of each laid strip, which decides over them."""

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtWidgets import QLabel

from piecewright.making.bias_care import BiasCare, bias_care
from piecewright.making.draft import replace_step
from piecewright.making.run import facts
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section

_USUAL = "crosswise"


class BiasSection(Section):
    """What to do, edge by edge; under it a choice of the thread for every strip that is laid."""

    def build(self) -> None:
        """The edges and the strips."""
        self.edges = Lines()
        head = QLabel(self.tr("Thread of the strips"))
        head.setProperty("type", "strong")
        self.grains: list[ChoiceField] = []
        self._steps: list[int] = []
        self.add(self.edges, head)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The edges of a finished block."""
        return lambda: bias_care(facts(question.recipe, question.given))

    def show_answer(self, question: Question, answer: tuple[BiasCare, ...]) -> None:
        """Edges that stretch first."""
        lines = [Line(self._said(each), "" if each.care else "small") for each in answer]
        none = Line(self.tr("✓ All edges run with the thread."), "", "good")
        self.edges.show_lines(lines or [none])
        self._show_grains(question)

    def _said(self, each: BiasCare) -> str:
        sign = "⚠ " if each.outer and each.care else ""
        return f"{sign}{self.said(each.sentence)}"

    def _show_grains(self, question: Question) -> None:
        laid = [(at, step) for at, step in enumerate(question.recipe.plain["steps"]) if "lay" in step]
        while len(self.grains) < len(laid):
            field = ChoiceField("")
            field.edited.connect(partial(self._set, len(self.grains)))
            self.grains.append(field)
            self.add(field)
        self._steps = [at for at, _ in laid]
        choices: list[tuple[object, str]] = [
            ("crosswise", self.tr("crosswise")),
            ("lengthwise", self.tr("lengthwise")),
            ("bias", self.tr("on the bias")),
        ]
        for number, field in enumerate(self.grains):
            field.setVisible(number < len(laid))
            if number < len(laid):
                at, step = laid[number]
                name = self.tr("{number}. Strip {piece} of fabric {letter}").format(
                    number=at + 1, piece=step["make"], letter=step["lay"]["fabric"]
                )
                field.label.setText(name)
                field.box.setAccessibleName(name)
                field.box.setToolTip(name)
                field.show_choices(choices, step["lay"].get("grain", _USUAL))

    def _set(self, number: int) -> None:
        standing = self.bench.standing
        if standing is None:
            return
        at, grain = self._steps[number], self.grains[number].value
        step = standing.steps[at]
        if step["lay"].get("grain", _USUAL) != grain:
            self.bench.change(
                replace_step(standing.plain, at, {**step, "lay": {**step["lay"], "grain": grain}})
            )
