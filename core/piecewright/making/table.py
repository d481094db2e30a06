"""The sewing table between two steps: what lies on it, and how a step takes pieces off it and puts pieces on it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import lcm

from piecewright.errors import MakingError
from piecewright.geometry.shapes import Rect, Segment
from piecewright.making.cloth import Cloth, Pile, State, even
from piecewright.making.events import Event, Laid, Passed
from piecewright.making.expressions import Expression
from piecewright.making.facts import StepWarning
from piecewright.making.faults import refuse
from piecewright.making.limits import (
    MOST_FINE_BITS,
    MOST_PATCHES,
    MOST_WORK,
    PIECES_TO_A_WORK,
    SIGNS_TO_A_WORK,
    SLANTED_WORK,
    STEP_WORK,
)
from piecewright.making.names import MOST_INCHES, Names, evaluate_at
from piecewright.making.steps import Axis, Which
from piecewright.words.message import Arg, Message, message

MOST_PARTS = 2_000
WILDCARD = ".*"


@dataclass(frozen=True, slots=True)
class Context:
    """What all steps of a making share: names and their values, the depth of a sewn seam, the layers of the stack."""

    names: tuple[tuple[str, Fraction], ...]
    depth: Fraction
    stack: int


@dataclass(frozen=True, slots=True)
class Sewn:
    """The seams of a step, in its frame.

    `axis` is that of pieces sewn in a row, None of seams that run any way; `out` is the direction in which a single
    seam lies away from the middle of its piece, where it does.
    """

    lines: tuple[Segment, ...]
    axis: Axis | None = None
    out: str | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Table:
    """What lies on the table before step `index`: every pile by name, also those used since.

    `parts` counts the parts of a name, `strips` the strips laid so far; `used` are the piles used; `sewn` has the
    seams of each sewing step; `work` is the work done so far and `fineness` the common denominator of all lengths.
    Compared by identity, so that the outcome of a step can be kept for the next run that comes by here.
    """

    context: Context
    index: int = 0
    piles: Mapping[str, Pile] = field(default_factory=dict)
    parts: Mapping[str, int] = field(default_factory=dict)
    used: frozenset[str] = frozenset()
    strips: int = 0
    sewn: Mapping[str, Sewn] = field(default_factory=dict)
    work: int = 0
    fineness: int = 1


@dataclass(frozen=True, slots=True)
class Outcome:
    """What one step did: the piles it took and made (by name), the events, warnings, and the step in words.

    `sewn` are the seams it sewed, by the name they are pressed by.
    """

    step_index: int
    taken: Mapping[str, Pile]
    made: Mapping[str, Pile]
    events: tuple[Event, ...]
    warnings: tuple[StepWarning, ...]
    sentence: Message
    sewn: Mapping[str, Sewn]


class Hand:
    """Does one step at the table: takes piles, makes piles, notes what happened. Used once and then closed."""

    def __init__(self, table: Table, name: str) -> None:
        self.table = table
        self.context = table.context
        self.name = name
        self.names: Names = dict(table.context.names)
        self.taken: dict[str, Pile] = {}
        self.made: dict[str, Pile] = {}
        self.parts: int | None = None
        self.events: list[Event] = []
        self.warnings: list[StepWarning] = []
        self.sewn: dict[str, Sewn] = {}
        self.fineness = lcm(table.fineness, table.context.depth.denominator)
        self.work = table.work
        self.count_work(STEP_WORK + len(table.piles) // PIECES_TO_A_WORK)

    def place(self, key: str) -> str:
        """The place of a key of this step, as errors name it."""
        return f"steps[{self.table.index}].{key}"

    def fault(self, code: str, key: str, hint: Message | None = None, /, **args: Arg) -> MakingError:
        """The error "making.<code>" at a key of this step."""
        return MakingError(message(f"making.{code}", **args), hint, self.place(key))

    def warn(self, code: str, **args: Arg) -> None:
        """Note the warning "making.<code>"."""
        warning = StepWarning(code, self.name, message(f"making.{code}", **args))
        if warning not in self.warnings:
            self.warnings.append(warning)

    def value(self, length: Expression, key: str) -> Fraction:
        """A length of this step, inches, any sign."""
        self.count_work(1 + len(length.text) // SIGNS_TO_A_WORK)
        found = evaluate_at(length, self.names, self.place(key))
        self.note_fineness(found.denominator, key)
        return found

    def note_fineness(self, denominator: int, key: str) -> None:
        """Take the fineness of a length into account; together all lengths have one that can be reckoned with."""
        self.fineness = lcm(self.fineness, denominator)
        if self.fineness.bit_length() > MOST_FINE_BITS:
            raise self.fault("too-fine", key, message("making.coarser"))

    def count_work(self, count: int) -> None:
        """Count work before it is done. Raises MakingError where a making would take more than any block needs."""
        self.work += count
        if self.work > MOST_WORK:
            place = f"steps[{self.table.index}]"
            raise MakingError(message("making.too-much-work"), message("making.fewer-pieces"), place)

    def length(self, length: Expression, key: str) -> Fraction:
        """A length of cloth: more than nothing and at most 10 000 in."""
        value = self.value(length, key)
        if value <= 0:
            raise self.fault("no-length", key, message("making.more-than-nothing"), length=value)
        if value > MOST_INCHES:
            raise self.fault(
                "too-long", key, message("making.at-most", most=Fraction(MOST_INCHES)), length=value
            )
        return value

    def take(self, name: str, key: str, *states: State) -> Pile:
        """Take one pile off the table; one that is not flat only where the step knows how to handle it."""
        pile = self.table.piles.get(name)
        if pile is None:
            raise self._unknown(name, key)
        if name in self.table.used or name in self.taken:
            raise self.fault("used-twice", key, message("making.make-another"), piece=name)
        state = pile[0].state
        if state is not None and state not in states:
            raise self.fault(f"still-{state}", key, message(f"making.end-{state}"), piece=name)
        self.taken[name] = pile
        self.count_work(sum(map(work_of, pile)))
        return pile

    def evened(self, piles: Sequence[Pile]) -> Sequence[Pile]:
        """The piles, with one cloth for every layer as soon as one of them has unlike layers; that is work again."""
        layers = even(piles, self.context.stack)
        if any(len(pile) > 1 for pile in layers):
            self.count_work(sum(work_of(cloth) for pile in layers for cloth in pile))
        return layers

    def _unknown(self, name: str, key: str) -> MakingError:
        base = name.partition(".")[0]
        count = self.table.parts.get(base)
        hint = message("making.parts-are", piece=base, count=count) if count else None
        return self.fault("no-piece", key, hint, piece=name)

    def wildcard(self, name: str, key: str) -> list[str]:
        """The names a piece's name stands for: itself, or all parts in order."""
        if not name.endswith(WILDCARD):
            return [name]
        base = name.removesuffix(WILDCARD)
        if base not in self.table.parts:
            raise self._unknown(name, key)
        return [f"{base}.{number}" for number in range(1, self.table.parts[base] + 1)]

    def picked(self, names: list[str], which: Which | None) -> list[str]:
        """Those of some parts, in order, that this step's `which` picks (numbers count from 1)."""
        if which is None:
            return names
        if isinstance(which, str):
            return names[0::2] if which == "odd" else names[1::2]
        for index, number in enumerate(which):
            if number > len(names):
                hint = message("recipe.parts-to", count=len(names))
                refuse("recipe.which-beyond", hint, self.place(f"which[{index}]"), number=number)
        return [names[number - 1] for number in which]

    def make_each(
        self,
        piece: str,
        key: str,
        which: Which | None,
        act: Callable[[str, str, Pile], Pile],
        *states: State,
    ) -> None:
        """Take a piece, or every part of a wildcard, in whatever of the `states`.

        Of each that `which` picks is made what `act(name, made, pile)` gives; the others pass unchanged.
        """
        names = self.wildcard(piece, key)
        chosen = set(self.picked(names, which))
        if piece.endswith(WILDCARD):
            self.parts = len(names)
        for number, name in enumerate(names, start=1):
            pile = self.take(name, key, *states)
            made = self.name if self.parts is None else f"{self.name}.{number}"
            self.made[made] = act(name, made, pile) if name in chosen else self.passed(name, made, pile)

    def passed(self, name: str, made: str, pile: Pile) -> Pile:
        """A pile passed on unchanged."""
        self.events.append(Passed(name, made))
        return pile

    def outcome(self, sentence: Message) -> Outcome:
        """What this step did."""
        patches = sum(len(cloth.all_patches) for pile in self.made.values() for cloth in pile)
        if patches > MOST_PATCHES:
            place = f"steps[{self.table.index}]"
            said = message("making.too-many-patches", count=patches, most=MOST_PATCHES)
            raise MakingError(said, message("making.fewer-pieces"), place)
        events, warnings = tuple(self.events), tuple(self.warnings)
        return Outcome(self.table.index, self.taken, self.made, events, warnings, sentence, self.sewn)

    def table_after(self) -> Table:
        """The table with this step done."""
        parts = self.table.parts if self.parts is None else {**self.table.parts, self.name: self.parts}
        laid = sum(isinstance(event, Laid) for event in self.events)
        return Table(
            self.context,
            self.table.index + 1,
            {**self.table.piles, **self.made},
            parts,
            self.table.used | self.taken.keys(),
            self.table.strips + laid,
            {**self.table.sewn, **self.sewn},
            self.work,
            self.fineness,
        )


def work_of(cloth: Cloth) -> int:
    """The work of handling a piece once."""
    return sum(1 if isinstance(patch.seen, Rect) else SLANTED_WORK for patch in cloth.all_patches)
