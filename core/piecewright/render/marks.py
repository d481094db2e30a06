"""The marks of a working drawing: dimensions, arrows, numbers, bias edges, drawn in inches of paper."""

from math import atan2, cos, degrees, dist, radians, sin

from piecewright.geometry.motion import Motion
from piecewright.render.path import Spot, Step, arc, circle, placed, ring
from piecewright.render.pen import Flat, Pen, Stroke, TextStyle
from piecewright.render.style import ACCENT, HALO, INK, MARK, PAPER, SMALL, SOFT, haloed, label
from piecewright.render.typeface import text_width, wrapped
from piecewright.words.message import message

_LINE = Stroke(SOFT, 0.006)
_HEAD = ring([(0.055, 0), (-0.05, -0.042), (-0.03, 0), (-0.05, 0.042)])
_TICK = 0.035
_NARROW = 0.66  # what the words of a height are broken to
_CLEAR = 0.05  # between a dimension's line and its words
SLIGHT, PLAIN = 5.0, 20.0  # degrees off the thread: below the first quiet, above the second fully bias


def stands_inside(span: Spot, words: str) -> bool:
    """Whether the words of a width have room in its line."""
    return span[1] - span[0] > text_width(words, SMALL) + 2 * _CLEAR + 0.1


def dimension_across(
    pen: Pen, left: float, right: float, y: float, words: str, under: bool = False, raised: float = 0.0
) -> None:
    """A width: a line from `left` to `right` at height `y`, its words in it, or over (`under`) a short one.

    Words over a short line stand `raised` higher, where others stand over the next.
    """
    width = text_width(words, SMALL) + 2 * _CLEAR
    middle = (left + right) / 2
    inside = stands_inside((left, right), words)
    if inside:
        pen.lines([((left, y), (middle - width / 2, y)), ((middle + width / 2, y), (right, y))], _LINE)
    else:
        pen.line((left, y), (right, y), _LINE)
    pen.lines([((x, y - _TICK), (x, y + _TICK)) for x in (left, right)], _LINE)
    outside = y + _TICK + SMALL.size * 0.95 + raised if under else y - _TICK - 0.03 - raised
    baseline = y + SMALL.size * 0.36 if inside else outside
    pen.text((middle, baseline), words, TextStyle(SMALL.size, SMALL.color, SMALL.weight, "middle"))


def lines_of_height(words: str) -> int:
    """In how many lines the words of a height are broken."""
    return len(wrapped(words, SMALL, _NARROW))


def dimension_down(
    pen: Pen, x: float, top: float, bottom: float, words: str, right: bool = False, aside: float = 0.0
) -> None:
    """A height: a line from `top` to `bottom` at `x`, its words upright on its left, or on its `right`.

    The words stand `aside` further off, where others stand beside the next.
    """
    pen.line((x, top), (x, bottom), _LINE)
    pen.lines([((x - _TICK, y), (x + _TICK, y)) for y in (top, bottom)], _LINE)
    lines = wrapped(words, SMALL, _NARROW)
    leading = SMALL.size * 1.12
    baseline = (top + bottom) / 2 + SMALL.size * 0.36 - (len(lines) - 1) * leading / 2
    style = TextStyle(SMALL.size, SMALL.color, SMALL.weight, "start" if right else "end")
    off = _CLEAR + aside
    for index, line in enumerate(lines):
        pen.text((x + (off if right else -off), baseline + index * leading), line, style)


def arrow(pen: Pen, start: Spot, end: Spot, weight: float = 1.0, both: bool = False) -> None:
    """A straight arrow with a pale rim; `both`: with a head at either end."""
    haloed(pen, (start, end), Stroke(ACCENT, 0.016 * weight))
    angle = atan2(end[1] - start[1], end[0] - start[0])
    _head(pen, end, angle, ACCENT, weight)
    if both:
        _head(pen, start, angle + radians(180), ACCENT, weight)


def turning_arrow(pen: Pen, center: Spot, radius: float, by: float) -> None:
    """An arrow round a point, through `by` degrees clockwise, its middle up, with the degrees in it."""
    start = -90 - by / 2
    path = arc(*center, radius, start, by)
    pen.path(path, None, Stroke(PAPER, 0.022 + HALO, (), 0.8))
    pen.path(path, None, Stroke(ACCENT, 0.022))
    end = radians(start + by)
    tip = (center[0] + radius * cos(end), center[1] + radius * sin(end))
    _head(pen, tip, end + radians(90 - 14), ACCENT)
    label(pen, center, f"{by:g}°", TextStyle(MARK.size, ACCENT, 600))


def _head(pen: Pen, tip: Spot, angle: float, color: str, size: float = 1.0) -> None:
    shape = placed(_HEAD, *tip, degrees(angle), size)
    pen.path(shape, Flat(color), Stroke(PAPER, 0.012, (), 0.8))
    pen.path(shape, Flat(color))


def grain_arrow(pen: Pen, center: Spot, run: float, thread: float) -> None:
    """A fine line with two heads along the lengthwise thread, `thread` degrees clockwise from x."""
    c, s = cos(radians(thread)) * run / 2, sin(radians(thread)) * run / 2
    ends = ((center[0] - c, center[1] - s), (center[0] + c, center[1] + s))
    haloed(pen, ends, Stroke(INK, 0.009))
    _head(pen, ends[1], radians(thread), INK, 0.62)
    _head(pen, ends[0], radians(thread + 180), INK, 0.62)


def number(pen: Pen, center: Spot, words: str, style: TextStyle = MARK) -> None:
    """A part's number in a pale disc."""
    radius = number_radius(words, style)
    pen.path(circle(*center, radius), Flat(PAPER, 0.92), Stroke(style.color, 0.007))
    pen.text(
        (center[0], center[1] + style.size * 0.36),
        words,
        TextStyle(style.size, style.color, style.weight, "middle"),
    )


def number_radius(words: str, style: TextStyle = MARK) -> float:
    """How large the disc of a number is."""
    return max(style.size * 0.78, text_width(words, style) / 2 + 0.035)


def bias_word(off: float) -> str | None:
    """What is said of an edge `off` degrees from the nearest thread; nothing where it is quiet."""
    if off < SLIGHT:
        return None
    return str(message("render.bias" if off > PLAIN else "render.slight-bias"))


def bias_wave(pen: Pen, start: Spot, end: Spot, size: float = SMALL.size) -> None:
    """The line of a stretchy edge: a wave; `size` is the em of the words beside it."""
    length, angle = dist(start, end), degrees(atan2(end[1] - start[1], end[0] - start[0]))
    count = max(1, round(length / (size * 0.55)))
    step = length / count
    steps: list[Step] = [("M", ((0.0, 0.0),))]
    for n in range(count):
        lift = (-1) ** n * size * 0.25
        steps.append(("C", (((n + 0.37) * step, lift), ((n + 0.63) * step, lift), ((n + 1) * step, 0.0))))
    path = placed(tuple(steps), *start, angle)
    pen.path(path, None, Stroke(PAPER, size * 0.34, (), 0.8))
    pen.path(path, None, Stroke(INK, size * 0.13))


def bias_label(pen: Pen, start: Spot, end: Spot, words: str, size: float = SMALL.size) -> None:
    """The word at a stretchy edge that runs clockwise round its cloth: on the cloth, never upside down.

    Left out where the edge is too short for it.
    """
    if dist(start, end) < text_width(words, SMALL) * size / SMALL.size + size:
        return
    angle = degrees(atan2(end[1] - start[1], end[0] - start[0]))
    inward = (-sin(radians(angle)) * size * 1.6, cos(radians(angle)) * size * 1.6)
    upright = angle if -90 < angle <= 90 else angle + 180
    center = ((start[0] + end[0]) / 2 + inward[0], (start[1] + end[1]) / 2 + inward[1])
    with pen.framed(Motion(degrees=upright % 360, dx=center[0], dy=center[1])):
        label(pen, (0.0, 0.0), words, TextStyle(size, INK, 500))
