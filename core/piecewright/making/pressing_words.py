"""The pressing plan as `press` steps and in words."""

from collections.abc import Collection, Iterator, Sequence
from itertools import groupby
from typing import NamedTuple

from piecewright.errors import Finding
from piecewright.making.pressing_plan import PlannedSeam, PressingPlan
from piecewright.words.message import Message, message


class Decision(NamedTuple):
    """What a `press` step says: a seam or all of a step, the way, and the layers it holds for (None: all)."""

    seam: str
    toward: str
    layers: tuple[int, ...] | None


def press_decisions(plan: PressingPlan) -> tuple[Decision, ...]:
    """The plan as few `press` steps as say it, in the order of sewing."""
    return tuple(
        decision
        for _, seams in groupby(plan.seams, key=lambda planned: planned.seam.step)
        for decision in _decisions(list(seams))
    )


def _decisions(seams: Sequence[PlannedSeam]) -> Iterator[Decision]:
    """The decisions for the seams of one step."""
    every = {planned.seam.layer for planned in seams}
    ways: dict[int, tuple[str, ...]] = {
        layer: tuple(planned.toward for planned in seams if planned.seam.layer == layer)
        for layer in sorted(every)
    }
    for found in dict.fromkeys(ways.values()):
        layers = tuple(layer for layer, way in ways.items() if way == found)
        held = None if set(layers) == every else layers
        if len(set(found)) == 1:
            yield Decision(seams[0].seam.step, found[0], held)
        else:
            named = [planned for planned in seams if planned.seam.layer == layers[0]]
            yield from (Decision(planned.name, planned.toward, held) for planned in named)


def pressing_sentences(plan: PressingPlan) -> tuple[Message, ...]:
    """The plan in words: the decisions, steps that need opposite pressing in their layers, and how it comes out."""
    decisions = press_decisions(plan)
    said = [_say(decision) for decision in decisions]
    said += [message("sewing.opposite-layers", step=step) for step in _opposite(plan)]
    return (*said, pressing_summary(plan))


def _say(decision: Decision) -> Message:
    layers = (
        message("making.nothing")
        if decision.layers is None
        else message("making.only-layers", count=len(decision.layers), layers=decision.layers)
    )
    code = "making.say-press-one" if "." in decision.seam else "making.say-press-all"
    return message(
        code, seam=decision.seam, way=message(f"making.press-way-{decision.toward}"), layers=layers
    )


def _opposite(plan: PressingPlan) -> Iterator[str]:
    """The steps whose seams are not pressed the same way in all layers."""
    ways: dict[tuple[str, int], set[str]] = {}
    for planned in plan.seams:
        ways.setdefault((planned.seam.step, planned.seam.join), set()).add(planned.toward)
    yield from dict.fromkeys(step for (step, _), found in ways.items() if len(found) > 1)


def pressing_summary(plan: PressingPlan) -> Message:
    """How many crossings nest, and whether more could."""
    clashes = len(plan.clashes)
    if not plan.crossings:
        return message("sewing.no-crossings")
    if not clashes:
        return message("sewing.all-nest", count=plan.crossings)
    code = "sewing.fewest-clashes" if plan.proven else "sewing.few-clashes"
    return message(code, count=clashes, crossings=plan.crossings, bound=plan.bound)


def pressing_findings(plan: PressingPlan) -> tuple[Finding, ...]:
    """Crossings that can not nest, seam by seam, each with the way out."""
    counts: dict[tuple[str, str, str], int] = {}
    for clash in plan.clashes:
        on, one, other = (plan.seams[number].name for number in (clash.on, clash.one, clash.other))
        counts[on, one, other] = counts.get((on, one, other), 0) + 1
    to_open = {planned.name for planned in plan.press_open}
    return tuple(_finding(names, count, to_open) for names, count in counts.items())


def _finding(names: tuple[str, str, str], count: int, to_open: Collection[str]) -> Finding:
    on, one, other = names
    said = message("sewing.clash", count=count, on=on, one=one, other=other)
    hint = message("sewing.press-open", seams=tuple(sorted({one, other}.intersection(to_open))))
    return Finding("sewing.clash", "note", said, on, hint)
