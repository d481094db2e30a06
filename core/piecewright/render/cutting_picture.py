"""The cutting of a design as pages of drawings to scale: every fabric, every sheet, long yardage continued."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.cutting.any_order import AnyOrderPlan
from piecewright.cutting.placed import PlacedSheet, placed_sheets
from piecewright.cutting.table import DesignCutting, FabricCutting
from piecewright.cutting.telling import sheets_said, takes
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.plan.packing import Truing
from piecewright.render.cloth import stand_in
from piecewright.render.cutting_cloth import View, draw_sheet
from piecewright.render.layout import Draw, below, beside, room
from piecewright.render.pen import Pen
from piecewright.render.recording_pen import record, replay
from piecewright.render.style import GAP, SMALL, STRONG
from piecewright.render.svg_pen import svg_picture
from piecewright.render.typeface import text_width
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

EXACT = Measure()
WIDTH, HEIGHT = 8.2, 9.8
"""The most that a page takes, inches of paper."""
_SCALE = 1 / 7
_SMALL_SCALE = 1 / 4
_SMALL = 13  # inches of cloth: squares are drawn larger
_OVER = 0.95  # what title, dimension, fold's word and legend take of a figure's height
_MARGIN = 0.3
_LEAST_STRIP, _LEAST_SCALE = 0.28, 1 / 20


@dataclass(frozen=True)
class Figure:
    """One drawing of a fabric: its id, what it shows, the drawing in inches of paper and what that takes."""

    fabric: str
    title: str
    draw: Draw

    @property
    def height(self) -> float:
        """Inches of paper."""
        return room(self.draw).height


def cutting_figures(
    each: FabricCutting,
    table: DesignCutting,
    fabric: Fabric | None,
    measure: Measure = EXACT,
    *,
    left_handed: bool = False,
    height: float = HEIGHT,
) -> tuple[Figure, ...]:
    """The drawings of one fabric's plan, none higher than `height` inches of paper.

    `left_handed` mirrors the cloth, never its words.
    """
    figures: list[Figure] = []
    for sheet in sheets_of(each, table):
        scale = _scale(sheet, height)
        whole = view_of(sheet, each, table, fabric, scale, measure, left_handed=left_handed)
        for top, bottom in _windows(sheet, Fraction((height - _OVER) / scale)):
            view = replace(whole, top=top, bottom=bottom)
            figures.append(figure_of(each, view, table))
    return tuple(figures)


def sheets_of(each: FabricCutting, table: DesignCutting) -> tuple[PlacedSheet, ...]:
    """The sheets of a fabric by the choice of the table: every one that is cut, those alike once."""
    plan = table.shown(each)
    return (plan.sheet,) if isinstance(plan, AnyOrderPlan) else placed_sheets(plan)


def view_of(
    sheet: PlacedSheet,
    each: FabricCutting,
    table: DesignCutting,
    fabric: Fabric | None,
    scale: float,
    measure: Measure = EXACT,
    *,
    left_handed: bool = False,
) -> View:
    """A sheet from end to end, `scale` inches of paper to the inch of cloth."""
    settings = table.materials.settings
    truing = Truing(settings.trim_first, settings.trim_again, settings.trim_every)
    return View(
        sheet,
        fabric or stand_in("A"),
        each.plan.pieces_cut,
        each.plan.job.keep,
        truing,
        scale,
        Fraction(0),
        sheet.outline.height,
        measure,
        left_handed,
    )


def cutting_pages(
    table: DesignCutting,
    design: Design,
    measure: Measure = EXACT,
    *,
    left_handed: bool = False,
    height: float = HEIGHT,
) -> tuple[Draw, ...]:
    """Pages of figures below each other, each at most `height` inches of paper high."""
    known = design.shelf.fabrics
    figures = [
        figure
        for each in table.fabrics
        for figure in cutting_figures(
            each, table, known.get(each.fabric), measure, left_handed=left_handed, height=height
        )
    ]
    return tuple(below(page, 2 * GAP) for page in _pages(figures, height))


def cutting_pictures(
    table: DesignCutting, design: Design, measure: Measure = EXACT, *, left_handed: bool = False
) -> tuple[str, ...]:
    """The pages as SVG files at their size on paper."""
    title = message("cutting.title", name=design.name).text(measure)
    pages = cutting_pages(table, design, measure, left_handed=left_handed)
    return tuple(svg_picture(page, margin=_MARGIN, title=title) for page in pages)


def _scale(sheet: PlacedSheet, height: float) -> float:
    """Inches of paper to the inch of cloth: smaller where all of it then fits, and words still fit on each strip."""
    wide, long = float(sheet.outline.width), float(sheet.outline.height)
    if max(wide, long) <= _SMALL:
        return _SMALL_SCALE
    lowest = min((float(strip.place.height) for strip in sheet.strips), default=long)
    least = max(_LEAST_STRIP / lowest, _LEAST_SCALE) if sheet.direction == "across" else _SCALE
    return min(_SCALE, (WIDTH - 2.2) / wide, max(least, (height - _OVER) / long))


def _windows(sheet: PlacedSheet, most: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """The parts of a sheet along the selvage that are drawn one by one: whole strips where they fit."""
    end = sheet.outline.height
    if sheet.direction == "along" or end <= most:
        yield from _even(Fraction(0), end, most)
        return
    top = bottom = Fraction(0)
    for strip in sheet.strips:
        below_it = strip.place.y + strip.place.height
        if below_it - top > most:
            if bottom > top:
                yield top, bottom
            top = bottom
        if below_it - top > most:
            *whole, last = _even(top, below_it, most)
            yield from whole
            top = last[0]
        bottom = below_it
    yield top, end


def _even(top: Fraction, end: Fraction, most: Fraction) -> list[tuple[Fraction, Fraction]]:
    parts = -(-(end - top) // most)
    step = (end - top) / parts
    return [(top + number * step, top + (number + 1) * step) for number in range(int(parts))]


def figure_of(each: FabricCutting, view: View, table: DesignCutting) -> Figure:
    """A view with its title above it, what it takes beside that, and the meaning of its letters below."""
    title = _title(each, view).text(view.measure)
    first = not view.top and view.sheet.sheet == each.plan.job.sheet
    amount = takes(table.shown(each), table.rounding).text(view.measure) if first else ""
    words = captions_of(each, view)

    def draw(pen: Pen) -> None:
        words(pen)
        pen.text((text_width(title, STRONG) * 1.06 + 0.12, -0.34), amount, SMALL)
        draw_sheet(view, pen)

    steps = record(draw)  # drawn once: pages measure a figure several times
    return Figure(each.fabric, title, lambda pen: replay(steps, pen))


def captions_of(each: FabricCutting, view: View) -> Draw:
    """The title above a view and the meaning of its letters below it, without the cloth."""
    title = _title(each, view).text(view.measure)
    legend = _legend(view)

    def draw(pen: Pen) -> None:
        pen.text((0.0, -0.34), title, STRONG)
        for number, line in enumerate(legend):
            pen.text((0.0, view.height + 0.36 + number * SMALL.size * 1.3), line, SMALL)

    return draw


def _title(each: FabricCutting, view: View) -> Message:
    sheet = view.sheet
    if view.top > 0:
        return message("cutting.picture-continued", fabric=each.name, at=view.top)
    if sheet.sheet.length is None:
        return message("cutting.picture-title", fabric=each.name, width=sheet.sheet.width)
    return message("cutting.picture-of-form", fabric=each.name, sheets=sheets_said(sheet.sheet, sheet.count))


def _legend(view: View) -> list[str]:
    """What the letters on small pieces mean, as lines no longer than the cloth is wide."""
    lines: list[str] = []
    for said, letter in view.letters.items():
        words = f"{letter}: {', '.join(said)}"
        joined = f"{lines[-1]}  \u00b7  {words}" if lines else words
        if lines and text_width(joined, SMALL) <= max(view.width, 3.0):
            lines[-1] = joined
        else:
            lines.append(words)
    return lines


def _pages(figures: Sequence[Figure], height: float) -> Iterator[list[Draw]]:
    """Figures put on pages in order; small sheets of one fabric beside each other."""
    page: list[Draw] = []
    taken = 0.0
    for row in _rows(figures):
        tall = room(row).height
        if page and taken + tall > height:
            yield page
            page, taken = [], 0.0
        page.append(row)
        taken += tall + 2 * GAP
    if page:
        yield page


def _rows(figures: Sequence[Figure]) -> Iterator[Draw]:
    row: list[Draw] = []
    wide = 0.0
    for number, figure in enumerate(figures):
        width = room(figure.draw).width
        same = number and figures[number - 1].fabric == figure.fabric
        if row and (not same or wide + width > WIDTH):
            yield beside(row, 3 * GAP) if len(row) > 1 else row[0]
            row, wide = [], 0.0
        row.append(figure.draw)
        wide += width + 3 * GAP
    if row:
        yield beside(row, 3 * GAP) if len(row) > 1 else row[0]
