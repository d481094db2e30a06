"""The cutting of a design as text with boxes to tick, and as a plain table."""

import csv
from collections.abc import Iterator
from fractions import Fraction
from io import StringIO

from piecewright.cutting.any_order import cuts_said
from piecewright.cutting.cutting_list import Line, cutting_list, plain_table
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.sheets import Sheet
from piecewright.cutting.table import DesignCutting, FabricCutting
from piecewright.cutting.telling import findings, in_short, sheets_said, takes
from piecewright.cutting.truing import is_trued
from piecewright.units.measure import Measure
from piecewright.units.sizes import Cut
from piecewright.words.message import Arg, Message, message

BOX = "[ ]"
_COLUMNS = ("fabric", "form", "strips", "height", "width", "length", "count", "for")


def cutting_text(table: DesignCutting, measure: Measure) -> str:
    """Fabric by fabric, one setting of the ruler at a time; what is worth keeping at the end of each."""
    title = message("cutting.title", name=table.materials.name).text(measure)
    parts = [title, "=" * len(title), ""]
    for each in table.fabrics:
        parts += [*_fabric(each, table.rounding, measure, any_order=table.choice == "any-order"), ""]
    if not table.fabrics:
        parts += [message("cutting.nothing-to-cut").text(measure), ""]
    return "\n".join(parts)


def cutting_csv(table: DesignCutting, measure: Measure) -> str:
    """A row for each sub-cut of each strip, lengths bare in the measure's unit; commas part the columns."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([message(f"cutting.column-{column}").text(measure) for column in _COLUMNS])
    for each in table.fabrics:
        writer.writerows(_rows(each, measure))
    return out.getvalue()


def piece_names(plan: CuttingPlan, pieces: tuple[tuple[str, int], ...]) -> tuple[Message | str, ...]:
    """What each of some pieces is for, alike names told once, with their counts."""
    cut = plan.pieces_cut
    counts: dict[str | Message, int] = {}
    for key, count in pieces:
        label = cut[key].label
        counts[label] = counts.get(label, 0) + count
    return tuple(message("cutting.times", count=count, name=label) for label, count in counts.items())


def range_said(each: FabricCutting) -> Message | None:
    """What measuring strips of unlike length may save; None where their lengths make no difference."""
    less = each.plan.amount - each.least_amount
    if less <= 0:
        return None
    if each.plan.job.sheet.length is None:
        return message("cutting.range", least=less)
    return message("cutting.range-sheets", sheets=sheets_said(each.plan.job.sheet, int(less)))


def used_on_hand(plan: CuttingPlan) -> tuple[Message, ...]:
    """The cloth on hand that a plan cuts, by kind."""
    counts: dict[Sheet, int] = {}
    for laid in plan.laid:
        if laid.source is not None:
            counts[laid.sheet] = counts.get(laid.sheet, 0) + laid.count
    return tuple(sheets_said(sheet, count) for sheet, count in counts.items())


def remarks(each: FabricCutting, rounding: str) -> tuple[Message, ...]:
    """What is to be said of a fabric's plan, most important first."""
    plan = each.plan
    held, open_length = used_on_hand(plan), range_said(each)
    return (
        takes(plan, rounding),
        *((message("cutting.on-hand-first", sheets=held),) if held else ()),
        in_short(plan, each.plain),
        *((open_length,) if open_length else ()),
        *_truing_said(plan),
        *_second_said(each),
        *(finding.message for finding in findings(plan)),
    )


def _second_said(each: FabricCutting) -> Iterator[Message]:
    if each.second is not None:
        saved = each.plan.amount - each.second.amount
        yield message("cutting.second", inches=each.second.amount, saved=saved)


def _truing_said(plan: CuttingPlan) -> Iterator[Message]:
    truing = plan.job.truing
    if truing is not None and any(
        is_trued(plan.job, laid, strip) for laid in plan.laid for strip in laid.strips
    ):
        yield message("cutting.true-ends", first=truing.first, again=truing.again, every=truing.every)


def _fabric(each: FabricCutting, rounding: str, measure: Measure, *, any_order: bool) -> Iterator[str]:
    plan = each.plan
    yield each.name.text(measure)
    for said in remarks(each, rounding):
        yield f"  {said.text(measure)}"
    if any_order and each.second is not None:
        yield from ("", "  " + message("cutting.order-title").text(measure))
        yield from (f"    {BOX} {said.text(measure)}" for said in cuts_said(each.second))
        return
    for setting in cutting_list(plan):
        yield ""
        yield "  " + message(f"cutting.setting-{setting.stage}", ruler=setting.ruler).text(measure)
        for line in setting.lines:
            yield f"    {BOX} {_line(plan, line, measure)}"
    kept = left_overs(plan)
    if kept:
        yield ""
        yield "  " + message("cutting.left-overs").text(measure)
        for left in kept:
            size = Cut(left.width, left.height)
            yield f"    {BOX} " + message("cutting.left-over", count=left.count, size=size).text(measure)


def _line(plan: CuttingPlan, line: Line, measure: Measure) -> str:
    said = line.said.text(measure)
    if not line.keys:
        return said
    names: tuple[Arg, ...] = piece_names(plan, line.keys)
    return f"{said}, {message('cutting.for', names=names).text(measure)}"


def _rows(each: FabricCutting, measure: Measure) -> Iterator[list[str]]:
    def bare(length: Fraction) -> str:
        return measure.bare(length)

    for row in plain_table(each.plan):
        names = "; ".join(_said(name, measure) for name in piece_names(each.plan, row.pieces))
        yield [
            each.name.text(measure),
            _form(row.sheet, row.sheets, measure),
            str(row.strips),
            bare(row.height),
            bare(row.width),
            bare(row.length),
            str(sum(count for _, count in row.pieces)),
            names,
        ]


def _form(sheet: Sheet, count: int, measure: Measure) -> str:
    said = message("cutting.off-the-bolt") if sheet.length is None else sheets_said(sheet, count)
    return said.text(measure)


def _said(name: str | Message, measure: Measure) -> str:
    return name if isinstance(name, str) else name.text(measure)
