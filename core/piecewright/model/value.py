"""The base of everything in a design: frozen, hashed once, compared by value; and small frozen tables."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Generic, Self, TypeVar

import msgspec

V = TypeVar("V")


class Value(msgspec.Struct, frozen=True, cache_hash=True, forbid_unknown_fields=True, omit_defaults=True):
    """A frozen value of the design; `changed` gives a copy with some fields replaced."""

    def changed(self, **fields: object) -> Self:
        """A copy with the named fields replaced; the constructor's invariants run again."""
        return msgspec.structs.replace(self, **fields)


class Table(Mapping[str, V], Generic[V]):
    """A frozen mapping from text to a hashable value, in the order given, hashed once."""

    __slots__ = ("_hash", "_items")

    def __init__(self, items: Mapping[str, V] | Iterable[tuple[str, V]] = ()) -> None:
        self._items: dict[str, V] = dict(items)
        self._hash = hash(tuple(self._items.items()))

    def __getitem__(self, key: str) -> V:
        return self._items[key]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        if isinstance(other, Table):
            return self._hash == other._hash and list(self._items.items()) == list(other._items.items())
        return NotImplemented

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self._items!r})"

    def with_item(self, key: str, value: V) -> Self:
        """A copy in which `key` has another value."""
        return type(self)({**self._items, key: value})


class Sizes(Table[Fraction]):
    """Recipe sizes by name, exact inches."""

    __slots__ = ()


class Letters(Table[tuple[str, ...]]):
    """Fabric ids by recipe letter, one for each layer of the stack (too few repeat round)."""

    __slots__ = ()

    def fabric(self, letter: str, layer: int = 0) -> str | None:
        """The fabric id that a letter stands for in a layer; None where the letter has none."""
        ids = self._items.get(letter)
        return ids[layer % len(ids)] if ids else None
