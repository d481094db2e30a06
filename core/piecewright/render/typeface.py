"""The one typeface of every picture: where its files are, and how wide text runs without a screen."""

import json
import re
from functools import cache, lru_cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:  # the window registers these files before it reads the engine in
    from piecewright.render.pen import TextStyle

FAMILY = "Inter"
_KEPT_TOGETHER = re.compile(r"(?<=\d) (?=\d+/\d|[x×] \d|(?:in|cm|mm|yd)\b)|(?<=\d [x×]) (?=\d)")
_SLACK = 1.06  # where an SVG is shown without the typeface, another one may run a little wider
_FILES = ("Inter-Regular.otf", "Inter-Medium.otf", "Inter-SemiBold.otf")


def font_bytes() -> tuple[bytes, ...]:
    """The font files, to be registered with a screen."""
    return tuple(_folder().joinpath(name).read_bytes() for name in _FILES)


def text_width(words: str, style: "TextStyle") -> float:
    """Inches that a line of text runs; kerning, which would only narrow it, is left out."""
    advances, widest = _advances(style.weight)
    return sum(advances.get(sign, widest) for sign in words) * style.size


def wrapped(words: str, style: "TextStyle", width: float) -> list[str]:
    """The text as lines no wider than `width` inches; a single word that is wider stands alone.

    A number is one word with its fraction and its unit, and so are the numbers of a size.
    """
    lines: list[str] = []
    line = ""
    for word in _KEPT_TOGETHER.sub("\u00a0", words).replace("\n", " ").split(" "):
        longer = f"{line} {word}" if line else word
        if line and text_width(longer, style) * _SLACK > width:
            lines.append(line)
            line = word
        else:
            line = longer
    return [kept.replace("\u00a0", " ") for kept in ([*lines, line] if line else lines)]


def _folder() -> Traversable:
    return files("piecewright_data").joinpath("fonts")


@cache
def _table() -> dict[str, Any]:
    table: dict[str, Any] = json.loads(_folder().joinpath("advances.json").read_text(encoding="utf-8"))
    return table


@lru_cache(maxsize=4)
def _advances(weight: int) -> tuple[dict[str, float], float]:
    """The advance of each character in ems, and that of W for what the table leaves out."""
    font = _table()[str(weight)]
    advances = {sign: int(width) / font["em"] for width, signs in font["widths"].items() for sign in signs}
    return advances, advances["W"]
