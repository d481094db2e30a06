"""The shopping list to take along: as text, as a table for a spreadsheet, as JSON. Inches and meters side by side."""

import csv
from collections.abc import Iterator
from fractions import Fraction
from io import StringIO
from typing import Any

from piecewright.plan.materials import fabric_name
from piecewright.plan.shopping import Bundle, Line, Shopping
from piecewright.plan.stash_first import Taken
from piecewright.plan.text import aligned
from piecewright.units.measure import Measure
from piecewright.units.scale import METRE, YARD
from piecewright.words.message import Message, message

VERSION = 1
_INCHES, _METERS = Measure(), Measure("cm")
COLUMNS = ("item", "form", "buy", "buy_metric", "price", "from_stash", "why")
"""Of the table, in order."""


def shopping_text(shopping: Shopping, measure: Measure = _INCHES) -> str:
    """The list, columns aligned, ending with a line end."""
    made = shopping.materials
    head = message("plan.shopping-title", name=made.name, arrangement=made.arrangement)
    lines = [row for line in shopping.lines for row in _rows(shopping, line, measure)]
    lines += [(bundle_said(bundle).text(measure),) for bundle in shopping.bundles]
    if shopping.total is not None:
        total = message("plan.shopping-total", cost=float(shopping.total), currency=made.settings.currency)
        lines.append((total.text(measure),))
    return "\n".join([head.text(measure), *aligned(lines)]) + "\n"


def shopping_csv(shopping: Shopping, measure: Measure = _INCHES) -> str:
    """One row a line, the columns named in the first."""
    written = StringIO()
    table = csv.writer(written, lineterminator="\n")
    table.writerow(COLUMNS)
    for line in shopping.lines:
        amount, metric = amounts_said(line, shopping)
        taken = "; ".join(taken_said(each).text(measure) for each in line.taken)
        price = "" if line.cost is None else f"{float(line.cost):.2f}"
        form = form_said(line).text(measure)
        row = (item(shopping, line).text(measure), form, amount, metric, price, taken, line.why.text(measure))
        table.writerow([_harmless(text) for text in row])
    return written.getvalue()


def shopping_report(shopping: Shopping) -> dict[str, Any]:
    """JSON-able, fresh; lengths as text and as a decimal, in inches and in meters."""
    made = shopping.materials
    return {
        "shopping": VERSION,
        "name": made.name,
        "arrangement": made.arrangement,
        "currency": made.settings.currency,
        "lines": [_line_report(shopping, line) for line in shopping.lines],
        "bundles": [
            {"form": bundle.form, "at_least": bundle.count, "pieces": bundle.pieces}
            for bundle in shopping.bundles
        ],
        "total": None if shopping.total is None else float(shopping.total),
    }


def item(shopping: Shopping, line: Line) -> Message:
    """What to ask for: the fabric's name, or batting with its size."""
    if line.fabric:
        return fabric_name(shopping.materials, line.fabric)
    return message("plan.shopping-batting", size=shopping.materials.batting.size)


def form_said(line: Line) -> Message:
    """In which form a thing is bought."""
    return message(f"plan.form-{line.form.replace(' ', '-')}")


def amounts_said(line: Line, shopping: Shopping) -> tuple[str, str]:
    """How much to buy in yards and in meters; of what is counted, how many."""
    if line.buy is None:
        return message("plan.shopping-unknown").text(), ""
    if not line.buy:
        return message("plan.shopping-nothing").text(), ""
    if line.yardage is not None:
        return _INCHES.yards(line.yardage), _METERS.yards(line.yardage)
    package = shopping.materials.batting.package
    if line.form == "package" and package is not None:
        return (
            f"{package.name}, {_INCHES.size(package.width, package.height)}",
            Measure("cm", fraction=1).size(package.width, package.height),
        )
    return _INCHES.number(line.buy), ""


def _rows(shopping: Shopping, line: Line, measure: Measure) -> Iterator[tuple[str, ...]]:
    cost = (
        "" if line.cost is None else f"{float(line.cost):.2f} {shopping.materials.settings.currency}".rstrip()
    )
    amount, metric = amounts_said(line, shopping)
    yield item(shopping, line).text(measure), amount, metric, form_said(line).text(measure), cost
    for each in line.taken:
        yield "", taken_said(each).text(measure)


def bundle_said(bundle: Bundle) -> Message:
    """How many bundles hold the pieces of a form."""
    form = message(f"plan.form-{bundle.form.replace(' ', '-')}")
    return message("plan.shopping-bundles", count=bundle.count, pieces=bundle.pieces, form=form)


def taken_said(taken: Taken) -> Message:
    """What strips of the stash serve as."""
    part, _, number = taken.part.partition(" ")
    return message(
        "plan.shopping-taken",
        count=taken.count,
        width=taken.strip.width,
        length=taken.strip.length,
        part=message(f"plan.part-{part}", number=number),
    )


def _line_report(shopping: Shopping, line: Line) -> dict[str, Any]:
    amount, metric = amounts_said(line, shopping)
    return {
        "fabric": line.fabric if line.fabric and not line.fabric.startswith("?") else None,
        "item": str(item(shopping, line)),
        "form": line.form,
        "need": _length(line.need) if line.by_length else float(line.need),
        "buy": None if line.buy is None else _length(line.buy) if line.by_length else float(line.buy),
        "buy_text": amount,
        "buy_metric_text": metric,
        "yards": float(line.buy / YARD) if line.by_length and line.buy is not None else None,
        "meters": float(line.yardage.exact / METRE) if line.yardage is not None else None,
        "cost": None if line.cost is None else float(line.cost),
        "from_stash": [
            {
                "count": each.count,
                "width": _length(each.strip.width),
                "length": _length(each.strip.length),
                "part": each.part,
            }
            for each in line.taken
        ],
        "why": str(line.why),
    }


def _length(inches: Fraction) -> dict[str, Any]:
    return {"text": _INCHES.bare(inches), "inches": float(inches)}


def _harmless(text: str) -> str:
    """A cell that no spreadsheet takes for a formula: names come from files of others."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text
