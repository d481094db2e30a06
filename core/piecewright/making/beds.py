"""Strip sets: maximal groups of laid strips sewn side by side along their length before anything is cut.

Read off what happened in a making; every strip laid belongs to exactly one bed.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.making.events import (
    Cornered,
    Event,
    Faced,
    Joined,
    Laid,
    Looped,
    Moved,
    Opened,
    Passed,
    Restacked,
    Severed,
    Trimmed,
    Unpicked,
)
from piecewright.making.facts import Bed, Lane
from piecewright.making.recipe import Recipe
from piecewright.making.steps import Axis
from piecewright.making.table import Outcome
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.use import Use


@dataclass(frozen=True, slots=True)
class _Open:
    """A bed that nothing has been cut from yet; its lanes run along `run`, in order beside it."""

    step: str
    lanes: tuple[Lane, ...]
    length: Fraction
    run: Axis
    whole: bool
    order: int


def beds_of(recipe: Recipe, outcomes: Sequence[Outcome]) -> tuple[Bed, ...]:
    """The beds of one batch, per layer, like ones counted together, in the order of their first strips."""
    making = _Beds(_whole_steps(recipe, frozenset({"usable"})))
    for outcome in outcomes:
        for event in outcome.events:
            making.follow(event)
    return making.all()


def _whole_steps(recipe: Recipe, told: frozenset[str]) -> frozenset[str]:
    """The steps that lay strips of a length worked out from the usable width, those of recipes used included.

    `told` are the names that stand for it, or are worked out from it.
    """
    for name, worked_out in recipe.let.items():
        if worked_out.names & told:
            told |= {name}
    found = {step.make for step in recipe.steps if isinstance(step, Lay) and step.lay.length.names & told}
    for step in recipe.steps:
        if isinstance(step, Use):
            sizes = {name for name, length in step.sizes.items() if length.names & told}
            inner = _whole_steps(step.use.recipe, frozenset({"usable", *sizes}))
            found |= {f"{step.make}.{name}" for name in inner}
    return frozenset(found)


def _ended_by(event: Event) -> tuple[str, ...]:
    """The pieces that are no strip set any more after what happened."""
    match event:
        case Cornered():
            return (event.piece, event.square)
        case Faced():
            return event.pieces
        case Moved() | Opened() | Restacked() | Trimmed() | Unpicked():
            return (event.piece,)
    return ()


class _Beds:
    def __init__(self, whole: frozenset[str]) -> None:
        self._whole = whole
        self._open: dict[str, _Open] = {}
        self._closed: list[tuple[int, Bed]] = []

    def follow(self, event: Event) -> None:
        """Take in what happened next."""
        match event:
            case Laid():
                self._lay(event)
            case Joined():
                self._join(event)
            case Severed():
                self._cut(event)
            case Moved(layers=None):
                self._turn(event)
            case Passed():
                self._pass(event.piece, event.made)
            case Looped():
                bed = self._open.get(event.piece)
                if bed is not None and bed.run == event.axis:
                    self._close(event.piece)
                self._pass(event.piece, event.made)
            case _:
                for name in _ended_by(event):
                    self._close(name)

    def _pass(self, piece: str, made: str) -> None:
        if piece in self._open:
            self._open[made] = self._open.pop(piece)

    def _lay(self, event: Laid) -> None:
        lane = Lane(event.fabric, event.width, event.grain)
        whole = event.whole or event.piece in self._whole
        self._open[event.piece] = _Open(event.piece, (lane,), event.length, "across", whole, event.strip)

    def _join(self, event: Joined) -> None:
        beds = [self._open.get(name) for name in event.pieces]
        found = [bed for bed in beds if bed is not None]
        like = {(bed.run, bed.length) for bed in found}
        side_by_side = (
            len(found) == len(beds) and len(like) == 1 and found[0].run != event.axis and event.plain
        )
        if not side_by_side:
            for name in event.pieces:
                self._close(name)
            return
        for name in event.pieces:
            del self._open[name]
        lanes = tuple(lane for bed in found for lane in bed.lanes)
        whole, order = any(bed.whole for bed in found), min(bed.order for bed in found)
        self._open[event.piece] = replace(found[0], step=event.piece, lanes=lanes, whole=whole, order=order)

    def _turn(self, event: Moved) -> None:
        if event.motion.degrees:
            self._close(event.piece)
        bed = self._open.pop(event.piece, None)
        if bed is None:
            return
        quarters = event.motion.quarters % 4
        backwards = quarters == 2 or quarters == (1 if bed.run == "across" else 3)
        run: Axis = bed.run if quarters % 2 == 0 else ("down" if bed.run == "across" else "across")
        lanes = bed.lanes[::-1] if backwards else bed.lanes
        self._open[event.made] = replace(bed, lanes=lanes, run=run)

    def _cut(self, event: Severed) -> None:
        bed = self._open.get(event.piece)
        if bed is not None and event.angle:
            self._close(event.piece, trims=True)
        elif bed is not None and event.axis == bed.run:
            widths = tuple(Fraction(width) for width in event.widths)
            self._close(event.piece, widths, trims=bool(event.trim), trim=Fraction(event.trim))
        else:
            self._close(event.piece)

    def _close(
        self,
        piece: str,
        cuts: tuple[Fraction, ...] = (),
        *,
        trims: bool = False,
        trim: Fraction = Fraction(0),
    ) -> None:
        bed = self._open.pop(piece, None)
        if bed is not None:
            closed = Bed(bed.step, bed.lanes, bed.length, cuts, 1, bed.whole, trims, trim)
            self._closed.append((bed.order, closed))

    def all(self) -> tuple[Bed, ...]:
        """Every bed, those never cut included, like ones together, ordered by their first strip."""
        for piece in list(self._open):
            self._close(piece)
        return tuple(_counted(bed for _, bed in sorted(self._closed, key=lambda item: item[0])))


def _counted(beds: Iterable[Bed]) -> Iterable[Bed]:
    counts: dict[Bed, int] = {}
    first: dict[Bed, Bed] = {}
    for bed in beds:
        unnamed = replace(bed, step="")
        first.setdefault(unnamed, bed)
        counts[unnamed] = counts.get(unnamed, 0) + 1
    return [replace(bed, count=counts[unnamed]) for unnamed, bed in first.items()]
