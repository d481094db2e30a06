"""The base of everything in a design: frozen, hashed once, compared by value; and small frozen tables."""

from collections.abc import Iterable, Iterator, Mapping
from fractions import Fraction
from typing import Any, Generic, Self, TypeVar, cast

import msgspec

from piecewright.model.limits import check_text, refuse

V = TypeVar("V")
_EMPTY: dict[type, object] = {}


class Value(msgspec.Struct, frozen=True, cache_hash=True, forbid_unknown_fields=True):
    """A frozen value of the design; `changed` gives a copy with some fields replaced.

    Each class says `frozen=True` again: type checkers do not inherit it. Classes whose defaults are all
    simple leave them out of their JSON (`omit_defaults`); the others write every field. Either way equal
    values give equal bytes.
    """

    def changed(self, **fields: object) -> Self:
        """A copy with the named fields replaced; the constructor's invariants run again."""
        return msgspec.structs.replace(self, **fields)


class Table(Mapping[str, V], Generic[V]):
    """A frozen mapping from text to a hashable value, in the order of its keys, hashed once."""

    __slots__ = ("_hash", "_items")

    def __new__(cls, items: Mapping[str, V] | Iterable[tuple[str, V]] = ()) -> Self:
        """All empty tables of a class are one, so that JSON knows them as a default to leave out."""
        made = super().__new__(cls)
        return made if items else cast(Self, _EMPTY.setdefault(cls, made))

    def __init__(self, items: Mapping[str, V] | Iterable[tuple[str, V]] = ()) -> None:
        self._items: dict[str, V] = dict(sorted(dict(items).items()))
        self._hash = hash(tuple(self._items.items()))
        for key in self._items:
            check_text(key)

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
            return self is other or (self._hash == other._hash and self._items == other._items)
        return NotImplemented

    def __repr__(self) -> str:
        return f"{type(self).__name__}({self._items!r})"

    def with_item(self, key: str, value: V) -> Self:
        """A copy in which `key` has another value."""
        return type(self)({**self._items, key: value})

    def without(self, keys: Iterable[str]) -> Self:
        """A copy that has none of `keys`."""
        left_out = frozenset(keys)
        return type(self)({key: value for key, value in self._items.items() if key not in left_out})


class JsonObject:
    """Any JSON object, frozen: kept as its compact text, compared and hashed by it."""

    __slots__ = ("_text",)

    def __init__(self, text: bytes) -> None:
        """`text` is one JSON object, compact, as an encoder writes it."""
        self._text = text

    @property
    def text(self) -> bytes:
        """The JSON text (UTF-8)."""
        return self._text

    @property
    def plain(self) -> dict[str, Any]:
        """The object as fresh dicts and lists."""
        return msgspec.json.decode(self._text, type=dict[str, Any])

    def __hash__(self) -> int:
        return hash(self._text)

    def __eq__(self, other: object) -> bool:
        return self._text == other._text if isinstance(other, JsonObject) else NotImplemented

    def __repr__(self) -> str:
        return f"JsonObject({self._text!r})"


class Sizes(Table[Fraction]):
    """Recipe sizes (or drawn values) by name, exact inches."""

    __slots__ = ()


class Letters(Table[tuple[str, ...]]):
    """Fabric ids by recipe letter, one for each layer of the stack (too few repeat round)."""

    __slots__ = ()

    def __init__(
        self, items: Mapping[str, tuple[str, ...]] | Iterable[tuple[str, tuple[str, ...]]] = ()
    ) -> None:
        super().__init__(items)
        for letter, ids in self._items.items():
            if not ids:
                refuse("letter-without-fabric", letter=letter)

    def fabric(self, letter: str, layer: int = 0) -> str | None:
        """The fabric id that a letter stands for in a layer; None where the letter has none."""
        ids = self._items.get(letter)
        return ids[layer % len(ids)] if ids else None

    def over(self, own: "Letters") -> "Letters":
        """These letters laid over a block's own ones."""
        return Letters({**own, **self}) if self else own

    def ids(self) -> frozenset[str]:
        """Every fabric id named."""
        return frozenset(name for ids in self._items.values() for name in ids)

    def renamed(self, names: Mapping[str, str]) -> "Letters":
        """A copy in which fabric ids are exchanged as `names` says; itself where nothing changes."""
        if not any(name in names for ids in self._items.values() for name in ids):
            return self
        return Letters(
            {letter: tuple(names.get(name, name) for name in ids) for letter, ids in self._items.items()}
        )


NO_SIZES = Sizes()
NO_LETTERS = Letters()
