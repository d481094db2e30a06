"""How cloth lies in a patch, and what seams do to its look."""

from collections.abc import Iterable, Mapping, Sequence

from piecewright.geometry.motion import Motion, Point
from piecewright.making.facts import Kind, SeenPatch
from piecewright.model.fabric import Fabric
from piecewright.render.path import Path, ring
from piecewright.render.pen import ClothFill, Fill, Flat, Pen, Stroke

Letters = Mapping[str, Sequence[Fabric]]
"""The fabrics that each letter of a recipe stands for, by layer; a letter without any shows its stand-in."""

_SHADE = "#1c1511"
_VALLEY = ((0.20, 0.065), (0.085, 0.12), (0.018, 0.28))  # width in inches, opacity: widest first
_CREST = (0.12, 0.10, 0.05)  # the lit fold on both sides of a seam: its distance, width and opacity


def cloth_fill(fabric: Fabric, patch: SeenPatch) -> ClothFill:
    """The fill that shows a finished patch's fabric along its thread, unbroken over what was one strip."""
    laid = patch.grain_deg - patch.came.turn_degrees
    return laid_fill(fabric, 180 - laid if patch.came.faced else laid, patch.came)


def laid_fill(fabric: Fabric, thread: float, came: Motion) -> ClothFill:
    """The fill of a piece of a strip whose thread, as it was laid, ran `thread` degrees clockwise from x."""
    quarters, degrees = divmod(round(thread - 90, 9), 90)
    return ClothFill(fabric, Motion(quarters=int(quarters) % 4, degrees=degrees).then(came))


def patch_fabrics(kind: Kind, letters: Letters, stack: int, layer: int = 0) -> tuple[Fabric, ...]:
    """The fabric of each patch in one layer's block: patch layer l shows fabric (layer + l) mod stack."""
    return tuple(fabric_of(letters, patch.fabric, (layer + patch.layer) % stack) for patch in kind.patches)


def draw_cloth(pen: Pen, pieces: Iterable[tuple[Sequence[Point], ClothFill]]) -> None:
    """Fill pieces of cloth, those that look alike together.

    Plain colors lie beneath with hard edges: else the ground would shine through between softened ones.
    """
    grounds: dict[str, Path] = {}
    cloths: dict[Fill, Path] = {}
    for points, fill in pieces:
        outline = ring(points)
        grounds[fill.fabric.color] = grounds.get(fill.fabric.color, ()) + outline
        seen: Fill = fill if fill.fabric.print else Flat(fill.fabric.color)
        cloths[seen] = cloths.get(seen, ()) + outline
    for color, path in grounds.items():
        pen.path(path, Flat(color), crisp=True)
    for seen, path in cloths.items():
        pen.path(path, seen)


def fabric_of(letters: Letters, letter: str, layer: int) -> Fabric:
    """What a letter stands for in a layer; where it has fewer fabrics they repeat round."""
    fabrics = letters.get(letter, ())
    return fabrics[layer % len(fabrics)] if fabrics else stand_in(letter, layer)


_STAND_INS = (
    *("#c9826b", "#f0e3c8", "#4e6b7c", "#a9b89a", "#dfb469", "#84596b"),
    *("#d9c3b4", "#56705c", "#8fa9b5", "#b5985a", "#eee9df", "#6e5a4e"),
)


def stand_in(letter: str, layer: int = 0) -> Fabric:
    """The solid that stands for a letter nothing has been chosen for; another one in each layer."""
    number = sum(
        (ord(sign) - ord("A") + 1) * 26**place for place, sign in enumerate(reversed(letter.upper()))
    )
    return Fabric(id="", name=letter, color=_STAND_INS[(number - 1 + 5 * layer) % len(_STAND_INS)])


def draw_valleys(pen: Pen, seams: Sequence[tuple[Point, Point]]) -> None:
    """Make seams look sewn: a soft valley, the cloth rising to a faint crest on both sides."""
    away, wide, clear = _CREST
    crests = [side for seam in seams for side in _beside(seam, away)]
    pen.lines(crests, Stroke("#ffffff", wide, (), clear, square=True))
    for width, opacity in _VALLEY:
        pen.lines(seams, Stroke(_SHADE, width, (), opacity, square=True))


def _beside(seam: tuple[Point, Point], distance: float) -> list[tuple[Point, Point]]:
    """The two lines along a seam at a distance, held back from its ends by as much."""
    (x0, y0), (x1, y1) = ((float(x), float(y)) for x, y in seam)
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    if length <= 2 * distance:
        return []
    ux, uy = (x1 - x0) / length * distance, (y1 - y0) / length * distance
    return [((x0 + ux + s * uy, y0 + uy - s * ux), (x1 - ux + s * uy, y1 - uy - s * ux)) for s in (-1, 1)]
