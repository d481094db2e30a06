"""One length of cloth on the cutting table, to scale: pieces with their sizes, left-overs, fold and selvages."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from piecewright.cutting.job import Keep
from piecewright.cutting.pieces import Piece
from piecewright.cutting.placed import PlacedPiece, PlacedSheet, PlacedStrip, Rectangle
from piecewright.cutting.truing import trim_before
from piecewright.geometry.motion import Motion
from piecewright.model.fabric import Fabric
from piecewright.plan.packing import Truing
from piecewright.render.bounds_pen import Box
from piecewright.render.marks import dimension_across
from piecewright.render.path import Spot
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke, TextStyle
from piecewright.render.style import INK, PAPER, RAW_EDGE, SMALL, SOFT, haloed
from piecewright.render.typeface import text_width
from piecewright.units.measure import Measure
from piecewright.units.sizes import Cut
from piecewright.words.message import Message, message

SELVAGE = 0.07
"""How wide a selvage is drawn, inches of paper: no cloth is reckoned with in it."""
_CUT = Stroke(INK, 0.014)
_FOLD = Stroke(SOFT, 0.012, (0.14, 0.05, 0.02, 0.05))
_WASTE = Stroke(SOFT, 0.006, (), 0.55)
_KEPT = Stroke(INK, 0.006, (), 0.45)
_LABEL = TextStyle(0.098, INK, 500)
_SPARE = TextStyle(0.098, SOFT)
_ROOM = 0.09
Letters = Mapping[tuple[str, ...], str]
_PLATE = 0.025
_LEADING = 1.24


@dataclass(frozen=True)
class View:
    """What of a sheet is drawn, and how.

    Cloth from `top` to `bottom` along the selvage, in `scale` inches of paper to the inch, the left of the
    drawing where a right hand lays the ruler; `mirrored` for a left one. `pieces` by their keys.
    """

    sheet: PlacedSheet
    fabric: Fabric
    pieces: Mapping[str, Piece]
    keep: Keep
    truing: Truing
    scale: float
    top: Fraction
    bottom: Fraction
    measure: Measure
    mirrored: bool

    @cached_property
    def strips(self) -> tuple[PlacedStrip, ...]:
        """The strips that are in view, as a whole or in part."""
        return tuple(
            strip
            for strip in self.sheet.strips
            if strip.place.y < self.bottom and strip.place.y + strip.place.height > self.top
        )

    @cached_property
    def letters(self) -> "Letters":
        """The letters that stand where cloth is too small for its words, by the words that would stand there."""
        small: dict[tuple[str, ...], str] = {}
        for choices, place in _worded(self):
            box = self.box(place)
            if box is not None and choices[0] not in small and not _fitting(choices, box):
                small[choices[0]] = _letter(len(small))
        return small

    def between(self, top: Fraction, bottom: Fraction) -> "View":
        """Only so much of it, with the letters that all of it has: for a screen that is scrolled."""
        part = replace(self, top=top, bottom=bottom)
        part.__dict__["letters"] = self.letters
        return part

    @cached_property
    def room(self) -> Box:
        """What the cloth takes with the dimensions beside, above and below it, inches of paper."""
        ruled = far = 0.0
        if self.sheet.direction == "across":
            cut = {strip.place.height for strip in self.strips}
            ends = {strip.place.y + strip.place.height for strip in self.strips}
            ruled = max((text_width(_height_said(self, each), SMALL) for each in cut), default=0.0)
            far = max((text_width(self.measure.length(each), SMALL) for each in ends), default=0.0)
        left, right = (far, ruled) if self.mirrored else (ruled, far)
        edge = SELVAGE + 0.09
        return Box(-edge - left, -0.25, self.width + edge + right, self.height + 0.24)

    @property
    def width(self) -> float:
        """Inches of paper from selvage to selvage."""
        return float(self.sheet.outline.width) * self.scale

    @property
    def height(self) -> float:
        """Inches of paper along the selvage."""
        return float(self.bottom - self.top) * self.scale

    def box(self, place: Rectangle) -> Box | None:
        """Where a place on the cloth lies on paper, as far as it is in view; None where it is not."""
        top, bottom = max(place.y, self.top), min(place.y + place.height, self.bottom)
        if top >= bottom:
            return None
        left = self.sheet.outline.width - place.x - place.width if self.mirrored else place.x
        return Box(
            float(left) * self.scale,
            float(top - self.top) * self.scale,
            float(left + place.width) * self.scale,
            float(bottom - self.top) * self.scale,
        )

    def is_whole(self, strip: PlacedStrip) -> bool:
        """Whether a strip is left as long as it is, for its one piece."""
        alone = len(strip.pieces) == 1 and not self.pieces[strip.pieces[0].key].inside
        kept = (self.keep.keeps(rest.width, rest.height) for rest in strip.left_over)
        high = alone and strip.pieces[0].place.height == strip.place.height
        whole = high and not strip.trims and not any(kept)
        return whole and self.sheet.direction == "across"

    def goes_on(self, place: Rectangle) -> bool:
        """Whether a place reaches past what is in view."""
        return place.y < self.top or place.y + place.height > self.bottom


@dataclass(frozen=True, slots=True)
class Shown:
    """A rectangle of cloth that is shown as one piece, and what may stand on it, the fullest first."""

    key: str
    place: Rectangle
    choices: tuple[tuple[str, ...], ...]


def draw_sheet(view: View, pen: Pen) -> None:
    """The cloth in view, its selvage to selvage across, from 0, 0 down; dimensions lie left, right and above."""
    outline = Box(0.0, 0.0, view.width, view.height)
    with pen.framed(view.scale):
        side = float(view.sheet.outline.width), float(view.bottom - view.top)
        pen.polygon(((0, 0), (side[0], 0), side, (0, side[1])), ClothFill(view.fabric, Motion(dy=-view.top)))
    shown = shown_pieces(view)
    letters = view.letters
    for rest in _left_overs(view):
        _draw_left_over(view, rest, letters, pen)
    _draw_selvages(view, pen)
    pen.polygon(outline.corners, None, RAW_EDGE)
    _draw_fold(view, pen)
    for piece in shown:
        box = view.box(piece.place)
        if box is not None:
            haloed(pen, (*box.corners, box.corners[0]), _CUT)
    for strip in view.strips:
        for trim in strip.trims:
            box = view.box(trim)
            if box is not None:
                _wash(pen, box)
        for placed in strip.pieces:
            _draw_trims(view, placed, pen)
    for piece in shown:
        box = view.box(piece.place)
        if box is not None:
            _write_fitting(piece.choices, box, letters, pen, _LABEL)
    _draw_depths(view, pen)
    dimension_across(pen, 0.0, view.width, -0.13, view.measure.length(view.sheet.outline.width))


def _worded(view: View) -> Iterator[tuple[tuple[tuple[str, ...], ...], Rectangle]]:
    """All that words stand on: pieces, and what is worth keeping."""
    yield from ((shown.choices, shown.place) for shown in shown_pieces(view))
    for rest in _left_overs(view):
        if view.keep.keeps(rest.width, rest.height):
            yield _kept_said(view, rest), rest


def _kept_said(view: View, rest: Rectangle) -> tuple[tuple[str, ...], ...]:
    keep = message("cutting.label-kept").text(view.measure)
    size = message("cutting.label-cut", size=Cut(rest.width, rest.height)).text(view.measure)
    return ((f"{keep} {size}",), (keep, size))


def shown_pieces(view: View) -> list[Shown]:
    """What is drawn as pieces: strips that stay whole to their end, strips cut up at once part by part."""
    return [shown for strip in view.strips for shown in _shown(view, strip)]


def _shown(view: View, strip: PlacedStrip) -> Iterator[Shown]:
    for placed in strip.pieces:
        piece = view.pieces[placed.key]
        name = str_of(piece.label, view.measure)
        if piece.inside:
            for part in _parts(view, piece):
                yield Shown(placed.key, part.on(placed.place), _said(view, part.length, piece.height, ""))
        elif view.is_whole(strip):
            whole = message("cutting.label-whole", height=piece.height).text(view.measure)
            yield Shown(placed.key, strip.place, ((whole, name), (f"{whole}, {name}",), (whole,)))
        else:
            yield Shown(placed.key, placed.place, _said(view, piece.width, piece.height, name))


def _said(view: View, width: Fraction, height: Fraction, name: str) -> tuple[tuple[str, ...], ...]:
    size = message("cutting.label-cut", size=Cut(width, height)).text(view.measure)
    return ((size, name), (f"{size}, {name}",), (size,)) if name else ((size,),)


def _letter(number: int) -> str:
    rest, place = divmod(number, 26)
    return (chr(ord("a") + rest - 1) if rest else "") + chr(ord("a") + place)


def _left_overs(view: View) -> Iterator[Rectangle]:
    yield from view.sheet.left_over
    for strip in view.strips:
        if not view.is_whole(strip):
            yield from strip.left_over


def _draw_left_over(view: View, rest: Rectangle, letters: Letters, pen: Pen) -> None:
    """What falls off is washed pale; what is worth keeping is hatched and says its size."""
    box = view.box(rest)
    if box is None:
        return
    if not view.keep.keeps(rest.width, rest.height):
        _wash(pen, box)
        pen.polygon(box.corners, None, _CUT)
        return
    pen.polygon(box.corners, Flat(PAPER, 0.80))
    pen.hatch(box.corners, _KEPT, 0.09, 45.0)
    pen.polygon(box.corners, None, _CUT)
    _write_fitting(_kept_said(view, rest), box, letters, pen, _SPARE)


def _draw_selvages(view: View, pen: Pen) -> None:
    if view.sheet.sheet.kind != "bolt":
        return
    for left in (-SELVAGE, view.width):
        box = Box(left, 0.0, left + SELVAGE, view.height)
        pen.polygon(box.corners, Flat(view.fabric.color))
        pen.polygon(box.corners, Flat(PAPER, 0.55))
        pen.hatch(box.corners, Stroke(SOFT, 0.006), 0.035, 0.0)
        pen.polygon(box.corners, None, Stroke(SOFT, 0.006))


def _draw_fold(view: View, pen: Pen) -> None:
    if view.sheet.fold is None:
        return
    x = view.width / 2
    pen.line((x, -0.02), (x, view.height + 0.05), Stroke(PAPER, 0.04, (), 0.75))
    pen.line((x, -0.02), (x, view.height + 0.05), _FOLD)
    words = message("cutting.label-fold").text(view.measure)
    pen.text((x, view.height + 0.17), words, TextStyle(SMALL.size, SOFT, 400, "middle"))
    selvage = message("cutting.label-selvage").text(view.measure)
    pen.text((-SELVAGE, view.height + 0.17), selvage, SMALL)
    pen.text((view.width + SELVAGE, view.height + 0.17), selvage, TextStyle(SMALL.size, SOFT, 400, "end"))


@dataclass(frozen=True, slots=True)
class _Part:
    """One part of a strip that is cut up at once: where it begins along the strip, and how long it is."""

    start: Fraction
    length: Fraction

    def on(self, strip: Rectangle) -> Rectangle:
        """Its place on the cloth."""
        return Rectangle(strip.x + self.start, strip.y, self.length, strip.height)


def _draw_trims(view: View, placed: PlacedPiece, pen: Pen) -> None:
    """What truing takes off a strip that is cut up at once, and what is to spare at its end."""
    piece = view.pieces[placed.key]
    if not piece.inside:
        return
    at = Fraction(0)
    for part in (*_parts(view, piece), _Part(piece.width, Fraction(0))):
        if part.start > at:
            box = view.box(_Part(at, part.start - at).on(placed.place))
            if box is not None:
                _wash(pen, box)
        at = part.start + part.length


def _wash(pen: Pen, box: Box) -> None:
    pen.polygon(box.corners, Flat(PAPER, 0.66))
    pen.hatch(box.corners, _WASTE, 0.045, 135.0)


def _parts(view: View, piece: Piece) -> Iterator[_Part]:
    """The parts of a strip in the order cut, with room for each trim before them."""
    at, cuts = Fraction(0), 0
    for length, count in piece.inside:
        for _ in range(count):
            at += trim_before(view.truing, cuts) if piece.trued else Fraction(0)
            yield _Part(at, length)
            at, cuts = at + length, cuts + 1


def str_of(words: str | Message, measure: Measure) -> str:
    """Words that may be a user's own or a sentence."""
    return words if isinstance(words, str) else words.text(measure)


def _fitting(choices: Sequence[tuple[str, ...]], box: Box) -> tuple[str, ...] | None:
    """The first of some texts that fits into a box, upright."""
    for lines in choices:
        height = len(lines) * _LABEL.size * _LEADING + 0.055
        if height <= box.height and max(text_width(line, _LABEL) for line in lines) + _ROOM <= box.width:
            return lines
    return None


def _write_fitting(
    choices: tuple[tuple[str, ...], ...], box: Box, letters: Letters, pen: Pen, style: TextStyle
) -> None:
    """The first words that fit, or the letter that stands for them."""
    found = _fitting(choices, box)
    letter = letters.get(choices[0], "")
    if found is not None:
        _write(pen, found, box, style)
    elif letter and min(box.width, box.height) >= style.size:
        _write(pen, (letter,), box, style)


def _write(pen: Pen, lines: Sequence[str], box: Box, style: TextStyle) -> None:
    """Lines in the middle of a box, on one pale ground."""
    leading = style.size * _LEADING
    x, middle = (box.left + box.right) / 2, (box.top + box.bottom) / 2
    half = max(text_width(line, style) for line in lines) / 2 + _PLATE
    rise = ((len(lines) - 1) * leading + style.size) / 2 + _PLATE
    plate = Box(x - half, middle - rise, x + half, middle + rise)
    pen.polygon(plate.corners, Flat(PAPER, 0.94))
    for number, line in enumerate(lines):
        baseline = middle - (len(lines) - 1) * leading / 2 + number * leading + style.size * 0.36
        pen.text((x, baseline), line, TextStyle(style.size, style.color, style.weight, "middle"))


def _draw_depths(view: View, pen: Pen) -> None:
    """On the ruler's side how high each strip is cut, on the other how far down the cloth it ends."""
    last = -1.0
    for strip in view.strips:
        place = strip.place
        across = view.sheet.direction == "across"
        box = view.box(place)
        if box is None or not across:
            continue
        middle = (box.top + box.bottom) / 2
        if box.height >= SMALL.size * 1.05:
            words = _height_said(view, place.height)
            _beside(view, pen, middle, words, ruler=True)
        if not view.goes_on(place) and box.bottom - last >= SMALL.size * 1.2:
            last = box.bottom
            _beside(view, pen, box.bottom, view.measure.length(place.y + place.height), ruler=False)


def _height_said(view: View, height: Fraction) -> str:
    return message("cutting.label-strip", height=height).text(view.measure)


def _beside(view: View, pen: Pen, y: float, words: str, *, ruler: bool) -> None:
    """Words left of the cloth or right of it; a small mark where the ruler ends."""
    left = ruler != view.mirrored
    x = -SELVAGE - 0.06 if left else view.width + SELVAGE + 0.06
    if not ruler:
        start: Spot = (-SELVAGE, y) if left else (view.width + SELVAGE, y)
        pen.line(start, (start[0] + (-0.05 if left else 0.05), y), Stroke(SOFT, 0.006))
        x += -0.03 if left else 0.03
    pen.text((x, y + SMALL.size * 0.36), words, TextStyle(SMALL.size, SOFT, 400, "end" if left else "start"))
