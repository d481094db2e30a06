"""My seam: what the quilter's own seam makes of every step and of the block, and what to do about it."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from functools import partial
from typing import Any

from piecewright.edit.registry import EditCall, call
from piecewright.errors import PiecewrightError
from piecewright.making.my_seam import MySeam, my_seam
from piecewright.model.settings import PERFECT_STRIPS
from piecewright_qt.sewing_table.numbers.reckoner import Question
from piecewright_qt.sewing_table.numbers.section import Line, Lines, Section
from piecewright_qt.shelf.fields import LengthField

_MEASURED = (PERFECT_STRIPS, PERFECT_STRIPS - Fraction(1, 16), PERFECT_STRIPS - Fraction(1, 8))


class MySeamSection(Section):
    """Three strips sewn, as measured: a setting of the design. Below it the real sizes beside the nominal ones."""

    is_quick = False

    def build(self) -> None:
        """The field and what follows from it."""
        self.field = LengthField(self._label(), self.look.measure, _MEASURED)
        self.field.edited.connect(self._set)
        self.messages, self.steps = Lines(), Lines()
        self.add(self.field, self.messages, self.steps)

    def beside(self, question: Question) -> tuple[object, ...]:
        """The quilter's own seam."""
        return (question.design.settings.three_strips,)

    def reckon(self, question: Question) -> Callable[[], Any]:
        """The making with the real seam."""
        given = replace(question.given, lost=question.design.settings.lost_per_seam)
        return partial(my_seam, question.recipe, given)

    def show_answer(self, question: Question, answer: MySeam) -> None:
        """What to do, then size by size."""
        measured = question.design.settings.three_strips
        if not self.field.box.hasFocus():
            self.field.label.setText(self._label())
            self.field.show_measure(self.look.measure)
            self.field.show_value(measured)
        tone = "warn" if answer.fault is not None else ""
        self.messages.show_lines([Line(self.said(message), "", tone) for message in answer.messages])
        self.steps.show_lines(
            [Line(self.said(real.sentence), "small") for real in answer.steps] if answer.lost else []
        )

    def _label(self) -> str:
        strip, perfect = (self.look.measure.length(each) for each in (Fraction(5, 2), PERFECT_STRIPS))
        text = self.tr("Three strips, each cut {strip} wide, measure when sewn ({perfect} if perfect)")
        return text.format(strip=strip, perfect=perfect)

    def _set(self) -> None:
        document, value = self.bench.document, self.field.value
        if value is None or value == document.design.settings.three_strips:
            return
        changed = self._changed(value)
        if changed is None:
            return
        document.perform(changed, (self, "three-strips"))

    def _changed(self, value: Fraction) -> EditCall | None:
        """The edit of the settings; None where the settings refuse it, and that is said at the field."""
        document = self.bench.document
        try:
            settings = document.design.settings.changed(three_strips=value)
        except PiecewrightError as error:
            self.field.complain(self.said(error))
            return None
        return call("change-settings", settings=settings)
