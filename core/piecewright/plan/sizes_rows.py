"""A row of the sizes table in sentences: for where columns do not fit."""

from collections.abc import Iterator

from piecewright.plan.sizes_table import SetYield, SizeRow
from piecewright.plan.sizes_text import strips_alike
from piecewright.words.message import Message, message


def row_sentences(row: SizeRow) -> tuple[Message, ...]:
    """The finished size; then the unfinished one, strips, cuts, what a set gives and leaves, and the waste."""
    return tuple(_told(row))


def _told(row: SizeRow) -> Iterator[Message]:
    yield message("solve.row-fitted" if row.fitted else "solve.row-size", size=row.facts.finished)
    yield message("solve.row-size", size=row.facts.unfinished)
    yield message("solve.row-strips", strips=tuple(strips_alike(row.facts.strips)))
    if row.cuts:
        cuts = (message("solve.table-cut", count=cut.count, width=cut.width) for cut in row.cuts)
        yield message("solve.row-cuts", cuts=tuple(cuts))
    for alike in row.sets:
        yield _yield(row, alike)
    if row.possible:
        yield message("solve.row-waste", waste=row.waste)


def _yield(row: SizeRow, alike: SetYield) -> Message:
    if alike.short:
        return message("solve.row-short", short=alike.short, usable=row.given.usable)
    return message(
        "solve.row-yield",
        blocks=row.blocks_per_set(alike),
        strips=len(alike.lanes) * row.facts.stack,
        left=alike.left_over,
    )
