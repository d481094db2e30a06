"""Numbers, paths and words as SVG writes them, as short as they can be said."""

import re
from html import escape  # not from xml.sax, which reads in half of the network library

from piecewright.geometry.motion import Number
from piecewright.render.affine import Affine
from piecewright.render.path import Path, Spot

PER_INCH = 96  # user units to the inch: SVG's own, so a viewer that ignores physical sizes is right too
_PLACES = 2  # a hundredth of a unit is less than three thousandths of a millimeter
_UNWRITABLE = re.compile(
    "[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]"
)  # not characters of XML 1.0


def units(inches: Number) -> str:
    """A length in user units."""
    return plain(float(inches) * PER_INCH)


def plain(value: float, places: int = _PLACES) -> str:
    """A number without needless zeros."""
    text = f"{value:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text


def words(text: str) -> str:
    """Text that XML can hold, its signs escaped."""
    return escape(_UNWRITABLE.sub("\ufffd", text), quote=False)


def matrix(frame: Affine) -> str:
    """The value of a transform attribute."""
    move = f"{units(frame.e)} {units(frame.f)}"
    if (frame.a, frame.b, frame.c, frame.d) == (1, 0, 0, 1):
        return f"translate({move})"
    turn = " ".join(plain(value, 6) for value in (frame.a, frame.b, frame.c, frame.d))
    return f"matrix({turn} {move})"


def path_data(path: Path, places: int = _PLACES) -> str:
    """The value of a d attribute: relative steps between rounded points, so that errors do not add up."""
    out: list[str] = []
    here = start = (0.0, 0.0)
    for verb, points in path:
        ends = [(round(x * PER_INCH, places), round(y * PER_INCH, places)) for x, y in points]
        if verb == "M":
            out.append("M" + _joined([ends[0][0], ends[0][1]]))
            start = ends[0]
        elif verb == "L":
            out.append(_line(here, ends[0]))
        elif verb == "C":
            out.append("c" + _joined([value for x, y in ends for value in (x - here[0], y - here[1])]))
        else:
            out.append("z")
            here = start
        here = ends[-1] if ends else here
    return "".join(out)


def _line(start: Spot, end: Spot) -> str:
    if start[1] == end[1]:
        return "h" + plain(end[0] - start[0])
    if start[0] == end[0]:
        return "v" + plain(end[1] - start[1])
    return "l" + _joined([end[0] - start[0], end[1] - start[1]])


def _joined(values: list[float]) -> str:
    """Numbers side by side, a space only where a minus sign does not part them already."""
    texts = [plain(value) for value in values]
    return texts[0] + "".join(text if text.startswith("-") else " " + text for text in texts[1:])
