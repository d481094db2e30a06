"""Every change to a design by name: found, checked, applied, replayed, and named in the undo list."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import wraps
from inspect import Parameter, signature
from typing import Any, TypeVar, cast, get_type_hints

import msgspec

from piecewright.edit.refusing import refuse
from piecewright.errors import DesignError, EditError, PiecewrightError
from piecewright.making.faults import nearest, shown
from piecewright.model.codec import encode_own, from_plain
from piecewright.model.design import Design
from piecewright.model.value import JsonObject, Value
from piecewright.words.message import Arg, Message, message

F = TypeVar("F", bound=Callable[..., Design])
Arguments = Mapping[str, Any]
Merge = Callable[[Arguments, Arguments], Arguments | None]
"""From the arguments of two calls in a row: those of one call that does both, or None."""
Named = Callable[[Arguments], Message]
"""From the arguments of a call: what the undo list calls it."""


class Cell(Value, frozen=True):
    """A cell of the lattice, counted from 0 at the top left.

    Of a placed block, any cell that it covers will do.
    """

    column: int
    row: int


class EditCall(Value, frozen=True):
    """An edit as data: the name it is registered under and its arguments by name, as JSON."""

    name: str
    arguments: JsonObject


@dataclass(frozen=True)
class Edit:
    """A registered edit: its function, its undo text (a code or a function), its arguments, how two calls merge."""

    name: str
    function: Callable[..., Design]
    undo: str | Named
    arguments: type[msgspec.Struct]
    merge: Merge | None


_REGISTERED: dict[str, Edit] = {}
EDITS: Mapping[str, Edit] = _REGISTERED
"""Every edit by name; the package's `__init__` lists the modules that fill it."""


def edit(name: str, *, undo: str | Named, merge: Merge | None = None) -> Callable[[F], F]:
    """Register a function `(design, *, arguments) -> design`; `undo` is the code of what the undo list says.

    The undo text may use `count` (of `cells`) and every argument that is text; where that is not enough, `undo` is a
    function of the arguments. The function raises EditError
    where it refuses; a rule of the design that the result would break is told as an EditError too.
    """

    def register(function: F) -> F:
        @wraps(function)
        def refusing(design: Design, /, **arguments: object) -> Design:
            try:
                return function(design, **arguments)
            except DesignError as fault:
                raise EditError(fault.message, fault.hint, fault.where) from fault

        if name in _REGISTERED:
            raise ValueError(f"two edits are named {name}")
        _REGISTERED[name] = Edit(name, refusing, undo, _arguments_of(function), merge)
        return cast(F, refusing)

    return register


def last_wins(*same: str) -> Merge:
    """A merge for edits that set a value: the later call alone does it, where the arguments `same` agree."""

    def merge(previous: Arguments, following: Arguments) -> Arguments | None:
        return following if all(previous[name] == following[name] for name in same) else None

    return merge


def call(name: str, /, **arguments: object) -> EditCall:
    """An edit with its arguments (values of the types in its signature) as data."""
    given = EDITS[name].arguments(**arguments)
    return EditCall(name, JsonObject(msgspec.json.encode(given, enc_hook=encode_own)))


def apply(design: Design, call: EditCall) -> Design:
    """The design after an edit.

    Raises EditError: refused, an unknown edit, or arguments that do not fit it.
    """
    return _found(call).function(design, **decoded(call))


def decoded(call: EditCall) -> dict[str, Any]:
    """The arguments of a call as values, defaults filled in.

    Raises EditError with the place of what does not fit.
    """
    try:
        given = from_plain(call.arguments.plain, _found(call).arguments)
    except PiecewrightError as fault:
        raise EditError(fault.message, fault.hint, f"{call.name} {fault.where}".rstrip()) from None
    return {name: getattr(given, name) for name in given.__struct_fields__}


def undo_text(call: EditCall) -> Message:
    """What the undo list calls this edit, such as "turn 3 blocks"."""
    arguments, undo = decoded(call), _found(call).undo
    if not isinstance(undo, str):
        return undo(arguments)
    texts: dict[str, Arg] = {name: value for name, value in arguments.items() if isinstance(value, str)}
    return message(undo, count=len(arguments.get("cells", ())), **texts)


def merges_with(previous: EditCall, following: EditCall) -> EditCall | None:
    """One call that does what both do one after the other, for one undo step; None where they do not merge.

    Whether both belong to one gesture (nudges in a row, a slider, typing in one field) the caller must know.
    """
    merge = _found(previous).merge
    if merge is None or previous.name != following.name:
        return None
    merged = merge(decoded(previous), decoded(following))
    return None if merged is None else call(previous.name, **merged)


def _found(call: EditCall) -> Edit:
    found = EDITS.get(call.name)
    if found is None:
        near = nearest(call.name, EDITS)
        refuse(
            "unknown-edit", message("model.did-you-mean", word=near) if near else None, name=shown(call.name)
        )
    return found


def _arguments_of(function: Callable[..., Design]) -> type[msgspec.Struct]:
    """A struct with the keyword arguments of an edit, from its annotations."""
    kinds = get_type_hints(function)
    fields: list[tuple[str, Any] | tuple[str, Any, Any]] = []
    for name, parameter in signature(function).parameters.items():
        if parameter.kind is not Parameter.KEYWORD_ONLY:
            continue
        bare = parameter.default is Parameter.empty
        fields.append((name, kinds[name]) if bare else (name, kinds[name], parameter.default))
    title = "".join(word.capitalize() for word in function.__name__.split("_"))
    return msgspec.defstruct(title, fields, kw_only=True, frozen=True, forbid_unknown_fields=True)
