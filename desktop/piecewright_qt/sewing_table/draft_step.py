"""A change that leaves a recipe unsound for now, as a step of the undo stack."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING
from weakref import ref

from PySide6.QtGui import QUndoCommand

from piecewright.files.journal import DraftRecord
from piecewright.making.draft import Draft

if TYPE_CHECKING:
    from piecewright_qt.sewing_table.bench import Bench

_MERGING = 2


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft of a recipe, as one step of the undo stack left it; `fabrics` are those of letters new in it."""

    recipe: str
    draft: Draft
    fabrics: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))

    @property
    def record(self) -> DraftRecord:
        """As the journal notes it."""
        return DraftRecord(self.recipe, self.draft.text, dict(self.fabrics))


class DraftStep(QUndoCommand):
    """It lies on the undo stack, and the bench finds it there; steps of one gesture merge."""

    def __init__(self, bench: "Bench", drafted: Drafted, text: str, gesture: object | None = None) -> None:
        super().__init__(text)
        self._bench = ref(bench)  # the stack may outlive the table, and must not keep it
        self.drafted = drafted
        self.gesture = gesture

    def id(self) -> int:
        """One id for all drafts: whether two merge is for the gesture to say."""
        return _MERGING

    def mergeWith(self, other: QUndoCommand) -> bool:  # noqa: N802 - Qt's name
        """Take a later draft of the same gesture into this one."""
        if not isinstance(other, DraftStep) or self.gesture is None or other.gesture != self.gesture:
            return False
        bench = self._bench()
        self.drafted = other.drafted
        if bench is not None:
            bench.note_merged(self.drafted)
        return True

    def redo(self) -> None:
        """Show the draft, where its recipe is in hand."""
        self._tell(done=True)

    def undo(self) -> None:
        """Show what stood before it."""
        self._tell(done=False)

    def _tell(self, *, done: bool) -> None:
        bench = self._bench()
        if bench is not None:
            bench.follow_draft(self.drafted, done=done)
