"""Every sentence the engine can say, as a code and its arguments: put into words only where it is shown."""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from string import Formatter
from typing import TypeAlias

from piecewright.units.measure import Measure, Yardage
from piecewright.units.sizes import Size
from piecewright.words.catalogue import ENGLISH, Catalogue

Arg: TypeAlias = "str | int | Fraction | float | Yardage | Size | Message | ByUnit | tuple[Arg, ...]"

_NUMBERS = {
    "length": Measure.length,
    "bare": Measure.bare,
    "yards": Measure.yards,
    "cloth": Measure.cloth,
    "area": Measure.area,
    "degrees": Measure.degrees,
    "number": Measure.number,
    "percent": Measure.percent,
}
_LISTS = ("", "and", "or")
_DEFAULT = Measure()


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence by its code in the catalogue, with the arguments its template names, in the order given."""

    code: str
    args: tuple[tuple[str, Arg], ...] = ()

    def text(self, measure: Measure = _DEFAULT, catalogue: Catalogue = ENGLISH) -> str:
        """The sentence in words. An unknown code or missing argument is a fault of the program: KeyError."""
        words = _Words(measure, catalogue)
        args = dict(self.args)
        return "".join(
            literal if name is None else literal + words.field(args[name], form)
            for literal, name, form in _parts(catalogue.sentences[self.code])
        )

    def __str__(self) -> str:
        return self.text()


@dataclass(frozen=True, slots=True)
class ByUnit:
    """Words that hang on the unit they are read in: what holds in inches and yards, and what in metric units."""

    inch: Message
    metric: Message


def message(code: str, /, **args: Arg) -> Message:
    """The message of a code with its arguments by name."""
    return Message(code, tuple(args.items()))


@cache
def _parts(template: str) -> tuple[tuple[str, str | None, str], ...]:
    return tuple((literal, name, form or "") for literal, name, form, _ in Formatter().parse(template))


@dataclass(frozen=True, slots=True)
class _Words:
    """Puts arguments into words by one measure and one catalogue.

    A template's field is `{name}`, `{name:FORM}` with a form of `_NUMBERS`, `{names:and}` or `{names:or}` for
    a list, `{n:block|blocks}` for a count with its noun, or `{n:~block|blocks}` for the noun alone.
    """

    measure: Measure
    catalogue: Catalogue

    def field(self, value: Arg, form: str) -> str:
        if "|" in form:
            return self._counted(value, form)
        if isinstance(value, tuple):
            return self._joined(value, form)
        if isinstance(value, Yardage):
            return self.measure.yards(value)
        if form not in _LISTS and isinstance(value, int | float | Fraction):
            return _NUMBERS[form](self.measure, value)
        return self._plain(value)

    def _plain(self, value: Arg) -> str:
        if isinstance(value, ByUnit):
            value = value.inch if self.measure.unit == "in" else value.metric
        if isinstance(value, Message):
            return value.text(self.measure, self.catalogue)
        if isinstance(value, Size):
            return f"{self.measure.size(value.width, value.height)} {self.catalogue.size_words[value.word]}"
        if isinstance(value, Fraction | float):
            return self.measure.length(value)
        return _one_line(str(value))

    def _counted(self, value: Arg, form: str) -> str:
        if not isinstance(value, int | float | Fraction):
            raise TypeError(f"{value!r} is not a count")
        nouns = form.removeprefix("~").split("|")
        noun = nouns[self.catalogue.form(value)]
        return noun if form.startswith("~") else f"{self.measure.number(value)} {noun}"

    def _joined(self, values: tuple[Arg, ...], form: str) -> str:
        word = form if form in _LISTS else ""
        texts = [self.field(value, "" if word else form) for value in values]
        if not texts:
            return self.catalogue.joins["none"]
        if not word or len(texts) == 1:
            return ", ".join(texts)
        return f"{', '.join(texts[:-1])} {self.catalogue.joins[word]} {texts[-1]}"


def _one_line(text: str) -> str:
    """A text of the user's inside a sentence: line ends and unseen signs become spaces."""
    return text if text.isprintable() else "".join(sign if sign.isprintable() else " " for sign in text)
