"""A recipe with a place for every sort of fault, and recipes spoiled at random."""

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from piecewright.making.shipped import shipped_recipes

Plain = dict[str, Any]


def sample() -> Plain:
    """A recipe in which every sort of fault has a place: a slab of three columns, the middle one turned."""
    return {
        "recipe": 1,
        "name": "Three columns",
        "sizes": {"F": ["12", "9"]},
        "vary": {"t": {"from": "1", "to": "2", "step": "1/4"}},
        "let": {"w": "F/2 + 2*seam"},
        "steps": [
            {"make": "a", "lay": {"fabric": "A", "width": "w", "length": "40"}},
            {"make": "b", "lay": {"fabric": "B", "width": "w", "length": "40"}},
            {"make": "set", "sew": ["a", "b"], "axis": "down"},
            {"make": "col", "cut": "set", "axis": "across", "every": "F", "count": 3},
            {"make": "mid", "turn": "col.2", "by": 180},
            {"press": {"seam": "set.1", "toward": "down"}},
            {"make": "block", "sew": ["col.1", "mid", "col.3"], "axis": "across"},
        ],
        "block": ["block"],
    }


def change(*path: str | int, to: object) -> Callable[[Plain], None]:
    """What puts another value at a path."""

    def changed(plain: Plain) -> None:
        place: Any = plain
        for key in path[:-1]:
            place = place[key]
        place[path[-1]] = to

    return changed


def drop(*path: str | int) -> Callable[[Plain], None]:
    """What drops the part at a path."""

    def dropped(plain: Plain) -> None:
        place: Any = plain
        for key in path[:-1]:
            place = place[key]
        del place[path[-1]]

    return dropped


WORDS = [
    *(
        "recipe",
        "name",
        "sizes",
        "vary",
        "let",
        "seam",
        "stack",
        "steps",
        "block",
        "finished",
        "note",
        "make",
    ),
    *("lay", "sew", "cut", "slice", "turn", "shuffle", "square", "press", "axis", "every", "count", "which"),
    *(
        "from",
        "to",
        "step",
        "fit",
        "F",
        "a",
        "col.*",
        "col.2",
        "odd",
        "2 1/2",
        "F + seam",
        "across",
        "top",
        "",
    ),
]
atoms = st.one_of(
    st.sampled_from(WORDS),
    st.text(max_size=8),
    st.integers(),
    st.floats(),
    st.booleans(),
    st.none(),
    st.just(1),
)
values = st.recursive(
    atoms,
    lambda parts: (
        st.lists(parts, max_size=4)
        | st.dictionaries(st.sampled_from(WORDS) | st.text(max_size=4), parts, max_size=5)
    ),
    max_leaves=20,
)


def places(value: object, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """The path of everything below a value."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [found for key, part in items for found in ((*path, key), *places(part, (*path, key)))]


@st.composite
def spoiled_recipes(draw: st.DrawFn) -> Plain:
    """A shipped recipe with one to three of its parts replaced or dropped."""
    plain = draw(st.sampled_from([*shipped_recipes().values()])).plain
    for _ in range(draw(st.integers(1, 3))):
        path = draw(st.sampled_from(places(plain)))
        (drop(*path) if draw(st.booleans()) else change(*path, to=draw(values)))(plain)
        if not plain:
            break
    return plain
