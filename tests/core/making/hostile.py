"""Recipes made to do harm: each holds to the form and asks for far more than any block needs."""

from itertools import pairwise
from typing import Any

Plain = dict[str, Any]


def lay(name: str, fabric: str = "A", width: str = "1", length: str = "1000") -> Plain:
    return {"make": name, "lay": {"fabric": fabric, "width": width, "length": length}}


def whole(steps: list[Plain], block: str = "block", **keys: Any) -> Plain:
    return {"recipe": 1, "name": "Trap", **keys, "steps": steps, "block": [block]}


def grid(rows: int, columns: int, then: list[Plain] | None = None, **keys: Any) -> Plain:
    """Strips sewn, cut in columns `c.1` ..., changed by steps that make `t` of them, and sewn again."""
    names = [f"s{number}" for number in range(rows)]
    steps = [
        *(lay(name, "AB"[number % 2]) for number, name in enumerate(names)),
        {"make": "set", "sew": names, "axis": "down"},
        {"make": "c", "cut": "set", "axis": "across", "into": columns},
        *(then or []),
        {"make": "block", "sew": ["t.*" if then else "c.*"], "axis": "across"},
    ]
    return whole(steps, **keys)


def turned_on_and_on(turns: int = 900) -> Plain:
    """A pieced cloth turned by a slant hundreds of times."""
    plain = grid(8, 8)
    names = ["block", *(f"q{number}" for number in range(turns))]
    plain["steps"] += [{"make": name, "turn": before, "by": 7} for before, name in pairwise(names)]
    plain["steps"].append({"make": "z", "square": names[-1], "width": "5", "height": "5"})
    return {**plain, "block": ["z"]}


def used_on_and_on(uses: int = 900, name: str = "framed-four-patch") -> Plain:
    """A shipped recipe made hundreds of times: little to read, much to do."""
    steps = [{"make": f"u{number}", "use": name} for number in range(uses)]
    taken = [f"u{number}" for number in range(uses)]
    return whole([*steps, {"make": "block", "sew": taken, "axis": "across"}], stack=5)


def nested(deep: int) -> Plain:
    """A recipe in a recipe in a recipe."""
    plain = whole([lay("block", width="3", length="3")])
    for _ in range(deep - 1):
        plain = whole([{"make": "block", "use": plain}])
    return plain


def fine(strips: int = 400, digits: int = 150) -> Plain:
    """Lengths with great denominators that have nothing in common."""
    names = [f"s{number}" for number in range(strips)]
    lays = [
        lay(name, width=f"1+1/{10**digits + 2 * number + 1}", length="9") for number, name in enumerate(names)
    ]
    return whole([*lays, {"make": "block", "sew": names, "axis": "down"}])


def layered(rows: int, columns: int, stack: int) -> Plain:
    """Every layer of a deep stack unlike the others."""
    turn = {"make": "t", "turn": "c.*", "which": "even", "by": 180, "layers": [0]}
    return grid(rows, columns, [turn], stack=stack)


def parts_by_name(count: int = 9000) -> Plain:
    """Thousands of parts, each called by its name."""
    cut = {"make": "c", "cut": "s", "axis": "across", "every": "1/8", "count": "fit"}
    sew = {"make": "block", "sew": [f"c.{number}" for number in range(1, count)], "axis": "across"}
    return whole([lay("s"), cut, sew])


def long_sums(names: int = 190) -> Plain:
    """Every length as long to work out as may be."""
    text = "/".join(["7919"] * 20) + "+" + "*".join(["1/7907"] * 10)
    return whole([lay("block")], let={f"x{number}": text for number in range(names)})


def near_words(letters: int = 100_000) -> Plain:
    """Names of a hundred thousand letters that are almost alike."""
    return whole([lay("a" * letters), {"make": "b", "turn": "b" + "a" * letters, "by": 90}])


def leaning(rows: int, columns: int, parts: int, step: str) -> Plain:
    """Slanted parts cut from a pieced cloth, and the largest rectangle sought in one."""
    cut = {"make": "l", "cut": "block", "axis": "across", "count": parts, "every": "4", "angle": 30}
    plain = grid(rows, columns)
    square = {"make": "z", "square": "l.2", "width": "fit", "height": "fit", "step": step}
    return {**plain, "steps": [*plain["steps"], cut, square], "block": ["z"]}


HOSTILE: dict[str, Plain] = {
    "strips by the hundred": grid(120, 90),
    "cut in thousands": grid(60, 1900),
    "turned on and on": turned_on_and_on(),
    "used on and on": used_on_and_on(),
    "slanted cuts by the hundred": leaning(60, 2, 100, "1/8"),
    "the finest square": leaning(10, 2, 3, "1/1000"),
    "recipes in recipes": nested(12),
    "fine fractions": fine(),
    "deep layers": layered(11, 11, 100),
    "parts by name": parts_by_name(),
    "long sums": long_sums(),
    "near words": near_words(),
    "a thousand varied names": whole(
        [lay("block")],
        vary={f"v{number}": {"from": "0", "to": "9999", "step": "1/999999"} for number in range(1000)},
    ),
    "a thousand steps": whole(
        [lay("p0", width="3", length="3")]
        + [{"make": f"p{n}", "turn": f"p{n - 1}", "by": 90} for n in range(1, 1000)],
        "p999",
    ),
}
