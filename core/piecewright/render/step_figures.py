"""The figure of one step: what its events did to the cloth, drawn to a scale that the caller chooses."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from piecewright.geometry.motion import Motion
from piecewright.geometry.shapes import Segment
from piecewright.making.cloth import Cloth, Pile, carried_cloth
from piecewright.making.events import (
    Closed,
    Cornered,
    Faced,
    Joined,
    Laid,
    Looped,
    Moved,
    Opened,
    Passed,
    Pressed,
    Restacked,
    Severed,
    Trimmed,
    Unpicked,
    Used,
)
from piecewright.making.table import Outcome
from piecewright.render.crowded import part_numbers
from piecewright.render.layout import Draw, below, beside, room
from piecewright.render.marks import arrow, number, turning_arrow
from piecewright.render.path import Path, Spot
from piecewright.render.pen import Pen, Stroke
from piecewright.render.piece_picture import FAN, Look, draw_face_down, draw_pile, draw_sewing, middle
from piecewright.render.pressing import draw_pressing
from piecewright.render.step_marks import (
    draw_blade,
    draw_cut,
    draw_size,
    draw_trim,
    draw_waste,
    has_room_for_words,
)
from piecewright.render.style import ACCENT, GAP, PAPER
from piecewright.units.measure import Measure

_ARROW = 0.34  # length of the arrow from before to after
_LEAST_TO_TURN_ON = 0.55  # inches of paper: a smaller piece has its turning arrow beside it
_WIDE_FAN = 0.13  # of a pile whose layers change places
_BETWEEN = 0.13  # between pieces about to be sewn


@dataclass(frozen=True, slots=True)
class Scene:
    """One step with all that its figure needs: `piles` holds every pile made so far, by name."""

    outcome: Outcome
    piles: Mapping[str, Pile]
    look: Look
    measure: Measure

    def before(self, name: str) -> Pile:
        """The pile that a step took."""
        return self.outcome.taken[name]

    def after(self, name: str) -> Pile:
        """The pile that it made."""
        return self.outcome.made[name]


def step_figure(scene: Scene) -> Draw:
    """The figure of a step."""
    events = scene.outcome.events
    event = next((event for event in events if not isinstance(event, Passed)), events[0])
    build: Callable[[Scene], Draw] = _FIGURES[type(event)]
    return build(scene)


def _laid(scene: Scene) -> Draw:
    return below([_piece(scene, pile) for pile in scene.outcome.made.values()], GAP)


def _piece(scene: Scene, pile: Pile, *, sized: bool = True, fan: float = FAN) -> Draw:
    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look, fan)
        if sized:
            draw_size(pen, pile[0], scene.look, scene.measure)

    return draw


def _joined(scene: Scene) -> Draw:
    event = next(event for event in scene.outcome.events if isinstance(event, Joined))
    before = _apart(scene, event)
    after = _piece(scene, scene.after(event.piece))
    if event.axis == "down" and room(after).width > 2.6 * room(after).height:
        middle = scene.look.size(scene.after(event.piece)[0])[0] / 2
        return below([before, _pointing_down(middle), after], 0.09)
    return beside([before, _pointing_right, after], GAP)


def _apart(scene: Scene, event: Joined) -> Draw:
    """The pieces a little apart, each with the line it is about to be sewn on."""
    look, along = scene.look, 0 if event.axis == "across" else 1
    piles = [scene.before(name) for name in event.pieces]
    gap = _BETWEEN + look.fanned
    starts: list[Spot] = []
    reach = 0.0
    for pile, move in zip(piles, event.moves, strict=True):
        box = pile[0].box
        corner = move.apply((box.left, box.top))
        aside = 0.0 if event.turned else float(corner[1 - along]) * look.scale
        starts.append((reach, aside) if along == 0 else (aside, reach))
        reach += float(box.width if along == 0 else box.height) * look.scale + gap

    def draw(pen: Pen) -> None:
        for index, (pile, start, move) in enumerate(zip(piles, starts, event.moves, strict=True)):
            with pen.framed(Motion(dx=start[0], dy=start[1])):
                draw_pile(pen, pile, look)
                for line in event.stitched[max(0, index - 1) : index + 1]:
                    _draw_seam_to_be(pen, pile[0], line, move, look)

    return draw


def _draw_seam_to_be(pen: Pen, cloth: Cloth, line: Segment, move: Motion, look: Look) -> None:
    back = [move.back(end) for end in (line.start, line.end)]
    draw_sewing(pen, look.on_paper(cloth, back[0]), look.on_paper(cloth, back[1]))


def _pointing_right(pen: Pen) -> None:
    arrow(pen, (0.0, 0.0), (_ARROW, 0.0))


def _pointing_down(x: float) -> Draw:
    return lambda pen: arrow(pen, (x, 0.0), (x, _ARROW * 0.6))


def _severed(scene: Scene) -> Draw:
    event = next(event for event in scene.outcome.events if isinstance(event, Severed))
    pile = scene.before(event.piece)

    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look, words=has_room_for_words(pile[0], event, scene.look))
        draw_cut(pen, pile[0], event, scene.look, scene.measure)
        if event.axis is None:
            middles = [middle(scene.after(part)[0].patches) for part in event.parts]
            part_numbers(pen, [scene.look.on_paper(pile[0], center) for center in middles])

    return draw


def _turned(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Moved | Passed)]
    if len(events) == 1:
        (event,) = events
        before, after = scene.before(event.piece), _piece(scene, scene.after(event.made))
        if isinstance(event, Moved) and min(scene.look.size(before[0])) < _LEAST_TO_TURN_ON:
            degrees = event.motion.turn_degrees
            return beside(
                [
                    _piece(scene, before, sized=False),
                    lambda pen: turning_arrow(pen, (0, 0), 0.21, degrees),
                    after,
                ],
                GAP,
            )
        return beside([_with_turn(scene, before, event), _pointing_right, after], GAP)
    return _row([_with_turn(scene, scene.after(event.made), event) for event in events])


def _with_turn(scene: Scene, pile: Pile, event: Moved | Passed) -> Draw:
    """A piece under the arrow that turns it, which leaves no room for the words at its edges."""

    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look, words=not isinstance(event, Moved))
        if isinstance(event, Moved):
            width, height = scene.look.size(pile[0])
            turning_arrow(pen, (width / 2, height / 2), 0.21, event.motion.turn_degrees)

    return draw


def _shuffled(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Restacked | Passed)]
    if len(events) > 1:
        return _row(
            [_piece(scene, scene.after(event.made), sized=False, fan=_WIDE_FAN / 2) for event in events]
        )
    (event,) = events
    before, after = scene.before(event.piece), scene.after(event.made)

    def draw_before(pen: Pen) -> None:
        draw_pile(pen, before, scene.look, _WIDE_FAN)
        if isinstance(event, Restacked):
            _draw_to_bottom(pen, scene.look.size(before[0]), scene.look.stack, event.by)

    return beside([draw_before, _pointing_right, _piece(scene, after, sized=False, fan=_WIDE_FAN)], GAP)


def _draw_to_bottom(pen: Pen, size: Spot, stack: int, by: int) -> None:
    """An arrow from the top of the pile round to its bottom, and how many layers it takes along."""
    last = (stack - 1) * _WIDE_FAN
    start, end = (size[0] - 0.12, size[1] * 0.3), (size[0] + last + 0.05, size[1] * 0.62 + last)
    far = end[0] + 0.36
    curve: Path = (("M", (start,)), ("C", ((far, start[1]), (far, end[1]), (end[0] + 0.04, end[1]))))
    pen.path(curve, None, Stroke(PAPER, 0.046, (), 0.8))
    pen.path(curve, None, Stroke(ACCENT, 0.016))
    arrow(pen, (end[0] + 0.06, end[1]), end)
    number(pen, (start[0] * 0.125 + far * 0.75 + (end[0] + 0.04) * 0.125, (start[1] + end[1]) / 2), str(by))


def _trimmed(scene: Scene) -> Draw:
    figures: list[Draw] = []
    for event in scene.outcome.events:
        if isinstance(event, Trimmed):
            figures.append(_with_trim(scene, event))
        elif isinstance(event, Passed):
            figures.append(_piece(scene, scene.after(event.made), sized=False))
    return _row(figures)


def _with_trim(scene: Scene, event: Trimmed) -> Draw:
    pile = scene.before(event.piece)

    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look)
        draw_trim(pen, pile[0], scene.after(event.made)[0], event, scene.look, scene.measure)

    return draw


def _faced(scene: Scene) -> Draw:
    event = next(event for event in scene.outcome.events if isinstance(event, Faced))
    pieces = [_piece(scene, scene.before(name), sized=False) for name in event.pieces]
    return beside([*pieces, _pointing_right, _piece(scene, scene.after(event.made), sized=False)], GAP)


def _opened(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Opened | Passed)]
    if len(events) > 1:
        return _row(
            [_piece(scene, scene.after(event.made), sized=isinstance(event, Opened)) for event in events]
        )
    (event,) = events
    before, after = scene.before(event.piece), scene.after(event.made)
    return beside([_piece(scene, before, sized=False), _pointing_right, _piece(scene, after)], GAP)


def _looped(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Looped | Passed)]
    if len(events) > 1:
        return _row([_tube(scene, scene.after(event.made)) for event in events])
    (event,) = events
    before, after = scene.before(event.piece), scene.after(event.made)
    return beside([_piece(scene, before, sized=False), _pointing_right, _tube(scene, after)], GAP)


def _tube(scene: Scene, pile: Pile) -> Draw:
    """A tube lying flat: its seam dashed at both ends, an arrow from one round to the other, its sizes."""
    (cloth, *_), look = pile, scene.look

    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, look)
        draw_size(pen, cloth, look, scene.measure)
        for seam in cloth.closing_seams:
            draw_sewing(pen, *_ends(scene, cloth, seam.line))
        if cloth.loop is not None:
            width, height = look.size(cloth)
            out = 0.3 + look.fanned
            down = cloth.loop == "down"
            start, end = ((width, height), (width, 0.0)) if down else ((width, height), (0.0, height))
            far = (
                ((width + out, height), (width + out, 0.0))
                if down
                else ((width, height + out), (0.0, height + out))
            )
            pen.path((("M", (start,)), ("C", (*far, end))), None, Stroke(ACCENT, 0.016))
            arrow(pen, (end[0] + 0.08, end[1] + 0.02) if down else (end[0] + 0.02, end[1] + 0.08), end)

    return draw


def _unpicked(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Unpicked | Passed)]
    if len(events) > 1:
        return _row(
            [_piece(scene, scene.after(event.made), sized=index == 0) for index, event in enumerate(events)]
        )
    (event,) = events
    before, after = scene.before(event.piece), scene.after(event.made)

    def draw(pen: Pen) -> None:
        _tube(scene, before)(pen)
        if isinstance(event, Unpicked):
            start, end = _ends(scene, before[0], event.line)
            draw_blade(pen, start, end)
            number(pen, ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2), str(event.seam))

    return beside([draw, _pointing_right, _piece(scene, after)], GAP)


def _closed(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Closed | Passed)]
    if len(events) > 1:
        return _row(
            [_piece(scene, scene.after(event.made), sized=index == 0) for index, event in enumerate(events)]
        )
    (event,) = events
    before, after = scene.before(event.piece), scene.after(event.made)
    return beside([_piece(scene, before, sized=False), _pointing_right, _piece(scene, after)], GAP)


def _used(scene: Scene) -> Draw:
    event = next(event for event in scene.outcome.events if isinstance(event, Used))
    return _row([_piece(scene, scene.after(name), sized=index == 0) for index, name in enumerate(event.made)])


def _cornered(scene: Scene) -> Draw:
    event = next(event for event in scene.outcome.events if isinstance(event, Cornered))
    pile, (square, *_) = scene.before(event.piece), scene.before(event.square)
    over = carried_cloth(square, event.came)

    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look, grain=False)
        draw_face_down(pen, over, pile[0], scene.look)
        draw_waste(pen, pile[0], event.scraps[0], scene.look)
        for line in (event.line, event.pair):
            if line is not None:
                draw_sewing(pen, *_ends(scene, pile[0], line))
        draw_blade(pen, *_ends(scene, pile[0], event.cut))

    after = [_piece(scene, made, sized=index == 0) for index, made in enumerate(scene.outcome.made.values())]
    return beside([draw, _pointing_right, *after], GAP)


def _ends(scene: Scene, cloth: Cloth, line: Segment) -> tuple[Spot, Spot]:
    """The ends of a line in a piece's frame, on paper."""
    return scene.look.on_paper(cloth, line.start), scene.look.on_paper(cloth, line.end)


def _pressed(scene: Scene) -> Draw:
    events = [event for event in scene.outcome.events if isinstance(event, Pressed)]
    return _row([_with_pressing(scene, pile, events) for pile in _sewn_by(scene, events[0].seam)])


def _sewn_by(scene: Scene, step: str) -> list[Pile]:
    """What a step made, a piece or parts, as far as it has seams of that step."""
    names = [name for name in scene.piles if name == step or name.startswith(f"{step}.")]
    piles = [scene.piles[name] for name in names]
    return [pile for pile in piles if any(seam.step == step for seam in pile[0].seams)]


def _with_pressing(scene: Scene, pile: Pile, events: Sequence[Pressed]) -> Draw:
    def draw(pen: Pen) -> None:
        draw_pile(pen, pile, scene.look, grain=False)
        for event in events:
            draw_pressing(pen, pile[0], event, scene.look)

    return draw


def _row(figures: Sequence[Draw]) -> Draw:
    """Many like figures in rows of at most eight."""
    rows = [beside(figures[start : start + 8], GAP) for start in range(0, len(figures), 8)]
    return rows[0] if len(rows) == 1 else below(rows, GAP)


_FIGURES: dict[type, Callable[[Scene], Draw]] = {
    Laid: _laid,
    Joined: _joined,
    Severed: _severed,
    Moved: _turned,
    Passed: _turned,
    Restacked: _shuffled,
    Trimmed: _trimmed,
    Pressed: _pressed,
    Cornered: _cornered,
    Faced: _faced,
    Opened: _opened,
    Used: _used,
    Looped: _looped,
    Unpicked: _unpicked,
    Closed: _closed,
}
