"""Short ways to write the steps of a recipe in tests, and to look at what comes out."""

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

import pytest

from piecewright.errors import PiecewrightError
from piecewright.making import run as running
from piecewright.making.facts import Facts, Kind, SeenPatch
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe

Plain = dict[str, Any]
QUARTER = Fraction(1, 4)


def lay(make: str, fabric: str, width: str, length: str, **keys: Any) -> Plain:
    return {"make": make, "lay": {"fabric": fabric, "width": width, "length": length, **keys}}


def sew(make: str, pieces: Sequence[str], axis: str, **keys: Any) -> Plain:
    return {"make": make, "sew": list(pieces), "axis": axis, **keys}


def cut(make: str, piece: str, axis: str, **keys: Any) -> Plain:
    return {"make": make, "cut": piece, "axis": axis, **keys}


def sliced(make: str, piece: str, start: tuple[str, str], end: tuple[str, str]) -> Plain:
    return {"make": make, "slice": piece, "from": list(start), "to": list(end)}


def turn(make: str, piece: str, by: float, **keys: Any) -> Plain:
    return {"make": make, "turn": piece, "by": by, **keys}


def leveled(make: str, piece: str, side: str, **keys: Any) -> Plain:
    return {"make": make, "turn": piece, "level": side, **keys}


def shuffle(make: str, piece: str, by: int, **keys: Any) -> Plain:
    return {"make": make, "shuffle": piece, "by": by, **keys}


def square(make: str, piece: str, width: str, height: str, **keys: Any) -> Plain:
    return {"make": make, "square": piece, "width": width, "height": height, **keys}


def corner(make: str, piece: str, square: str, at: str, **keys: Any) -> Plain:
    return {"make": make, "corner": piece, "with": square, "at": at, **keys}


def line(start: tuple[str, str], end: tuple[str, str], **keys: Any) -> Plain:
    """A line to sew on, from side to side."""
    return {"from": list(start), "to": list(end), **keys}


def face(make: str, one: str, other: str, *seams: Plain) -> Plain:
    return {"make": make, "face": [one, other], "seams": list(seams)}


def opened(make: str, piece: str, **keys: Any) -> Plain:
    return {"make": make, "open": piece, **keys}


def looped(make: str, piece: str, axis: str, **keys: Any) -> Plain:
    return {"make": make, "loop": piece, "axis": axis, **keys}


def unpicked(make: str, piece: str, seam: int, **keys: Any) -> Plain:
    return {"make": make, "unpick": piece, "seam": seam, **keys}


def finish(make: str, piece: str, **keys: Any) -> Plain:
    return {"make": make, "finish": piece, **keys}


def use(make: str, recipe: str | Plain, **keys: Any) -> Plain:
    return {"make": make, "use": recipe, **keys}


def press(seam: str, toward: str, **keys: Any) -> Plain:
    return {"press": {"seam": seam, "toward": toward, **keys}}


def rails(count: int, length: str, width: str = "2 1/2") -> list[Plain]:
    """Strips a, b, c ... of fabrics A, B, C ..., sewn down into "set"."""
    names = "abcdefgh"[:count]
    return [*(lay(name, name.upper(), width, length) for name in names), sew("set", names, "down")]


def recipe(steps: Sequence[Plain], block: Sequence[str] = ("block",), **keys: Any) -> Recipe:
    return Recipe.from_plain(
        {"recipe": 1, "name": "A test", **keys, "steps": list(steps), "block": list(block)}
    )


def facts(steps: Sequence[Plain], block: Sequence[str] = ("block",), **keys: Any) -> Facts:
    """What comes out of steps at a quarter inch seam."""
    return running.facts(recipe(steps, block, **keys), Given())


def the_kind(found: Facts) -> Kind:
    """The one kind of blocks that comes out."""
    (kind,) = found.kinds
    return kind


def boxes(kind: Kind) -> list[tuple[str, int, float, float, float, float]]:
    """Fabric, layer and box (left, top, right, bottom) of each patch, in reading order."""
    return [(patch.fabric, patch.layer, *box(patch)) for patch in kind.patches]


def box(patch: SeenPatch) -> tuple[float, float, float, float]:
    across, down = zip(*((float(x), float(y)) for x, y in patch.points), strict=True)
    return min(across), min(down), max(across), max(down)


def forget() -> None:
    """Forget every making done so far, so that the next one is done anew."""
    running.facts.cache_clear()
    running._done.cache_clear()
    running._cleared.cache_clear()


A, B = lay("a", "A", "3", "6"), lay("b", "B", "2", "6")
PAIR = [A, B, sew("pair", ["a", "b"], "down")]
"""A over B: 6 x 4 1/2 in unfinished."""
CORNER = [lay("a", "A", "8", "8")]
"""One square of 8 in."""


def refusal(steps: Sequence[Plain], block: str = "block", **keys: Any) -> str:
    """The sentence with which a making is refused."""
    with pytest.raises(PiecewrightError) as caught:
        facts(steps, [block], **keys)
    return str(caught.value)
