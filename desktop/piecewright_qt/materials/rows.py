"""What the Materials panel lists, as plain rows: headings with totals, lines with cloth, number, words and reason."""

from collections.abc import Callable, Hashable, Iterator
from fractions import Fraction
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from piecewright.plan.why import Refers, Subject
from piecewright.units.measure import Measure
from piecewright.words.message import Message

Kind = Literal["heading", "group", "line", "finding", "term"]
Tone = Literal["", "warn", "error"]
Unit = Literal["count", "yards", "length", "money"]
Section = Literal[
    "changes", "errors", "findings", "blocks", "sets", "strips", "cloth", "between", "round", "bias", "notes"
]


class Note(Struct, frozen=True):
    """A part of the small print under a line; it stays on one line of type where it can."""

    text: str
    tone: Tone = ""


class Amount(Struct, frozen=True):
    """A number as it is shown, so that the difference of two is the difference of what is read."""

    shown: int | Fraction
    unit: Unit = "count"

    def signed(self, before: "Amount | None", measure: Measure) -> str:
        """What it is more or less than before, such as "+1" or "−1/8 yd"; "" where it is the same."""
        was = 0 if before is None else before.shown
        if self.shown == was:
            return ""
        by = Fraction(self.shown) - was
        return f"{'+' if by > 0 else '−'}{_SHOWN[self.unit](measure, abs(by))}"


class Row(Struct, frozen=True):
    """One row. `key` tells rows apart over time; `fabrics` are its cloth, strip by strip where it is a set.

    `under` names the group it stands in; `value` is its number in words, `amount` the same to reckon with; `why` is
    the sum behind it. Rows of the same cloth in other sizes are `alike`. `gone` marks what the last change has done
    away with. `subject` is the number it opens to; a term of a sum stands `level` sums deep and `refers` to blocks.
    """

    key: Hashable
    section: Section
    kind: Kind
    label: str
    value: str = ""
    amount: Amount | None = None
    notes: tuple[Note, ...] = ()
    why: Message | None = None
    fabrics: tuple[str, ...] = ()
    tone: Tone = ""
    gone: bool = False
    under: str = ""
    alike: Hashable = None
    subject: Subject | None = None
    refers: Refers | None = None
    level: int = 0

    @property
    def spoken(self) -> str:
        """The row as a screen reader says it."""
        parts = (self.under, self.label, self.value, *(note.text for note in self.notes))
        return ", ".join(text for text in parts if text)


class Mark(Struct, frozen=True):
    """What is other than before in one row: its number (`delta`, "" where only words changed), its notes by place."""

    delta: str = ""
    notes: frozenset[int] = frozenset()


class Comparison(Struct, frozen=True):
    """Rows with those that are gone among them, and what is marked in them, by key."""

    rows: tuple[Row, ...]
    marks: dict[Hashable, Mark]

    @property
    def count(self) -> int:
        """How many lines are marked; totals and headings repeat what is marked already."""
        return sum(1 for row in self.rows if row.kind in ("line", "finding") and row.key in self.marks)


_Pair = tuple[Row | None, Row]


def compared(before: tuple[Row, ...], after: tuple[Row, ...], measure: Measure) -> Comparison:
    """The rows after a change, marked where they differ from those before."""
    if before is after:
        return Comparison(after, {})
    old = {row.key: row for row in before}
    pairs = [(old.pop(row.key, None), row) for row in after]
    gone = {key: row for key, row in old.items() if row.kind == "line"}
    if gone:
        pairs = _paired(pairs, gone)
    marks: dict[Hashable, Mark] = {}
    for was, row in pairs:
        if was is not row and was != row:
            mark = _mark(was, row, measure)
            if mark is not None:
                marks[row.key] = mark
    for key, row in gone.items():
        none = None if row.amount is None else Amount(0, row.amount.unit)
        marks[key] = Mark("" if none is None else none.signed(row.amount, measure))
    return Comparison(tuple(_among(before, after, gone)) if gone else after, marks)


def _paired(pairs: list[_Pair], gone: dict[Hashable, Row]) -> list[_Pair]:
    """The pairs, new rows with the gone ones they are made of the same cloth as: these are taken from `gone`."""
    alike: dict[Hashable, list[Row]] = {}
    for row in gone.values():
        if row.alike is not None:
            alike.setdefault(row.alike, []).append(row)
    found = []
    for was, row in pairs:
        others = alike.get(row.alike) if was is None else None
        if others:
            was = others.pop(0)
            del gone[was.key]
        found.append((was, row))
    return found


def _mark(was: Row | None, row: Row, measure: Measure) -> Mark | None:
    if row.kind == "finding":
        return Mark() if was is None and row.tone else None
    delta = row.amount.signed(None if was is None else was.amount, measure) if row.amount is not None else ""
    old = () if was is None else tuple(note.text for note in was.notes)
    notes = frozenset(place for place, note in enumerate(row.notes) if note.text not in old)
    if was is not None and was.under != row.under:  # it only left its group, or came into one
        notes = frozenset()
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
            behind.setdefault(last, []).append(_left(row, ("group", row.under) in there))
        elif row.key in there:
            last = row.key
    yield from behind.get(None, ())
    for row in after:
        yield row
        yield from behind.get(row.key, ())


def _left(row: Row, in_group: bool) -> Row:
    """What is left of a row that is gone; it names its block itself where its group is gone too."""
    label, notes = (row.label, ()) if in_group or not row.under else (row.under, (Note(row.label),))
    value = "0" if row.value.isdigit() else ""
    return replace(row, label=label, value=value, amount=None, notes=notes, why=None, tone="", gone=True)


def money(measure: Measure, amount: Fraction) -> str:
    """An amount of money to the cent, without its currency."""
    return f"{float(amount):.2f}".replace(".", "," if measure.comma else ".")


_SHOWN: dict[Unit, Callable[[Measure, Fraction], str]] = {
    "count": lambda _measure, count: str(count),
    "yards": Measure.yards,
    "length": Measure.length,
    "money": money,
}
