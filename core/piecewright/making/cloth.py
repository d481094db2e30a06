"""Cloth on the table: patches, each with the cloth it is cut from and what is seen of it, and the seams that hold them.

Everything here is a frozen value; a step makes new cloth out of old. Inches, x right and y down, right side up.
"""

from collections.abc import Iterable
from typing import NamedTuple

import msgspec

from piecewright.geometry import polygons
from piecewright.geometry.half import Half, beyond, up_to
from piecewright.geometry.motion import Motion, Number, Point
from piecewright.geometry.shapes import Placing, Rect, Segment, Shape
from piecewright.geometry.tolerance import ALIKE, alike, apart


class Patch(msgspec.Struct, frozen=True):
    """One piece of one strip.

    `raw` is all its cloth, `seen` what no seam hides; `layer` is how many layers further down its fabric is found;
    `strip` numbers the strip it was cut from, `thread` is that strip's lengthwise thread as laid (clockwise degrees
    from x), and `came` carries the strip as laid (top left at 0, 0) to where the patch lies now.
    """

    letter: str
    layer: int
    strip: int
    thread: int
    raw: Shape
    seen: Shape
    came: Motion

    def placed(self, placing: Placing) -> "Patch":
        """The patch where it comes to lie."""
        raw = self.raw.placed(placing)
        seen = raw if self.seen is self.raw else self.seen.placed(placing)
        came = placing.motion(self.came)
        return Patch(self.letter, self.layer, self.strip, self.thread, raw, seen, came)

    def shaped(self, raw: Shape, seen: Shape) -> "Patch":
        """The patch with another outline, where it lies."""
        return Patch(self.letter, self.layer, self.strip, self.thread, raw, seen, self.came)


class Scrap(msgspec.Struct, frozen=True):
    """Cloth that a cut takes off: `seen` is None where it was hidden in a seam and falls out of it."""

    letter: str
    layer: int
    strip: int
    raw: Shape
    seen: Shape | None


class Seam(msgspec.Struct, frozen=True):
    """One segment of a seam: the `join`-th (from 1) of the step that sewed it.

    `layer` is how many layers further down it was sewn; `quarters` how far it has been turned since, clockwise.
    """

    step: str
    join: int
    layer: int
    quarters: int
    line: Segment

    def placed(self, placing: Placing) -> "Seam":
        """The segment where it comes to lie."""
        quarters = (self.quarters + placing.quarters) % 4
        return Seam(self.step, self.join, self.layer, quarters, self.line.placed(placing))

    def with_line(self, line: Segment) -> "Seam":
        """The same seam along another line."""
        return Seam(self.step, self.join, self.layer, self.quarters, line)


class Cloth(msgspec.Struct, frozen=True):
    """One piece on the table.

    `box` is the rectangle around what is seen; `whole` says that the piece fills it; `kept` that it still lies in the
    frame of the piece it was sliced from.
    """

    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    box: Rect
    whole: bool = True
    kept: bool = False


Pile = tuple[Cloth, ...]
"""One cloth for each layer of the stack, layer 0 on top; only one while all layers are alike."""


def moved(cloth: Cloth, dx: Number, dy: Number) -> Cloth:
    """The cloth after a plain move; its frame is its own again."""
    if not dx and not dy:
        return Cloth(cloth.patches, cloth.seams, cloth.box, cloth.whole)
    return _placed(cloth, Placing(0, dx, dy))


def home(cloth: Cloth) -> Cloth:
    """The cloth moved so that its box has its top left corner at 0, 0."""
    return moved(cloth, -cloth.box.left, -cloth.box.top)


def turned(cloth: Cloth, quarters: int) -> Cloth:
    """The cloth after quarter turns clockwise on screen, moved home."""
    return _placed(cloth, turning(cloth.box, quarters))


def turning(box: Rect, quarters: int) -> Placing:
    """Quarter turns that bring a box home again."""
    lying = box.placed(Placing(quarters, 0, 0))
    return Placing(quarters, -lying.left, -lying.top)


def _placed(cloth: Cloth, placing: Placing) -> Cloth:
    return Cloth(
        tuple([patch.placed(placing) for patch in cloth.patches]),
        tuple([seam.placed(placing) for seam in cloth.seams]),
        cloth.box.placed(placing),
        cloth.whole,
    )


def lowered(cloth: Cloth, layers: int, stack: int) -> Cloth:
    """The cloth when its fabrics are found `layers` further down the stack."""
    patches = tuple(
        msgspec.structs.replace(patch, layer=(patch.layer + layers) % stack) for patch in cloth.patches
    )
    seams = tuple(msgspec.structs.replace(seam, layer=(seam.layer + layers) % stack) for seam in cloth.seams)
    return Cloth(patches, seams, cloth.box, cloth.whole, cloth.kept)


class Parted(NamedTuple):
    """A cloth cut in two along a line: the patches and seams on either side, and hidden cloth that falls out there."""

    inside: list[Patch]
    inside_seams: list[Seam]
    outside: list[Patch]
    outside_seams: list[Seam]
    loose: list[Scrap]


def parted(cloth: Cloth, half: Half) -> Parted:
    """Cut a cloth along the line of a half plane. Cloth hidden in a seam whose seen part lies beyond falls out."""
    other = half.opposite
    inside: list[Patch] = []
    outside: list[Patch] = []
    loose: list[Scrap] = []
    for patch in cloth.patches:
        raw = patch.raw.clipped(half)
        if raw is patch.raw:
            inside.append(patch)
        elif raw is None:
            outside.append(patch)
        else:
            _part_patch(patch, half, raw, inside, loose)
            beyond_raw = patch.raw.clipped(other)
            if beyond_raw is not None:
                _part_patch(patch, other, beyond_raw, outside, loose)
    return Parted(inside, clipped_seams(cloth.seams, half), outside, clipped_seams(cloth.seams, other), loose)


def _part_patch(patch: Patch, half: Half, raw: Shape, kept: list[Patch], loose: list[Scrap]) -> None:
    seen = raw if patch.seen is patch.raw else patch.seen.clipped(half)
    if seen is None:
        loose.append(Scrap(patch.letter, patch.layer, patch.strip, raw, None))
    else:
        kept.append(patch.shaped(raw, seen))


def scraps_of(patches: Iterable[Patch]) -> list[Scrap]:
    """Patches as cloth cut off."""
    return [Scrap(patch.letter, patch.layer, patch.strip, patch.raw, patch.seen) for patch in patches]


def clipped_seams(seams: Iterable[Seam], half: Half) -> list[Seam]:
    """The seams inside a half plane, shortened at its line."""
    kept: list[Seam] = []
    for seam in seams:
        line = seam.line.clipped(half)
        if line is not None:
            kept.append(seam if line is seam.line else seam.with_line(line))
    return kept


def hidden(patches: Iterable[Patch], half: Half) -> tuple[list[Patch], list[Patch]]:
    """The patches with nothing seen outside a half plane, and those of which then nothing is seen at all."""
    kept: list[Patch] = []
    lost: list[Patch] = []
    for patch in patches:
        seen = patch.seen.clipped(half)
        if seen is None:
            lost.append(patch)
        else:
            kept.append(patch if seen is patch.seen else patch.shaped(patch.raw, seen))
    return kept, lost


def seen_area(cloth: Cloth) -> Number:
    """What is seen of a cloth, square inches: exact where every patch is a rectangle."""
    return sum((patch.seen.area for patch in cloth.patches), start=0)


def fills(cloth: Cloth, rect: Rect) -> bool:
    """Whether a rectangle is wholly cloth: the patches seen in it add up to it."""
    found: Number = 0
    for patch in cloth.patches:
        shape: Shape | None = patch.seen
        for half in halves(rect):
            shape = shape.clipped(half) if shape else None
        found += shape.area if shape else 0
    return apart(found, rect.area) <= ALIKE * (1 + rect.width + rect.height)


def halves(rect: Rect) -> tuple[Half, Half, Half, Half]:
    """The four half planes that a rectangle is the common part of: left, top, right, bottom."""
    return beyond(0, rect.left), beyond(1, rect.top), up_to(0, rect.right), up_to(1, rect.bottom)


def box_of(patches: Iterable[Patch]) -> Rect:
    """The rectangle around what is seen of some patches."""
    boxes = [patch.seen.box for patch in patches]
    return Rect(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def spread(pile: Pile, stack: int) -> Pile:
    """The pile with one cloth for every layer."""
    return pile if len(pile) == stack else pile * stack


def same_outline(one: Cloth, other: Cloth) -> bool:
    """Whether two cloths at home cover the same ground."""
    sides = zip(one.box.points, other.box.points, strict=True)
    if not all(alike(a[0], b[0]) and alike(a[1], b[1]) for a, b in sides):
        return False
    return (one.whole and other.whole) or polygons.cover_same(_seen(one), _seen(other))


def _seen(cloth: Cloth) -> list[tuple[Point, ...]]:
    return [patch.seen.points for patch in cloth.patches]
