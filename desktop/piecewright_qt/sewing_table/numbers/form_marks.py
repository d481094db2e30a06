"""How much each number of the step in view matters, beside its field, while the marks are asked for."""

from collections.abc import Mapping

from PySide6.QtCore import QObject

from piecewright.making.matters import Matter
from piecewright.making.nudging import Spot
from piecewright.making.verbs.verb import Place
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.matters import MattersSection
from piecewright_qt.sewing_table.step_form import StepForm


class FormMarks(QObject):
    """Hands the marks of the section to the form, step by step; marks of a recipe that has changed are dropped."""

    def __init__(self, bench: Bench, section: MattersSection, form: StepForm) -> None:
        super().__init__(form)
        self._bench, self._section, self._form = bench, section, form
        self._found: Mapping[Spot, Matter] = {}
        self._of: object = None
        section.marked.connect(self._take)
        section.opened.connect(lambda _open: self._show())
        bench.changed.connect(self._show)
        bench.stepped.connect(self._show)

    def _take(self, found: Mapping[Spot, Matter]) -> None:
        self._found, self._of = found, self._bench.draft
        self._show()

    def _show(self) -> None:
        stands = self._section.is_open and self._of == self._bench.draft
        marks: dict[str, list[str]] = {}
        for spot, matter in self._found.items() if stands else ():
            if isinstance(spot, Place) and spot.step == self._bench.step:
                marks.setdefault(spot.key, []).append(self._section.mark_of(matter))
        self._form.show_marks({key: ", ".join(dict.fromkeys(said)) for key, said in marks.items()})
