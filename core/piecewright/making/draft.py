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
from piecewright.making.used import UsedRecipe
from piecewright.making.verbs.use import gives_parts

Plain = dict[str, Any]
_STEP_PLACE = re.compile(r"steps\[(\d+)\]")
_KEY_PART = re.compile(r"\w+")
_KEPT = 512
_EACH = ("turn", "shuffle", "square", "open", "loop", "unpick", "finish")
_ONE_FOR_ONE = (*_EACH, "corner")
_TAKING = frozenset({"sew", "cut", "slice", "with", "face", *_ONE_FOR_ONE})
"""Keys whose value is a piece, or a list of pieces."""


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


def insert_step(plain: Mapping[str, Any], at: int, step: Plain, before: Making | None = None) -> Plain:
    """The recipe with one more step, which becomes number `at` from 0.

    `before` is the making of the steps before it. With it, a step that gives one piece for one takes that piece's
    place in all that follows: who used the old piece now uses the new one.
    """
    changed = copy.deepcopy(dict(plain))
    if before is not None and _gives_one_for_one(step):
        _pass_on(changed, at, step, before)
    changed["steps"].insert(at, step)
    return _ending_in(changed, plain)


def turned_further(plain: Mapping[str, Any], at: int, by: int) -> Plain:
    """The recipe with a piece turned by more; a whole turn leaves the step out, and its piece as it was."""
    step = plain["steps"][at]
    degrees = (step["by"] + by) % 360
    if degrees:
        return replace_step(plain, at, {**step, "by": degrees})
    changed = remove_step(plain, at)
    for later in changed["steps"][at:]:
        _rename(later, step["make"], step["turn"], {})
    changed["block"] = _renamed(changed["block"], step["make"], step["turn"], {})
    return changed


def _gives_one_for_one(step: Plain) -> bool:
    verb = next((key for key in _ONE_FOR_ONE if key in step), None)
    return verb is not None and not str(step[verb]).endswith(".*") and not step.get("keep")


def _pass_on(changed: Plain, at: int, step: Plain, before: Making) -> None:
    verb = next(key for key in _ONE_FOR_ONE if key in step)
    for later in changed["steps"][at:]:
        _rename(later, step[verb], step["make"], before.table.parts)
    changed["block"] = _renamed(changed["block"], step[verb], step["make"], before.table.parts)


def _rename(step: Plain, old: str, new: str, parts: Mapping[str, int]) -> None:
    """Let a step take another piece for one; parts taken all together are named one by one where one is changed."""
    for key in _TAKING & step.keys():
        if isinstance(step[key], list):
            step[key] = _renamed(step[key], old, new, {} if "which" in step else parts)
        elif step[key] == old:
            step[key] = new


def _renamed(names: Sequence[str], old: str, new: str, parts: Mapping[str, int]) -> list[str]:
    base = old.partition(".")[0]
    found: list[str] = []
    for name in names:
        if name == f"{base}.*" and name != old and base in parts:
            found += [f"{base}.{number}" for number in range(1, parts[base] + 1)]
        else:
            found.append(name)
    return [new if name == old else name for name in found]


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


def rename_step(plain: Mapping[str, Any], at: int, name: str) -> Plain:
    """The recipe with another name for what a step makes, and for its parts and seams wherever they are meant."""
    changed = copy.deepcopy(dict(plain))
    step = changed["steps"][at]
    old = step.get("make")
    if old is None:
        return changed
    step["make"] = name
    for later in changed["steps"][at + 1 :]:
        for key in _TAKING & later.keys():
            taken = later[key]
            later[key] = (
                _called(taken, old, name)
                if isinstance(taken, str)
                else [_called(one, old, name) for one in taken]
            )
        if "press" in later:
            later["press"]["seam"] = _called(later["press"]["seam"], old, name)
    changed["block"] = [_called(piece, old, name) for piece in changed["block"]]
    return changed


def _called(piece: str, old: str, new: str) -> str:
    base, dot, part = piece.partition(".")
    return f"{new}{dot}{part}" if base == old else piece


def replace_step(plain: Mapping[str, Any], at: int, step: Plain) -> Plain:
    """The recipe with another step in a place."""
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
    return put_at(plain, step, key, text, index)


def put_at(plain: Mapping[str, Any], step: int, key: str, value: object, index: int | None = None) -> Plain:
    """The recipe with anything else at a place of a step, sound or not."""
    changed = copy.deepcopy(dict(plain))
    holder, last = _holder(changed, step, key)
    if index is None:
        holder[last] = value
    else:
        holder[last][index] = value
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


def _ending_in(changed: Plain, before: Mapping[str, Any]) -> Plain:
    """A step added at the end gives the block, where the step that was last gave it before."""
    steps, old = changed["steps"], before["steps"]
    making = [step for step in old if "make" in step]
    if making and steps[:-1] == old and _is_of(before["block"], making[-1]["make"]) and "make" in steps[-1]:
        changed["block"] = [_whole(steps[-1])]
        changed.pop("finished", None)
    return changed


def _is_of(block: Sequence[str], name: str) -> bool:
    return all(piece.partition(".")[0] == name for piece in block)


def _whole(step: Plain) -> str:
    """All that a step gives, under one word; of parts unlike each other the first, for blocks are alike."""
    made = str(step["make"])
    if len(set(map(str, step.get("widths", ())))) > 1 or step.get("keep"):
        return f"{made}.1"
    parted = {"cut", "slice"} & step.keys() or any(str(step.get(key)).endswith(".*") for key in _EACH)
    return f"{made}.*" if parted or _uses_parts(step) else made


def _uses_parts(step: Plain) -> bool:
    """Whether a step uses a recipe that gives parts."""
    try:
        used = UsedRecipe.parse(step["use"]) if "use" in step else None
    except RecipeError:
        return False
    return used is not None and gives_parts(used.recipe.block)


@lru_cache(maxsize=_KEPT)
def _read(text: str) -> tuple[str, Recipe | None, Recipe | None, RecipeError | None, int | None]:
    plain = json.loads(text)
    try:
        recipe = Recipe.from_plain(plain)
    except RecipeError as fault:
        at = _step_of(fault)
        shown = _first_steps(plain, len(plain["steps"]) if at is None else at)
        return text, None, shown, fault.with_traceback(None), at  # kept, and must not keep who first met it
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


def letters_in(steps: Sequence[Mapping[str, Any]]) -> set[str]:
    """The fabric letters that steps speak of, sound or not: of their strips, and of the recipes they use."""
    strips = {str(step["lay"].get("fabric")) for step in steps if isinstance(step.get("lay"), dict)}
    for step in steps:
        inner, changed = step.get("use"), step.get("fabrics", {})
        if isinstance(inner, dict) and isinstance(changed, dict):
            strips |= {str(changed.get(letter, letter)) for letter in letters_in(inner.get("steps", []))}
        elif isinstance(changed, dict):
            strips |= {str(letter) for letter in changed.values()}
    return strips
