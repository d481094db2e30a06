"""What lies on the Cutting table: the plan of every fabric, at once as it stands and better when a search has ended."""

from dataclasses import replace

from PySide6.QtCore import QObject, Signal

from piecewright.cutting.table import (
    Choice,
    DesignCutting,
    FabricCutting,
    StopToken,
    TableProgress,
    best_cutting,
    cutting_plan,
)
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.faults import log
from piecewright_qt.runner import Job, Progress, Runner

_SEARCH = "best cutting"
_PARTS = 100
SEARCHED: frozenset[Choice] = frozenset(("best", "any-order"))
"""Choices that a search has to find."""


class CuttingWork(QObject):
    """The cutting of the design in view, live while `is_open`.

    `planned` follows every new plan, `fabric_chosen` another fabric, `progressed` the search. What a search has
    found is kept: fabrics whose question is the same are not searched again.
    """

    planned = Signal()
    fabric_chosen = Signal()
    progressed = Signal()

    def __init__(self, document: Document, runner: Runner | None) -> None:
        super().__init__()
        self._document = document
        self._runner = runner
        self._stop: StopToken | None = None
        self._found: DesignCutting | None = None
        self._waiting = True
        self._left_early = self._is_cut_short = False
        self.is_open = False
        self.is_behind = False
        self.choice: Choice = "best"
        self.fabric = ""
        self.level = self.table = _nothing_to_cut(document.design)
        self.share = 0.0
        """How much of a search is done, from 0 to 1."""
        document.changed.connect(lambda _before, _after: self._follow())
        document.previewed.connect(lambda _design: self._follow())

    @property
    def design(self) -> Design:
        """The design that is cut, with what is being tried out."""
        return self._document.shown

    @property
    def found(self) -> DesignCutting | None:
        """What the last search has found."""
        return self._found

    @property
    def is_searching(self) -> bool:
        """Whether a better plan is being looked for."""
        return self._stop is not None

    @property
    def was_stopped(self) -> bool:
        """Whether the last search for what is shown was stopped before its end."""
        return self._is_cut_short and self.is_searched

    @property
    def is_searched(self) -> bool:
        """Whether the best plan for what is shown is known."""
        return self._found is not None and self._found.materials is self.level.materials

    @property
    def chosen(self) -> FabricCutting | None:
        """The cutting of the fabric in view."""
        return self.table.of(self.fabric)

    def open(self) -> None:
        """The table is in view: plan, and follow every edit from now on."""
        self.is_open = True
        if self._waiting:
            self._follow()
        elif self._left_early:
            self.search_again()
        self._left_early = False

    def close(self) -> None:
        """Out of view: edits are not followed, searches end."""
        self.is_open = False
        self._left_early = self.is_searching
        self.stop()

    def choose(self, choice: Choice) -> None:
        """Cut by another plan."""
        if choice != self.choice:
            self.choice = choice
            self._show()
            self._search()

    def choose_fabric(self, fabric: str) -> None:
        """Look at another fabric."""
        if fabric != self.fabric and self.table.of(fabric) is not None:
            self.fabric = fabric
            self.fabric_chosen.emit()

    def stop(self) -> None:
        """End the search with the best it has."""
        if self._stop is not None:
            self._stop.stop()

    def search_again(self) -> None:
        """Look for better plans once more, after a stop."""
        self._search(again=True)

    # Following --------------------------------------------------------------------------------------------------

    def _follow(self) -> None:
        if not self.is_open:
            self._waiting = True
            return
        self._waiting = False
        try:
            self.level = cutting_plan(self.design)
        except Exception:  # noqa: BLE001 - a plan that is behind must never stop the work
            log.exception("no cutting for this design")
            self.is_behind = True
        else:
            self.is_behind = False
        self._show()
        self._search()

    def _show(self) -> None:
        self.table = self._of_choice()
        known = [each.fabric for each in self.table.fabrics]
        if self.fabric not in known:
            self.fabric = known[0] if known else ""
        self.planned.emit()

    def _of_choice(self) -> DesignCutting:
        if self.choice == "plain" and not self.is_behind:
            return cutting_plan(self.design, "plain")
        if self.choice in SEARCHED and self._found is not None and self.is_searched:
            return replace(self._found, choice=self.choice)
        return self.level

    def _search(self, *, again: bool = False) -> None:
        """Look for the best, where that is chosen and not known; the newest question wins."""
        if self._runner is None or self.choice not in SEARCHED or (self.is_searched and not again):
            return
        start, known, stop = self.level, self._found, StopToken()
        self._stop, self.share = stop, 0.0

        def work(job: Job) -> DesignCutting:
            def cancelled() -> bool:
                return stop() or job.is_given_up

            return best_cutting(start, report=_Report(job.report), cancelled=cancelled, known=known)

        self._runner.run((_SEARCH, id(self)), work, self._finish, self._tell)
        self.progressed.emit()

    def _tell(self, done: int, whole: int) -> None:
        self.share = done / whole if whole else 1.0
        self.progressed.emit()

    def _finish(self, found: DesignCutting) -> None:
        self._is_cut_short = self._stop is not None and self._stop()
        self._stop = None
        self._found = found
        self.share = 1.0
        if self.is_open:
            self._show()
        self.progressed.emit()


class _Report:
    """Progress of the table as parts of a whole."""

    def __init__(self, report: Progress) -> None:
        self._report = report

    def __call__(self, progress: TableProgress) -> None:
        at = progress.at
        inside = int(_PARTS * at.turn / at.turns) if at is not None and at.turns else 0
        self._report(progress.done * _PARTS + inside, max(1, progress.fabrics * _PARTS))


def _nothing_to_cut(design: Design) -> DesignCutting:
    return cutting_plan(Design(design.name))
