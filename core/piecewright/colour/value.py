"""Color by measure: how light a cloth looks, how far apart two are, and what is light, medium and dark.

A color is text "#rrggbb": the design's constructors have seen to that, anything else is a ValueError here.
The library that measures is loaded at the first use, off the start path.
"""

import re
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import TYPE_CHECKING, Literal

if TYPE_CHECKING:
    from coloraide import Color

Lab = tuple[float, float, float]
"""CIE L*a*b* under daylight (D65): L* from 0, black, to 100, white."""

Value = Literal["light", "medium", "dark"]

_HEX = re.compile(r"#[0-9a-fA-F]{6}")


@lru_cache(maxsize=4096)
def lab_of(color: str) -> Lab:
    """The CIE L*a*b* coordinates of an sRGB color."""
    lightness, a, b = _read(color).convert("lab-d65").coords()
    return (lightness, a, b)


def lightness(color: str) -> float:
    """CIE L*, 0 for black to 100 for white: value as quilters mean it, measured."""
    return lab_of(color)[0]


def lab_difference(first: Lab, second: Lab) -> float:
    """CIEDE2000 between two L*a*b* colors; about 1 is the least that eyes tell apart. Always 0 or more."""
    color = _color_type()
    return float(color("lab-d65", first).delta_e(color("lab-d65", second), method="2000"))


@lru_cache(maxsize=4096)
def gray(color: str) -> str:
    """The neutral gray that is just as light, as #rrggbb."""
    return str(
        _color_type()("lab-d65", (lightness(color), 0.0, 0.0)).convert("srgb").to_string(hex=True, fit="clip")
    )


def difference(first: str, second: str) -> float:
    """CIEDE2000 between two colors."""
    return lab_difference(lab_of(first), lab_of(second))


def contrast(first: str, second: str) -> float:
    """WCAG 2.1 contrast ratio, 1 to 21, either way round; text wants 4.5 or more, parts of a window 3."""
    return float(_read(first).contrast(_read(second), method="wcag21"))


def values_by_terciles(colors: Sequence[str]) -> tuple[Value, ...]:
    """Light, medium or dark for each color by its place among all: value is relative to the neighbors.

    The place is the share of colors that are darker, with half of those equally light; the lowest third is
    dark, the highest light. So like colors get like values, and one color alone is medium.
    """
    levels = [round(lightness(color), 6) for color in colors]
    return tuple(
        _tercile(sum(x < level for x in levels), levels.count(level), len(levels)) for level in levels
    )


def _tercile(darker: int, alike: int, among: int) -> Value:
    place = 3 * (2 * darker + alike)
    if place <= 2 * among:
        return "dark"
    return "light" if place >= 4 * among else "medium"


def _read(color: str) -> "Color":
    if not _HEX.fullmatch(color):
        raise ValueError(f"a color is written #rrggbb, not {color!r}")
    return _color_type()(color)


@cache
def _color_type() -> "type[Color]":
    from coloraide import Color  # the first use pays: 50 ms that no start of the program should wait for

    return Color
