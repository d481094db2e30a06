"""Shapes for cushions, bags, mats and clothes, each from a few sizes that can be set (common practice, no source)."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Literal

ShapeName = Literal["tote panel", "cushion", "table runner", "place mat", "jacket back", "vest front"]
Sizes = Mapping[str, Fraction]
Outline = tuple[tuple[Fraction, Fraction], ...]
_NOTHING = Fraction(0)


@dataclass(frozen=True)
class UsualShape:
    """A shape by its sizes: their names with usual values, and the outline that all of them make."""

    name: ShapeName
    usual: Sizes
    outline: Callable[[Sizes], Outline]


def _cushion(sizes: Sizes) -> Outline:
    w, h = sizes["width"], sizes["height"]
    return ((_NOTHING, _NOTHING), (w, _NOTHING), (w, h), (_NOTHING, h))


def _tote(sizes: Sizes) -> Outline:
    """A rectangle with squares taken out of its lower corners: sewn together they make the bottom."""
    w, h, c = sizes["width"], sizes["height"], sizes["bottom corner"]
    return (
        (_NOTHING, _NOTHING),
        (w, _NOTHING),
        (w, h - c),
        (w - c, h - c),
        (w - c, h),
        (c, h),
        (c, h - c),
        (_NOTHING, h - c),
    )


def _runner(sizes: Sizes) -> Outline:
    """A long rectangle with pointed ends."""
    w, h, p = sizes["length"], sizes["width"], sizes["point"]
    return ((p, _NOTHING), (w - p, _NOTHING), (w, h / 2), (w - p, h), (p, h), (_NOTHING, h / 2))


def _mat(sizes: Sizes) -> Outline:
    """A rectangle whose corners are cut off."""
    w, h, c = sizes["width"], sizes["height"], sizes["corner"]
    return (
        (c, _NOTHING),
        (w - c, _NOTHING),
        (w, c),
        (w, h - c),
        (w - c, h),
        (c, h),
        (_NOTHING, h - c),
        (_NOTHING, c),
    )


def _back(sizes: Sizes) -> Outline:
    """Shoulders that slope from a straight neck, armholes cut in by straight lines."""
    w, h = sizes["width"], sizes["height"]
    neck, slope, hole, depth = (
        sizes[name] for name in ("neck", "shoulder slope", "armhole", "armhole depth")
    )
    left, right = (w - neck) / 2, (w + neck) / 2
    return (
        (left, _NOTHING),
        (right, _NOTHING),
        (w - hole, slope),
        (w - hole, depth - hole),
        (w, depth),
        (w, h),
        (_NOTHING, h),
        (_NOTHING, depth),
        (hole, depth - hole),
        (hole, slope),
    )


def _front(sizes: Sizes) -> Outline:
    """The left front of a vest as it is worn: a slanted neck, one shoulder, an armhole, a pointed hem."""
    w, h = sizes["width"], sizes["height"]
    neck, drop, slope, hole, depth, point = (
        sizes[name]
        for name in ("neck", "neck depth", "shoulder slope", "armhole", "armhole depth", "hem point")
    )
    return (
        (neck, _NOTHING),
        (w - hole, slope),
        (w - hole, depth - hole),
        (w, depth),
        (w, h - point),
        (w / 3, h),
        (_NOTHING, h - point),
        (_NOTHING, drop),
    )


def _sizes(**inches: int | str) -> Sizes:
    return MappingProxyType({name.replace("_", " "): Fraction(value) for name, value in inches.items()})


USUAL_SHAPES: Mapping[ShapeName, UsualShape] = MappingProxyType(
    {
        one.name: one
        for one in (
            UsualShape("tote panel", _sizes(width=16, height=17, bottom_corner=2), _tote),
            UsualShape("cushion", _sizes(width=18, height=18), _cushion),
            UsualShape("table runner", _sizes(length=54, width=14, point=7), _runner),
            UsualShape("place mat", _sizes(width=18, height=13, corner=2), _mat),
            UsualShape(
                "jacket back",
                _sizes(width=24, height=26, neck=7, shoulder_slope="3/2", armhole=2, armhole_depth=10),
                _back,
            ),
            UsualShape(
                "vest front",
                _sizes(
                    width=12,
                    height=24,
                    neck=3,
                    neck_depth=9,
                    shoulder_slope="3/2",
                    armhole=2,
                    armhole_depth=10,
                    hem_point=2,
                ),
                _front,
            ),
        )
    }
)
"""The shapes that are offered, in order."""
