"""Cloth on the table: patches, each with the cloth it is cut from and what is seen of it, and the seams that hold them.

Everything here is a frozen value; a step makes new cloth out of old. Inches, x right and y down, right side up.
"""

from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple, TypeVar

import msgspec

from piecewright.geometry import polygons
from piecewright.geometry.carrying import carried, carried_line, carried_rect
from piecewright.geometry.half import Half, beyond, up_to
from piecewright.geometry.motion import Motion, Number, Point
from piecewright.geometry.shapes import Placing, Rect, Segment, Shape, shifts
from piecewright.geometry.tolerance import ALIKE, alike, apart
from piecewright.making.steps import Axis


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

    def carried(self, motion: Motion) -> "Patch":
        """The patch where any motion brings it."""
        raw = carried(self.raw, motion)
        seen = raw if self.seen is self.raw else carried(self.seen, motion)
        came = self.came.then(motion)
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

    `layer` is how many layers further down it was sewn; `faced`, `quarters` and `degrees` how it has been turned over
    and then turned since, clockwise.
    """

    step: str
    join: int
    layer: int
    quarters: int
    line: Segment
    degrees: float = 0.0
    faced: bool = False

    def placed(self, placing: Placing) -> "Seam":
        """The segment where it comes to lie."""
        quarters, line = (self.quarters + placing.quarters) % 4, self.line.placed(placing)
        return Seam(self.step, self.join, self.layer, quarters, line, self.degrees, self.faced)

    def carried(self, motion: Motion) -> "Seam":
        """The segment where any motion brings it."""
        turn = Motion(self.quarters, self.degrees, self.faced).then(motion)
        line = carried_line(self.line, motion)
        return Seam(self.step, self.join, self.layer, turn.quarters, line, turn.degrees, turn.faced)

    def with_line(self, line: Segment) -> "Seam":
        """The same seam along another line."""
        return Seam(self.step, self.join, self.layer, self.quarters, line, self.degrees, self.faced)


class Over(msgspec.Struct, frozen=True):
    """A second piece that lies face down on a cloth, edge to edge in its frame, and the seams that hold both."""

    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    stitches: tuple[Seam, ...]


class Flap(msgspec.Struct, frozen=True):
    """What lies beyond a partial seam, in the frame of the piece; it is folded back where the seam is open.

    Until the seam is finished it hides nothing, neither of this nor of the piece. The line of `seam` runs from where
    the stitches stop to the end that is sewn; `on_right` says on which hand of it the flap lies; `caught` that another
    seam has been sewn across that end.
    """

    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    seam: Seam
    on_right: bool
    caught: bool = False


State = Literal["faced", "tube", "partial"]
"""What makes a piece other than flat: it is two, right sides together; its ends are sewn together; a seam is open."""


class Cloth(msgspec.Struct, frozen=True):
    """One piece on the table.

    `box` is the rectangle around what is seen; `whole` says that the piece fills it; `kept` that it still lies in the
    frame of the piece it was sliced from; `over` is what lies face down on it; `cut_edges` are the edges that the last
    slice or leaning cut made, clockwise round the piece; `loop` is the axis along which it is a tube, whose seam
    lies at the end of the box; the start of the box is the same place; `flap` is what a partial seam holds.
    """

    patches: tuple[Patch, ...]
    seams: tuple[Seam, ...]
    box: Rect
    whole: bool = True
    kept: bool = False
    over: Over | None = None
    cut_edges: tuple[Segment, ...] = ()
    loop: Axis | None = None
    flap: Flap | None = None

    @property
    def state(self) -> State | None:
        """What is to be undone before the piece can be handled like any other; None of a flat one."""
        if self.over:
            return "faced"
        if self.flap:
            return "partial"
        return "tube" if self.loop else None

    @property
    def closing_seams(self) -> tuple[Seam, ...]:
        """The seam of a tube as it is met at the start of its box."""
        if self.loop is None:
            return ()
        along, end = (0, self.box.right) if self.loop == "across" else (1, self.box.bottom)
        start = self.box.left if along == 0 else self.box.top
        back = (start - end, 0) if along == 0 else (0, start - end)
        closing = (seam for seam in self.seams if seam.line.start[along] == seam.line.end[along] == end)
        return tuple(seam.with_line(seam.line.moved(*back)) for seam in closing)

    @property
    def all_patches(self) -> tuple[Patch, ...]:
        """All its cloth, what lies on it or beyond a partial seam included."""
        more = self.over or self.flap
        return self.patches + more.patches if more else self.patches


_Part = TypeVar("_Part", Patch, Seam)

Pile = tuple[Cloth, ...]
"""One cloth for each layer of the stack, layer 0 on top; only one while all layers are alike."""


def moved(cloth: Cloth, dx: Number, dy: Number) -> Cloth:
    """The cloth after a plain move; its frame is its own again."""
    if not shifts(dx) and not shifts(dy):
        return msgspec.structs.replace(cloth, kept=False) if cloth.kept else cloth
    return _placed(cloth, Placing(0, dx, dy))


def home(cloth: Cloth) -> Cloth:
    """The cloth moved so that its box has its top left corner at 0, 0."""
    return moved(cloth, -cloth.box.left, -cloth.box.top)


def turned(cloth: Cloth, quarters: int) -> Cloth:
    """The cloth after quarter turns clockwise on screen, moved home."""
    return _placed(cloth, turning(cloth.box, quarters))


def carried_cloth(cloth: Cloth, motion: Motion) -> Cloth:
    """A cloth where any motion brings it, in the box round what is seen of it; only a flat one may be turned over."""
    patches = tuple([patch.carried(motion) for patch in cloth.patches])
    seams = tuple([seam.carried(motion) for seam in cloth.seams])
    edges = [carried_line(edge, motion) for edge in cloth.cut_edges]
    turned_over = [Segment(edge.end, edge.start) for edge in edges] if motion.faced else edges
    over = cloth.over and Over(
        tuple([patch.carried(motion) for patch in cloth.over.patches]),
        tuple([seam.carried(motion) for seam in cloth.over.seams]),
        tuple([seam.carried(motion) for seam in cloth.over.stitches]),
    )
    if cloth.whole and not motion.degrees:
        box = carried_rect(cloth.box, motion)
        return Cloth(patches, seams, box, over=over, cut_edges=tuple(turned_over))
    moved = Cloth(patches, seams, box_of(patches), whole=False, over=over, cut_edges=tuple(turned_over))
    return msgspec.structs.replace(moved, whole=fills(moved, moved.box))


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
        over=cloth.over
        and Over(
            tuple([patch.placed(placing) for patch in cloth.over.patches]),
            tuple([seam.placed(placing) for seam in cloth.over.seams]),
            tuple([seam.placed(placing) for seam in cloth.over.stitches]),
        ),
        cut_edges=tuple([edge.placed(placing) for edge in cloth.cut_edges]),
        loop=cloth.loop,
        flap=cloth.flap and placed_flap(cloth.flap, placing),
    )


def placed_flap(flap: Flap, placing: Placing) -> Flap:
    """What a partial seam holds, where it comes to lie."""
    patches = tuple([patch.placed(placing) for patch in flap.patches])
    seams = tuple([seam.placed(placing) for seam in flap.seams])
    return Flap(patches, seams, flap.seam.placed(placing), flap.on_right, flap.caught)


def lowered(cloth: Cloth, layers: int, stack: int) -> Cloth:
    """The cloth when its fabrics are found `layers` further down the stack."""

    def lower(parts: tuple[_Part, ...]) -> tuple[_Part, ...]:
        return tuple([msgspec.structs.replace(part, layer=(part.layer + layers) % stack) for part in parts])

    over = cloth.over and Over(lower(cloth.over.patches), lower(cloth.over.seams), lower(cloth.over.stitches))
    flap = cloth.flap
    if flap is not None:
        (seam,) = lower((flap.seam,))
        flap = Flap(lower(flap.patches), lower(flap.seams), seam, flap.on_right, flap.caught)
    patches, seams = lower(cloth.patches), lower(cloth.seams)
    return msgspec.structs.replace(cloth, patches=patches, seams=seams, over=over, flap=flap)


class Parted(NamedTuple):
    """A cloth cut in two along a line: what is on either side (in the old box), and hidden cloth that falls out there.

    A side without cloth has no patches.
    """

    inside: Cloth
    outside: Cloth
    loose: list[Scrap]


def parted(cloth: Cloth, half: Half) -> Parted:
    """Cut a cloth along the line of a half plane. Cloth hidden in a seam whose seen part lies beyond falls out."""
    loose: list[Scrap] = []
    other = half.opposite
    inside, outside = _part_patches(cloth.patches, (half, other), loose)
    over_in = over_out = None
    if cloth.over:
        upper_in, upper_out = _part_patches(cloth.over.patches, (half, other), loose)
        over_in, over_out = (
            Over(
                tuple(patches),
                tuple(clipped_seams(cloth.over.seams, side)),
                tuple(clipped_seams(cloth.over.stitches, side)),
            )
            for patches, side in ((upper_in, half), (upper_out, other))
        )
    box, whole, loop = cloth.box, cloth.whole, cloth.loop
    inner, outer = (tuple(clipped_seams(cloth.seams, side)) for side in (half, other))
    return Parted(
        Cloth(tuple(inside), inner, box, whole, over=over_in, loop=loop),
        Cloth(tuple(outside), outer, box, whole, over=over_out, loop=loop),
        loose,
    )


def _part_patches(
    patches: Iterable[Patch], halves: tuple[Half, Half], loose: list[Scrap]
) -> tuple[list[Patch], list[Patch]]:
    half, other = halves
    inside: list[Patch] = []
    outside: list[Patch] = []
    for patch in patches:
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
    return inside, outside


def _part_patch(patch: Patch, half: Half, raw: Shape, kept: list[Patch], loose: list[Scrap]) -> None:
    seen = raw if patch.seen is patch.raw else patch.seen.clipped(half)
    if seen is None:
        loose.append(Scrap(patch.letter, patch.layer, patch.strip, raw, None))
    else:
        kept.append(patch.shaped(raw, seen))


def scraps_of(cloth: Cloth) -> list[Scrap]:
    """A cloth as cloth cut off."""
    return [
        Scrap(patch.letter, patch.layer, patch.strip, patch.raw, patch.seen) for patch in cloth.all_patches
    ]


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


def even(piles: Sequence[Pile], stack: int) -> Sequence[Pile]:
    """The piles, with one cloth for every layer as soon as one of them has unlike layers."""
    return piles if all(len(pile) == 1 for pile in piles) else [spread(pile, stack) for pile in piles]


def same_outline(one: Cloth, other: Cloth) -> bool:
    """Whether two cloths at home cover the same ground."""
    sides = zip(one.box.points, other.box.points, strict=True)
    if not all(alike(a[0], b[0]) and alike(a[1], b[1]) for a, b in sides):
        return False
    return (one.whole and other.whole) or polygons.cover_same(_seen(one), _seen(other))


def _seen(cloth: Cloth) -> list[tuple[Point, ...]]:
    return [patch.seen.points for patch in cloth.patches]
