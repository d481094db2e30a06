"""A pen that writes SVG: small, whole in itself, at physical size, prints as patterns."""

from collections.abc import Callable, Hashable, Sequence

from piecewright.geometry.motion import Motion, Point
from piecewright.model.fabric import Print
from piecewright.render.affine import Affine
from piecewright.render.bounds_pen import Box, bounds
from piecewright.render.path import Path, ring
from piecewright.render.pen import ClothFill, Fill, Flat, Pen, Stroke, TextStyle
from piecewright.render.prints import Tile, tile_motion, tile_of
from piecewright.render.recording_pen import replay
from piecewright.render.svg_text import PER_INCH, matrix, path_data, plain, units
from piecewright.render.svg_text import words as escaped
from piecewright.render.typeface import FAMILY


class SvgPen(Pen):
    """Collects the picture; `document` gives the text."""

    def __init__(self) -> None:
        self._out: list[str] = []
        self._definitions: list[str] = []
        self._open: list[int] = [0]
        self._names: dict[Hashable, str] = {}
        self._places = 2

    def document(self, box: Box, scale: float = 1.0, title: str = "") -> str:
        """The whole file: `box` is what of the drawing's inches is shown, `scale` how large on paper."""
        view = " ".join(units(value) for value in (box.left, box.top, box.width, box.height))
        return "".join(
            [
                '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" ',
                f'width="{plain(box.width * scale, 4)}in" height="{plain(box.height * scale, 4)}in" ',
                f'viewBox="{view}" role="img" font-family="{FAMILY}, sans-serif" fill="none">\n',
                f"<title>{escaped(title)}</title>\n" if title else "",
                f"<defs>\n{''.join(self._definitions)}</defs>\n" if self._definitions else "",
                *self._out,
                "</svg>\n",
            ]
        )

    def save(self) -> None:
        """Remember which groups are open."""
        self._open.append(0)

    def restore(self) -> None:
        """Close the groups opened since."""
        self._out.append("</g>\n" * self._open.pop())

    def transform(self, by: Motion | float) -> None:
        """Open a group with a transform."""
        self._group(f'transform="{matrix(Affine.of(by))}"')

    def clip(self, points: Sequence[Point]) -> None:
        """Open a group with a clip path."""

        def define(name: str) -> str:
            return f'<clipPath id="{name}"><path d="{path_data(ring(points))}"/></clipPath>\n'

        self._group(f'clip-path="url(#{self._name(("clip", tuple(points)), "c", define)})"')

    def path(
        self, path: Path, fill: Fill | None = None, stroke: Stroke | None = None, crisp: bool = False
    ) -> None:
        """Write a path."""
        paint = [self._fill(fill), _stroke(stroke), 'shape-rendering="crispEdges"' if crisp else ""]
        self._out.append(
            f'<path d="{path_data(path, self._places)}" {" ".join(word for word in paint if word)}/>\n'
        )

    def text(self, at: Point, words: str, style: TextStyle) -> None:
        """Write a line of text."""
        weight = f' font-weight="{style.weight}"' if style.weight != 400 else ""
        anchor = f' text-anchor="{style.anchor}"' if style.anchor != "start" else ""
        place = f'x="{units(at[0])}" y="{units(at[1])}" font-size="{units(style.size)}"'
        self._out.append(f'<text {place}{weight}{anchor} fill="{style.color}">{escaped(words)}</text>\n')

    def stamp(self, key: Hashable, motion: Motion, draw: Callable[[Pen], None]) -> None:
        """Use a picture that is defined where it is first needed."""

        def define(name: str) -> str:
            return f'<g id="{name}">\n{self._aside(draw)}</g>\n'

        name = self._name(("stamp", key), "b", define)
        place = "" if motion == Motion() else f' transform="{matrix(Affine.of(motion))}"'
        self._out.append(f'<use xlink:href="#{name}"{place}/>\n')

    def _group(self, attributes: str) -> None:
        self._out.append(f"<g {attributes}>\n")
        self._open[-1] += 1

    def _aside(self, draw: Callable[[Pen], None]) -> str:
        """What a drawing writes, taken out of the body."""
        body, self._out = self._out, []
        self.save()
        draw(self)
        self.restore()
        written, self._out = "".join(self._out), body
        return written

    def _name(self, key: Hashable, letter: str, define: Callable[[str], str]) -> str:
        """The id of a definition, which is written when it is first needed."""
        if key not in self._names:
            self._names[key] = f"{letter}{len(self._names) + 1}"
            self._definitions.append(define(self._names[key]))
        return self._names[key]

    def _fill(self, fill: Fill | None) -> str:
        if isinstance(fill, ClothFill):
            if fill.fabric.print is None:
                return f'fill="{fill.fabric.color}"'
            return f'fill="url(#{self._pattern(fill, fill.fabric.print)})"'
        if isinstance(fill, Flat):
            opacity = f' fill-opacity="{plain(fill.opacity)}"' if fill.opacity != 1 else ""
            return f'fill="{fill.color}"{opacity}'
        return ""

    def _pattern(self, fill: ClothFill, printed: Print) -> str:
        """The name of a pattern that shows a print where it lies: the print's own tile, moved and turned."""
        tile = tile_of(fill.fabric.color, printed)
        frame = matrix(_within_one_repeat(Affine.of(tile_motion(fill)), tile.size))
        base = self._name(("tile", fill.fabric.color, printed), "t", lambda name: self._tile(name, tile))

        def define(name: str) -> str:
            return f'<pattern id="{name}" xlink:href="#{base}" patternTransform="{frame}"/>\n'

        return self._name(("turned", base, frame), "p", define)

    def _tile(self, name: str, tile: Tile) -> str:
        """A pattern of one repeat; its ground reaches over its sides, so that no gap shows between."""
        side, over = units(tile.size), units(tile.size + 1 / PER_INCH)
        self._places = 1  # a thousandth of an inch is enough for a print
        motifs = self._aside(lambda pen: replay(tile.repeated(), pen))
        self._places = 2
        return (
            f'<pattern id="{name}" patternUnits="userSpaceOnUse" width="{side}" height="{side}">\n'
            f'<path d="M-1-1H{over}V{over}H-1Z" fill="{tile.ground}"/>\n{motifs}</pattern>\n'
        )


def svg_picture(draw: Callable[[Pen], None], scale: float = 1.0, margin: float = 0.0, title: str = "") -> str:
    """A drawing as an SVG file that shows all of it, with a margin in the drawing's inches."""
    box = bounds(draw) or Box(0.0, 0.0, 0.0, 0.0)
    pen = SvgPen()
    draw(pen)
    return pen.document(box.grown(margin), scale, title)


def _within_one_repeat(frame: Affine, size: float) -> Affine:
    """The frame moved by whole repeats to near 0, 0, so that like patterns share a definition."""
    across, down = (
        (frame.a * frame.e + frame.b * frame.f) / size,
        (frame.c * frame.e + frame.d * frame.f) / size,
    )
    x, y = size * (across - round(across)), size * (down - round(down))
    return Affine(frame.a, frame.b, frame.c, frame.d, frame.a * x + frame.c * y, frame.b * x + frame.d * y)


def _stroke(stroke: Stroke | None) -> str:
    if stroke is None:
        return ""
    words = [f'stroke="{stroke.color}" stroke-width="{units(stroke.width)}"']
    if stroke.opacity != 1:
        words.append(f'stroke-opacity="{plain(stroke.opacity)}"')
    if stroke.dash:
        words.append(f'stroke-dasharray="{" ".join(units(length) for length in stroke.dash)}"')
    if not stroke.square:
        words.append('stroke-linejoin="round"' + ("" if stroke.dash else ' stroke-linecap="round"'))
    return " ".join(words)
