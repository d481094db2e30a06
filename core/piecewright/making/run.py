"""Runs a recipe step by step. What a step did is kept, so that an edit at one step runs again from there only."""

from dataclasses import dataclass
from functools import lru_cache

from piecewright.errors import PiecewrightError
from piecewright.making.beds import beds_of
from piecewright.making.facts import Facts
from piecewright.making.finishing import finish
from piecewright.making.given import Given
from piecewright.making.kinds import kinds_of
from piecewright.making.ledger import ledger_of, strips_of
from piecewright.making.names import Names, resolve_names
from piecewright.making.reading import lengths_in, verb_word
from piecewright.making.recipe import Recipe
from piecewright.making.steps import Step
from piecewright.making.table import Context, Hand, Outcome, Table
from piecewright.making.verbs import VERBS
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.use import Use
from piecewright.words.message import Message

_STEPS_KEPT = 4096
_FACTS_KEPT = 1024


@dataclass(frozen=True, slots=True, eq=False)
class Making:
    """A recipe as made: the outcome of every step done, and the table after the last of them.

    `fault` is the error that stopped it, None where all steps were done.
    """

    recipe: Recipe
    given: Given
    names: Names
    outcomes: tuple[Outcome, ...]
    table: Table
    fault: PiecewrightError | None = None


def run(recipe: Recipe, given: Given) -> Making:
    """Do every step. Raises RecipeError for names that can not be, MakingError at a step that can not be done."""
    making = attempt(recipe, given)
    if making.fault is not None:
        raise making.fault
    return making


def attempt(recipe: Recipe, given: Given) -> Making:
    """Do the steps up to the first that can not be done, whose error becomes the making's `fault`.

    Raises RecipeError for names that can not be.
    """
    names = resolve_names(recipe, given)
    seam_depth = names["seam"] + given.lost / 2
    used = _names_used(recipe.steps)
    at_hand = tuple((name, value) for name, value in names.items() if name in used)
    table = _cleared(Context(at_hand, seam_depth, recipe.stack))
    outcomes: list[Outcome] = []
    for step in recipe.steps:
        try:
            outcome, table = _done(table, step)
        except PiecewrightError as fault:
            return Making(recipe, given, names, tuple(outcomes), table, fault)
        outcomes.append(outcome)
    return Making(recipe, given, names, tuple(outcomes), table)


@lru_cache(maxsize=_FACTS_KEPT)
def _names_used(steps: tuple[Step, ...]) -> frozenset[str]:
    """The names that steps ask for; what none asks for, as a rule how wide the cloth is, makes no other making."""
    used = {name for step in steps for _, length in lengths_in(step, "") for name in length.names}
    cloth = any(isinstance(step, Use) or (isinstance(step, Lay) and step.lay.join) for step in steps)
    return frozenset(used | {"seam"} | ({"usable"} if cloth else set()))


@lru_cache(maxsize=_FACTS_KEPT)
def _cleared(context: Context) -> Table:
    return Table(context)


@lru_cache(maxsize=_STEPS_KEPT)
def _done(table: Table, step: Step) -> tuple[Outcome, Table]:
    """What a step does at a table, and the table after it; kept by the table's identity and the step's value."""
    verb = VERBS[verb_word(step)]
    hand = Hand(table, getattr(step, "make", f"steps[{table.index}]"))
    verb.act(step, hand)
    return hand.outcome(verb.say(step, hand)), hand.table_after()


def steps_as_sentences(making: Making) -> tuple[Message, ...]:
    """Every step done, in words."""
    return tuple(outcome.sentence for outcome in making.outcomes)


@lru_cache(maxsize=_FACTS_KEPT)
def facts(recipe: Recipe, given: Given) -> Facts:
    """All that is known of the blocks a recipe gives.

    Raises RecipeError and MakingError as `run` does, and for blocks that are no rectangles, not of one size, or not of
    the size that the recipe claims.
    """
    return facts_of(run(recipe, given))


def forget_makings() -> None:
    """Forget every kept step and all facts; the next making is worked out from nothing."""
    for kept in (_cleared, _done, facts):
        kept.cache_clear()


def facts_of(making: Making) -> Facts:
    """The facts of a making that was done to the end."""
    recipe, given = making.recipe, making.given
    blocks = finish(making.recipe, making.table, making.names, claimed=not given.lost)
    kinds = kinds_of(blocks.blocks, making.outcomes, recipe.stack)
    warnings = [warning for outcome in making.outcomes for warning in outcome.warnings]
    return Facts(
        name=recipe.name,
        sizes={name: making.names[name] for name in recipe.sizes},
        seam=making.names["seam"],
        stack=recipe.stack,
        unfinished=blocks.unfinished,
        finished=blocks.finished,
        blocks=len(blocks.names) * recipe.stack,
        strips=strips_of(making.outcomes),
        beds=beds_of(recipe, making.outcomes),
        kinds=kinds,
        ledger=ledger_of(making.outcomes, making.table, blocks),
        warnings=(*warnings, *blocks.warnings),
    )
