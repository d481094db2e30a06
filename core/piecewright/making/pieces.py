"""Follows the pieces of a recipe through its text: each made once, made before it is used, and used once.

What only the cloth can tell (how many parts "fit" gives) is left to the run.
"""

import re
from dataclasses import dataclass, field

from piecewright.errors import RecipeError
from piecewright.making.declaring import check_short
from piecewright.making.expressions import is_name
from piecewright.making.faults import nearest, refuse, shown
from piecewright.making.reading import verb_word
from piecewright.making.steps import MakingStep, Step, Which
from piecewright.making.table import WILDCARD
from piecewright.making.verbs.corner import Corner
from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.face import Face
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.loop import Loop
from piecewright.making.verbs.open import Open
from piecewright.making.verbs.press import Press
from piecewright.making.verbs.sew import Sew
from piecewright.making.verbs.slice import Slice
from piecewright.making.verbs.use import Use, gives_parts
from piecewright.words.message import Message, message

ALL = "all"
Picked = str | frozenset[int]
"""Which parts: "all", "odd", "even", or their numbers from 1."""

_NUMBER = re.compile(r"[1-9][0-9]{0,5}")


@dataclass(slots=True)
class _Made:
    """What a name stands for: one piece, or parts (`count` None where only the run can tell).

    `seams` is how many its step sewed, None where only the run can tell; `used` tells where each part by its number,
    or "all", "odd" or "even" of them, is used.
    """

    place: str
    parts: bool = False
    count: int | None = None
    seams: int | None = 0
    used: dict[str | int, str] = field(default_factory=dict)


def check_pieces(steps: tuple[Step, ...], block: tuple[str, ...]) -> None:
    """Raise RecipeError for a piece unknown, made twice or used twice, and for parts where one is meant."""
    follower = _Follower()
    for index, step in enumerate(steps):
        follower.take(step, f"steps[{index}]")
    for index, name in enumerate(block):
        follower.use_list(name, ALL, f"block[{index}]")


class _Follower:
    def __init__(self) -> None:
        self._made: dict[str, _Made] = {}

    def take(self, step: Step, place: str) -> None:
        """Use what a step uses, then make what it makes."""
        if isinstance(step, Press):
            self._check_seam(step.press.seam, f"{place}.press.seam")
        elif isinstance(step, MakingStep):
            made = self._result(step, place)
            self._check_new(step.make, f"{place}.make")
            self._made[step.make] = made

    def _result(self, step: MakingStep, place: str) -> _Made:
        if isinstance(step, Sew):
            return _Made(place, seams=self._sew(step, place))
        if isinstance(step, Use):
            return _check_use(step, place)
        word = verb_word(step)
        piece = getattr(step, word)
        if isinstance(step, Lay):
            _check_letter(step.lay.fabric, f"{place}.lay.fabric")
            return _Made(place, seams=None if step.lay.join else 0)
        if isinstance(step, Cut | Slice):
            self._use_one(piece, f"{place}.{word}")
            return _Made(place, parts=True, count=_parts_of_cut(step) if isinstance(step, Cut) else 2)
        if isinstance(step, Corner):
            self._use_one(step.corner, f"{place}.corner")
            self._use_one(step.with_, f"{place}.with")
            return _Made(place, parts=step.keep, count=2 if step.keep else None, seams=1)
        if isinstance(step, Face):
            for index, name in enumerate(step.face):
                self._use_one(name, f"{place}.face[{index}]")
            return _Made(place)
        made = self._each(step, piece, place)
        if isinstance(step, Open | Loop):
            made.seams = _seam_count(step.which, made)
        return made

    def _each(self, step: MakingStep, piece: str, place: str) -> _Made:
        """A verb that works on one piece or, with a wildcard, on every part: all pass into the new name."""
        which: Which | None = getattr(step, "which", None)
        if not piece.endswith(WILDCARD):
            if which is not None:
                refuse("recipe.which-of-one", message("recipe.which-needs-wildcard"), f"{place}.which")
            self._use_one(piece, f"{place}.{verb_word(step)}")
            return _Made(place)
        count = self._use_parts(piece, ALL, f"{place}.{verb_word(step)}")
        if which is not None:
            _check_which(which, count, f"{place}.which")
        return _Made(place, parts=True, count=count)

    def _sew(self, step: Sew, place: str) -> int | None:
        """How many seams a sewing step sews; None where only the run can tell."""
        if step.which is not None and not any(name.endswith(WILDCARD) for name in step.sew):
            refuse("recipe.which-of-one", message("recipe.which-needs-wildcard"), f"{place}.which")
        total: int | None = 0
        for index, name in enumerate(step.sew):
            count = self._count_in_list(name, step.which, f"{place}.sew[{index}]", f"{place}.which")
            total = None if total is None or count is None else total + count
        if total is not None and total < 2:
            refuse("recipe.sew-one", message("recipe.name-two"), f"{place}.sew", count=total)
        return None if total is None else total - 1

    def _count_in_list(self, name: str, which: Which | None, place: str, which_place: str) -> int | None:
        if which is None or not name.endswith(WILDCARD):
            return self.use_list(name, ALL, place)
        count = self.use_list(name, which if isinstance(which, str) else frozenset(which), place)
        _check_which(which, count, which_place)
        return _picked_count(which, count)

    def use_list(self, name: str, picked: Picked, place: str) -> int | None:
        """Use what a name in a list stands for, one piece or the picked parts; how many parts it has."""
        if name.endswith(WILDCARD):
            return self._use_parts(name, picked, place)
        self._use_one(name, place)
        return 1

    def _use_parts(self, name: str, picked: Picked, place: str) -> int | None:
        base = name.removesuffix(WILDCARD)
        made = self._known(base, place)
        if not made.parts:
            refuse("recipe.wildcard-of-one", message("recipe.write-piece", name=base), place, name=base)
        _mark_used(made, picked, name, place)
        return made.count

    def _use_one(self, name: str, place: str) -> None:
        base, dot, part = name.partition(".")
        made = self._known(base, place)
        if part == "*":
            refuse("recipe.one-at-a-time", message("recipe.write-part", name=base), place, name=name)
        if made.parts and not dot:
            refuse("recipe.which-part", message("recipe.write-part", name=base), place, name=base)
        if dot and not made.parts:
            refuse(
                "recipe.part-of-one", message("recipe.write-piece", name=base), place, name=base, part=name
            )
        if dot and not _NUMBER.fullmatch(part):
            refuse("recipe.no-part", message("recipe.write-part", name=base), place, name=name)
        if dot and made.count is not None and int(part) > made.count:
            refuse(
                "recipe.part-beyond",
                message("recipe.use-part-to", name=base, count=made.count),
                place,
                name=base,
                part=name,
                count=made.count,
            )
        _mark_used(made, frozenset({int(part)}) if dot else ALL, name, place)

    def _known(self, base: str, place: str) -> _Made:
        if base in self._made:
            return self._made[base]
        near = nearest(base, self._made)
        hint = message("recipe.did-you-mean", word=near) if near else self._all_known()
        raise RecipeError(message("recipe.unknown-piece", name=base), hint, place)

    def _all_known(self) -> Message:
        names = tuple(self._made)
        return message("recipe.pieces-known", names=names) if names else message("recipe.pieces-none")

    def _check_new(self, name: str, place: str) -> None:
        check_short(name, place)
        if not is_name(name):
            refuse("recipe.no-name", message("recipe.write-name"), place, name=shown(name))
        if name in self._made:
            refuse(
                "recipe.piece-twice",
                message("recipe.rename"),
                place,
                name=name,
                before=self._made[name].place,
            )

    def _check_seam(self, name: str, place: str) -> None:
        base, dot, number = name.partition(".")
        made = self._known(base, place)
        if made.seams == 0:
            refuse("recipe.no-seam", message("recipe.name-sewing"), place, name=base)
        if dot and not _NUMBER.fullmatch(number):
            refuse("recipe.bad-seam", message("recipe.write-seam", name=base), place, name=name)
        if dot and made.seams is not None and int(number) > made.seams:
            refuse(
                "recipe.seam-beyond",
                message("recipe.write-seam", name=base),
                place,
                name=base,
                seam=name,
                count=made.seams,
            )


def _check_use(step: Use, place: str) -> _Made:
    """Sizes and letters of the recipe used, and what it gives."""
    recipe = step.use.recipe
    for name in step.sizes:
        if name not in recipe.sizes:
            near = nearest(name, recipe.sizes)
            known = message("recipe.sizes-known", names=tuple(recipe.sizes))
            hint = message("recipe.did-you-mean", word=near) if near else known
            refuse("recipe.unknown-size", hint, f"{place}.sizes.{name}", name=shown(name))
    for inner, outer in step.fabrics.items():
        if inner not in recipe.letters:
            hint = message("recipe.letters-known", letters=recipe.letters)
            refuse("recipe.unknown-letter", hint, f"{place}.fabrics.{inner}", letter=shown(inner))
        _check_letter(outer, f"{place}.fabrics.{inner}")
    count = None if any(name.endswith(WILDCARD) for name in recipe.block) else len(recipe.block)
    return _Made(place, parts=gives_parts(recipe.block), count=count)


def _check_letter(fabric: str, place: str) -> None:
    check_short(fabric, place)
    if not is_name(fabric):
        refuse("recipe.no-letter", message("recipe.write-letter"), place, fabric=shown(fabric))


def _parts_of_cut(step: Cut) -> int | None:
    counts = [None if step.widths is None else len(step.widths), step.into, step.count]
    said = [count for count in counts if count is not None]
    return said[0] if len(said) == 1 and isinstance(said[0], int) else None


def _mark_used(made: _Made, picked: Picked, name: str, place: str) -> None:
    before = _used_before(made, picked)
    if before is not None:
        refuse("recipe.used-twice", message("recipe.make-another"), place, name=name, before=before)
    made.used.update(dict.fromkeys((picked,) if isinstance(picked, str) else picked, place))


def _used_before(made: _Made, picked: Picked) -> str | None:
    """Where one of the picked parts is used already."""
    if isinstance(picked, str):
        return next((where for part, where in made.used.items() if _overlap(part, picked)), None)
    words = [word for word in (ALL, "odd", "even") if word in made.used]
    for number in picked:
        for part in (number, *words):
            if part in made.used and _overlap(part, number):
                return made.used[part]
    return None


def _overlap(one: str | int, other: str | int) -> bool:
    if ALL in (one, other) or one == other:
        return True
    word, number = (one, other) if isinstance(one, str) else (other, one)
    return isinstance(number, int) and (number % 2 == 1) == (word == "odd")


def _check_which(which: Which, count: int | None, place: str) -> None:
    if isinstance(which, str):
        return
    for index, number in enumerate(which):
        if number < 1 or (count is not None and number > count):
            most = message("recipe.parts-to", count=count) if count else message("recipe.parts-from-one")
            refuse("recipe.which-beyond", most, f"{place}[{index}]", number=number)
    if not which or len(set(which)) < len(which):
        refuse("recipe.which-twice", None, place)


def _seam_count(which: Which | None, made: _Made) -> int | None:
    """How many pieces are opened, or sewn into tubes, each with one seam."""
    if not made.parts:
        return 1
    return made.count if which is None else _picked_count(which, made.count)


def _picked_count(which: Which, count: int | None) -> int | None:
    if not isinstance(which, str):
        return len(which)
    return None if count is None else (count + 1) // 2 if which == "odd" else count // 2
