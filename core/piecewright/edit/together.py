"""Several edits as one: a change that takes more than one of them is one step to do and to undo."""

from typing import Literal

from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Arguments, EditCall, apply, edit, undo_text
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.words.message import Message, message

MOST_TOGETHER = 100


def _named(arguments: Arguments) -> Message:
    """What the undo list says: the purpose where there is one, else the first edit and how many more."""
    edits: tuple[EditCall, ...] = arguments["edits"]
    if arguments["purpose"] == "resize":
        return message("edit.undo-resize")
    if not edits or edits[0].name == _NAME:
        return message("edit.undo-changes")
    first = undo_text(edits[0])
    return first if len(edits) == 1 else message("edit.undo-together", first=first, more=len(edits) - 1)


_NAME = "do-together"


@edit(_NAME, undo=_named)
def do_together(
    design: Design,
    *,
    edits: tuple[EditCall, ...],
    purpose: Literal["changes", "resize"] = "changes",  # noqa: ARG001 - read by the undo text
) -> Design:
    """Do edits one after the other: all of them or none.

    Raises EditError as the first does that is refused, with its place where its arguments do not fit; and where one
    of the edits is itself several.
    """
    if len(edits) > MOST_TOGETHER:
        refuse("too-many-together", count=len(edits), most=MOST_TOGETHER)
    for number, one in enumerate(edits):
        if one.name == _NAME:
            refuse("together-in-together", number=number + 1)
        try:
            design = apply(design, one)
        except EditError as fault:
            where = f"edits[{number}] {fault.where}" if fault.where else ""
            raise EditError(fault.message, fault.hint, where) from fault
    return design
