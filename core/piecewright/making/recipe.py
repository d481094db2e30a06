"""A recipe: how a block is made, as data. Its text is checked here; what the cloth does, in the run."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import MappingProxyType
from typing import Annotated, Any, Self

import msgspec
from msgspec import Meta

from piecewright.errors import RecipeError
from piecewright.making.declaring import Vary, check_names
from piecewright.making.decoding import decode
from piecewright.making.expressions import Expression
from piecewright.making.faults import refuse, shown
from piecewright.making.limits import MOST_NESTED, MOST_STEPS
from piecewright.making.pieces import check_pieces
from piecewright.making.plain import checked_plain, read_json
from piecewright.making.reading import check_step_names, decode_step
from piecewright.making.steps import Step
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.use import Use
from piecewright.words.message import message

VERSION = 1

Name = Annotated[str, Meta(min_length=1, max_length=200)]
Note = Annotated[str, Meta(max_length=4000)]
Choices = Annotated[tuple[Fraction, ...], Meta(min_length=1, max_length=200)]
_ORDERED = ("sizes", "vary", "let")


class Text(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """The top-level keys of a recipe as written; steps are read one by one."""

    recipe: int
    name: Name
    about: Note = ""
    note: Note = ""
    sizes: dict[str, Choices] = {}
    vary: dict[str, Vary] = {}
    let: dict[str, Expression] = {}
    seam: Fraction | None = None
    stack: Annotated[int, Meta(ge=1, le=100)] = 1
    steps: Annotated[tuple[dict[str, Any], ...], Meta(min_length=1, max_length=MOST_STEPS)]
    block: Annotated[tuple[str, ...], Meta(min_length=1, max_length=100)]
    finished: tuple[Expression, Expression] | None = None


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Recipe:
    """A recipe whose text holds together: every name known, every piece made before it is used and used once.

    Equal and hashed by content: the same keys and values, whatever the order of keys (that of `sizes`, `vary`
    and `let` counts). `seam` is None where the design's is used, `finished` where nothing is claimed. Inches.
    """

    name: str
    about: str
    note: str
    sizes: Mapping[str, tuple[Fraction, ...]]
    vary: Mapping[str, Vary]
    let: Mapping[str, Expression]
    seam: Fraction | None
    stack: int
    steps: tuple[Step, ...]
    block: tuple[str, ...]
    finished: tuple[Expression, Expression] | None
    _json: str
    _content: str
    _hash: int

    @classmethod
    def from_plain(cls, plain: object, recipes: Mapping[str, "Recipe"] = MappingProxyType({})) -> Self:
        """Read dicts and lists as JSON gives them. Raises RecipeError with place, value and repair.

        Where a step uses one of `recipes` by name, it is written out in its place; other names are those that ship.
        """
        copy = _with_given(checked_plain(plain), recipes)
        _check_version(copy)
        text = decode(copy, Text, "")
        steps = tuple(decode_step(step, f"steps[{index}]") for index, step in enumerate(text.steps))
        _check_text(text, steps)
        content = json.dumps(_content_of(copy), ensure_ascii=False, sort_keys=True)
        return cls(
            name=text.name,
            about=text.about,
            note=text.note,
            sizes=MappingProxyType(text.sizes),
            vary=MappingProxyType(text.vary),
            let=MappingProxyType(text.let),
            seam=text.seam,
            stack=text.stack,
            steps=steps,
            block=text.block,
            finished=text.finished,
            _json=json.dumps(copy, ensure_ascii=False),
            _content=content,
            _hash=hash(content),
        )

    @property
    def plain(self) -> dict[str, Any]:
        """The recipe as JSON values, fresh, with notes and the order of keys as read."""
        plain: dict[str, Any] = json.loads(self._json)
        return plain

    @property
    def letters(self) -> tuple[str, ...]:
        """The fabric letters in order of first use, those of recipes used included."""
        return tuple(dict.fromkeys(letter for step in self.steps for letter in _letters(step)))

    @property
    def nesting(self) -> int:
        """How deep recipes lie in this one, itself included: 1 where it uses none."""
        return 1 + max((step.use.recipe.nesting for step in self.steps if isinstance(step, Use)), default=0)

    def __eq__(self, other: object) -> bool:
        return self._content == other._content if isinstance(other, Recipe) else NotImplemented

    def __hash__(self) -> int:
        return self._hash

    def __repr__(self) -> str:
        return f"Recipe({self.name!r}, {len(self.steps)} steps)"

    def __reduce__(self) -> tuple[Any, ...]:
        return Recipe.from_plain, (self.plain,)


# A recipe has a JSON of its own, `plain`; msgspec would spell out by itself whatever it sees is a dataclass.
del Recipe.__dataclass_fields__


def read_recipe(data: bytes) -> Recipe:
    """The recipe in a file's bytes. Raises RecipeError; a newer version's code is "making.recipe-newer"."""
    return Recipe.from_plain(read_json(data))


def _letters(step: Step) -> Iterable[str]:
    if isinstance(step, Lay):
        return (step.lay.fabric,)
    if isinstance(step, Use):
        return (step.fabrics.get(letter, letter) for letter in step.use.recipe.letters)
    return ()


def _with_given(plain: object, recipes: Mapping[str, "Recipe"]) -> object:
    """Plain JSON with the given recipes written out where steps use them by name, so that it stands for itself."""
    if not recipes or not isinstance(plain, dict) or not isinstance(plain.get("steps"), list):
        return plain
    for step in plain["steps"]:
        if isinstance(step, dict) and isinstance(step.get("use"), str) and step["use"] in recipes:
            step["use"] = recipes[step["use"]].plain
    return checked_plain(plain)


def _check_version(plain: object) -> None:
    if not isinstance(plain, dict):
        refuse("recipe.not-an-object", message("recipe.start-so"), value=shown(plain))
    version = plain.get("recipe")
    if "recipe" not in plain:
        refuse("recipe.no-version", message("recipe.start-so"))
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        refuse(
            "recipe.bad-version",
            message("recipe.write-version", version=VERSION),
            "recipe",
            value=shown(version),
        )
    if version > VERSION:
        newer = message("making.recipe-newer", version=version, known=VERSION)
        raise RecipeError(newer, message("making.recipe-newer-kept"), "recipe")


def _check_text(text: Text, steps: tuple[Step, ...]) -> None:
    """What only the whole text can tell: names, pieces, the seam."""
    if text.seam is not None and text.seam <= 0:
        refuse("recipe.seam-nothing", message("recipe.seam-left-out"), "seam", value=text.seam)
    known = check_names(text.sizes, text.vary, text.let)
    check_step_names(steps, text.finished or (), known)
    check_pieces(steps, text.block)
    for index, step in enumerate(steps):
        if isinstance(step, Use) and step.use.recipe.nesting >= MOST_NESTED:
            refuse(
                "recipe.nested-too-deep", message("recipe.use-fewer"), f"steps[{index}].use", most=MOST_NESTED
            )


def _content_of(plain: object) -> object:
    """The same content in one form: tables whose order counts as lists of pairs."""
    if not isinstance(plain, dict):
        return plain
    return {key: list(part.items()) if key in _ORDERED else part for key, part in plain.items()}
