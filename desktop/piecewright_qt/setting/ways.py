"""The ways blocks can be set, as they are offered: words, and the edit that sets them so."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QCoreApplication

from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import Cell, EditCall, apply, call
from piecewright.edit.spaces import moves_text
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.words.message import Message


@dataclass(frozen=True)
class Asked:
    """What besides the quilt a way goes by: the fabric of plain blocks, the selected cells, where short columns lie."""

    plain: str | None
    selected: tuple[Cell, ...] = ()
    short: Literal["top", "middle", "spread"] = "spread"


@dataclass(frozen=True)
class Way:
    """One way: its name, a line about it, and the edit for a design; None where there is nothing to set."""

    name: str
    words: str
    edit: Callable[[Design, Asked], EditCall | None]


@dataclass(frozen=True)
class Tried:
    """What became of a way: the design it gives and what had to move, or why it can not be done."""

    call: EditCall | None
    design: Design | None
    moves: Message | None
    refusal: EditError | None = None


def say(text: str) -> str:
    """A text of the drawer in the user's language."""
    return QCoreApplication.translate("setting", text)


def ways() -> tuple[Way, ...]:
    """All of them, in the order they are offered."""
    return (
        Way(
            say("Straight"),
            say("Blocks side by side"),
            lambda _design, _asked: call("change-setting", kind="straight"),
        ),
        Way(
            say("On point"),
            say("Blocks on a corner, triangles at the edge"),
            lambda _design, _asked: call("change-setting", kind="on point"),
        ),
        Way(
            say("Alternate turns"),
            say("Every other block turned"),
            lambda design, _asked: call("alternate-turns") if design.quilt.rows else None,
        ),
        Way(say("Plain blocks between"), say("Every other block plain"), _plain),
        Way(
            say("Columns"),
            say("Each column closed up by itself"),
            _columns,
        ),
        Way(say("Medallion"), say("One block in the middle, the others in rounds"), _medallion),
    )


def tried(design: Design, way: Way, asked: Asked) -> Tried:
    """Set a design in a way, without a window: for any thread."""
    wanted = way.edit(design, asked)
    if wanted is None:
        return Tried(None, None, None)
    try:
        after = apply(design, wanted)
    except EditError as refusal:
        return Tried(wanted, None, None, refusal)
    return Tried(wanted, after, moves_text(design, after))


def _plain(design: Design, asked: Asked) -> EditCall | None:
    if asked.plain is None or not design.quilt.rows:
        return None
    return call("alternate-plain", fabric=asked.plain)


def _columns(design: Design, asked: Asked) -> EditCall | None:
    """Columns as narrow as the widest block, or so much wider that no block reaches over two of them."""
    quilt = design.quilt
    if not quilt.rows:
        return None
    laid = all_laid(design, quilt)
    least = max(one.columns for one in laid)
    apart = (
        width
        for width in range(least, quilt.lattice.across)
        if all(one.column // width == (one.column + one.columns - 1) // width for one in laid)
    )
    return call("stack-columns", width=next(apart, least), at=asked.short)


def _medallion(design: Design, asked: Asked) -> EditCall | None:
    """Round the selected block, or else round the one nearest the middle, of those the largest."""
    if asked.selected:
        return call("lay-medallion", cell=asked.selected[0])
    quilt = design.quilt
    laid = all_laid(design, quilt)
    if not laid:
        return None
    across, down = quilt.lattice.across, quilt.lattice.down
    chosen = min(
        laid,
        key=lambda one: (
            abs(2 * one.column + one.columns - across) + abs(2 * one.row + one.rows - down),
            -one.columns * one.rows,
        ),
    )
    return call("lay-medallion", cell=Cell(chosen.column, chosen.row))
