"""The names a recipe declares, in their one order: each known only to what comes after it."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Protocol

import msgspec

from piecewright.making.expressions import RESERVED, Expression, is_name, unknown_name
from piecewright.making.faults import placed, refuse, shown
from piecewright.making.limits import MOST_LETTERS, MOST_NAMES, MOST_VARIED
from piecewright.words.message import message


class Vary(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """A name drawn anew for each block, from `start` to `end` by `step`; not drawn yet, it is `start`."""

    start: Expression = msgspec.field(name="from")
    end: Expression = msgspec.field(name="to")
    step: Expression


class Declarations(Protocol):
    """What declares names: a recipe. Inches; the first choice of a size is its default."""

    @property
    def seam(self) -> Fraction | None:
        """The allowance of its own."""

    @property
    def sizes(self) -> Mapping[str, tuple[Fraction, ...]]:
        """The names to choose, with their choices."""

    @property
    def vary(self) -> Mapping[str, Vary]:
        """The names drawn."""

    @property
    def let(self) -> Mapping[str, Expression]:
        """The names worked out."""


def check_names(
    sizes: Iterable[str], vary: Mapping[str, Vary], let: Mapping[str, Expression]
) -> tuple[str, ...]:
    """Every name of a recipe, in the order in which they become known.

    Raises RecipeError for what can not be a name, a name given twice, and one used before it is known.
    """
    if len(vary) > MOST_VARIED:
        refuse("recipe.too-many-varied", where="vary", count=len(vary), most=MOST_VARIED)
    sizes = tuple(sizes)
    count = len(sizes) + len(vary) + len(let)
    if count > MOST_NAMES:
        refuse("recipe.too-many-names", count=count, most=MOST_NAMES)
    known: dict[str, None] = dict.fromkeys(RESERVED)  # a set in order: quick to search among thousands
    for name in sizes:
        _add_name(name, "sizes", known)
    for name, varied in vary.items():
        for key, part in (("from", varied.start), ("to", varied.end), ("step", varied.step)):
            check_known(part, known, f"vary.{name}.{key}")
        _add_name(name, "vary", known)
    for name, worked_out in let.items():
        check_known(worked_out, known, f"let.{name}")
        _add_name(name, "let", known)
    return tuple(known)


def check_short(name: str, place: str) -> None:
    """Refuse a name that is longer than any that is read."""
    if len(name) > MOST_LETTERS:
        refuse("recipe.name-too-long", message("recipe.rename"), place, name=shown(name), most=MOST_LETTERS)


def _add_name(name: str, table: str, known: dict[str, None]) -> None:
    check_short(name, table)
    if not is_name(name):
        refuse("recipe.no-name", message("recipe.write-name"), table, name=shown(name))
    if name in RESERVED:
        refuse("recipe.reserved", message("recipe.rename"), f"{table}.{name}", name=name)
    if name in known:
        refuse("recipe.name-twice", message("recipe.rename"), f"{table}.{name}", name=name)
    known[name] = None


def check_known(length: Expression, known: Iterable[str], place: str) -> None:
    """Raise RecipeError when a length uses a name that is not known there."""
    for name in sorted(length.names.difference(known)):
        raise placed(unknown_name(name, tuple(known), length.text), place)
