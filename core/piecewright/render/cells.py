"""Steps as places on a page: a number, a sentence and a figure each, two in a row where they are narrow."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from piecewright.geometry.motion import Motion
from piecewright.render.layout import Draw, largest, room
from piecewright.render.marks import number
from piecewright.render.pen import Pen, Stroke
from piecewright.render.style import GUTTER, HAIR, LEADING, TEXT
from piecewright.render.typeface import wrapped

PAGE_WIDTH = 7.2  # fits between the margins of US letter and of A4
HALF = (PAGE_WIDTH - GUTTER) / 2
INDENT = 0.34  # of words and figures beside the number of their step
TALLEST = 1.9
SPACE = 0.26  # between rows
_LEAST_SCALE = 1 / 7  # a smaller figure is given the whole width where that helps


@dataclass(frozen=True, slots=True)
class Cell:
    """One step, or the finished block, as a place on the page: drawn with its top left at 0, 0."""

    wide: bool
    height: float
    draw: Draw


def cell(mark: str, words: str, figure: Draw, wide: bool) -> Cell:
    """A place with a numbered sentence over a figure; a new line begins where the words have one."""
    width = (PAGE_WIDTH if wide else HALF) - INDENT
    lines = [line for part in words.split("\n") for line in wrapped(part, TEXT, width)]
    top = TEXT.size + (len(lines) - 1) * TEXT.size * LEADING + 0.15
    box = room(figure)

    def draw(pen: Pen) -> None:
        if mark:
            number(pen, (0.11, TEXT.size * 0.62), mark)
        for index, line in enumerate(lines):
            pen.text((INDENT, TEXT.size * (1 + index * LEADING)), line, TEXT)
        with pen.framed(Motion(dx=INDENT - box.left, dy=top - box.top)):
            figure(pen)

    return Cell(wide, top + box.height, draw)


def fitted_cell(
    mark: str, words: str, build: Callable[[float], Draw], tallest: float = TALLEST, *, wide: bool = False
) -> Cell:
    """A place with a figure built at the largest scale that fits; over the whole width where that helps, or asked."""
    narrow, narrow_scale = largest(build, HALF - INDENT, tallest)
    broad, broad_scale = largest(build, PAGE_WIDTH - INDENT, tallest)
    wide = wide or (narrow_scale < _LEAST_SCALE and broad_scale > 1.2 * narrow_scale)
    return cell(mark, words, broad if wide else narrow, wide)


def draw_cells(pen: Pen, cells: Sequence[Cell], y: float) -> None:
    """Draw places below each other from `y` on, a hair above each row."""
    for row in _rows(cells):
        pen.line((0.0, y), (PAGE_WIDTH, y), Stroke(HAIR, 0.006))
        for column, each in enumerate(row):
            with pen.framed(Motion(dx=column * (HALF + GUTTER), dy=y + SPACE / 2)):
                each.draw(pen)
        y += max(each.height for each in row) + SPACE


def _rows(cells: Sequence[Cell]) -> list[list[Cell]]:
    """Narrow places stand two in a row where they follow each other."""
    rows: list[list[Cell]] = []
    for each in cells:
        if rows and not each.wide and len(rows[-1]) == 1 and not rows[-1][0].wide:
            rows[-1].append(each)
        else:
            rows.append([each])
    return rows
