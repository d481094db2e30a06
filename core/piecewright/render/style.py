"""The look of printed pictures: one type scale, few inks, one set of margins, all in inches of paper."""

from piecewright.render.path import Spot
from piecewright.render.pen import Flat, Pen, Stroke, TextStyle
from piecewright.render.typeface import text_width

INK = "#2a2622"
SOFT = "#655e54"
HAIR = "#d6cfc3"
ACCENT = "#1f5f7a"
BLADE = "#a3261f"
PAPER = "#ffffff"

TITLE = TextStyle(0.235, INK, 600)
TEXT = TextStyle(0.135, INK)
STRONG = TextStyle(0.135, INK, 600)
SMALL = TextStyle(0.108, SOFT)
MARK = TextStyle(0.108, INK, 600, "middle")
LEADING = 1.38  # from baseline to baseline, of the type's size

GAP = 0.16
GUTTER = 0.36

RAW_EDGE = Stroke(INK, 0.011)
SEW = Stroke(ACCENT, 0.018, (0.05, 0.03))
HALO = 0.030


def haloed(pen: Pen, points: tuple[Spot, ...], stroke: Stroke) -> None:
    """A line that can be seen on any cloth: dark on a pale rim."""
    pen.polyline(points, Stroke(PAPER, stroke.width + HALO, (), 0.75))
    pen.polyline(points, stroke)


def label(pen: Pen, at: Spot, words: str, style: TextStyle) -> None:
    """Words centered on a point, on a pale ground, so that they can be read on any cloth."""
    half, rise = text_width(words, style) / 2, style.size / 2
    x, y = at
    corners = ((x - half, y - rise), (x + half, y - rise), (x + half, y + rise), (x - half, y + rise))
    pen.polygon(corners, Flat(PAPER, 0.88), Stroke(PAPER, 0.06, (), 0.88))
    pen.text((x, y + style.size * 0.36), words, TextStyle(style.size, style.color, style.weight, "middle"))
