"""The page of steps: all steps, all sizes with their words, to scale, inside the page, nothing over anything else."""

from fractions import Fraction
from itertools import pairwise
from math import dist

import pytest

from piecewright.making.events import (
    Cornered,
    Faced,
    Joined,
    Laid,
    Looped,
    Moved,
    Opened,
    Pressed,
    Restacked,
    Severed,
    Trimmed,
    Unpicked,
    Used,
    first,
)
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, attempt, facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.render.bounds_pen import Box, bounds
from piecewright.render.cells import PAGE_WIDTH
from piecewright.render.layout import SCALES
from piecewright.render.path import spots_of
from piecewright.render.pen import ClothFill, Flat
from piecewright.render.pictures import recipe_picture
from piecewright.render.piece_picture import Look
from piecewright.render.recording_pen import Drawn, Written, flattened, record
from piecewright.render.step_figures import Scene, step_figure
from piecewright.render.step_picture import draw_steps, step_cells
from piecewright.render.style import ACCENT, BLADE, PAPER, SEW
from piecewright.units.measure import Measure
from tests.core.render.reading import SVG, read_svg
from tests.core.render.recipes import RECIPES

INCHES = Measure()
EVERY_RECIPE = {**shipped_recipes(), **RECIPES}


def _figure(making: Making, number: int, scale: float = 0.25) -> list[Drawn | Written]:
    """What is drawn for one step, in inches of paper."""
    piles = {name: pile for outcome in making.outcomes[: number + 1] for name, pile in outcome.made.items()}
    look = Look({}, making.recipe.stack, float(making.names["seam"]), scale)
    return flattened(record(step_figure(Scene(making.outcomes[number], piles, look, INCHES))))


def _said(drawn: list[Drawn | Written]) -> list[str]:
    return [item.words for item in drawn if isinstance(item, Written)]


def _steps_with(event: type) -> list[tuple[str, int]]:
    """The steps in which something of a kind happened; what happened to join a strip or in a recipe used is no step."""
    return [
        (name, outcome.step_index)
        for name, recipe in RECIPES.items()
        for outcome in run(recipe, Given()).outcomes
        for seen in (outcome.events[:1] if isinstance(outcome.events[0], Used | Laid) else outcome.events,)
        if any(isinstance(found, event) for found in seen) and not (event is Laid and len(outcome.events) > 1)
    ]


@pytest.mark.parametrize("name", RECIPES)
def test_every_step_is_pictured_under_its_number_and_sentence(name: str) -> None:
    making = run(RECIPES[name], Given())
    root = read_svg(recipe_picture(RECIPES[name], Given()))
    said = " ".join(element.text or "" for element in root.iter(f"{SVG}text"))
    for outcome in making.outcomes:
        for word in outcome.sentence.text().split():
            assert word in said
    numbers = [element.text for element in root.iter(f"{SVG}text")]
    assert all(str(number) in numbers for number in range(1, len(making.outcomes) + 1))
    assert RECIPES[name].name in numbers
    assert root.findtext(f"{SVG}title") == RECIPES[name].name


@pytest.mark.parametrize("name", EVERY_RECIPE)
def test_the_page_is_as_wide_as_paper_and_its_places_lie_apart(name: str) -> None:
    making = run(EVERY_RECIPE[name], Given())
    page = bounds(lambda pen: draw_steps(making, {}, pen, INCHES))
    assert page is not None
    assert page.left >= -0.05
    assert page.right <= PAGE_WIDTH + 0.05
    half = (PAGE_WIDTH - 0.3) / 2
    for cell in step_cells(making, {}, INCHES):
        box = bounds(cell.draw)
        assert box is not None
        assert box.bottom <= cell.height + 0.01
        assert box.top >= -0.05
        assert box.right <= (PAGE_WIDTH if cell.wide else half)


@pytest.mark.parametrize("name", RECIPES)
def test_rows_of_the_page_do_not_overlap(name: str) -> None:
    making = run(RECIPES[name], Given())
    drawn = flattened(record(lambda pen: draw_steps(making, {}, pen, INCHES)))
    rules = [
        spots_of(item.path)
        for item in drawn
        if isinstance(item, Drawn) and {x for x, _ in spots_of(item.path)} == {0.0, PAGE_WIDTH}
    ]
    levels = [next(iter(spots))[1] for spots in map(list, rules)]
    assert levels == sorted(levels)
    texts = [item for item in drawn if isinstance(item, Written)]
    for upper, lower in pairwise([*levels, 1e9]):
        assert any(upper < item.at[1] < lower for item in texts)
        assert not any(abs(item.at[1] - lower) < 0.02 for item in texts)


@pytest.mark.parametrize(("name", "number"), _steps_with(Laid))
def test_a_laid_strip_shows_its_cut_size_and_its_thread(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    (event,) = making.outcomes[number].events
    assert isinstance(event, Laid)
    said = " ".join(_said(_figure(making, number)))
    assert f"{INCHES.length(event.width)} cut" in said
    assert f"{INCHES.length(event.length)} cut" in said


@pytest.mark.parametrize(("name", "number"), _steps_with(Joined))
def test_sewn_pieces_show_their_unfinished_size_and_a_line_to_sew_on_for_both_sides_of_each_seam(
    name: str, number: int
) -> None:
    making = run(RECIPES[name], Given())
    outcome = making.outcomes[number]
    event = next(event for event in outcome.events if isinstance(event, Joined))
    drawn = _figure(making, number)
    said = " ".join(_said(drawn))
    box = outcome.made[event.piece][0].box
    assert f"{INCHES.length(box.width)} unfinished" in said
    assert f"{INCHES.length(box.height)} unfinished" in said
    sewing = [item for item in drawn if isinstance(item, Drawn) and item.stroke == SEW]
    assert len(sewing) == 2 * len(event.lines)


def _dashed(item: Drawn, color: str) -> bool:
    return item.stroke is not None and item.stroke.color == color and bool(item.stroke.dash)


@pytest.mark.parametrize(("name", "number"), _steps_with(Severed))
def test_a_cut_shows_a_blade_line_for_each_cut_every_part_numbered_and_sizes(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = next(event for event in making.outcomes[number].events if isinstance(event, Severed))
    drawn = _figure(making, number)
    said = _said(drawn)
    blades = [item for item in drawn if isinstance(item, Drawn) and _dashed(item, BLADE)]
    assert len(blades) == len(event.lines)
    assert [str(part) for part in range(1, len(event.parts) + 1)] == [text for text in said if text.isdigit()]
    if event.axis is not None:
        sizes = " ".join(said)
        assert all(f"{INCHES.length(width)} cut" in sizes for width in event.widths)


@pytest.mark.parametrize(("name", "number"), [*_steps_with(Severed), *_steps_with(Trimmed)])
@pytest.mark.parametrize("scale", [1 / 3, 1 / 8])
def test_waste_is_hatched_and_drawn_to_scale(name: str, number: int, scale: float) -> None:
    making = run(RECIPES[name], Given())
    events = making.outcomes[number].events
    scraps = [scrap for event in events if isinstance(event, Severed | Trimmed) for scrap in event.scraps[0]]
    drawn = _figure(making, number, scale)
    washes = [item for item in drawn if isinstance(item, Drawn) and item.fill == Flat("#ffffff", 0.55)]
    assert len(washes) == len(scraps)
    area = sum(_area(item) for item in washes)
    assert area == pytest.approx(sum(float(scrap.raw.area) for scrap in scraps) * scale**2, abs=1e-6)


def _area(item: Drawn) -> float:
    corners = list(spots_of(item.path))
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*corners, corners[0]]))) / 2


@pytest.mark.parametrize(("name", "number"), _steps_with(Moved))
def test_a_turned_part_has_an_arrow_with_its_degrees(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    turns = [event for event in making.outcomes[number].events if isinstance(event, Moved)]
    said = _said(_figure(making, number))
    assert [text for text in said if text.endswith("°")] == [
        f"{turn.motion.turn_degrees:g}°" for turn in turns
    ]


@pytest.mark.parametrize(("name", "number"), _steps_with(Cornered))
def test_a_corner_shows_the_square_face_down_its_seam_and_where_to_trim(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = first(making.outcomes[number].events, Cornered)
    drawn = [item for item in _figure(making, number) if isinstance(item, Drawn)]
    sewing = [item for item in drawn if _dashed(item, ACCENT)]
    blades = [item for item in drawn if _dashed(item, BLADE)]
    assert (len(sewing), len(blades)) == (3 if event.pair else 1, 1)
    length = float(event.line.length) * 0.25
    assert dist(*spots_of(sewing[0].path)) == pytest.approx(length)
    wrong_side = [item for item in drawn if item.fill == Flat(PAPER, 0.6)]
    assert wrong_side


@pytest.mark.parametrize(("name", "number"), _steps_with(Faced))
def test_pieces_face_to_face_show_a_wrong_side_and_every_line_of_stitches(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = first(making.outcomes[number].events, Faced)
    drawn = [item for item in _figure(making, number) if isinstance(item, Drawn)]
    sewing = [item for item in drawn if _dashed(item, ACCENT)]
    assert len(sewing) == len(event.stitches)
    lengths = sorted(dist(*spots_of(item.path)) for item in sewing)
    assert lengths == pytest.approx(sorted(float(line.length) * 0.25 for line in event.stitches))
    assert any(item.fill == Flat(PAPER, 0.6) for item in drawn)


@pytest.mark.parametrize(("name", "number"), _steps_with(Opened))
def test_an_opened_piece_shows_its_unfinished_size(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    outcome = making.outcomes[number]
    said = " ".join(_said(_figure(making, number)))
    for event in outcome.events:
        if isinstance(event, Opened):
            box = outcome.made[event.made][0].box
            assert f"{INCHES.length(box.width)} unfinished" in said


@pytest.mark.parametrize(("name", "number"), _steps_with(Looped))
def test_a_tube_shows_its_seam_at_the_end_where_it_is_not_drawn_as_one(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = first(making.outcomes[number].events, Looped)
    drawn = [item for item in _figure(making, number) if isinstance(item, Drawn)]
    (seam,) = [item for item in drawn if _dashed(item, ACCENT)]
    assert dist(*spots_of(seam.path)) == pytest.approx(float(event.line.length) * 0.25)


@pytest.mark.parametrize(("name", "number"), _steps_with(Unpicked))
def test_a_seam_to_unpick_is_marked_and_numbered(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = first(making.outcomes[number].events, Unpicked)
    drawn = _figure(making, number)
    assert len([item for item in drawn if isinstance(item, Drawn) and _dashed(item, BLADE)]) == 1
    assert str(event.seam) in _said(drawn)


@pytest.mark.parametrize(("name", "number"), _steps_with(Used))
def test_a_recipe_used_shows_what_it_gives(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    event = first(making.outcomes[number].events, Used)
    said = " ".join(_said(_figure(making, number)))
    box = making.outcomes[number].made[event.made[0]][0].box
    assert f"{INCHES.length(box.width)} unfinished" in said
    assert f"{INCHES.length(box.height)} unfinished" in said


@pytest.mark.parametrize(("name", "number"), _steps_with(Restacked))
def test_a_shuffled_pile_shows_all_its_layers_apart(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    cloth = [item for item in _figure(making, number) if isinstance(item, Drawn) and item.crisp]
    corners = {min(spots_of(item.path)) for item in cloth}
    assert len(corners) >= making.recipe.stack


@pytest.mark.parametrize(("name", "number"), _steps_with(Pressed))
def test_a_pressed_seam_has_an_arrow_across_it(name: str, number: int) -> None:
    making = run(RECIPES[name], Given())
    drawn = _figure(making, number)
    heads = [
        item
        for item in drawn
        if isinstance(item, Drawn) and item.fill == Flat(ACCENT) and item.stroke is None
    ]
    events = [event for event in making.outcomes[number].events if isinstance(event, Pressed)]
    assert len(heads) >= sum(2 if event.toward == "open" else 1 for event in events)


@pytest.mark.parametrize("name", RECIPES)
@pytest.mark.parametrize("scale", [1 / 4, 1 / 10])
def test_cloth_is_drawn_to_scale(name: str, scale: float) -> None:
    """The top layer of what a step makes has, on paper, its area times the scale squared."""
    making = run(RECIPES[name], Given())
    for outcome in making.outcomes:
        if not isinstance(outcome.events[0], Laid):
            continue
        (pile,) = outcome.made.values()
        drawn = _figure(making, outcome.step_index, scale)
        cloth = [item for item in drawn if isinstance(item, Drawn) and item.fill and not item.crisp]
        top = [item for item in cloth if isinstance(item.fill, ClothFill | Flat) and item.stroke is None]
        wanted = float(pile[0].box.area) * scale**2
        assert any(_area(item) == pytest.approx(wanted, abs=1e-9) for item in top)


def test_every_way_off_the_thread_gets_its_own_line_and_word() -> None:
    corners = " ".join(_said(_figure(run(RECIPES["corners"], Given()), 2, 1 / 3)))
    slanted = " ".join(_said(_figure(run(RECIPES["slanted-exchange"], Given()), 6, 1 / 3)))
    square = " ".join(_said(_figure(run(RECIPES["cut-turn-sew"], Given()), 4, 1 / 3)))
    assert "bias" in corners.split()
    assert "slight bias" not in corners
    assert "slight bias" in slanted
    assert "bias" not in square


def test_a_picture_speaks_the_users_measure() -> None:
    text = recipe_picture(RECIPES["rail-fence-of-three"], Given(), measure=Measure(unit="cm", comma=True))
    assert "6,35 cm" in text
    assert " in cut" not in text


def test_a_making_that_breaks_is_pictured_up_to_there_and_says_why() -> None:
    plain = RECIPES["cut-turn-sew"].plain
    too_large = {"make": "x", "square": "set", "width": "500", "height": "500"}
    broken = attempt(
        Recipe.from_plain({**plain, "steps": [*plain["steps"][:4], too_large], "block": ["x"]}), Given()
    )
    assert broken.fault is not None
    said = " ".join(_said(flattened(record(lambda pen: draw_steps(broken, {}, pen, INCHES)))))
    assert broken.fault.sentence(INCHES) in said
    assert len(step_cells(broken, {}, INCHES)) == len(broken.outcomes) == 4


def test_the_finished_blocks_stand_at_the_end_with_both_sizes() -> None:
    making = run(RECIPES["two-halves-from-thirds"], Given())
    said = " ".join(_said(flattened(record(step_cells(making, {}, INCHES)[-1].draw))))
    made = facts(making.recipe, making.given)
    for size in (made.unfinished, made.finished):
        assert INCHES.size(size.width, size.height).split()[0] in said
        assert size.word in said


def test_the_usual_scales_go_down_and_are_one_to_a_whole_number() -> None:
    assert list(SCALES) == sorted(SCALES, reverse=True)
    assert all(Fraction(scale).limit_denominator(100).numerator == 1 for scale in SCALES)


def test_a_box_grows_evenly() -> None:
    assert Box(0, 1, 2, 3).grown(1) == Box(-1, 0, 3, 4)
