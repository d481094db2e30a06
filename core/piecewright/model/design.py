"""The whole design: fabrics, recipes, blocks, arrangements and settings, as one frozen value."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import NoReturn, Protocol, Self, TypeVar

from piecewright.making.faults import nearest, shown
from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.fabric import Fabric
from piecewright.model.limits import BrokenRuleError, check_count, check_name, check_text, first_twice, refuse
from piecewright.model.quilt import Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Value
from piecewright.words.message import message

FORMAT = 1
MOST_ARRANGEMENTS = 200
FIRST_QUILT = Quilt(name="First arrangement", lattice=Lattice(unit=Fraction(6), columns=10, rows=12))
_ID = re.compile("[a-z]{1,8}([1-9][0-9]{0,8})")


class RecipeEntry(Value, frozen=True):
    """A recipe under the id by which blocks name it."""

    id: str
    recipe: Recipe


@dataclass(frozen=True, eq=False)
class Shelf:
    """What blocks and placements may name: fabrics, recipes and blocks by id, in the design's order.

    Equal parts of designs share one, so that it is compared as itself.
    """

    fabrics: Mapping[str, Fabric]
    recipes: Mapping[str, Recipe]
    blocks: Mapping[str, Block]

    def letters(self, block: str) -> tuple[str, ...]:
        """The letters of a block's recipe, in order of first use."""
        return self.recipes[self.blocks[block].recipe].letters


class Design(Value, frozen=True, dict=True):
    """A quilt being designed; `current` is the arrangement in view.

    Ids are letters and a number ("f3", "b1", "r2"), drawn from `next_id`.
    """

    name: str
    fabrics: tuple[Fabric, ...] = ()
    recipes: tuple[RecipeEntry, ...] = ()
    blocks: tuple[Block, ...] = ()
    arrangements: tuple[Quilt, ...] = (FIRST_QUILT,)
    current: int = 0
    settings: Settings = Settings()
    about: str = ""
    author: str = ""
    next_id: int = 1
    piecewright: int = FORMAT

    def __post_init__(self) -> None:
        """Raises BrokenRuleError (a DesignError) where ids clash or name nothing."""
        if self.piecewright != FORMAT:
            refuse("format", where="piecewright", version=self.piecewright, known=FORMAT)
        check_name(self.name, "design")
        check_text(self.about)
        check_text(self.author)
        check_count(len(self.arrangements), "arrangements", 1, MOST_ARRANGEMENTS)
        check_count(self.current, "arrangement in view (the first is 0)", 0, len(self.arrangements) - 1)
        shelf, highest = _shelf(self.fabrics, self.recipes, self.blocks)
        if self.next_id <= highest:
            hint = message("model.write-next-id", next=highest + 1)
            refuse("next-id", hint, next=self.next_id, highest=highest)
        for index, quilt in enumerate(self.arrangements):
            try:
                _check_quilt(quilt, shelf)
            except BrokenRuleError as fault:
                raise BrokenRuleError(
                    fault.message, fault.hint, f"arrangements[{index}]{fault.where}"
                ) from None

    @property
    def quilt(self) -> Quilt:
        """The arrangement in view."""
        return self.arrangements[self.current]

    @property
    def shelf(self) -> Shelf:
        """Fabrics, recipes and blocks by their ids."""
        return _shelf(self.fabrics, self.recipes, self.blocks)[0]

    def with_quilt(self, quilt: Quilt) -> Self:
        """A copy in which the arrangement in view is another."""
        before, after = self.arrangements[: self.current], self.arrangements[self.current + 1 :]
        return self.changed(arrangements=(*before, quilt, *after))

    def letters(self, placement: Placement) -> Letters:
        """The fabrics of a placed block by letter: its own laid over those of the block on the shelf."""
        return placement.fabrics.over(self.shelf.blocks[placement.block].fabrics)


class _Named(Protocol):
    @property
    def id(self) -> str: ...


N = TypeVar("N", bound=_Named)


@lru_cache(maxsize=256)
def _shelf(
    fabrics: tuple[Fabric, ...], recipes: tuple[RecipeEntry, ...], blocks: tuple[Block, ...]
) -> tuple[Shelf, int]:
    """The shelf, checked, and its highest id number. Cached: most edits leave it as it is."""
    shelf = Shelf(
        _by_id(fabrics, "fabrics"),
        {key: entry.recipe for key, entry in _by_id(recipes, "recipes").items()},
        _by_id(blocks, "blocks"),
    )
    for index, block in enumerate(blocks):
        _check_block(block, shelf, f"blocks[{index}]")
    ids = (*shelf.fabrics, *shelf.recipes, *shelf.blocks)
    if len(set(ids)) < len(ids):
        refuse("id-twice", id=first_twice(ids))
    return shelf, max((_number(key) for key in ids), default=0)


def _by_id(things: Iterable[N], where: str) -> dict[str, N]:
    found: dict[str, N] = {}
    for index, thing in enumerate(things):
        if not _ID.fullmatch(thing.id):
            refuse("id", message("model.write-id"), f"{where}[{index}].id", id=shown(thing.id))
        if thing.id in found:
            refuse("id-twice", where=f"{where}[{index}].id", id=thing.id)
        found[thing.id] = thing
    return found


def _number(key: str) -> int:
    return int(key.lstrip("abcdefghijklmnopqrstuvwxyz"))


def _check_block(block: Block, shelf: Shelf, where: str) -> None:
    recipe = shelf.recipes.get(block.recipe)
    if recipe is None:
        _refuse_unknown("recipe", block.recipe, shelf.recipes, f"{where}.recipe")
    _check_words("letter", block.fabrics, recipe.letters, f"{where}.fabrics")
    _check_words("size", block.sizes, recipe.sizes, f"{where}.sizes")
    _check_words("draw", block.draws, recipe.vary, f"{where}.draws")
    for key in sorted(block.fabrics.ids() - shelf.fabrics.keys()):
        _refuse_unknown("fabric", key, shelf.fabrics, f"{where}.fabrics")


def _check_words(what: str, used: Iterable[str], known: Iterable[str], where: str) -> None:
    words = tuple(known)
    for word in used:
        if word not in words:
            refuse(f"unknown-{what}", message(f"model.known-{what}s", words=words), where, word=shown(word))


@lru_cache(maxsize=256)
def _check_quilt(quilt: Quilt, shelf: Shelf) -> None:
    """Refuse an arrangement that names what the shelf has not. Cached, and by row: an edit changes few."""
    for row in quilt.rows:
        _check_row(row, shelf)
    for key in sorted(quilt.fabrics_around - shelf.fabrics.keys()):
        _refuse_unknown("fabric", key, shelf.fabrics, "")
    for key in sorted(frozenset(quilt.blocks_around) - shelf.blocks.keys()):
        _refuse_unknown("block", key, shelf.blocks, ".borders")


@lru_cache(maxsize=8192)
def _check_row(row: Row, shelf: Shelf) -> None:
    where = f".rows, row {row.row}"
    for key in sorted(row.blocks - shelf.blocks.keys()):
        _refuse_unknown("block", key, shelf.blocks, where)
    for key in sorted(row.fabrics - shelf.fabrics.keys()):
        _refuse_unknown("fabric", key, shelf.fabrics, where)
    for placement in row.placements:
        if placement.fabrics:
            _check_words("letter", placement.fabrics, shelf.letters(placement.block), where)


def _refuse_unknown(what: str, key: str, known: Iterable[str], where: str) -> NoReturn:
    near = nearest(key, known)
    hint = message("model.did-you-mean", word=near) if near else message(f"model.add-{what}-first")
    refuse(f"no-{what}", hint, where, id=shown(key))
