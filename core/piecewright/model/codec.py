"""A design to JSON and back: fractions as exact text, recipes as objects, every fault with its place."""

import json
import re
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import lru_cache
from typing import Any, NoReturn, TypeVar

import msgspec
from msgspec import inspect

from piecewright.errors import DesignError, LengthError, RecipeError
from piecewright.making.faults import nearest, printable, shown
from piecewright.making.recipe import Recipe
from piecewright.model.design import Design
from piecewright.model.limits import BrokenRuleError, first_twice, refuse
from piecewright.model.value import JsonObject, Letters, Sizes, Value
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

T = TypeVar("T")
_EXACT = Measure()


def to_json(value: Value) -> bytes:
    """A design, or any value of one, as compact JSON (UTF-8). Equal values give equal bytes."""
    return msgspec.json.encode(value, enc_hook=encode_own)


def from_json(data: bytes) -> Design:
    """The design in JSON bytes. Raises DesignError with place, value and repair."""
    return from_plain(read_json(data), Design)


def from_plain(plain: object, kind: type[T]) -> T:
    """`plain` (dicts and lists as JSON gives them) as a value of a design.

    Raises DesignError with place, value, repair.
    """
    try:
        return msgspec.convert(plain, kind, dec_hook=decode_own)
    except msgspec.ValidationError as fault:
        raise _explained(fault, plain, kind) from None
    except (
        UnicodeEncodeError
    ) as fault:  # a key or a choice with a lone surrogate, which msgspec can not look up
        raise DesignError(message("model.half-character", text=printable(fault.object[:40]))) from None


def to_plain(value: object) -> Any:
    """A value of a design as dicts and lists of JSON."""
    return msgspec.json.decode(msgspec.json.encode(value, enc_hook=encode_own))


def encode_own(value: object) -> object:
    """The JSON form of the types that msgspec does not know (its `enc_hook`)."""
    if isinstance(value, Fraction):
        return _EXACT.bare(value)
    if isinstance(value, Recipe):
        return value.plain
    if isinstance(value, JsonObject):
        return msgspec.Raw(value.text)
    if isinstance(value, Mapping):
        return dict(value)
    raise NotImplementedError(f"no JSON form of {type(value).__name__}")


def decode_own(kind: type, plain: object) -> object:
    """A value of one of those types from its JSON form (msgspec's `dec_hook`). Raises BrokenRuleError."""
    return _OWN[kind](plain)


def read_json(data: bytes) -> object:
    """The JSON value in UTF-8 bytes. Raises DesignError: not UTF-8, not JSON, a key twice, NaN, too deep."""
    try:
        return json.loads(
            data.decode("utf-8-sig"), object_pairs_hook=_object, parse_constant=_refuse_constant
        )
    except UnicodeDecodeError as fault:
        refuse("not-utf-8", message("model.save-as-utf-8"), place=fault.start + 1)
    except json.JSONDecodeError as fault:
        refuse("not-json", line=fault.lineno, column=fault.colno, reason=fault.msg)
    except RecursionError:
        refuse("too-deep")
    except BrokenRuleError:
        raise
    except ValueError:
        refuse("number-too-long")


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) < len(pairs):
        keys = [key for key, _ in pairs]
        refuse(
            "key-twice",
            message("model.keep-one-key"),
            key=shown(first_twice(keys)),
        )
    return found


def _refuse_constant(word: str) -> NoReturn:
    refuse("no-number", word=word)


def _fraction(plain: object) -> Fraction:
    if not isinstance(plain, str):
        hint = message("model.write-as-text", text=f"{plain}") if type(plain) in (int, float) else None
        refuse("length-not-text", hint or message("model.write-length"), value=shown(plain))
    try:
        return parse_length(plain, allow_negative=True)
    except LengthError as fault:
        raise BrokenRuleError(fault.message, fault.hint) from None


def _recipe(plain: object) -> Recipe:
    try:
        return _recipe_in(json.dumps(plain, ensure_ascii=False))
    except RecipeError as fault:
        raise BrokenRuleError(fault.message, fault.hint, fault.where) from None


@lru_cache(maxsize=64)
def _recipe_in(text: str) -> Recipe:
    """The recipe in a JSON text; one edit is read several times on its way to the design and to the undo list."""
    return Recipe.from_plain(json.loads(text))


def _items(plain: object, code: str) -> Mapping[str, object]:
    if not isinstance(plain, dict):
        refuse(code, value=shown(plain))
    return plain


def _sizes(plain: object) -> Sizes:
    sizes: dict[str, Fraction] = {}
    for name, size in _items(plain, "not-sizes").items():
        try:
            sizes[name] = _fraction(size)
        except BrokenRuleError as fault:
            raise BrokenRuleError(fault.message, fault.hint, name) from None
    return Sizes(sizes)


def _letters(plain: object) -> Letters:
    letters: dict[str, tuple[str, ...]] = {}
    for letter, ids in _items(plain, "not-letters").items():
        if not isinstance(ids, list | tuple) or not all(isinstance(name, str) for name in ids):
            refuse("not-letters", where=letter, value=shown(ids))
        letters[letter] = tuple(ids)
    return Letters(letters)


def _json_object(plain: object) -> JsonObject:
    return JsonObject(msgspec.json.encode(_items(plain, "not-object")))


_OWN: Mapping[type, Callable[[object], object]] = {
    Fraction: _fraction,
    Sizes: _sizes,
    Letters: _letters,
    Recipe: _recipe,
    JsonObject: _json_object,
}

_AT = re.compile(r"^(?P<reason>.*) - at `\$(?P<path>[^`]*)`$", re.DOTALL)
_STEP = re.compile(r"\.?([^.\[\]]+)|\[(\d+)\]")


def _explained(fault: msgspec.ValidationError, plain: object, kind: Any) -> DesignError:
    """What msgspec refused, as a sentence with the place; what our constructors refused keeps its words."""
    found = _AT.match(str(fault))
    path, reason = (found["path"], found["reason"]) if found else ("", str(fault))
    own = fault.__cause__
    if isinstance(own, BrokenRuleError):
        return DesignError(own.message, own.hint, _below(path, own.where))
    value, wanted = _at(plain, inspect.type_info(kind), path)
    said, hint = _say(reason, value, wanted)
    return DesignError(said, hint, path.removeprefix("."))


def _below(path: str, inner: str) -> str:
    return (
        f"{path}{inner}".removeprefix(".")
        if not inner or inner[0] == "["
        else f"{path}.{inner}".removeprefix(".")
    )


def _at(plain: object, kind: inspect.Type, path: str) -> tuple[object, Any]:
    """The value at msgspec's path, and what should stand there."""
    value: Any = plain
    for name, index in _STEP.findall(path):
        kind = _only(kind)
        value = value[int(index)] if index else value[name]
        if isinstance(kind, inspect.StructType):
            kind = next(field.type for field in kind.fields if field.encode_name == name)
        elif isinstance(kind, inspect.VarTupleType):
            kind = kind.item_type
    return value, _only(kind)


def _only(kind: inspect.Type) -> inspect.Type:
    """The type itself where null may stand beside it."""
    if not isinstance(kind, inspect.UnionType):
        return kind
    return next(member for member in kind.types if not isinstance(member, inspect.NoneType))


def _say(reason: str, value: object, wanted: Any) -> tuple[Message, Message | None]:
    if isinstance(wanted, inspect.StructType) and isinstance(value, dict):
        keys = tuple(field.encode_name for field in wanted.fields)
        for key in value:
            if key not in keys:
                near = nearest(key, keys)
                hint = (
                    message("model.did-you-mean", word=near)
                    if near
                    else message("model.keys-known", keys=keys)
                )
                return message("model.unknown-key", key=shown(key)), hint
        missing = [
            field.encode_name for field in wanted.fields if field.required and field.encode_name not in value
        ]
        return message("model.missing-key", keys=tuple(missing)), message(
            "model.add-keys", count=len(missing)
        )
    if isinstance(wanted, inspect.LiteralType):
        choices = tuple(shown(choice) for choice in wanted.values)
        return message("model.not-a-choice", value=shown(value)), message("model.choices", choices=choices)
    code = _WANTED.get(type(wanted))
    if code is None:
        return message("model.refused", value=shown(value), reason=reason), None
    return message("model.wrong-value", value=shown(value), wanted=message(f"model.wants-{code}")), None


_WANTED: Mapping[type, str] = {
    inspect.StructType: "object",
    inspect.VarTupleType: "list",
    inspect.StrType: "text",
    inspect.IntType: "whole-number",
    inspect.BoolType: "true-or-false",
}
