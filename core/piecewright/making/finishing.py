"""From sewn blocks to finished ones: the outer allowance goes out of sight, sizes are compared and claims checked."""

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from piecewright.errors import MakingError
from piecewright.geometry.shapes import Rect
from piecewright.geometry.tolerance import alike
from piecewright.making.cloth import (
    Cloth,
    Pile,
    clipped_seams,
    fills,
    halves,
    hidden,
    home,
    moved,
)
from piecewright.making.facts import StepWarning
from piecewright.making.limits import MOST_PATCHES
from piecewright.making.names import Names, evaluate_at
from piecewright.making.table import WILDCARD, Table
from piecewright.units.sizes import Finished, Unfinished
from piecewright.words.message import message

if TYPE_CHECKING:
    from piecewright.making.recipe import Recipe  # a recipe may use a recipe, and finishes it


@dataclass(frozen=True, slots=True)
class Finish:
    """The finished blocks by name, one cloth a layer unless all layers are alike, origin at the finished top left."""

    names: tuple[str, ...]
    blocks: dict[str, Pile]
    unfinished: Unfinished
    finished: Finished
    warnings: tuple[StepWarning, ...]


def finish(recipe: "Recipe", table: Table, names: Names, *, claimed: bool) -> Finish:
    """Finish the blocks that a recipe names; `claimed`: hold them to the size it claims. Raises MakingError."""
    piles = block_piles(recipe, table)
    _check_patches(piles, recipe.stack)
    size = _common_size(piles)
    depth = table.context.depth
    finished = Finished(size.width - 2 * depth, size.height - 2 * depth)
    if finished.width <= 0 or finished.height <= 0:
        raise MakingError(message("making.block-all-seam", size=size), None, "block")
    if claimed:
        _check_claim(recipe, names, finished)
    warnings: list[StepWarning] = []
    blocks = {
        name: tuple(_finished(cloth, depth, finished, name, warnings) for cloth in pile)
        for name, pile in piles.items()
    }
    return Finish(tuple(piles), blocks, size, finished, tuple(warnings))


def block_piles(recipe: "Recipe", table: Table) -> dict[str, Pile]:
    """The piles named as blocks, each once and used for nothing else."""
    piles: dict[str, Pile] = {}
    for index, name in enumerate(recipe.block):
        place = f"block[{index}]"
        base = name.removesuffix(WILDCARD)
        parts = range(1, table.parts.get(base, 0) + 1)
        for piece in [f"{base}.{number}" for number in parts] if base != name else [name]:
            if piece in table.used or piece in piles:
                raise MakingError(
                    message("making.used-twice", piece=piece), message("making.make-another"), place
                )
            if piece not in table.piles:
                raise MakingError(message("making.no-piece", piece=piece), None, place)
            piles[piece] = table.piles[piece]
            state = piles[piece][0].state
            if state is not None:
                raise MakingError(
                    message(f"making.still-{state}", piece=piece), message(f"making.end-{state}"), place
                )
    if not piles:
        raise MakingError(message("making.no-blocks"), None, "block")
    return piles


def _check_patches(piles: dict[str, Pile], stack: int) -> None:
    """Layers that are alike may be told apart by their pressing, so all of them count."""
    count = sum(len(cloth.patches) * stack // len(pile) for pile in piles.values() for cloth in pile)
    if count > MOST_PATCHES:
        said = message("making.too-many-patches", count=count, most=MOST_PATCHES)
        raise MakingError(said, message("making.fewer-pieces"), "block")


def _common_size(piles: dict[str, Pile]) -> Unfinished:
    """The size that all blocks share; each of them fills its box."""
    sizes: dict[str, Unfinished] = {}
    for index, (name, pile) in enumerate(piles.items()):
        for cloth in pile:
            if not (cloth.whole or fills(cloth, cloth.box)):
                hint = message("making.square-first", piece=name)
                raise MakingError(message("making.block-not-square", piece=name), hint, f"block[{index}]")
            sizes[name] = Unfinished(cloth.box.width, cloth.box.height)
    first_name, first = next(iter(sizes.items()))
    for name, size in sizes.items():
        if not (alike(size.width, first.width) and alike(size.height, first.height)):
            unlike = message("making.blocks-unlike", one=first_name, first=first, other=name, second=size)
            raise MakingError(unlike, message("making.square-alike"), "block")
    return first


def _check_claim(recipe: "Recipe", names: Names, finished: Finished) -> None:
    if recipe.finished is None:
        return
    width, height = (
        evaluate_at(length, names, f"finished[{index}]") for index, length in enumerate(recipe.finished)
    )
    if not (alike(width, finished.width) and alike(height, finished.height)):
        hint = message("making.claim-so", size=finished)
        raise MakingError(message("making.claim-wrong", size=Finished(width, height)), hint, "finished")


def _finished(cloth: Cloth, depth: Fraction, size: Finished, name: str, warnings: list[StepWarning]) -> Cloth:
    """A block with its outer allowance out of sight, moved so that its finished top left lies at 0, 0."""
    placed = home(cloth)
    box = placed.box
    inner = Rect(depth, depth, box.right - depth, box.bottom - depth)
    patches, seams = list(placed.patches), list(placed.seams)
    for half in halves(inner):
        patches, lost = hidden(patches, half)
        seams = clipped_seams(seams, half)
        for patch in lost:
            warning = StepWarning(
                "hidden-outside", name, message("making.hidden-outside", piece=name, fabric=patch.letter)
            )
            if warning not in warnings:
                warnings.append(warning)
    zero = Fraction(0)
    sized = Rect(zero, zero, size.width, size.height)
    shifted = moved(Cloth(tuple(patches), tuple(seams), box), -depth, -depth)
    return Cloth(shifted.patches, shifted.seams, sized)
