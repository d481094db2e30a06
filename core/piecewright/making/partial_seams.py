"""Pieces with a partial seam: which of their sides can be sewn meanwhile, and how they look laid flat."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

import msgspec

from piecewright.geometry.half import Half, beyond, right_hand, up_to
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, EASED_AT_MOST, alike, apart, passes
from piecewright.making.cloth import Cloth, Flap, Patch, Seam, box_of, clipped_seams, hidden
from piecewright.making.edges import OUTWARD, edge, line
from piecewright.making.steps import Side

Role = Literal["open", "sewn", "body", "flap"]
"""A side of the piece: where the seam is open, where it is sewn, across the piece from the flap, or the flap's own."""


def axis_of(flap: Flap) -> int:
    """The axis along which a partial seam runs, as an index into a point."""
    seam = flap.seam.line
    return 0 if seam.start[1] == seam.end[1] else 1


def body_half(flap: Flap) -> Half:
    """What lies on the piece's side of a partial seam."""
    right = right_hand(flap.seam.line.start, flap.seam.line.end)
    return right.opposite if flap.on_right else right


def role_of(flap: Flap, side: Side) -> Role:
    """What a side of a piece is to its partial seam."""
    seam, away = flap.seam.line, OUTWARD[side]
    ahead = (seam.end[0] - seam.start[0]) * away[0] + (seam.end[1] - seam.start[1]) * away[1]
    if ahead:
        return "sewn" if ahead > 0 else "open"
    body = body_half(flap)
    return "flap" if body.x_part * away[0] + body.y_part * away[1] > 0 else "body"


def catches(flap: Flap, side: Side) -> bool:
    """Whether a seam along a side is sewn over the flap too."""
    return role_of(flap, side) == "sewn" and not flap.caught


def partial_edge(cloth: Cloth, flap: Flap, side: Side) -> Segment | None:
    """The outermost line on a side of a piece whose flap is folded back; None where it is not one straight line.

    Where the seam is sewn and no other seam crosses its end yet, the line is that of piece and flap together.
    """
    body = line(_plain(cloth.patches, cloth.seams), side)
    if not catches(flap, side):
        return body
    beyond_seam, across = line(_plain(flap.patches, flap.seams), side), axis_of(flap)
    if body is None or beyond_seam is None or not alike(body.start[across], beyond_seam.start[across]):
        return None
    found = closed(cloth, flap)
    return line(_plain((*found.patches, *found.flap_patches), ()), side)


def sewn_edge(cloth: Cloth, side: Side) -> Segment | None:
    """A side along which a piece is sewn, whether it has a partial seam or not; None where it is not straight."""
    return edge(cloth, side) if cloth.flap is None else partial_edge(cloth, cloth.flap, side)


def _plain(patches: tuple[Patch, ...], seams: tuple[Seam, ...]) -> Cloth:
    return Cloth(patches, seams, box_of(patches), whole=False)


class Closed(NamedTuple):
    """A piece and its flap with their allowances out of sight, as if all of the seam were sewn.

    `beside` are the patches of the piece that border on the seam or its open end; `lost` those of which nothing would
    be seen.
    """

    patches: list[Patch]
    seams: list[Seam]
    flap_patches: list[Patch]
    flap_seams: list[Seam]
    lost: list[Patch]


def closed(cloth: Cloth, flap: Flap) -> Closed:
    """A piece as it lies once its partial seam is finished; nothing is said of the seam itself."""
    half = body_half(flap)
    kept, lost = hidden(beside(cloth, flap), half)
    patches = [patch for patch in cloth.patches if not is_beside(flap, patch)] + kept
    seams = [
        seam
        for old in cloth.seams
        for seam in (clipped_seams([old], half) if _seam_beside(flap, old) else [old])
    ]
    over, over_lost = hidden(flap.patches, half.opposite)
    return Closed(patches, seams, over, clipped_seams(flap.seams, half.opposite), lost + over_lost)


def laid_flat(cloth: Cloth) -> Cloth:
    """A piece as it looks: one with a partial seam as if that were sewn as far as the piece reaches.

    What of the flap stands out farther is shown with its allowance, and parted from the rest along `laid_along`.
    """
    flap = cloth.flap
    if flap is None:
        return cloth
    reached = _beside_piece(cloth, flap)
    standing = [shape for patch in flap.patches if (shape := _clipped(patch, reached.opposite))]
    along = [shape for patch in flap.patches if (shape := _clipped(patch, reached))]
    found = closed(cloth, msgspec.structs.replace(flap, patches=tuple(along)))
    patches = (*found.patches, *found.flap_patches, *standing)
    return Cloth(patches, (*found.seams, *found.flap_seams, flap.seam), cloth.box, whole=False)


def laid_along(cloth: Cloth) -> tuple[Segment, ...]:
    """Where parts of a piece with a partial seam border on each other in `laid_flat` without a seam.

    The first is the open stretch of the seam, from where the stitches stop.
    """
    flap = cloth.flap
    if flap is None:
        return ()
    end, along, stop = open_end(cloth, flap), axis_of(flap), flap.seam.line.start
    stretch = Segment(stop, (stop[0], end) if along else (end, stop[1]))
    if alike(end, far_end_of_flap(flap)):
        return (stretch,)
    box = box_of(flap.patches)
    sides = ((box.left, end), (box.right, end)) if along else ((end, box.top), (end, box.bottom))
    return stretch, Segment(*sides)


def _clipped(patch: Patch, half: Half) -> Patch | None:
    seen = patch.seen.clipped(half)
    if seen is None:
        return None
    return patch if seen is patch.seen else patch.shaped(patch.raw, seen)


def _beside_piece(cloth: Cloth, flap: Flap) -> Half:
    """What does not stand out beyond the piece at the open end of its seam."""
    along, seam, end = axis_of(flap), flap.seam.line, open_end(cloth, flap)
    return beyond(along, end) if seam.end[along] > seam.start[along] else up_to(along, end)


def open_end(cloth: Cloth, flap: Flap) -> Number:
    """How far along the seam the edge of the piece reaches at its open end."""
    return far_end(beside(cloth, flap), flap, body_half(flap))


def far_end_of_flap(flap: Flap) -> Number:
    """How far along the seam the edge of the flap reaches at its open end."""
    return far_end(flap.patches, flap, body_half(flap).opposite)


def far_end(patches: Iterable[Patch], flap: Flap, inside: Half) -> Number:
    """How far along the seam the edge of some patches reaches at its open end; `inside` is their side of the seam."""
    along, seam = axis_of(flap), flap.seam.line
    edges = raw_edges_beyond(patches, inside, along)
    forward = seam.end[along] > seam.start[along]
    return min(edge.start for edge in edges) if forward else max(edge.end for edge in edges)


class RawEdge(NamedTuple):
    """A patch's edge an allowance beyond a seam to come: how far beyond, and from where to where along the seam."""

    beyond: Number
    start: Number
    end: Number


def raw_edges_beyond(patches: Iterable[Patch], inside: Half, along: int) -> list[RawEdge]:
    """The outermost edges of the patches that lie beyond a line, in order; those within, hidden by others, left out."""
    found = [_raw_edge(patch, inside, along) for patch in patches]
    most = max(edge.beyond for edge in found)
    outer = [edge for edge in found if passes(edge.beyond, 0) and apart(edge.beyond, most) <= EASED_AT_MOST]
    return sorted((edge for edge in outer if edge.end - edge.start > ALIKE), key=lambda edge: edge.start)


def _raw_edge(patch: Patch, inside: Half, along: int) -> RawEdge:
    reaches = [(inside.distance(point), point[along]) for point in patch.seen.points]
    most = max(reach for reach, _ in reaches)
    places = [place for reach, place in reaches if apart(reach, most) <= ALIKE]
    return RawEdge(most, min(places), max(places))


def beside(cloth: Cloth, flap: Flap) -> list[Patch]:
    """The patches of a piece on the seam's side of its sewn end."""
    return [patch for patch in cloth.patches if is_beside(flap, patch)]


def is_beside(flap: Flap, patch: Patch) -> bool:
    """Whether a patch of the piece lies on the seam's side of its sewn end, so that the finished seam will hide it."""
    return not flap.caught or not any(map(_before_end(flap).excludes, patch.seen.points))


def _seam_beside(flap: Flap, seam: Seam) -> bool:
    before, ends = _before_end(flap), (seam.line.start, seam.line.end)
    return not flap.caught or (not any(map(before.excludes, ends)) and any(map(before.holds, ends)))


def _before_end(flap: Flap) -> Half:
    """What lies on the open side of the sewn end."""
    along, seam = axis_of(flap), flap.seam.line
    ahead = seam.end[along] > seam.start[along]
    return up_to(along, seam.end[along]) if ahead else beyond(along, seam.end[along])


def trims(flap: Flap, sewn: Side, bounds: Iterable[tuple[Half, Side]]) -> tuple[list[Half], list[Half]]:
    """Which bounds of an eased seam trim the piece, and which its flap; `sewn` is the side along which it is sewn.

    Where the seam is open the flap is folded back; what sticks out toward it is hidden when the seam is finished.
    """
    body: list[Half] = []
    over: list[Half] = []
    for half, side in bounds:
        role = role_of(flap, side)
        if role == "flap" and role_of(flap, sewn) == "open":
            continue
        body.append(half)
        if role != "open":
            over.append(half)
    return body, over
