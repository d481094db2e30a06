"""What lies on the sheet for one step: the piece it works on with its marks, and what comes of it beside or below."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from math import ceil

from piecewright.geometry.motion import Motion
from piecewright.making.cloth import Pile
from piecewright.making.events import Joined, Laid, Moved, Passed, Pressed, Severed, Trimmed
from piecewright.making.run import Making
from piecewright.making.table import Outcome
from piecewright.model.fabric import Fabric
from piecewright.render.bounds_pen import Box
from piecewright.render.crowded import part_numbers
from piecewright.render.layout import Draw, Measured, below, beside, largest, room
from piecewright.render.path import Spot
from piecewright.render.pen import Pen
from piecewright.render.piece_picture import Look, draw_pile, middle
from piecewright.render.step_figures import Scene, step_figure
from piecewright.render.step_marks import (
    draw_blade,
    draw_cut,
    draw_size,
    draw_trim,
    draw_waste,
    has_room_for_words,
)
from piecewright.units.measure import Measure

_APART = 0.12  # inches of paper between parts
_RESULT = 0.42  # from the piece to what comes of it
_ONE_ROW = 4  # small pieces that stand in one row
_LONG = 1.6  # a piece so much wider than high has its parts below it


@dataclass(frozen=True, slots=True)
class Part:
    """A piece that can be taken hold of on the sheet: its name, and the box it lies in, inches of paper."""

    name: str
    box: Box

    def holds(self, spot: Spot) -> bool:
        """Whether a spot of the paper lies on it."""
        return self.box.left <= spot[0] <= self.box.right and self.box.top <= spot[1] <= self.box.bottom


@dataclass(frozen=True, slots=True)
class Sheet:
    """A step's picture in inches of paper; the piece with handles lies with its box's top left at 0, 0."""

    draw: Draw
    box: Box
    look: Look
    parts: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True)
class Subject:
    """A step to be pictured, with the fabrics it is seen in."""

    making: Making
    index: int
    fabrics: Mapping[str, Sequence[Fabric]]
    measure: Measure

    @property
    def outcome(self) -> Outcome:
        """What the step did."""
        return self.making.outcomes[self.index]

    def look(self, scale: float) -> Look:
        """How its pieces are drawn at a scale."""
        return Look(self.fabrics, self.making.recipe.stack, float(self.making.names["seam"]), scale)

    def pile(self, name: str) -> Pile:
        """A pile the step took or made."""
        taken = self.outcome.taken
        return taken[name] if name in taken else self.outcome.made[name]


def sheet_with_handles(subject: Subject, piece: str, room_for: Spot, scale: float | None = None) -> Sheet:
    """The sheet of a step that has lengths to drag: as large as fits `room_for`, or at a scale that is kept."""
    if scale is not None:
        return _worked(subject, piece, scale)
    tried: dict[Draw, Sheet] = {}

    def build(size: float) -> Draw:
        sheet = _worked(subject, piece, size)
        tried[sheet.draw] = sheet
        return sheet.draw

    return tried[largest(build, *room_for)[0]]


def sheet_of_figure(subject: Subject, room_for: Spot) -> Sheet:
    """The sheet of any other step: its figure as printed, as large as fits."""
    piles: dict[str, Pile] = {}
    for done in subject.making.outcomes[: subject.index + 1]:
        piles.update(done.made)

    def build(scale: float) -> Draw:
        return step_figure(Scene(subject.outcome, piles, subject.look(scale), subject.measure))

    figure, scale = largest(build, *room_for)
    box = room(figure)
    turned = [event for event in subject.outcome.events if isinstance(event, Moved)]
    parts = (Part(turned[0].piece, box),) if len(subject.outcome.events) == 1 and turned else ()
    return Sheet(figure, box, subject.look(scale), parts)


def small_sheet(subject: Subject, room_for: Spot) -> Sheet:
    """The step in small: what it makes, or where it cuts; no words and no sizes, which could not be read."""

    def build(scale: float) -> Draw:
        return _in_small(subject, subject.look(scale))

    figure, scale = largest(build, *room_for)
    return Sheet(figure, room(figure), subject.look(scale))


def _worked(subject: Subject, piece: str, scale: float) -> Sheet:
    look = subject.look(scale)
    draw = _marked(subject, piece, look)
    made = _made_apart(subject, look)
    box = room(draw)
    if not made:
        return Sheet(Measured(draw, box), box, look)
    wide, high = look.size(subject.pile(piece)[0])
    below = wide > _LONG * high
    start = (0.0, box.bottom + _RESULT) if below else (box.right + _RESULT, 0.0)
    parts = tuple(
        Part(name, _box_at((spot[0] + start[0], spot[1] + start[1]), look.size(pile[0])))
        for name, pile, spot in made
    )

    marked = Measured(draw, box)

    def draw_all(pen: Pen) -> None:
        marked(pen)
        for part in parts:
            with pen.framed(Motion(dx=part.box.left, dy=part.box.top)):
                draw_pile(pen, subject.outcome.made[part.name], look, grain=False)

    whole = room(draw_all)
    return Sheet(Measured(draw_all, whole), whole, look, parts)


def _box_at(spot: Spot, size: Spot) -> Box:
    return Box(spot[0], spot[1], spot[0] + size[0], spot[1] + size[1])


def _marked(subject: Subject, piece: str, look: Look) -> Draw:
    """The piece with the cuts of the step and its sizes."""
    pile, outcome, measure = subject.pile(piece), subject.outcome, subject.measure
    event = next((event for event in outcome.events if not isinstance(event, Passed)), None)

    def draw(pen: Pen) -> None:
        roomy = not isinstance(event, Severed) or has_room_for_words(pile[0], event, look)
        draw_pile(pen, pile, look, words=roomy)
        if isinstance(event, Severed):
            draw_cut(pen, pile[0], event, look, measure)
            if event.axis is None:
                _number_parts(pen, pile, event, subject, look)
        elif isinstance(event, Trimmed):
            draw_trim(pen, pile[0], outcome.made[event.made][0], event, look, measure)
        else:
            draw_size(pen, pile[0], look, measure)

    return draw


def _number_parts(pen: Pen, pile: Pile, event: Severed, subject: Subject, look: Look) -> None:
    middles = [middle(subject.outcome.made[part][0].patches) for part in event.parts]
    part_numbers(pen, [look.on_paper(pile[0], center) for center in middles])


def _made_apart(subject: Subject, look: Look) -> list[tuple[str, Pile, Spot]]:
    """What the step made, laid out a little apart; nothing where the piece itself is what it made."""
    outcome = subject.outcome
    event = outcome.events[0]
    if isinstance(event, Laid | Joined):
        return []
    down = isinstance(event, Severed) and (event.axis == "down" or _is_level(event))
    found: list[tuple[str, Pile, Spot]] = []
    reach = 0.0
    for name, pile in outcome.made.items():
        found.append((name, pile, (0.0, reach) if down else (reach, 0.0)))
        reach += look.size(pile[0])[1 if down else 0] + _APART + look.fanned
    return found


def _is_level(event: Severed) -> bool:
    """Whether a slice runs rather from left to right, so that its parts lie below each other."""
    if event.axis is not None:
        return False
    (left, top), (right, bottom) = event.lines[0].start, event.lines[0].end
    return abs(float(right - left)) > abs(float(bottom - top))


def _in_small(subject: Subject, look: Look) -> Draw:
    outcome = subject.outcome
    cut = next((event for event in outcome.events if isinstance(event, Severed)), None)
    if cut is not None:
        whole = subject.pile(cut.piece)

        def draw_cutting(pen: Pen) -> None:
            draw_pile(pen, whole, look, grain=False)
            draw_waste(pen, whole[0], cut.scraps[0], look)
            for line in cut.lines:
                draw_blade(pen, look.on_paper(whole[0], line.start), look.on_paper(whole[0], line.end))

        return draw_cutting
    piles = list(outcome.made.values()) or _pressed(subject)
    return _in_rows([partial(draw_pile, pile=pile, look=look, grain=False) for pile in piles])


def _in_rows(figures: Sequence[Draw]) -> Draw:
    """As many rows as keep the whole about twice as wide as high."""
    across = max(1, ceil((2 * len(figures)) ** 0.5)) if len(figures) > _ONE_ROW else len(figures)
    rows = [beside(figures[at : at + across], _APART) for at in range(0, len(figures), max(across, 1))]
    return below(rows, _APART)


def _pressed(subject: Subject) -> list[Pile]:
    """The cloth that a pressing is done to."""
    seams = {event.seam for event in subject.outcome.events if isinstance(event, Pressed)}
    piles = subject.making.table.piles
    return [pile for name, pile in piles.items() if name.partition(".")[0] in seams]
