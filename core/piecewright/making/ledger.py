"""Where the cloth goes: laid = seen + allowance + waste, each counted by itself, so that the sum is a check."""

from collections.abc import Iterable, Sequence
from fractions import Fraction

from piecewright.geometry.motion import Number
from piecewright.making.cloth import Cloth, Pile
from piecewright.making.events import Cutting, Laid
from piecewright.making.facts import LaidStrip, Ledger
from piecewright.making.finishing import Finish
from piecewright.making.table import Outcome, Table


def strips_of(outcomes: Iterable[Outcome]) -> tuple[LaidStrip, ...]:
    """The strips to lay, per layer, like ones together, in the order in which they are first laid."""
    counts: dict[tuple[str, Fraction, Fraction, str, bool], int] = {}
    for event in laid_in(outcomes):
        key = (event.fabric, event.width, event.length, event.grain, event.least)
        counts[key] = counts.get(key, 0) + 1
    return tuple(
        LaidStrip(fabric, width, length, count, grain, least)
        for (fabric, width, length, grain, least), count in counts.items()
    )


def laid_in(outcomes: Iterable[Outcome]) -> Iterable[Laid]:
    """Every strip laid, in order."""
    return (event for outcome in outcomes for event in outcome.events if isinstance(event, Laid))


def ledger_of(outcomes: Sequence[Outcome], table: Table, finish: Finish) -> Ledger:
    """Square inches per layer and batch; where layers are unlike, their mean."""
    laid = sum((event.width * event.length for event in laid_in(outcomes)), start=Fraction(0))
    seen = sum((_mean(_seen(cloth) for cloth in pile) for pile in finish.blocks.values()), start=Fraction(0))
    allowance = sum(
        (_mean(_hidden(cloth) for cloth in pile) for pile in finish.blocks.values()), start=Fraction(0)
    )
    dropped = sum(
        (_dropped(table.piles[name], pile) for name, pile in finish.blocks.items()), start=Fraction(0)
    )
    waste = sum((_waste(outcome) for outcome in outcomes), start=Fraction(0)) + _left_over(table, finish)
    return Ledger(laid, seen, allowance + dropped, waste)


def _mean(values: Iterable[Number]) -> Number:
    found = list(values)
    return found[0] if len(found) == 1 else sum(found, start=Fraction(0)) / len(found)


def _seen(cloth: Cloth) -> Number:
    return sum((patch.seen.area for patch in cloth.patches), start=Fraction(0))


def _raw(cloth: Cloth) -> Number:
    return sum((patch.raw.area for patch in cloth.all_patches), start=Fraction(0))


def _hidden(cloth: Cloth) -> Number:
    return _raw(cloth) - _seen(cloth)


def _dropped(sewn: Pile, finished: Pile) -> Number:
    """Cloth of patches that vanish whole into the outer allowance."""
    pairs = zip(sewn, finished, strict=True)
    return _mean(
        _raw(before) - _raw(after) if len(before.patches) > len(after.patches) else Fraction(0)
        for before, after in pairs
    )


def _waste(outcome: Outcome) -> Number:
    """What the cuts of a step take off."""
    return sum(
        (
            _mean(sum((scrap.raw.area for scrap in layer), start=Fraction(0)) for layer in event.scraps)
            for event in outcome.events
            if isinstance(event, Cutting)
        ),
        start=Fraction(0),
    )


def _left_over(table: Table, finish: Finish) -> Number:
    """Pieces made and never used."""
    idle = (
        pile for name, pile in table.piles.items() if name not in table.used and name not in finish.blocks
    )
    return sum((_mean(_raw(cloth) for cloth in pile) for pile in idle), start=Fraction(0))
