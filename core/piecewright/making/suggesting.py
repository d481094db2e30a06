"""Steps to begin with: of any verb, on what lies on the table, as likely to work as the cloth can tell."""

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import Any, NamedTuple

from piecewright.geometry.motion import Number
from piecewright.geometry.tolerance import alike
from piecewright.making.cloth import Cloth, State
from piecewright.making.draft import Plain, fresh_name
from piecewright.making.run import Making
from piecewright.units.measure import Measure
from piecewright.units.rounding import down_to

_PAIR = 2
_EIGHTH = down_to(Fraction(1, 8))
_WISHES = {
    "lay": "strip", "sew": "sewn", "cut": "part", "slice": "side",
    "turn": "turned", "shuffle": "pile", "square": "squared", "press": "",
    "corner": "cornered", "face": "pair", "open": "opened", "use": "used",
    "loop": "tube", "unpick": "opened", "finish": "finished",
}  # fmt: skip
WAYS: Mapping[str, tuple[str, ...]] = {
    "lay": ("join",),
    "sew": ("edge", "flush", "leave"),
    "cut": ("angle",),
    "turn": ("angle", "level"),
}
"""The verbs that can be done in other ways than the plain one, each by the key that is new in them."""

_STATES: Mapping[str, tuple[State, ...]] = {
    "open": ("faced",),
    "unpick": ("tube",),
    "finish": ("partial",),
    "cut": ("faced", "tube"),
    "slice": ("faced",),
    "turn": ("faced", "partial"),
    "shuffle": ("faced", "tube", "partial"),
    "sew": ("partial",),
}
"""What a verb takes besides flat pieces; `open`, `unpick` and `finish` in place of them."""
_ENDING = frozenset({"open", "unpick", "finish"})


class _Bench(NamedTuple):
    """The recipe so far, the pieces to work on (latest last), and their cloth, empty where it is not known."""

    plain: Mapping[str, Any]
    pieces: tuple[str, ...]
    cloths: tuple[Cloth, ...]
    way: str | None

    @property
    def stack(self) -> int:
        stack = self.plain.get("stack", 1)
        return stack if isinstance(stack, int) else 1

    def piece(self, back: int = 1) -> str:
        """The name of the last piece, or of one before it."""
        return self.pieces[-back] if len(self.pieces) >= back else ""

    def cloth(self, back: int = 1) -> Cloth | None:
        """The cloth of the last piece, or of one before it."""
        return self.cloths[-back] if len(self.cloths) >= back else None


def suggested_step(
    plain: Mapping[str, Any],
    verb: str,
    pieces: Sequence[str],
    making: Making | None = None,
    way: str | None = None,
) -> Plain:
    """A step of a verb that is likely to work on some pieces (the last ones laid down), to be changed from there.

    `making` is that of the steps before it, whose cloth tells which of the pieces suit, and lengths and directions
    that fit; `way` is one of the verb's `WAYS`.
    """
    table = making.table.piles if making is not None else {}
    chosen = [(name, table[name][0]) for name in pieces if name in table]
    suiting = [(name, cloth) for name, cloth in chosen if _suits(verb, cloth)]
    if way in ("edge", "level"):
        suiting = [each for each in suiting if each[1].cut_edges] or suiting
    if suiting:
        found = _paired(verb, suiting)
        bench = _Bench(plain, tuple(name for name, _ in found), tuple(cloth for _, cloth in found), way)
    else:
        bench = _Bench(plain, tuple(pieces), (), way)
    if verb == "press":
        return {"press": _pressing(plain)}
    return {"make": fresh_name(plain, _WISHES.get(verb, verb)), **_KEYS.get(verb, _plainly)(verb, bench)}


def _suits(verb: str, cloth: Cloth) -> bool:
    return cloth.state in _STATES.get(verb, ()) or (cloth.state is None and verb not in _ENDING)


def _paired(verb: str, suiting: list[tuple[str, Cloth]]) -> list[tuple[str, Cloth]]:
    """The pieces in the order in which a verb takes two: the latest two of which the second suits the first."""
    fits: Callable[[Cloth, Cloth], bool] | None = {"corner": _covers_corner, "face": _alike}.get(verb)
    if fits is None:
        return suiting
    for later in range(len(suiting) - 1, -1, -1):
        for other in range(len(suiting) - 1, -1, -1):
            if later != other and fits(suiting[other][1], suiting[later][1]):
                return [suiting[other], suiting[later]]
    return suiting


def _covers_corner(base: Cloth, square: Cloth) -> bool:
    box = square.box
    return alike(box.width, box.height) and box.width <= min(base.box.width, base.box.height)


def _alike(one: Cloth, other: Cloth) -> bool:
    return alike(one.box.width, other.box.width) and alike(one.box.height, other.box.height)


def _plainly(verb: str, bench: _Bench) -> Plain:
    return {verb: bench.piece()}


def _lay(_verb: str, bench: _Bench) -> Plain:
    strips = [step["lay"] for step in bench.plain["steps"] if "lay" in step]
    used = {strip["fabric"] for strip in strips}
    letter = next((letter for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if letter not in used), "A")
    # as long as the strip laid last, so that both can be sewn
    strip = {"fabric": letter, "width": "2 1/2", "length": strips[-1]["length"] if strips else "20"}
    return {"lay": {**strip, "length": "60", "join": "diagonal"} if bench.way == "join" else strip}


def _sew(_verb: str, bench: _Bench) -> Plain:
    one, other = bench.cloth(2), bench.cloth()
    axis = _even_axis(one, other)
    step: Plain = {"sew": list(bench.pieces[-_PAIR:]), "axis": axis}
    if bench.way == "edge":
        return {**step, "edge": "cut", "flush": True}
    if bench.way == "flush":
        return {**step, "flush": True}
    if bench.way == "leave":
        return {**step, "axis": _other(axis), "leave": _leaving(one, other, _other(axis))}
    return step


def _other(axis: str) -> str:
    return "across" if axis == "down" else "down"


def _even_axis(one: Cloth | None, other: Cloth | None) -> str:
    """The way in which two pieces can be sewn: below each other where they are equally wide, else beside."""
    if one is None or other is None:
        return "down"
    even = abs(float(one.box.width - other.box.width)) <= abs(float(one.box.height - other.box.height))
    return "down" if even else "across"


def _leaving(one: Cloth | None, other: Cloth | None, axis: str) -> list[str]:
    """Half of the seam, at its left or upper end."""
    if one is None or other is None:
        length: Number = Fraction(2)
    elif axis == "down":
        length = min(one.box.width, other.box.width)
    else:
        length = min(one.box.height, other.box.height)
    return ["left" if axis == "down" else "top", _text(length / 2)]


def _cut(_verb: str, bench: _Bench) -> Plain:
    cloth = bench.cloth()
    axis = "across" if cloth is None or cloth.loop != "across" else "down"
    if bench.way == "angle":
        return {"cut": bench.piece(), "axis": axis, "angle": 45, "every": "2 1/2", "count": "fit"}
    return {"cut": bench.piece(), "axis": axis, "into": 2}


def _slice(_verb: str, bench: _Bench) -> Plain:
    """A slanted cut through the middle of a piece, from three eighths to five of its width."""
    cloth = bench.cloth()
    box = cloth and cloth.box
    left, width = (box.left, box.width) if box else (Fraction(0), Fraction(8))
    ends = [_text(left + width * share / 8) for share in (3, 5)]
    return {"slice": bench.piece(), "from": ["top", ends[0]], "to": ["bottom", ends[1]]}


def _turn(_verb: str, bench: _Bench) -> Plain:
    if bench.way == "level":
        return {"turn": bench.piece(), "level": "top"}
    return {"turn": bench.piece(), "by": 45 if bench.way == "angle" else 180}


def _corner(_verb: str, bench: _Bench) -> Plain:
    return {"corner": bench.piece(2), "with": bench.piece(), "at": "top left"}


def _face(_verb: str, bench: _Bench) -> Plain:
    seam = {"from": ["left", "seam"], "to": ["right", "seam"]}
    return {"face": [bench.piece(2), bench.piece()], "seams": [seam]}


def _loop(_verb: str, bench: _Bench) -> Plain:
    return {"loop": bench.piece(), "axis": "down"}


def _shuffle(_verb: str, bench: _Bench) -> Plain:
    return {"shuffle": bench.piece(), "by": 1 if bench.stack > 1 else 0}


_KEYS: Mapping[str, Callable[[str, _Bench], Plain]] = {
    "lay": _lay,
    "sew": _sew,
    "cut": _cut,
    "slice": _slice,
    "turn": _turn,
    "corner": _corner,
    "face": _face,
    "loop": _loop,
    "shuffle": _shuffle,
    "square": lambda verb, bench: {verb: bench.piece(), "width": "fit", "height": "fit"},
    "unpick": lambda verb, bench: {verb: bench.piece(), "seam": 1},
    "use": lambda verb, _bench: {verb: "rail-fence-of-two"},
}


def _pressing(plain: Mapping[str, Any]) -> Plain:
    """The seam sewn last, downward or to the right; one that runs any other way, open."""
    last: Plain = next(
        (step for step in reversed(plain["steps"]) if {"sew", "loop", "corner"} & step.keys()), {}
    )
    toward = {"across": "right", "down": "down"}.get(last.get("axis", ""), "open")
    return {"seam": last.get("make", ""), "toward": "open" if "edge" in last else toward}


def _text(length: Number) -> str:
    return Measure().bare(_EIGHTH(length))
