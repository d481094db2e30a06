"""What the Materials panel lists, as plain rows: headings with totals, lines with cloth, number, words and reason."""

from collections.abc import Callable, Hashable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from piecewright.units.measure import Measure

Kind = Literal["heading", "group", "line", "finding"]
Tone = Literal["", "warn", "error"]
Unit = Literal["count", "yards", "length", "money"]
Section = Literal["findings", "blocks", "sets", "strips", "cloth", "round", "bias", "notes"]


@dataclass(frozen=True, slots=True)
class Note:
    """A part of the small print under a line; it stays on one line of type where it can."""

    text: str
    tone: Tone = ""


@dataclass(frozen=True, slots=True)
class Amount:
    """A number as it is shown, so that the difference of two is the difference of what is read."""

    shown: Fraction
    unit: Unit = "count"

    def signed(self, before: "Amount | None", measure: Measure) -> str:
        """What it is more or less than before, such as "+1" or "−1/8 yd"; "" where it is the same."""
        by = self.shown - (before.shown if before is not None else 0)
        if not by:
            return ""
        return f"{'+' if by > 0 else '−'}{_SHOWN[self.unit](measure, abs(by))}"


@dataclass(frozen=True, slots=True)
class Row:
    """One row. `key` tells rows apart over time; `fabrics` are its cloth, strip by strip where it is a set.

    `under` names the group it stands in; `value` is its number in words, `amount` the same to reckon with; `why` is
    the sum behind it. `gone` marks what the last change has done away with.
    """

    key: Hashable
    section: Section
    kind: Kind
    label: str
    value: str = ""
    amount: Amount | None = None
    notes: tuple[Note, ...] = ()
    why: str = ""
    fabrics: tuple[str, ...] = ()
    tone: Tone = ""
    gone: bool = False
    under: str = ""

    @property
    def spoken(self) -> str:
        """The row as a screen reader says it."""
        parts = (self.under, self.label, self.value, *(note.text for note in self.notes))
        return ", ".join(text for text in parts if text)


@dataclass(frozen=True, slots=True)
class Mark:
    """What is other than before in one row: its number (`delta`, "" where only words changed), its notes by place."""

    delta: str = ""
    notes: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Comparison:
    """Rows with those that are gone among them, and what is marked in them, by key."""

    rows: tuple[Row, ...]
    marks: dict[Hashable, Mark]

    @property
    def count(self) -> int:
        """How many lines are marked; totals and headings repeat what is marked already."""
        return sum(1 for row in self.rows if row.kind in ("line", "finding") and row.key in self.marks)


def compared(before: tuple[Row, ...], after: tuple[Row, ...], measure: Measure) -> Comparison:
    """The rows after a change, marked where they differ from those before."""
    if before is after:
        return Comparison(after, {})
    old = {row.key: row for row in before}
    marks: dict[Hashable, Mark] = {}
    for row in after:
        was = old.pop(row.key, None)
        if was is not row and was != row:
            mark = _mark(was, row, measure)
            if mark is not None:
                marks[row.key] = mark
    gone = {key: row for key, row in old.items() if row.kind == "line"}
    if not gone:
        return Comparison(after, marks)
    for row in gone.values():
        marks[row.key] = Mark(
            "" if row.amount is None else Amount(Fraction(0), row.amount.unit).signed(row.amount, measure)
        )
    return Comparison(tuple(_among(before, after, gone)), marks)


def _mark(was: Row | None, row: Row, measure: Measure) -> Mark | None:
    if row.kind == "finding":
        return Mark() if was is None and row.tone else None
    delta = row.amount.signed(None if was is None else was.amount, measure) if row.amount is not None else ""
    old = () if was is None else was.notes
    notes = frozenset(place for place, note in enumerate(row.notes) if note not in old)
    if not delta and (row.kind != "line" or (was is not None and was.value == row.value and not notes)):
        return None
    return Mark(delta, notes if was is not None else frozenset())


def _among(before: tuple[Row, ...], after: tuple[Row, ...], gone: dict[Hashable, Row]) -> Iterator[Row]:
    """The rows after, each gone one behind the row it stood behind."""
    there = {row.key for row in after}
    behind: dict[Hashable, list[Row]] = {}
    last: Hashable = None
    for row in before:
        if row.key in gone:
            behind.setdefault(last, []).append(_left(row))
        elif row.key in there:
            last = row.key
    yield from behind.get(None, ())
    for row in after:
        yield row
        yield from behind.get(row.key, ())


def _left(row: Row) -> Row:
    return replace(
        row, value="0" if row.value.isdigit() else "", amount=None, notes=(), why="", tone="", gone=True
    )


def money(measure: Measure, amount: Fraction) -> str:
    """An amount of money to the cent, without its currency."""
    return f"{float(amount):.2f}".replace(".", "," if measure.comma else ".")


_SHOWN: dict[Unit, Callable[[Measure, Fraction], str]] = {
    "count": Measure.number,
    "yards": Measure.yards,
    "length": Measure.length,
    "money": money,
}
