"""One run of a making on traced numbers: how the block, the ends to be sewn and the cloth to spare move."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from piecewright.geometry.motion import Number
from piecewright.making.draft import with_length
from piecewright.making.events import Closed, Joined, Laid, Severed, Trimmed
from piecewright.making.finishing import block_piles
from piecewright.making.given import Given
from piecewright.making.names import Names, evaluate_at, resolve_names
from piecewright.making.nudging import Named, Spot, places
from piecewright.making.partial_seams import far_end_of_flap, open_end, sewn_edge
from piecewright.making.reading import decode_step, verb_word
from piecewright.making.recipe import Recipe
from piecewright.making.steps import Side, Step
from piecewright.making.table import Context, Hand, Outcome, Table
from piecewright.making.traced import Slopes, Traced, slopes_of
from piecewright.making.verbs import VERBS
from piecewright.making.verbs.sew import Sew
from piecewright.making.verbs.verb import Place
from piecewright.words.message import message


@dataclass(frozen=True, slots=True)
class Row:
    """A length that comes of a making: its value in inches, its slopes by the index of a spot, the step it is found at.

    The step counts from 0; -1 is the finished block.
    """

    value: Number
    slopes: Slopes
    step: int = -1


@dataclass(frozen=True, slots=True)
class LaidRow:
    """A strip laid: its width and its length."""

    width: Row
    length: Row


@dataclass(frozen=True, slots=True)
class Trace:
    """How a making moves with the lengths at `spots`, which now have `values`.

    `width` and `height` are those of the finished block. `ties` are differences that must stay as they are: of edges
    sewn to each other, of blocks that come out alike. `rooms` is cloth to spare, which must not become less than
    nothing. What has passed a slant has no slopes.
    """

    spots: tuple[Spot, ...]
    values: tuple[Fraction, ...]
    width: Row
    height: Row
    ties: tuple[Row, ...]
    rooms: tuple[Row, ...]
    laid: tuple[LaidRow, ...]


def trace(recipe: Recipe, given: Given, spots: Sequence[Spot]) -> Trace:
    """Run a making once with the lengths at some spots traced. Raises RecipeError and MakingError as `run` does."""
    now = {length.place: length.value for length in places(recipe, given)}
    moving = {place: Traced(now[place], {index: Fraction(1)}) for index, place in enumerate(spots)}
    names = _traced_names(recipe, given, moving)
    steps, all_names = _traced_steps(recipe, moving, names)
    depth = names["seam"] + given.lost / 2
    outcomes, table = _run(steps, Table(Context(tuple(all_names.items()), depth, recipe.stack)))
    boxes = [pile[0].box for pile in block_piles(recipe, table).values()]
    sizes = [(box.width - 2 * depth, box.height - 2 * depth) for box in boxes]
    ties = [tie for outcome in outcomes for tie in _ties(recipe, outcome)]
    alike = [_row(other[axis] - sizes[0][axis]) for other in sizes[1:] for axis in (0, 1)]
    rooms = [room for outcome in outcomes for room in _rooms(outcome)]
    laid = tuple(
        LaidRow(_row(event.width, outcome.step_index), _row(event.length, outcome.step_index))
        for outcome in outcomes
        for event in outcome.events
        if isinstance(event, Laid)
    )
    return Trace(
        tuple(spots),
        tuple(now[place] for place in spots),
        _row(sizes[0][0]),
        _row(sizes[0][1]),
        tuple(row for row in (*ties, *alike) if row.slopes),
        tuple(row for row in rooms if row.slopes),
        laid,
    )


def _row(number: Number, step: int = -1) -> Row:
    return Row(Fraction(number) if isinstance(number, Fraction | int) else number, slopes_of(number), step)


def _traced_names(recipe: Recipe, given: Given, moving: Mapping[Spot, Traced]) -> dict[str, Fraction]:
    """The names' values, traced where they hang on a spot."""
    named = {place: value for place, value in moving.items() if isinstance(place, Named)}
    sizes = {**given.sizes, **{place.name: value for place, value in named.items() if place.table == "sizes"}}
    names = dict(resolve_names(recipe, Given(sizes, given.seam, given.usable, given.draws, given.lost)))
    for name, written in recipe.let.items():
        set_by_hand = named.get(Named("let", name))
        names[name] = evaluate_at(written, names, f"let.{name}") if set_by_hand is None else set_by_hand
    return names


def _traced_steps(
    recipe: Recipe, moving: Mapping[Spot, Traced], names: Names
) -> tuple[list[Step], dict[str, Fraction]]:
    """The steps with a name in each place that moves, and the names with those."""
    prefix = "moving"
    while any(name.startswith(prefix) for name in names):
        prefix += "_"
    written: dict[int, dict[Place, str]] = {}
    found = dict(names)
    for number, (place, value) in enumerate(moving.items()):
        if isinstance(place, Place):
            found[f"{prefix}{number}"] = value
            written.setdefault(place.step, {})[place] = f"{prefix}{number}"
    steps = list(recipe.steps)
    plain = recipe.plain
    for index, texts in written.items():
        for place, text in texts.items():
            plain = with_length(plain, place.step, place.key, text, place.index)
        steps[index] = decode_step(plain["steps"][index], f"steps[{index}]")
    return steps, found


def _run(steps: Sequence[Step], table: Table) -> tuple[list[Outcome], Table]:
    """Every step done at a table of its own: what is kept of other runs is found by value, and has no slopes."""
    outcomes = []
    for step in steps:
        hand = Hand(table, getattr(step, "make", f"steps[{table.index}]"))
        VERBS[verb_word(step)].act(step, hand)
        outcomes.append(hand.outcome(message("making.nothing")))
        table = hand.table_after()
    return outcomes, table


def _ties(recipe: Recipe, outcome: Outcome) -> Iterator[Row]:
    """By how much edges differ that are sewn to each other with their ends even."""
    step = recipe.steps[outcome.step_index]
    ended = isinstance(step, Sew) and step.align is None
    for event in outcome.events:
        if (
            ended
            and isinstance(event, Joined)
            and (event.plain or _round_a_partial_seam(step, event, outcome))
        ):
            far, near = _SEWN_SIDES[event.axis]
            for before, after in pairwise(event.pieces):
                one, other = (
                    sewn_edge(outcome.taken[before][0], far),
                    sewn_edge(outcome.taken[after][0], near),
                )
                if one is not None and other is not None:
                    yield _row(other.length - one.length, outcome.step_index)
        elif isinstance(event, Closed):
            cloth = outcome.taken[event.piece][0]
            if cloth.flap is not None:
                ends = open_end(cloth, cloth.flap), far_end_of_flap(cloth.flap)
                yield _row(ends[0] - ends[1], outcome.step_index)


def _round_a_partial_seam(step: Step, event: Joined, outcome: Outcome) -> bool:
    """Whether a piece with a partial seam is sewn with its ends even to another."""
    plainly = isinstance(step, Sew) and step.step is None and not step.flush and not event.eased
    return plainly and any(outcome.taken[name][0].flap for name in event.pieces)


_SEWN_SIDES: Mapping[str, tuple[Side, Side]] = {"across": ("right", "left"), "down": ("bottom", "top")}


def _rooms(outcome: Outcome) -> Iterator[Row]:
    """The cloth left beyond the last of some cuts, and beside what is squared up."""
    for event in outcome.events:
        if isinstance(event, Severed) and event.axis is not None and not event.angle:
            box = outcome.taken[event.piece][0].box
            extent = box.width if event.axis == "across" else box.height
            yield _row(extent - event.trim - sum(event.widths), outcome.step_index)
        elif isinstance(event, Trimmed):
            box = outcome.taken[event.piece][0].box
            yield _row(box.width - event.size.width, outcome.step_index)
            yield _row(box.height - event.size.height, outcome.step_index)
