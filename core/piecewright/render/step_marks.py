"""What is drawn over the pieces of a step: cut lines, waste, numbers, sizes; for each kind of event."""

from collections.abc import Sequence
from itertools import groupby, pairwise

from piecewright.geometry.motion import Motion, Number
from piecewright.geometry.shapes import Segment
from piecewright.making.cloth import Cloth, Scrap
from piecewright.making.events import Severed, Trimmed
from piecewright.render.crowded import dimensions_across, dimensions_down, part_numbers
from piecewright.render.marks import dimension_across, dimension_down, lines_of_height, stands_inside
from piecewright.render.path import Spot
from piecewright.render.pen import Flat, Pen, Stroke
from piecewright.render.piece_picture import Look
from piecewright.render.style import BLADE, INK, PAPER, SMALL
from piecewright.units.measure import Measure
from piecewright.words.message import message

AWAY = 0.15  # from a piece to its dimension lines
_BLADE = Stroke(BLADE, 0.013, (0.06, 0.035))
_OVERSHOOT = 0.07
_LEAST_FOR_WORDS = 1.0
_HATCH = Stroke(INK, 0.006, (), 0.7)


def length_words(length: Number, cloth: Cloth, measure: Measure) -> str:
    """A length of a piece and what kind of length it is."""
    return message("render.unfinished" if cloth.seams or cloth.flap else "render.cut", length=length).text(
        measure
    )


def draw_size(pen: Pen, cloth: Cloth, look: Look, measure: Measure) -> None:
    """The size of a piece: its width above it and its height on its left."""
    width, height = look.size(cloth)
    dimension_across(pen, 0.0, width, -AWAY, length_words(cloth.box.width, cloth, measure))
    dimension_down(pen, -AWAY, 0.0, height, length_words(cloth.box.height, cloth, measure))


def draw_waste(pen: Pen, cloth: Cloth, scraps: Sequence[Scrap], look: Look) -> None:
    """Hatch what falls off."""
    for scrap in scraps:
        corners = [look.on_paper(cloth, point) for point in scrap.raw.points]
        pen.polygon(corners, Flat(PAPER, 0.55))
        pen.hatch(corners, _HATCH, 0.05, -45)


def draw_cut(pen: Pen, cloth: Cloth, event: Severed, look: Look, measure: Measure) -> None:
    """A cut piece: blade lines, waste, numbered parts, and the sizes along the cut."""
    draw_waste(pen, cloth, event.scraps[0], look)
    for line in event.lines:
        draw_blade(pen, look.on_paper(cloth, line.start), look.on_paper(cloth, line.end))
    if event.axis is None:
        _draw_slice_sizes(pen, cloth, event.lines[0], look, measure)
    elif event.angle:
        _draw_leaning_sizes(pen, cloth, event, look, measure)
    else:
        _draw_part_sizes(pen, cloth, event, look, measure)


def has_room_for_words(cloth: Cloth, event: Severed, look: Look) -> bool:
    """Whether words at the edges of a piece that is cut leave room for the numbers of its parts."""
    return event.axis is not None or min(look.size(cloth)) > _LEAST_FOR_WORDS


def draw_blade(pen: Pen, start: Spot, end: Spot) -> None:
    """Where the ruler is laid: a dashed line that runs on a little over both ends."""
    run, rise = end[0] - start[0], end[1] - start[1]
    length = (run**2 + rise**2) ** 0.5 or 1.0
    dx, dy = run / length * _OVERSHOOT, rise / length * _OVERSHOOT
    ends = ((start[0] - dx, start[1] - dy), (end[0] + dx, end[1] + dy))
    pen.polyline(ends, Stroke(PAPER, 0.036, (), 0.8))
    pen.polyline(ends, _BLADE)


def draw_trim(pen: Pen, cloth: Cloth, made: Cloth, event: Trimmed, look: Look, measure: Measure) -> None:
    """A piece squared up: the rectangle kept, what falls off, and the rectangle's size."""
    draw_waste(pen, cloth, event.scraps[0], look)
    corners = [look.on_paper(cloth, point) for point in event.rect.points]
    for start, end in pairwise((*corners, corners[0])):
        draw_blade(pen, start, end)
    (left, top), _, (right, bottom), _ = corners
    dimension_across(pen, left, right, -AWAY, length_words(made.box.width, cloth, measure))
    dimension_down(pen, -AWAY, top, bottom, length_words(made.box.height, cloth, measure))


def _draw_part_sizes(pen: Pen, cloth: Cloth, event: Severed, look: Look, measure: Measure) -> None:
    width, height = look.size(cloth)
    across = event.axis == "across"
    at = [float(event.trim) * look.scale]
    for part in event.widths:
        at.append(at[-1] + float(part) * look.scale)
    spans = list(pairwise(at))
    part_numbers(pen, [((a + b) / 2, height / 2) if across else (width / 2, (a + b) / 2) for a, b in spans])
    words = [message("render.cut", length=part).text(measure) for part in event.widths]
    if not _fit(spans, words, across):
        spans, words = _grouped(spans, event.widths, measure)
    if across:
        dimensions_across(pen, spans, words, -AWAY)
        dimension_down(pen, -AWAY, 0.0, height, length_words(cloth.box.height, cloth, measure))
    else:
        dimensions_down(pen, -AWAY, spans, words)
        dimension_across(pen, 0.0, width, -AWAY, length_words(cloth.box.width, cloth, measure))


def _draw_leaning_sizes(pen: Pen, cloth: Cloth, event: Severed, look: Look, measure: Measure) -> None:
    """Parts numbered between their cuts, the widths square to the cut over the ends of the cuts, and the lean."""
    ends = [(look.on_paper(cloth, line.start), look.on_paper(cloth, line.end)) for line in event.lines]
    middles = [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in ends]
    part_numbers(pen, [((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) for a, b in pairwise(middles)])
    turn = event.angle if event.axis == "across" else 90 + event.angle
    at = 0.0
    for width, same in groupby(event.widths):
        count = len(list(same))
        code = "render.each-cut" if count > 1 else "render.cut"
        words = message(code, count=count, length=width).text(measure)
        upper = min(ends[round(at)], key=lambda end: end[1])
        with pen.framed(Motion(degrees=turn % 360, dx=upper[0], dy=upper[1])):
            dimension_across(pen, 0.0, float(width) * look.scale, -AWAY, words)
        at += count
    width, height = look.size(cloth)
    below = height + AWAY + look.fanned
    dimension_across(pen, 0.0, width, below, length_words(cloth.box.width, cloth, measure), under=True)
    right = event.angle < 0
    beside = width + AWAY + look.fanned if right else -AWAY
    dimension_down(pen, beside, 0.0, height, length_words(cloth.box.height, cloth, measure), right)


def _fit(spans: Sequence[Spot], words: Sequence[str], across: bool) -> bool:
    """Whether each part has room for its own words."""
    if across:
        return all(stands_inside(span, said) for span, said in zip(spans, words, strict=True))
    leading = SMALL.size * 1.12
    return all(b - a > lines_of_height(said) * leading for (a, b), said in zip(spans, words, strict=True))


def _grouped(
    spans: Sequence[Spot], widths: Sequence[Number], measure: Measure
) -> tuple[list[Spot], list[str]]:
    """Parts of one width that follow each other, under one line."""
    joined: list[Spot] = []
    words: list[str] = []
    at = 0
    for width, same in groupby(widths):
        count = len(list(same))
        joined.append((spans[at][0], spans[at + count - 1][1]))
        code = "render.each-cut" if count > 1 else "render.cut"
        words.append(message(code, count=count, length=width).text(measure))
        at += count
    return joined, words


def _draw_slice_sizes(pen: Pen, cloth: Cloth, line: Segment, look: Look, measure: Measure) -> None:
    """The distances of a slanted cut's ends along their sides, from the left or the top."""
    width, height = look.size(cloth)
    for end in (line.start, line.end):
        x, y = look.on_paper(cloth, end)
        away_x, away_y = end[0] - cloth.box.left, end[1] - cloth.box.top
        if min(y, height - y) < min(x, width - x):
            under = y > height / 2
            level = height + AWAY + look.fanned if under else -AWAY
            dimension_across(pen, 0.0, x, level, measure.length(away_x), under)
        else:
            right = x > width / 2
            dimension_down(
                pen, width + AWAY + look.fanned if right else -AWAY, 0.0, y, measure.length(away_y), right
            )
