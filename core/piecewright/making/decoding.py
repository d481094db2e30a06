"""Plain JSON into typed values: msgspec decides, and what it refuses is told with place, value and repair."""

from collections.abc import Callable, Iterator, Mapping
from fractions import Fraction
from typing import Any, TypeVar

import msgspec
from msgspec import inspect

from piecewright.errors import RecipeError
from piecewright.making.faults import MOST_SHOWN, nearest, placed, shown
from piecewright.making.lengths import read_length
from piecewright.making.used import UsedRecipe
from piecewright.words.message import Message, message

T = TypeVar("T")
Fault = RecipeError | None


class _MisreadError(ValueError):
    """Carries a fault out of msgspec, which lets only a ValueError through with its path."""


def _parse(kind: Any, value: object) -> object:
    """A value of one of the format's own types: Fraction (a plain length) or a type with `parse`."""
    return read_length(value) if kind is Fraction else kind.parse(value)


def _decode_own(kind: type, value: object) -> object:
    try:
        return _parse(kind, value)
    except RecipeError as fault:
        raise _MisreadError from fault


def decode(plain: object, kind: type[T], place: str) -> T:
    """`plain` as a msgspec type. Raises RecipeError with the place of the first fault, below `place`."""
    try:
        return msgspec.convert(plain, kind, dec_hook=_decode_own)
    except RecipeError as fault:
        raise placed(fault, place) from None
    except msgspec.ValidationError as refusal:
        explained = _explain(plain, inspect.type_info(kind), place)
        raise explained or RecipeError(message("recipe.refused", reason=str(refusal)), where=place) from None


def below(place: str, key: str) -> str:
    """The place of a key in the object at `place`, in printable signs; the top has no name."""
    word = "".join(sign if sign.isprintable() else " " for sign in key[:MOST_SHOWN])
    return f"{place}.{word}" if place else word


def _explain(value: object, kind: inspect.Type, place: str) -> Fault:
    """The first fault of `value` as a `kind`; None where there is none."""
    explain = _EXPLAIN.get(type(kind))
    return explain(value, kind, place) if explain else None


def _wrong(value: object, kind: inspect.Type, place: str) -> RecipeError:
    return RecipeError(message("recipe.wrong-value", value=shown(value)), _wanted(kind), place)


def _wanted(kind: inspect.Type) -> Message:
    return message("recipe.write-wanted", wanted=describe(kind))


def _first(faults: Iterator[Fault]) -> Fault:
    return next((fault for fault in faults if fault), None)


def _explain_object(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, dict):
        return _wrong(value, kind, place)
    fields = {field.encode_name: field for field in kind.fields}
    for key in value:
        if key not in fields:
            return unknown_key(key, tuple(fields), place)
    for field in kind.fields:
        if field.required and field.encode_name not in value:
            hint = message("recipe.write-key", wanted=describe(field.type))
            return RecipeError(message("recipe.missing-key"), hint, below(place, field.encode_name))
    return _first(_explain(part, fields[key].type, below(place, key)) for key, part in value.items())


def unknown_key(key: object, known: tuple[str, ...], place: str) -> RecipeError:
    """The error for a key that the format does not have, with the nearest or all that may stand there."""
    near = nearest(str(key), known)
    keys = message("recipe.keys-known", keys=tuple(sorted(known)))
    hint = message("recipe.did-you-mean", word=near) if near else keys
    return RecipeError(message("recipe.unknown-key"), hint, below(place, str(key)))


def _explain_table(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, dict):
        return _wrong(value, kind, place)
    return _first(_explain(part, kind.value_type, below(place, key)) for key, part in value.items())


def _explain_list(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, list | tuple):
        return _wrong(value, kind, place)
    least, most = kind.min_length or 0, kind.max_length
    if len(value) < least or (most is not None and len(value) > most):
        return _wrong_length(value, kind, place)
    return _first(_explain(part, kind.item_type, f"{place}[{index}]") for index, part in enumerate(value))


def _explain_row(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, list | tuple):
        return _wrong(value, kind, place)
    if len(value) != len(kind.item_types):
        return _wrong_length(value, kind, place)
    parts = enumerate(zip(value, kind.item_types, strict=True))
    return _first(_explain(part, wanted, f"{place}[{index}]") for index, (part, wanted) in parts)


def _wrong_length(value: list[object] | tuple[object, ...], kind: inspect.Type, place: str) -> RecipeError:
    return RecipeError(message("recipe.wrong-count", count=len(value)), _wanted(kind), place)


def _explain_choice(value: object, kind: Any, place: str) -> Fault:
    if isinstance(value, str | int) and not isinstance(value, bool) and value in kind.values:
        return None
    words = tuple(choice for choice in kind.values if isinstance(choice, str))
    near = nearest(value, words) if isinstance(value, str) else None
    hint = message("recipe.did-you-mean", word=near) if near else _wanted(kind)
    return RecipeError(message("recipe.wrong-value", value=shown(value)), hint, place)


def _explain_number(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, int) or isinstance(value, bool):
        return _wrong(value, kind, place)
    too_small = kind.ge is not None and value < kind.ge
    too_large = kind.le is not None and value > kind.le
    return _wrong(value, kind, place) if too_small or too_large else None


def _explain_degrees(value: object, kind: Any, place: str) -> Fault:
    if not isinstance(value, int | float) or isinstance(value, bool):
        return _wrong(value, kind, place)
    inside = kind.gt < value < kind.lt if kind.ge is None else kind.ge <= value <= kind.le
    return None if inside else _wrong(value, kind, place)


def _explain_text(value: object, kind: Any, place: str) -> Fault:
    if isinstance(value, str) and (kind.min_length or 0) <= len(value) <= (kind.max_length or len(value)):
        return None
    return _wrong(value, kind, place)


def _explain_yes_or_no(value: object, kind: Any, place: str) -> Fault:
    return None if isinstance(value, bool) else _wrong(value, kind, place)


def _explain_own(value: object, kind: Any, place: str) -> Fault:
    try:
        _parse(kind.cls, value)
    except RecipeError as fault:
        return RecipeError(fault.message, fault.hint, f"{place}.{fault.where}" if fault.where else place)
    return None


def _explain_either(value: object, kind: Any, place: str) -> Fault:
    members = [member for member in kind.types if not isinstance(member, inspect.NoneType)]
    faults = [_explain(value, member, place) for member in members]
    if None in faults:
        return None
    deeper = [fault for fault in faults if fault and fault.where != place]
    return deeper[0] if deeper else faults[0] if len(faults) == 1 else _wrong(value, kind, place)


_EXPLAIN: Mapping[type, Callable[[object, Any, str], Fault]] = {
    inspect.StructType: _explain_object,
    inspect.DictType: _explain_table,
    inspect.VarTupleType: _explain_list,
    inspect.TupleType: _explain_row,
    inspect.LiteralType: _explain_choice,
    inspect.IntType: _explain_number,
    inspect.FloatType: _explain_degrees,
    inspect.StrType: _explain_text,
    inspect.BoolType: _explain_yes_or_no,
    inspect.CustomType: _explain_own,
    inspect.UnionType: _explain_either,
}


def _rank(value: object) -> tuple[int, str]:
    """Numbers by size, words by the alphabet."""
    return (value, "") if isinstance(value, int) else (0, str(value))


def describe(kind: Any) -> Message:
    """What a value of this type looks like, in words."""
    match kind:
        case inspect.LiteralType():
            return message("recipe.wants-choice", choices=tuple(map(shown, sorted(kind.values, key=_rank))))
        case inspect.IntType() | inspect.FloatType():
            return _describe_number(kind)
        case inspect.VarTupleType() if kind.min_length:
            return message("recipe.wants-at-least", count=kind.min_length)
        case inspect.VarTupleType():
            return message("recipe.wants-list")
        case inspect.TupleType():
            return message("recipe.wants-exactly", count=len(kind.item_types))
        case inspect.UnionType():
            members = (member for member in kind.types if not isinstance(member, inspect.NoneType))
            return message("recipe.wants-either", choices=tuple(describe(member) for member in members))
        case inspect.CustomType():
            return message(_OWN_WANTED.get(kind.cls, "recipe.wants-length"))
        case inspect.BoolType():
            return message("recipe.wants-yes-or-no")
        case inspect.StrType():
            return message("recipe.wants-text")
        case _:
            return message("recipe.wants-object")


_OWN_WANTED: Mapping[type, str] = {Fraction: "recipe.wants-size", UsedRecipe: "recipe.wants-recipe"}


def _describe_number(kind: inspect.IntType | inspect.FloatType) -> Message:
    if isinstance(kind, inspect.FloatType) and kind.ge is None:
        return message("recipe.wants-degrees-between", least=f"{kind.gt:g}", most=f"{kind.lt:g}")
    if isinstance(kind, inspect.FloatType):
        return message("recipe.wants-degrees", least=f"{kind.ge:g}", most=f"{kind.le:g}")
    if kind.ge is not None and kind.le is not None:
        return message("recipe.wants-whole-between", least=kind.ge, most=kind.le)
    return message("recipe.wants-whole-from", least=kind.ge or 0)
