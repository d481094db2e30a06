"""The shopping list as rich text, for the screen and for paper: what is on hand first, then what to buy by its form."""

from collections.abc import Iterator
from dataclasses import dataclass
from html import escape
from itertools import groupby

from piecewright.cutting.table import DesignCutting
from piecewright.cutting.table_text import used_on_hand
from piecewright.plan.shopping import Line, Shopping
from piecewright.plan.shopping_text import amounts_said, bundle_said, form_said, item, taken_said
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.cutting_table.saying import capital, said
from piecewright_qt.materials.rows import money

_GAP = '<p style="font-size: small; margin: 0;">&nbsp;</p>'
_CHIP = "\N{FULL BLOCK}\N{FULL BLOCK}"


@dataclass(frozen=True)
class Inks:
    """Colors of words, small print, hairlines and links."""

    text: str
    soft: str
    line: str
    link: str


@dataclass(frozen=True)
class _Page:
    """What all parts of the page are written from."""

    shopping: Shopping
    cutting: DesignCutting
    measure: Measure
    inks: Inks
    opened: frozenset[str]
    links: bool

    @property
    def currency(self) -> str:
        """Of all prices."""
        return self.shopping.materials.settings.currency

    @property
    def widths(self) -> tuple[int, ...]:
        """Of the columns, percent: the same in every table of the page."""
        return (46, 24, 18, 12) if self.priced else (52, 28, 20)

    @property
    def priced(self) -> bool:
        """Whether anything has a price."""
        return self.shopping.total is not None


def shopping_html(
    shopping: Shopping,
    cutting: DesignCutting,
    measure: Measure,
    inks: Inks,
    size: str,
    *,
    opened: frozenset[str] = frozenset(),
    links: bool = True,
) -> str:
    """The page, its type of a `size` such as "13px"; amounts are links ("why:" and a key) unless it is for paper.

    `opened` are the keys of amounts that show their sum.
    """
    page = _Page(shopping, cutting, measure, inks, opened, links)
    made = shopping.materials
    title = message("plan.shopping-title", name=made.name, arrangement=made.arrangement).text(measure)
    body = "".join((*_on_hand(page), *_to_buy(page), *_foot(page)))
    return (
        f'<html><body style="font-family: Inter; font-size: {size}; color: {inks.text};">'
        f'<p style="font-weight: 600; font-size: x-large;">{escape(title)}</p>{body}</body></html>'
    )


def _on_hand(page: _Page) -> Iterator[str]:
    """What there is already and is used first: cloth of the fabrics' forms, strips of the stash."""
    lines = [
        (each.name.text(page.measure), sheets.text(page.measure))
        for each in page.cutting.fabrics
        for sheets in used_on_hand(each.plan)
    ]
    lines += [
        (item(page.shopping, line).text(page.measure), taken_said(taken).text(page.measure))
        for line in page.shopping.lines
        for taken in line.taken
    ]
    lines += [
        (item(page.shopping, line).text(page.measure), said("nothing to buy"))
        for line in page.shopping.lines
        if line.buy is not None and not line.buy
    ]
    if lines:
        yield _heading(said("First from what is on hand"))
        yield "<ul>"
        yield from (f"<li>{escape(capital(name))}: {escape(what)}</li>" for name, what in lines)
        yield "</ul>"


def _to_buy(page: _Page) -> Iterator[str]:
    """A table for each form, in the order that the forms come up."""
    wanted = [line for line in page.shopping.lines if line.buy is None or line.buy]
    forms = list(dict.fromkeys(line.form for line in wanted))
    ordered = sorted(wanted, key=lambda line: forms.index(line.form))
    for form, lines in groupby(ordered, key=lambda line: line.form):
        of_form = list(lines)
        title = capital(form_said(of_form[0]).text(page.measure))
        yield _heading(said("Batting") if form in ("package", "roll") else title)
        yield '<table width="100%" cellspacing="0" cellpadding="4">'
        yield _table_head(page)
        for line in of_form:
            yield from _line(page, line)
        yield f"</table>{_GAP}"


def _table_head(page: _Page) -> str:
    names = [said("What"), said("Buy"), said("Metric"), *([said("Price")] if page.priced else [])]
    style = f"color: {page.inks.soft}; font-weight: 400;"
    cells = (
        f'<th width="{page.widths[place]}%" align="{"left" if place == 0 else "right"}">'
        f'<span style="{style}">{escape(name)}</span></th>'
        for place, name in enumerate(names)
    )
    return f"<tr>{''.join(cells)}</tr>"


def _line(page: _Page, line: Line) -> Iterator[str]:
    amount, metric = amounts_said(line, page.shopping)
    key = line.fabric or line.form
    name = escape(capital(item(page.shopping, line).text(page.measure)))
    cells = [f"<td>{_chip(page, line)}{name}</td>", _right(_linked(page, key, amount))]
    cells.append(_right(escape(metric)))
    if page.priced:
        cells.append(_right("" if line.cost is None else escape(_price(page, line))))
    yield f"<tr>{''.join(cells)}</tr>"
    if key in page.opened:
        sum_of_it = escape(line.why.text(page.measure))
        style = f"color: {page.inks.soft};"
        yield f'<tr><td colspan="{len(cells)}"><span style="{style}">{sum_of_it}</span></td></tr>'


def _foot(page: _Page) -> Iterator[str]:
    """Bundles, and the price of all."""
    bundles = [bundle_said(bundle).text(page.measure) for bundle in page.shopping.bundles]
    yield from (f"<p>{escape(text)}</p>" for text in bundles)
    if page.shopping.total is not None:
        cost = f"{money(page.measure, page.shopping.total)} {page.currency}".rstrip()
        total = said("Together {cost}").format(cost=cost)
        yield f'<p align="right" style="font-weight: 600;">{escape(total)}</p>'
    missing = [line for line in page.shopping.lines if line.buy and line.by_length and line.cost is None]
    if page.priced and missing:
        one, many = said("1 line has no price yet."), said("{n} lines have no price yet.")
        text = one if len(missing) == 1 else many.format(n=len(missing))
        yield f'<p align="right" style="color: {page.inks.soft};">{escape(text)}</p>'


def _price(page: _Page, line: Line) -> str:
    return "" if line.cost is None else f"{money(page.measure, line.cost)} {page.currency}".rstrip()


def _chip(page: _Page, line: Line) -> str:
    """A bit of the fabric's color before its name."""
    fabrics = {each.id: each for each in page.shopping.materials.fabrics}
    fabric = fabrics.get(line.fabric)
    return "" if fabric is None else f'<span style="color: {fabric.color};">{_CHIP}</span>&nbsp; '


def _linked(page: _Page, key: str, text: str) -> str:
    inner = f"<b>{escape(text)}</b>"
    if not page.links:
        return inner
    style = f"color: {page.inks.link}; text-decoration: none;"
    return f'<a href="why:{escape(key, quote=True)}" style="{style}">{inner}</a>'


def _right(inner: str) -> str:
    return f'<td align="right">{inner}</td>'


def _heading(text: str) -> str:
    return f'<p style="font-weight: 600; margin-top: 6px; margin-bottom: 2px;">{escape(text)}</p>'
