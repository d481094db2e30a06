"""The drawn cutting plans: to scale, words that never lie on words, pages of a height, mirrored but for the words."""

from dataclasses import replace
from fractions import Fraction
from importlib.resources import files
from pathlib import Path

import pytest
from hypothesis import given, settings

from piecewright.cutting.any_order import any_order_plan
from piecewright.cutting.planning import first_plan, plain_plan
from piecewright.cutting.table import cutting_plan
from piecewright.cutting.telling import takes
from piecewright.edit.fabrics import set_forms
from piecewright.files.design_file import load_design
from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.plan.stage import forget
from piecewright.render.bounds_pen import Box
from piecewright.render.cutting_cloth import View, draw_sheet
from piecewright.render.cutting_picture import (
    HEIGHT,
    cutting_figures,
    cutting_pages,
    cutting_pictures,
    sheets_of,
    view_of,
)
from piecewright.render.layout import Draw, room
from piecewright.render.pen import ClothFill
from piecewright.render.recording_pen import Drawn, Transformed, Written, flattened, record
from piecewright.render.typeface import text_width
from piecewright.units.measure import Measure
from piecewright.words.message import message
from tests.core.cutting.jobs import quilt_job
from tests.core.render.reading import read_svg
from tests.core.strategies import designs

EXAMPLES = Path(str(files("piecewright_data"))) / "examples"
SAMPLES = sorted(EXAMPLES.glob("*.piecewright"))
ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}


def _written(draw: Draw) -> list[Written]:
    return [step for step in flattened(record(draw)) if isinstance(step, Written) and step.words]


def _box(text: Written) -> Box:
    """The room of small letters and figures, without what few letters reach below the line."""
    wide = text_width(text.words, text.style)
    left = float(text.at[0]) - wide * ANCHORS[text.style.anchor]
    return Box(left, float(text.at[1]) - 0.72 * text.style.size, left + wide, float(text.at[1]))


def _overlap(one: Box, other: Box) -> bool:
    wide = min(one.right, other.right) - max(one.left, other.left)
    high = min(one.bottom, other.bottom) - max(one.top, other.top)
    return wide > 0.005 and high > 0.005


def _clashes(draw: Draw) -> list[tuple[str, str]]:
    texts = [(text.words, _box(text)) for text in _written(draw)]
    return [
        (one[0], other[0])
        for place, one in enumerate(texts)
        for other in texts[place + 1 :]
        if _overlap(one[1], other[1])
    ]


def _in_forms(drawn: Design) -> Design:
    """Its fabrics had in every form in turn."""
    forms = (
        (Form("fat quarter"),),
        (Form("strip", 3, Fraction(5, 2), Fraction(30), lengthwise=True), Form()),
        (Form("10 inch square"),),
        (Form("roll strip", 4), Form()),
        (Form("fat eighth", 2), Form("bolt")),
        (Form("5 inch square", 9), Form()),
    )
    for number, fabric in enumerate(drawn.fabrics):
        drawn = set_forms(drawn, fabric=fabric.id, forms=forms[number % len(forms)])
    return drawn


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("formed", [False, True])
@pytest.mark.parametrize("left_handed", [False, True])
def test_no_words_lie_on_others_and_pages_keep_their_height(
    path: Path, formed: bool, left_handed: bool
) -> None:
    drawn = load_design(path).design
    drawn = _in_forms(drawn) if formed else drawn
    for page in cutting_pages(cutting_plan(drawn), drawn, left_handed=left_handed):
        assert _clashes(page) == []
        assert room(page).height <= HEIGHT + 0.01


@settings(deadline=None, max_examples=10)
@given(designs())
def test_no_words_lie_on_others_in_any_design(drawn: Design) -> None:
    for page in cutting_pages(cutting_plan(drawn), drawn):
        assert _clashes(page) == []


def test_a_lower_page_gives_more_figures_that_say_where_they_go_on() -> None:
    drawn = load_design(EXAMPLES / "tideline.piecewright").design
    table = cutting_plan(drawn)
    each = table.of("f1")
    assert each is not None
    fabric = drawn.shelf.fabrics["f1"]
    (whole,) = cutting_figures(each, table, fabric)
    parts = cutting_figures(each, table, fabric, height=4.0)
    assert len(parts) > 1
    assert all(figure.height <= 4.01 for figure in parts)
    assert "continued from" in parts[1].title
    assert "continued" not in whole.title


def test_cloth_is_drawn_to_scale_in_its_own_fabric() -> None:
    """42 in of Tideline's cloth are drawn 6 in wide: a seventh. The fill lies in the frame of real inches."""
    drawn = load_design(EXAMPLES / "tideline.piecewright").design
    table = cutting_plan(drawn)
    each = table.of("f1")
    assert each is not None
    (figure,) = cutting_figures(each, table, drawn.shelf.fabrics["f1"])
    steps = record(figure.draw)
    cloth = [
        step
        for step in flattened(steps)
        if isinstance(step, Drawn) and isinstance(step.fill, ClothFill) and step.fill.fabric.id == "f1"
    ]
    spots = [spot for _, spots in cloth[0].path for spot in spots]
    assert max(x for x, _ in spots) == pytest.approx(6.0)
    assert max(y for _, y in spots) == pytest.approx(float(each.plan.amount) / 7)
    assert Transformed(pytest.approx(1 / 7)) in steps  # type: ignore[arg-type]  # compares as the number it stands for


def test_a_left_hand_sees_the_same_words_on_mirrored_cloth() -> None:
    drawn = load_design(EXAMPLES / "tideline.piecewright").design
    table = cutting_plan(drawn)
    each = table.of("f3")
    assert each is not None
    fabric = drawn.shelf.fabrics["f3"]
    (right,) = cutting_figures(each, table, fabric)
    (left,) = cutting_figures(each, table, fabric, left_handed=True)
    assert sorted(text.words for text in _written(right.draw)) == sorted(
        text.words for text in _written(left.draw)
    )
    middle = {text.words: text.at[0] for text in _written(right.draw) if text.style.anchor == "middle"}
    mirrored = {text.words: text.at[0] for text in _written(left.draw) if text.style.anchor == "middle"}
    moved = {words for words, x in middle.items() if abs(float(x) - float(mirrored[words])) > 0.01}
    assert moved
    inside = [text for text in _written(right.draw) if text.words == "8 1/2 x 2 1/2 in cut"]
    # 1/2 in off the first end, 1/4 in more after three cuts; a seventh of true size
    starts = (0.5, 9.0, 17.5, 26.25)
    assert {round(float(text.at[0]), 3) for text in inside} == {round((x + 4.25) / 7, 3) for x in starts}


def test_cuts_in_any_order_are_drawn_as_well() -> None:
    drawn = load_design(EXAMPLES / "mantel-runner.piecewright").design
    table = cutting_plan(drawn)
    job = quilt_job(15, 40, may_turn=False, number=0)
    cut = replace(table.fabrics[0], plan=first_plan(job), plain=plain_plan(job), second=any_order_plan(job))
    table = replace(table, choice="any-order", fabrics=(cut,))
    (figure,) = cutting_figures(cut, table, drawn.fabrics[0])
    assert cut.second is not None
    assert str(takes(cut.second)) in [text.words for text in _written(figure.draw)]
    assert _clashes(figure.draw) == []


def test_every_size_on_the_cloth_says_cut() -> None:
    drawn = load_design(EXAMPLES / "mantel-runner.piecewright").design
    pages = cutting_pages(cutting_plan(drawn), drawn)
    sizes = [text.words for page in pages for text in _written(page) if " x " in text.words]
    assert len(sizes) > 5
    assert all("cut" in words.split() for words in sizes)


def test_pictures_are_sound_and_the_same_every_time() -> None:
    drawn = load_design(EXAMPLES / "window-seat.piecewright").design
    pictures = cutting_pictures(cutting_plan(drawn), drawn)
    for picture in pictures:
        read_svg(picture)
    forget()
    assert cutting_pictures(cutting_plan(drawn), drawn) == pictures


@pytest.mark.parametrize("left_handed", [False, True])
def test_a_part_for_the_screen_has_the_letters_and_words_of_the_whole(left_handed: bool) -> None:
    """Drawn strip by strip, the same words stand on the same cloth; all of it lies in the room it says it takes."""
    job = quilt_job(15, 200, may_turn=False, number=1)
    table = cutting_plan(load_design(EXAMPLES / "tideline.piecewright").design)
    each = replace(table.fabrics[0], plan=first_plan(job), plain=plain_plan(job))
    (sheet,) = sheets_of(each, table)
    view = view_of(sheet, each, table, None, 0.1, left_handed=left_handed)

    def on_cloth(part: View) -> list[str]:
        words = _written(lambda pen: draw_sheet(part, pen))
        return sorted(text.words for text in words if text.style.anchor == "middle")

    whole = on_cloth(view)
    parts: list[str] = []
    for strip in sheet.strips:
        place = strip.place
        parts += on_cloth(view.between(place.y, place.y + place.height))
    frame = {message("cutting.label-fold").text(), Measure().length(sheet.outline.width)}
    assert [text for text in sorted(parts) if text not in frame] == [
        text for text in whole if text not in frame
    ]
    taken = room(lambda pen: draw_sheet(view, pen))
    says = view.room
    assert says.left <= taken.left + 0.02
    assert says.right >= taken.right - 0.02
    assert says.top <= taken.top + 0.02
    assert says.bottom >= taken.bottom - 0.02
