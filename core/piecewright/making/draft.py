"""A recipe while it is being changed by hand: it may not hold together, and what still works of it is kept in view."""

import copy
import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Self

from piecewright.errors import RecipeError
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, attempt

Plain = dict[str, Any]
_STEP_PLACE = re.compile(r"steps\[(\d+)\]")
_KEY_PART = re.compile(r"\w+")
_KEPT = 512


@dataclass(frozen=True, slots=True)
class Draft:
    """Steps as written, sound or not. Equal by what is written.

    `sound` is the recipe where the whole holds together, `shown` the recipe of as many first steps as do (None where
    not even one does); `fault` says what does not, and `fault_step` at which step (None: not at a step).
    """

    text: str
    sound: Recipe | None
    shown: Recipe | None
    fault: RecipeError | None
    fault_step: int | None

    @classmethod
    def of(cls, plain: Mapping[str, Any]) -> Self:
        """The draft of a recipe's plain JSON."""
        return cls(*_read(json.dumps(plain, ensure_ascii=False)))

    @property
    def plain(self) -> Plain:
        """The recipe as written, for changing: a fresh copy."""
        plain: Plain = json.loads(self.text)
        return plain

    @property
    def steps(self) -> list[Plain]:
        """The steps as written."""
        steps: list[Plain] = self.plain["steps"]
        return steps

    def making(self, given: Given) -> Making | None:
        """The cloth of what still works: every step up to the first that can not be done. None where nothing does.

        Raises RecipeError for sizes or draws that the recipe does not have.
        """
        return None if self.shown is None else attempt(self.shown, given)


def insert_step(plain: Mapping[str, Any], at: int, step: Plain) -> Plain:
    """The recipe with one more step, which becomes number `at` from 0."""
    changed = copy.deepcopy(dict(plain))
    changed["steps"].insert(at, step)
    return _ending_in(changed, plain)


def remove_step(plain: Mapping[str, Any], at: int) -> Plain:
    """The recipe without a step; what used its piece is left as it is, and told where it stands."""
    changed = copy.deepcopy(dict(plain))
    del changed["steps"][at]
    return changed


def move_step(plain: Mapping[str, Any], at: int, to: int) -> Plain:
    """The recipe with a step in another place."""
    changed = copy.deepcopy(dict(plain))
    changed["steps"].insert(to, changed["steps"].pop(at))
    return changed


def replace_step(plain: Mapping[str, Any], at: int, step: Plain) -> Plain:
    """The recipe with another step in a place; the pieces it gives take the old name where it names none."""
    changed = copy.deepcopy(dict(plain))
    changed["steps"][at] = step
    return changed


def length_at(plain: Mapping[str, Any], step: int, key: str, index: int | None = None) -> str:
    """The length written at a place of a step; KeyError where none is.

    `key` may lead inwards: "lay.width", "seams[0].from".
    """
    holder, last = _holder(dict(plain), step, key)
    return str(holder[last] if index is None else holder[last][index])


def with_length(plain: Mapping[str, Any], step: int, key: str, text: str, index: int | None = None) -> Plain:
    """The recipe with another length written at a place of a step."""
    changed = copy.deepcopy(dict(plain))
    holder, last = _holder(changed, step, key)
    if index is None:
        holder[last] = text
    else:
        holder[last][index] = text
    return changed


def _holder(plain: Plain, step: int, key: str) -> tuple[Plain, str]:
    """What holds the last name of a key such as "lay.width" or "seams[0].from", and that name."""
    holder = plain["steps"][step]
    *inwards, last = _KEY_PART.findall(key)
    for name in inwards:
        holder = holder[int(name)] if isinstance(holder, list) else holder[name]
    return holder, last


def fresh_name(plain: Mapping[str, Any], wish: str) -> str:
    """A name no step has: the wish, or the wish with a number."""
    used = {step.get("make") for step in plain["steps"]}
    return next(
        name for name in (wish, *(f"{wish}{number}" for number in range(2, 10_000))) if name not in used
    )


def loose_pieces(making: Making | None) -> tuple[str, ...]:
    """What lies on the table after the last step done and was used by none, latest last."""
    if making is None:
        return ()
    return tuple(name for name in making.table.piles if name not in making.table.used)


def suggested_step(plain: Mapping[str, Any], verb: str, pieces: Sequence[str]) -> Plain:
    """A step of a verb that is likely to work on some pieces (the last ones laid down), to be changed from there."""
    name, last = fresh_name(plain, _WISHES[verb]), (pieces[-1] if pieces else "")
    if verb == "lay":
        strip = {"fabric": _next_letter(plain), "width": "2 1/2", "length": _usual_length(plain)}
        return {"make": name, "lay": strip}
    if verb == "press":
        return {"press": {"seam": _last_sewn(plain), "toward": "down"}}
    if verb == "sew":
        return {"make": name, "sew": list(pieces[-2:]), "axis": "down"}
    before = pieces[-2] if len(pieces) > 1 else ""
    if verb == "corner":
        return {"make": name, "corner": before, "with": last, "at": "top left"}
    if verb == "face":
        edge = {"from": ["left", "seam"], "to": ["right", "seam"]}
        return {"make": name, "face": [before, last], "seams": [edge]}
    return {"make": name, verb: last, **_SHAPES[verb]}


_WISHES = {
    "lay": "strip", "sew": "sewn", "cut": "part", "slice": "side",
    "turn": "turned", "shuffle": "pile", "square": "squared", "press": "",
    "corner": "cornered", "face": "pair", "open": "opened",
}  # fmt: skip
_SHAPES: Mapping[str, Plain] = {
    "cut": {"axis": "across", "into": 2},
    "slice": {"from": ["top", "3"], "to": ["bottom", "5"]},
    "turn": {"by": 180},
    "shuffle": {"by": 1},
    "square": {"width": "fit", "height": "fit"},
    "open": {},
}


def _next_letter(plain: Mapping[str, Any]) -> str:
    used = {step["lay"]["fabric"] for step in plain["steps"] if "lay" in step}
    return next((letter for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ" if letter not in used), "A")


def _usual_length(plain: Mapping[str, Any]) -> str:
    """As long as the strip laid last, so that both can be sewn."""
    lengths = [step["lay"]["length"] for step in plain["steps"] if "lay" in step]
    return lengths[-1] if lengths else "20"


def _last_sewn(plain: Mapping[str, Any]) -> str:
    return next((step["make"] for step in reversed(plain["steps"]) if "sew" in step), "")


def _ending_in(changed: Plain, before: Mapping[str, Any]) -> Plain:
    """A step added at the end gives the block, where the step that was last gave it before."""
    steps, old = changed["steps"], before["steps"]
    making = [step for step in old if "make" in step]
    if making and steps[:-1] == old and before["block"] == [_whole(making[-1])] and "make" in steps[-1]:
        changed["block"] = [_whole(steps[-1])]
        changed.pop("finished", None)
    return changed


def _whole(step: Plain) -> str:
    """All that a step gives, under one word."""
    return f"{step['make']}.*" if {"cut", "slice"} & step.keys() else str(step["make"])


@lru_cache(maxsize=_KEPT)
def _read(text: str) -> tuple[str, Recipe | None, Recipe | None, RecipeError | None, int | None]:
    plain = json.loads(text)
    try:
        recipe = Recipe.from_plain(plain)
    except RecipeError as fault:
        at = _step_of(fault)
        return text, None, _first_steps(plain, len(plain["steps"]) if at is None else at), fault, at
    return text, recipe, recipe, None, None


def _step_of(fault: RecipeError) -> int | None:
    found = _STEP_PLACE.match(fault.where)
    return int(found.group(1)) if found else None


def _first_steps(plain: Plain, count: int) -> Recipe | None:
    """A recipe of the first steps alone, its block the piece that the last of them makes."""
    while count:
        steps = plain["steps"][:count]
        making = next((step for step in reversed(steps) if isinstance(step.get("make"), str)), None)
        if making is None:
            return None
        shorter = {key: value for key, value in plain.items() if key != "finished"}
        try:
            return Recipe.from_plain({**shorter, "steps": steps, "block": [_whole(making)]})
        except RecipeError as fault:
            at = _step_of(fault)
            count = min(count - 1, at) if at is not None else count - 1
    return None
