"""The pressing plan as `press` steps and in words."""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from itertools import groupby
from typing import Literal, NamedTuple

from piecewright.errors import Finding
from piecewright.making.pressing_plan import PlannedSeam, PressingPlan
from piecewright.making.steps import counted
from piecewright.words.message import Message, message


class Decision(NamedTuple):
    """What a `press` step says: all seams of a step or its `join`-th, the way, and for which layers (None: all)."""

    step: str
    join: int | None
    toward: str
    layers: tuple[int, ...] | None

    @property
    def seam(self) -> str:
        """As a `press` step names it."""
        return self.step if self.join is None else f"{self.step}.{self.join}"


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
            yield Decision(seams[0].seam.step, None, found[0], held)
        else:
            named = [planned.seam for planned in seams if planned.seam.layer == layers[0]]
            yield from (
                Decision(seam.step, seam.join, way, held) for seam, way in zip(named, found, strict=True)
            )


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
        else message("making.only-layers", count=len(decision.layers), layers=counted(decision.layers))
    )
    code = "making.say-press-all" if decision.join is None else "making.say-press-one"
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


class Bulge(NamedTuple):
    """Places where seams meet on a step's seam, with as many layers of cloth lying on each other.

    `pressed` as the plan says, `opened` with that seam pressed open, `spun` with it spun (None: can not be); `best`
    keeps them fewest, the plan where others are no better.
    """

    step: str
    pressed: int
    opened: int
    spun: int | None
    places: int

    @property
    def best(self) -> Literal["pressed", "opened", "spun"]:
        """What keeps the layers fewest."""
        if self.spun is not None and self.spun < min(self.pressed, self.opened):
            return "spun"
        return "opened" if self.opened < self.pressed else "pressed"


def bulges(plan: PressingPlan) -> tuple[Bulge, ...]:
    """Where seams meet inside the blocks of a batch, the thickest first."""
    counts: Counter[tuple[str, int, int, int | None]] = Counter(
        (plan.seams[block.work.lines[lump.last].seam].seam.step, lump.pressed, lump.opened, lump.spun)
        for block, lumps in plan.lumps()
        for lump in lumps
    )
    found = (Bulge(*key, places) for key, places in counts.items())
    return tuple(sorted(found, key=lambda bulge: -bulge.pressed))


def bulge_sentences(plan: PressingPlan) -> tuple[Message, ...]:
    """Each with its way out, where there is one."""
    return tuple(sentence for bulge in bulges(plan) for sentence in _say_bulge(bulge))


def _say_bulge(bulge: Bulge) -> Iterator[Message]:
    yield message("sewing.bulge", step=bulge.step, pressed=bulge.pressed, count=bulge.places)
    if bulge.best == "opened":
        yield message("sewing.bulge-open", step=bulge.step, opened=bulge.opened)
    elif bulge.best == "spun" and bulge.spun is not None:
        yield message("sewing.bulge-spun", spun=bulge.spun)


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
