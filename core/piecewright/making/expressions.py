"""Lengths in a recipe: small sums over names, read without ever running text as code.

A mixed number ("2 1/2") binds tighter than any operator; then unary minus, then * and /, then + and -.
"""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import Any, NoReturn, Self

from piecewright.errors import RecipeError
from piecewright.making.faults import nearest, refuse, shown
from piecewright.making.lengths import UNITS, length_hint, read_length
from piecewright.words.message import Arg, Message, message

MOST_CHARACTERS = 200
MOST_OPERATIONS = 40
MOST_NESTING = 20
MOST_BITS = 512
RESERVED = ("seam", "usable")

_SIGNS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8"}
_SIGN = f"[{''.join(_SIGNS)}]"
_PATTERN = re.compile(
    rf"""[ \t]*(?:
      (?P<mixed>[0-9]+[ \t]+[0-9]+/[0-9]+(?![0-9.]))
    | (?P<sign>(?:[0-9]+[ \t]*)?{_SIGN})
    | (?P<number>[0-9]+(?:\.[0-9]+)?|\.[0-9]+)
    | (?P<name>[A-Za-z][A-Za-z0-9_]*)
    | (?P<operator>[-+*/()])
    )""",
    re.VERBOSE,
)
_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_]*")
_LENGTH_WITH_UNIT = re.compile(rf"[^A-Za-z]*(?:{'|'.join(UNITS)})[ \t]*")
_PRECEDENCE = {"+": 1, "-": 1, "*": 2, "/": 2, "~": 3}

_SPLIT = message("recipe.split-with-let")
_MAY_HOLD = message("recipe.length-may-hold")

Token = Fraction | str
"""One token of a program in postfix order: a number, a name, or an operator (~ is unary minus)."""


def is_name(text: str) -> bool:
    """Whether a text may name a length or a piece: a letter, then letters, digits and _, and no unit."""
    return bool(_NAME.fullmatch(text)) and text not in UNITS


class Expression:
    """A length as written and how to work it out; equal when written alike.

    `names` are the names it needs; its program is postfix, so that working it out needs no recursion.
    Not a dataclass: msgspec would read one as an object with keys.
    """

    __slots__ = ("_program", "names", "text")

    text: str
    names: frozenset[str]
    _program: tuple[Token, ...]

    def __init__(self, text: str, program: tuple[Token, ...]) -> None:
        names = frozenset(step for step in program if isinstance(step, str) and step not in _PRECEDENCE)
        for key, value in (("text", text), ("names", names), ("_program", program)):
            object.__setattr__(self, key, value)

    def __setattr__(self, key: str, value: object) -> NoReturn:
        raise AttributeError(f"{key} can not be set: an Expression does not change")

    def __eq__(self, other: object) -> bool:
        return self.text == other.text if isinstance(other, Expression) else NotImplemented

    def __hash__(self) -> int:
        return hash(self.text)

    def __repr__(self) -> str:
        return f"Expression({self.text!r})"

    def __reduce__(self) -> tuple[Any, ...]:
        return Expression, (self.text, self._program)

    @classmethod
    def parse(cls, value: object) -> Self:
        """Read a text such as "(F + 3/2) / 3", or take exact inches. Raises RecipeError without a place."""
        if isinstance(value, Fraction):
            return cls(str(value), (value,))
        text = _checked_text(value)
        if _LENGTH_WITH_UNIT.fullmatch(text):
            return cls(text, (read_length(text),))
        return cls(text, _Reader(text).read())

    def evaluate(self, names: Mapping[str, Fraction]) -> Fraction:
        """The exact value in inches.

        Raises RecipeError, without a place, for an unknown name, a division by zero or a monstrous result.
        """
        stack: list[Fraction] = []
        for step in self._program:
            if isinstance(step, Fraction):
                stack.append(step)
            elif step == "~":
                stack.append(-stack.pop())
            elif step in _PRECEDENCE:
                right, left = stack.pop(), stack.pop()
                stack.append(self._bounded(self._operate(step, left, right)))
            else:
                stack.append(self._look_up(step, names))
        return self._bounded(stack.pop())

    def _operate(self, operator: str, left: Fraction, right: Fraction) -> Fraction:
        if operator == "+":
            return left + right
        if operator == "-":
            return left - right
        if operator == "*":
            return left * right
        if right == 0:
            refuse("recipe.divide-by-zero", text=shown(self.text))
        return left / right

    def _look_up(self, name: str, names: Mapping[str, Fraction]) -> Fraction:
        if name in names:
            return names[name]
        raise unknown_name(name, tuple(names), self.text)

    def _bounded(self, value: Fraction) -> Fraction:
        if value.numerator.bit_length() > MOST_BITS or value.denominator.bit_length() > MOST_BITS:
            refuse("recipe.monstrous", text=shown(self.text))
        return value


def unknown_name(name: str, known: tuple[str, ...], text: str) -> RecipeError:
    """The error for a name that stands for nothing, with the nearest name or all there are."""
    near = nearest(name, known)
    hint = message("recipe.did-you-mean", word=near) if near else message("recipe.names-known", names=known)
    return RecipeError(message("recipe.unknown-name", name=name, text=shown(text)), hint)


def _checked_text(value: object) -> str:
    if not isinstance(value, str):
        refuse("recipe.length-not-text", length_hint(value), value=shown(value))
    if len(value) > MOST_CHARACTERS:
        refuse("recipe.too-long", _SPLIT, count=len(value), most=MOST_CHARACTERS)
    if not value.strip():
        refuse("recipe.length-empty", message("recipe.write-length"))
    return value


class _Reader:
    """Turns one text into a postfix program, left to right, holding operators until their turn comes."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._program: list[Token] = []
        self._held: list[str] = []
        self._operations = 0
        self._nesting = 0
        self._wants_value = True
        self._last = ""

    def read(self) -> tuple[Token, ...]:
        """The whole text as a program."""
        place = 0
        end = len(self._text.rstrip(" \t"))
        while place < end:
            found = _PATTERN.match(self._text, place, end)
            if found is None:
                bad = self._text[place:].lstrip(" \t")[0]
                self._refuse("recipe.bad-character", _MAY_HOLD, character=shown(bad))
            self._take(found)
            place = found.end()
        return self._finish()

    def _take(self, found: re.Match[str]) -> None:
        kind, word = str(found.lastgroup), found[0].strip(" \t")
        if kind != "operator":
            self._take_value(kind, word)
        elif word == "(":
            self._open()
        elif word == ")":
            self._close()
        else:
            self._take_operator(word)
        self._last = word

    def _take_value(self, kind: str, word: str) -> None:
        if kind == "name" and word in UNITS:
            self._refuse("recipe.unit-in-sum", message("recipe.unit-alone"), unit=word)
        if not self._wants_value:
            self._refuse_neighbors(word)
        self._program.append(word if kind == "name" else self._number(kind, word))
        self._wants_value = False

    def _number(self, kind: str, word: str) -> Fraction:
        if kind == "number":
            return Fraction(word)
        if kind == "sign":
            return Fraction(word[:-1].strip(" \t") or 0) + Fraction(_SIGNS[word[-1]])
        whole, part = word.split()
        top, bottom = part.split("/")
        if int(bottom) == 0:
            self._refuse("recipe.divide-by-zero")
        return int(whole) + Fraction(int(top), int(bottom))

    def _refuse_neighbors(self, word: str) -> NoReturn:
        self._refuse("recipe.no-operator", message("recipe.write-operator"), left=self._last, right=word)

    def _open(self) -> None:
        if not self._wants_value:
            self._refuse_neighbors("(")
        self._nesting += 1
        if self._nesting > MOST_NESTING:
            self._refuse("recipe.too-nested", _SPLIT, most=MOST_NESTING)
        self._held.append("(")

    def _close(self) -> None:
        if self._wants_value:
            self._refuse_gap(")")
        while self._held and self._held[-1] != "(":
            self._program.append(self._held.pop())
        if not self._held:
            self._refuse("recipe.parenthesis-not-opened")
        self._held.pop()
        self._nesting -= 1

    def _take_operator(self, word: str) -> None:
        self._operations += 1
        if self._operations > MOST_OPERATIONS:
            self._refuse("recipe.too-many-operations", _SPLIT, most=MOST_OPERATIONS)
        if not self._wants_value:
            self._release(_PRECEDENCE[word])
            self._held.append(word)
        elif word == "-":
            self._held.append("~")
        else:
            self._refuse_gap(word)
        self._wants_value = True

    def _release(self, precedence: int) -> None:
        while self._held and self._held[-1] != "(" and _PRECEDENCE[self._held[-1]] >= precedence:
            self._program.append(self._held.pop())

    def _refuse_gap(self, word: str) -> NoReturn:
        if self._last:
            self._refuse("recipe.value-missing-between", left=self._last, right=word)
        self._refuse("recipe.value-missing-before", right=word)

    def _refuse(self, code: str, hint: Message | None = None, **args: Arg) -> NoReturn:
        raise RecipeError(message(code, text=shown(self._text), **args), hint)

    def _finish(self) -> tuple[Token, ...]:
        if self._wants_value:
            self._refuse("recipe.value-missing-after", left=self._last)
        if self._nesting:
            self._refuse("recipe.parenthesis-not-closed")
        self._release(0)
        return tuple(self._program)
