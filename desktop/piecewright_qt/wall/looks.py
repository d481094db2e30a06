"""What a placed block looks like: its kind of making and the cloth of each patch, shared by all that look alike."""

from functools import lru_cache

from piecewright.edit.facts_of import facts_of
from piecewright.errors import MakingError, PiecewrightError, RecipeError
from piecewright.making.facts import Facts, Kind
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement
from piecewright.model.settings import Settings
from piecewright.model.value import Letters
from piecewright.render.cloth import patch_fabrics

_ANY_ID = 10**9
"""More than any id of a design."""


class Look:
    """The outside of a finished block, unturned: `kind`, the `fabrics` of its patches, its size in inches."""

    __slots__ = ("_hash", "fabrics", "height", "kind", "width")

    def __init__(self, kind: Kind, fabrics: tuple[Fabric, ...], width: float, height: float) -> None:
        self.kind = kind
        self.fabrics = fabrics
        self.width = width
        self.height = height
        self._hash = hash((id(kind), fabrics))

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        if self is other:
            return True
        return isinstance(other, Look) and self.kind is other.kind and self.fabrics == other.fabrics


class Looks:
    """The looks of all blocks of one shelf under one set of settings, worked out when asked for."""

    def __init__(self, design: Design) -> None:
        self.design = design
        self._known: dict[tuple[str, int, int, Letters], Look | PiecewrightError] = {}

    def of(self, placement: Placement) -> Look | None:
        """The look of a placed block; None where it can not be made."""
        found = self._found(placement)
        return found if isinstance(found, Look) else None

    def fault(self, placement: Placement) -> PiecewrightError | None:
        """Why a placed block can not be made; None where it can."""
        found = self._found(placement)
        return found if isinstance(found, PiecewrightError) else None

    def facts(self, block: str) -> Facts:
        """The facts of a block. Raises RecipeError or MakingError."""
        return facts_of(self.design, block)

    def _found(self, placement: Placement) -> Look | PiecewrightError:
        key = (placement.block, placement.kind, placement.layer, placement.fabrics)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._look(placement)
        return found

    def _look(self, placement: Placement) -> Look | PiecewrightError:
        try:
            made = self.facts(placement.block)
        except (RecipeError, MakingError) as fault:
            return fault
        kind = made.kinds[min(placement.kind, len(made.kinds) - 1)]
        known = self.design.shelf.fabrics
        letters = {
            letter: [known[name] for name in names]
            for letter, names in self.design.letters(placement).items()
        }
        fabrics = patch_fabrics(kind, letters, made.stack, placement.layer)
        return Look(kind, fabrics, float(made.finished.width), float(made.finished.height))


def looks_of(design: Design) -> Looks:
    """The looks of a design's blocks; the same ones while shelf and settings are the same."""
    return _looks(design.fabrics, design.recipes, design.blocks, design.settings)


@lru_cache(maxsize=8)
def _looks(
    fabrics: tuple[Fabric, ...],
    recipes: tuple[RecipeEntry, ...],
    blocks: tuple[Block, ...],
    settings: Settings,
) -> Looks:
    return Looks(Design("looks", fabrics, recipes, blocks, settings=settings, next_id=_ANY_ID))
