"""What may lie over the picture of a finished block: ways of pressing, layers of cloth, and how long edges lay open.

All in inches of paper, the block's finished top left at 0, 0; `scale` is inches of paper to an inch of the block.
"""

from collections.abc import Iterable
from itertools import pairwise
from math import hypot

from piecewright.making.open_edges import WaitingEdge
from piecewright.making.pressing_plan import PressedBlock, PressingPlan
from piecewright.render.marks import arrow, bias_label, bias_wave, number
from piecewright.render.path import Spot, circle
from piecewright.render.pen import Flat, Pen, Stroke, TextStyle
from piecewright.render.style import BLADE, INK, MARK, PAPER, SMALL
from piecewright.sewing.junctions import SeamLine
from piecewright.words.message import message

_REACH = 0.17
_SHARE = 0.22  # of a seam's length, at most, on either side of it
_LEAST = 0.07
THICK = 8
"""Layers from which a place is marked: more than the 7 that four patches make where their seams nest."""


def draw_plan(pen: Pen, plan: PressingPlan, block: PressedBlock, scale: float) -> None:
    """An arrow across every seam the way it is pressed, to both sides where it is open; a ring where seams clash."""
    gaps = _gaps(block)
    shortest = min((length for _, length in gaps.values()), default=0.0)
    reach = max(min(_REACH, shortest * scale * _SHARE), _LEAST)
    for number_of, line in enumerate(block.work.lines):
        seam, sign = plan.seams[line.seam], plan.signs[line.seam]
        if sign or seam.toward == "open":
            (x, y), _ = gaps[number_of]
            across, down = (each * (sign or 1) * reach for each in line.toward)
            ends = ((x * scale - across, y * scale - down), (x * scale + across, y * scale + down))
            arrow(pen, *ends, weight=1.4 * reach / _REACH, both=not sign)
    for clash in plan.clashes:
        if (clash.block, clash.layer) == (block.name, block.layer):
            _draw_clash(pen, (clash.point[0] * scale, clash.point[1] * scale))


def _gaps(block: PressedBlock) -> dict[int, tuple[Spot, float]]:
    """For each line the widest stretch on which no other seam meets it, the nearest its middle: middle and length."""
    met: dict[int, list[float]] = {}
    lines = block.work.lines
    for junction in block.work.junctions:
        for line in {ray.line for ray in junction.rays}:
            met.setdefault(line, []).append(_share(lines[line], junction.point))
    return {number_of: _widest(line, met.get(number_of, [])) for number_of, line in enumerate(lines)}


def _share(line: SeamLine, point: Spot) -> float:
    """Where along a line a point of it lies, 0 at its start, 1 at its end."""
    run, rise = line.end[0] - line.start[0], line.end[1] - line.start[1]
    along = (point[0] - line.start[0]) * run + (point[1] - line.start[1]) * rise
    return along / (run * run + rise * rise)


def _widest(line: SeamLine, met: Iterable[float]) -> tuple[Spot, float]:
    shares = sorted({0.0, 1.0, *(min(max(share, 0.0), 1.0) for share in met)})
    low, high = max(pairwise(shares), key=lambda gap: (round(gap[1] - gap[0], 3), -abs(gap[0] + gap[1] - 1)))
    middle = (low + high) / 2
    run, rise = line.end[0] - line.start[0], line.end[1] - line.start[1]
    return (line.start[0] + run * middle, line.start[1] + rise * middle), hypot(run, rise) * (high - low)


def _draw_clash(pen: Pen, at: Spot) -> None:
    pen.path(circle(*at, 0.11), None, Stroke(PAPER, 0.05))
    pen.path(circle(*at, 0.11), None, Stroke(BLADE, 0.024))
    number(pen, at, "!", TextStyle(MARK.size, BLADE, 600, "middle"))


def draw_layers(pen: Pen, plan: PressingPlan, block: PressedBlock, scale: float) -> None:
    """The layers of cloth wherever seams meet inside a block: a number in a disc, on a dark one where it is thick."""
    for each, lumps in plan.lumps():
        if (each.name, each.layer) != (block.name, block.layer):
            continue
        for lump in lumps:
            at = (lump.point[0] * scale, lump.point[1] * scale)
            if lump.pressed >= THICK:
                _draw_thick(pen, at, str(lump.pressed))
            else:
                number(pen, at, str(lump.pressed))


def _draw_thick(pen: Pen, at: Spot, words: str) -> None:
    pen.path(circle(*at, 0.12), Flat(INK), Stroke(PAPER, 0.02))
    pen.text((at[0], at[1] + MARK.size * 0.36), words, TextStyle(MARK.size, PAPER, 600, "middle"))


def draw_waits(pen: Pen, edges: Iterable[WaitingEdge], scale: float) -> None:
    """A wave along every edge that lay open, with the steps it waited."""
    for each in edges:
        start, end = (
            (float(point[0]) * scale, float(point[1]) * scale) for point in (each.edge.start, each.edge.end)
        )
        bias_wave(pen, start, end, SMALL.size)
        words = (
            message("render.waits-outer") if each.until is None else message("render.waits", steps=each.waits)
        )
        bias_label(pen, start, end, str(words))
