"""The sizes table as columns of text, and as CSV for a spreadsheet (RFC 4180)."""

import csv
from collections.abc import Iterable, Iterator
from io import StringIO

from piecewright.making.facts import LaidStrip
from piecewright.plan.sizes_table import SetYield, SizeRow, SizesTable
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

_DEFAULT = Measure()
_GAP = "  "


def sizes_csv(table: SizesTable, measure: Measure = _DEFAULT) -> str:
    """A row of headings and a row a size; lengths without their unit, which the headings name."""
    out = StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([*_names(table, measure), *_words((*_SIDES, *_COLUMNS), measure)])
    writer.writerows(
        [*_sizes(row, measure), *_sides(row, measure), *_cells(row, measure)] for row in table.rows
    )
    return out.getvalue()


def sizes_text(table: SizesTable, measure: Measure = _DEFAULT) -> str:
    """What the table is of, its columns even, and why sizes are missing; ends with a line end."""
    cells = [
        [*_names(table, measure), *_words((*_BOTH_SIDES, *_COLUMNS), measure)],
        *([*_sizes(row, measure), *_both_sides(row, measure), *_cells(row, measure)] for row in table.rows),
    ]
    widths = [max(map(len, column)) for column in zip(*cells, strict=True)]
    lines = [
        _GAP.join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in cells
    ]
    head, rest = ([said.text(measure) for said in part] for part in (_about(table), table.missing))
    return "\n".join([*head, "", *lines, *([""] if rest else []), *rest]) + "\n"


def _about(table: SizesTable) -> Iterator[Message]:
    yield message("solve.table-name", name=table.name)
    yield message("solve.table-cloth", usable=table.usable, first=table.truing.first)
    if table.strip_width is not None:
        yield message("solve.table-fitted", width=table.strip_width)


def _names(table: SizesTable, measure: Measure) -> list[str]:
    """The names of the recipe's sizes as headings."""
    names = dict.fromkeys(name for row in table.rows for name in row.sizes)
    return [f"{name} ({measure.unit})" for name in names]


def _words(columns: Iterable[str], measure: Measure) -> list[str]:
    return [message(f"solve.column-{word}", unit=measure.unit).text(measure) for word in columns]


_SIDES = ("finished-width", "finished-height", "unfinished-width", "unfinished-height")
_BOTH_SIDES = ("finished", "unfinished")
_COLUMNS = ("strips", "cuts", "strips-per-set", "blocks-per-set", "left-over", "waste", "fitted")


def _sizes(row: SizeRow, measure: Measure) -> list[str]:
    return [measure.bare(size) for size in row.sizes.values()]


def _sides(row: SizeRow, measure: Measure) -> list[str]:
    sizes = (row.facts.finished, row.facts.unfinished)
    return [measure.bare(side) for size in sizes for side in (size.width, size.height)]


def _both_sides(row: SizeRow, measure: Measure) -> list[str]:
    width, height, raw_width, raw_height = _sides(row, measure)
    return [f"{width} x {height}", f"{raw_width} x {raw_height}"]


def _cells(row: SizeRow, measure: Measure) -> list[str]:
    cuts = (message("solve.table-cut", count=cut.count, width=cut.width) for cut in row.cuts)
    return [
        _listed(strips_alike(row.facts.strips), measure),
        _listed(cuts, measure),
        "; ".join(str(len(alike.lanes) * row.facts.stack) for alike in row.sets),
        "; ".join(measure.number(row.blocks_per_set(alike)) for alike in row.sets),
        "; ".join(_left_over(alike, measure) for alike in row.sets),
        measure.percent(row.waste) if row.possible else "",
        message("solve.table-yes").text(measure) if row.fitted else "",
    ]


def _listed(messages: Iterable[Message], measure: Measure) -> str:
    return "; ".join(said.text(measure) for said in messages)


def strips_alike(strips: Iterable[LaidStrip]) -> Iterator[Message]:
    """Strips of one width and length together, with the letters of their fabrics."""
    alike: dict[tuple[object, object], list[LaidStrip]] = {}
    for strip in strips:
        alike.setdefault((strip.width, strip.length), []).append(strip)
    for found in alike.values():
        letters = tuple(letter for strip in found for letter in [strip.fabric] * strip.count)
        yield message("solve.table-strip", letters=letters, width=found[0].width, length=found[0].length)


def _left_over(alike: SetYield, measure: Measure) -> str:
    if alike.short:
        return message("solve.table-short", short=alike.short).text(measure)
    return measure.bare(alike.left_over)
