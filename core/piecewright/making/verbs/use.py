"""Use a whole recipe as a piece: its block, unfinished; its strips and its waste join those of the recipe around it."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields, replace
from typing import Any, NamedTuple

import msgspec

from piecewright.errors import MakingError, PiecewrightError
from piecewright.making.cloth import Cloth, Pile, Scrap, home, scraps_of, spread
from piecewright.making.events import Event, Laid, Passed, Used, first
from piecewright.making.expressions import Expression
from piecewright.making.finishing import Finish, finish
from piecewright.making.given import Given
from piecewright.making.limits import STEP_WORK
from piecewright.making.names import Names, resolve_names
from piecewright.making.steps import MakingStep
from piecewright.making.table import WILDCARD, Context, Hand, Outcome, Table
from piecewright.making.used import UsedRecipe
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message


class Use(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "rail", "use": "rail-fence-of-three", "sizes": {"F": "6"}, "fabrics": {"A": "C"}}`."""

    use: UsedRecipe
    sizes: Mapping[str, Expression] = {}
    fabrics: Mapping[str, str] = {}

    def __hash__(self) -> int:
        return hash((self.make, self.use, tuple(self.sizes.items()), tuple(self.fabrics.items()), self.note))


class _Inner(NamedTuple):
    """A recipe made at a table of its own, with the blocks that come out, unfinished."""

    outcomes: tuple[Outcome, ...]
    table: Table
    finish: Finish

    @property
    def blocks(self) -> dict[str, Pile]:
        """The blocks by name, at home."""
        return {name: tuple(map(home, self.table.piles[name])) for name in self.finish.names}


def act(step: Use, hand: Hand) -> None:
    """The block as a piece; where the recipe gives several, or all parts of a name, they are parts in their order."""
    recipe = step.use.recipe
    if recipe.stack not in (1, hand.context.stack):
        hint = message("making.use-stack", stack=hand.context.stack)
        raise hand.fault("stack-differs", "use", hint, recipe=recipe.name, stack=recipe.stack)
    names = _names(step, hand)
    try:
        inner = _made(step, names, hand)
    except PiecewrightError as fault:
        where = f"{hand.place('use')}.{fault.where}" if fault.where else hand.place("use")
        raise MakingError(fault.message, fault.hint, where) from None
    renaming = _Renaming(step.make, step.fabrics, hand.context.stack)
    made = [step.make]
    if gives_parts(recipe.block):
        hand.parts = len(inner.blocks)
        made = [f"{step.make}.{number}" for number in range(1, hand.parts + 1)]
    events: list[Event] = [renaming.event(event) for outcome in inner.outcomes for event in outcome.events]
    hand.events.append(Used(tuple(made), recipe.name, renaming.scraps(_left_over(inner, recipe.stack))))
    hand.events += events
    for name, (piece, pile) in zip(made, inner.blocks.items(), strict=True):
        hand.events.append(Passed(renaming.name(piece), name))
        hand.made[name] = tuple(renaming.cloth(cloth) for cloth in pile)
    for outcome in inner.outcomes:
        hand.taken |= {renaming.name(name): pile for name, pile in outcome.taken.items()}
        hand.sewn |= {renaming.name(name): sewn for name, sewn in outcome.sewn.items()}
        hand.warnings += [replace(warning, step=renaming.name(warning.step)) for warning in outcome.warnings]


def gives_parts(block: Sequence[str]) -> bool:
    """Whether a recipe's blocks are parts where it is used: not where it names one piece."""
    return len(block) > 1 or block[0].endswith(WILDCARD)


def _names(step: Use, hand: Hand) -> Names:
    """The names of the recipe used, with the sizes that the step says; its own seam wins over the one in force."""
    sizes = {name: hand.value(length, f"sizes.{name}") for name, length in step.sizes.items()}
    outer = hand.names
    lost = 2 * (hand.context.depth - outer["seam"])
    given = Given(sizes, outer["seam"], outer["usable"], lost=lost)
    try:
        return resolve_names(step.use.recipe, given)
    except PiecewrightError as fault:
        key = "sizes." + fault.where if fault.where in step.sizes else "use." + fault.where
        raise MakingError(fault.message, fault.hint, hand.place(key.removesuffix("."))) from None


def _made(step: Use, names: Names, hand: Hand) -> _Inner:
    """Do every step of the recipe used. Raises as they do, and as `finish` does."""
    # the table of verbs holds this one, so it can not be imported first
    from piecewright.making.reading import verb_word
    from piecewright.making.verbs import VERBS

    recipe = step.use.recipe
    lost = hand.context.depth - hand.names["seam"]
    context = Context(tuple(names.items()), names["seam"] + lost, recipe.stack)
    table = Table(context, strips=hand.table.strips, work=hand.work, fineness=hand.fineness)
    outcomes: list[Outcome] = []
    for part in recipe.steps:
        inner = Hand(table, getattr(part, "make", f"steps[{table.index}]"))
        verb = VERBS[verb_word(part)]
        verb.act(part, inner)
        outcomes.append(inner.outcome(message("making.nothing")))
        table = inner.table_after()
    hand.work, hand.fineness = table.work, table.fineness
    hand.count_work(STEP_WORK * len(outcomes))  # all is named anew
    return _Inner(tuple(outcomes), table, finish(recipe, table, names, claimed=not lost))


def _left_over(inner: _Inner, stack: int) -> list[list[Scrap]]:
    """What the recipe used makes and does not use, by layer where layers are unlike."""
    table = inner.table
    idle = [
        pile
        for name, pile in table.piles.items()
        if name not in table.used and name not in inner.finish.blocks
    ]
    if all(len(pile) == 1 for pile in idle):
        return [[scrap for pile in idle for scrap in scraps_of(pile[0])]]
    layers = [spread(pile, stack) for pile in idle]
    return [[scrap for pile in layers for scrap in scraps_of(pile[layer])] for layer in range(stack)]


class _Renaming:
    """Gives what a recipe makes inside another its names there: pieces below the step's name, letters by the map."""

    def __init__(self, step: str, letters: Mapping[str, str], stack: int) -> None:
        self._step = step
        self._letters = letters
        self._stack = stack

    def name(self, inner: str) -> str:
        """A piece, a step or a seam."""
        return f"{self._step}.{inner}"

    def letter(self, inner: str) -> str:
        """A fabric letter."""
        return self._letters.get(inner, inner)

    def cloth(self, cloth: Cloth) -> Cloth:
        """A piece of cloth."""
        patches = tuple(
            msgspec.structs.replace(patch, letter=self.letter(patch.letter)) for patch in cloth.patches
        )
        seams = tuple(msgspec.structs.replace(seam, step=self.name(seam.step)) for seam in cloth.seams)
        return msgspec.structs.replace(cloth, patches=patches, seams=seams)

    def scraps(self, layers: Sequence[Sequence[Scrap]]) -> tuple[tuple[Scrap, ...], ...]:
        """What falls off, by layer."""
        return tuple(
            tuple(msgspec.structs.replace(scrap, letter=self.letter(scrap.letter)) for scrap in scraps)
            for scraps in layers
        )

    def event(self, event: Event) -> Event:
        """What happened."""
        changed = dict(self._changed(event))
        if isinstance(event, Laid):
            changed["layers"] = self._stack
        renamed: Event = replace(event, **changed)
        return renamed

    def _changed(self, event: Event) -> Iterator[tuple[str, Any]]:
        for field in fields(event):
            value = getattr(event, field.name)
            if field.name in ("piece", "made", "square", "seam") and isinstance(value, str):
                yield field.name, self.name(value)
            elif field.name in ("pieces", "parts", "made"):
                yield field.name, tuple(map(self.name, value))
            elif field.name == "fabric":
                yield field.name, self.letter(value)
            elif field.name == "scraps":
                yield field.name, self.scraps(value)


def say(step: Use, hand: Hand) -> Message:
    """Make 1 block of "Three rails" (F: 6 in; C for A): rail measures 6 1/2 x 6 1/2 in unfinished."""
    used = first(hand.events, Used)
    box = hand.made[used.made[0]][0].box
    told = [
        message("making.use-size", name=name, size=hand.value(length, f"sizes.{name}"))
        for name, length in step.sizes.items()
    ]
    told += [
        message("making.use-letter", inner=inner, outer=outer)
        for inner, outer in step.fabrics.items()
        if inner != outer
    ]
    return message(
        "making.say-use",
        count=len(used.made),
        recipe=used.recipe,
        how=message("making.use-how", told=tuple(told)) if told else message("making.nothing"),
        made=used.made,
        size=Unfinished(box.width, box.height),
    )


USE = Verb("use", Use, act, say, no_handles)
