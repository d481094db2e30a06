"""From a quilt's materials to the pieces to cut of every fabric."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Grain, Parts, Piece
from piecewright.cutting.sheets import bolt
from piecewright.plan.back_pieces import BackPiece
from piecewright.plan.borders import BorderPlan
from piecewright.plan.keys import UNCHOSEN, Lane
from piecewright.plan.materials import Materials, sets_in_order
from piecewright.plan.packing import TIGHT
from piecewright.plan.parts import Joined
from piecewright.plan.sets import StripSet
from piecewright.words.message import Message, message

Part = Literal["set", "single", "bias", "part", "patch", "border", "binding", "backing"]
"""What pieces are for.

Sashes, cornerstones, setting triangles and coping strips are cut from single strips; "part" are those too long for
one. Patches of drawn blocks join here as the plan learns of them.
"""
_ORDER: tuple[Part, ...] = ("set", "single", "bias", "part", "patch", "border", "binding", "backing")


@dataclass(frozen=True, slots=True)
class Wanted:
    """So many pieces of a fabric; width from selvage to selvage unless `grain` is lengthwise. None may turn.

    `inside`: how often each is cut again at once, and how long each part is; `trued` is what truing takes then.
    """

    fabric: str
    part: Part
    width: Fraction
    height: Fraction
    count: int
    name: Message
    grain: Grain = "crosswise"
    inside: Parts = ()
    trued: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class FabricDemand:
    """All pieces of one fabric, and the usable width of its cloth."""

    fabric: str
    usable: Fraction
    pieces: tuple[Piece, ...]

    @property
    def job(self) -> Job:
        """The pieces off the bolt."""
        return Job(self.pieces, bolt(self.usable))


def demand_of(materials: Materials, *, apart: bool = False) -> tuple[FabricDemand, ...]:
    """The pieces of every fabric, in the order of the materials.

    `apart`: strips that are only cut up again are told as the pieces they give, each for itself.

    A strip of a set, or one cut up by itself, is only as long as its cuts and truing need, and half an inch
    to spare where there is as much; the last strip of a border or a binding only as long as what is still
    missing. What is left of these strips can serve other sizes.
    """
    by_fabric: dict[str, list[Wanted]] = {}
    for wanted in _wanted(materials, apart=apart):
        by_fabric.setdefault(wanted.fabric, []).append(wanted)
    return tuple(
        FabricDemand(cloth.fabric, cloth.usable, _pieces(by_fabric.get(cloth.fabric, [])))
        for cloth in materials.cloth
    )


def _wanted(materials: Materials, *, apart: bool) -> Iterator[Wanted]:
    sets = sets_in_order(materials)
    if apart:
        yield from _pieces_apart(materials, tuple(found for found in sets if comes_apart(found)))
    for found in sets:
        if not (apart and comes_apart(found)):
            yield from strips_of(found)
    yield from _bias(materials)
    for joined in materials.joined:
        yield from _of_joined(joined, materials.settings.seam)
    for number, border in enumerate(materials.borders, 1):
        yield from _of_border(border, number, materials.settings.seam)
    yield from _of_binding(materials)
    yield from _of_backing(materials)


def _pieces(wanted: list[Wanted]) -> tuple[Piece, ...]:
    """Alike pieces counted together, keyed by what they are for and their number."""
    counts: dict[Wanted, int] = {}
    for each in wanted:
        one = replace(each, count=1)
        counts[one] = counts.get(one, 0) + each.count
    ordered = sorted(counts.items(), key=lambda pair: _ORDER.index(pair[0].part))
    return tuple(
        Piece(
            key=f"{each.part} {number}",
            width=each.width,
            height=each.height,
            count=count,
            may_turn=False,
            grain=each.grain,
            name=each.name,
            inside=each.inside,
            trued=each.trued,
        )
        for number, (each, count) in enumerate(ordered, 1)
    )


def comes_apart(found: StripSet) -> bool:
    """Whether a set is one crosswise strip that is cut up into pieces and nothing else."""
    return (
        len(found.lanes) == 1
        and found.lanes[0].grain == "crosswise"
        and not any(
            kit.whole or kit.trims or kit.run != sum(kit.segments, Fraction(0)) for kit, _ in found.kits
        )
    )


def _pieces_apart(materials: Materials, sets: tuple[StripSet, ...]) -> Iterator[Wanted]:
    """What strips are cut up into: first the parts between and round the blocks, the rest is for blocks."""
    counts: Counter[tuple[str, Fraction, Fraction]] = Counter()
    for found in sets:
        (lane,) = found.lanes
        for kit, count in found.kits:
            for length in kit.segments:
                counts[lane.fabric, length, lane.width] += count
    for part in materials.parts:
        short, long = sorted((Fraction(part.cut.width), Fraction(part.cut.height)))
        key = (part.fabric, long, short)
        cuts = min(part.cuts, counts[key])
        if cuts:
            counts[key] -= cuts
            yield Wanted(part.fabric, "part", long, short, cuts, message(f"cutting.for-{part.part}"))
    for (fabric, length, width), count in counts.items():
        if count:
            yield Wanted(fabric, "patch", length, width, count, message("cutting.for-patch"))


def strips_of(found: StripSet) -> Iterator[Wanted]:
    """The strips of some strip sets; those of a set of one are cut up at once."""
    part: Part = "set" if len(found.lanes) > 1 else "single"
    name = message("cutting.for-set" if part == "set" else "cutting.for-single")
    for lane in found.lanes:
        if lane.grain == "bias":
            continue
        for cuts in found.cuts:
            length = found.usable - max(cuts.to_spare - TIGHT, Fraction(0))
            wanted = _strip(lane, part, length, cuts.sets, name)
            yield replace(wanted, inside=cuts.segments, trued=cuts.truing) if part == "single" else wanted


def _strip(lane: Lane, part: Part, length: Fraction, count: int, name: Message) -> Wanted:
    grain: Grain = "lengthwise" if lane.grain == "lengthwise" else "crosswise"
    return Wanted(lane.fabric, part, length, lane.width, count, name, grain)


def _bias(materials: Materials) -> Iterator[Wanted]:
    """Bias strips are cut at a slant from a length of whole cloth."""
    for cloth in materials.cloth:
        for use in cloth.uses:
            if use.grain == "bias":
                yield Wanted(cloth.fabric, "bias", cloth.usable, use.inches, 1, message("cutting.for-bias"))


def _of_border(border: BorderPlan, number: int, seam: Fraction) -> Iterator[Wanted]:
    """Whole strips, and a last one of what they do not give; every join takes two allowances."""
    if not border.strips:
        return
    if border.lengthwise:
        name = message("cutting.for-border", number=number)
        for size in (border.sides, border.ends):
            length = Fraction(size.width)
            yield Wanted(border.fabric, "border", length, border.width, 2, name, "lengthwise")
        return
    whole = border.strips - 1
    last = border.total - whole * (border.usable - 2 * seam)
    if whole:
        name = message("cutting.for-border", number=number)
        yield Wanted(border.fabric, "border", border.usable, border.width, whole, name)
    name = message("cutting.for-border-end", number=number)
    yield Wanted(border.fabric, "border", last, border.width, 1, name)


def _of_joined(joined: Joined, seam: Fraction) -> Iterator[Wanted]:
    """Strips sewn end to end for pieces that are longer than the cloth is wide, the last as long as is missing."""
    strips, name = joined.strips, message("cutting.for-joined", part=message(f"cutting.for-{joined.part}"))
    whole = joined.count - 1
    last = joined.total - whole * (joined.usable - 2 * seam)
    if whole:
        yield Wanted(strips.fabric, "part", joined.usable, strips.width, whole, name)
    yield Wanted(strips.fabric, "part", last, strips.width, 1, name)


def _of_binding(materials: Materials) -> Iterator[Wanted]:
    """Whole strips, and a last one, each longer by what a join takes; or the squares of a bias binding."""
    binding = materials.binding
    fabric = binding.fabric or f"{UNCHOSEN}binding"
    if binding.squares is not None:
        side, name = binding.squares.side, message("cutting.for-bias-square")
        yield Wanted(fabric, "binding", side, side, binding.squares.count, name)
    if not binding.strips:
        return
    whole = binding.strips - 1
    last = binding.length - whole * (binding.usable - binding.lost) + binding.lost
    if whole:
        name = message("cutting.for-binding")
        yield Wanted(fabric, "binding", binding.usable, binding.width, whole, name)
    yield Wanted(fabric, "binding", last, binding.width, 1, message("cutting.for-binding-end"))


def _of_backing(materials: Materials) -> Iterator[Wanted]:
    backing = materials.backing
    if backing.panels.count:
        fabric = backing.fabric or f"{UNCHOSEN}backing"
        name = message("cutting.for-backing")
        panels = backing.panels
        yield Wanted(fabric, "backing", backing.usable, panels.length, panels.count, name)
        if panels.pieces:
            name = message("cutting.for-backing-strip")
            yield Wanted(fabric, "backing", backing.usable, panels.strip, panels.pieces, name)
        for piece in materials.back_pieces:
            yield from _of_back_piece(piece, fabric, backing.usable, materials.settings.seam)


def _of_back_piece(piece: BackPiece, fabric: str, usable: Fraction, seam: Fraction) -> Iterator[Wanted]:
    """A sleeve or a label: whole strips where it is longer than the cloth is wide, and what is left of it."""
    if not piece.strips:
        return
    whole = piece.strips - 1
    name = message(f"cutting.for-{piece.part}")
    height = Fraction(piece.size.height)
    if whole:
        yield Wanted(fabric, "backing", usable, height, whole, name)
    last = Fraction(piece.size.width) - whole * (usable - 2 * seam)
    yield Wanted(fabric, "backing", last, height, 1, name)
