"""The cutting of a whole design: sound plans for every fabric and form, never above plain, steady, and stoppable."""

import csv
from collections import Counter
from fractions import Fraction
from io import StringIO
from random import Random

from hypothesis import given, settings

from piecewright.cutting.cutting_list import cutting_list
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.placed import placed_sheets
from piecewright.cutting.table import (
    CHOICES,
    DesignCutting,
    StopToken,
    TableProgress,
    best_cutting,
    cutting_plan,
    table_of,
)
from piecewright.cutting.table_report import cutting_report
from piecewright.cutting.table_text import BOX, cutting_csv, cutting_text
from piecewright.cutting.truing import leaves_room, reserve_for, trim_before
from piecewright.cutting.verify import verify
from piecewright.edit.fabrics import set_forms
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.model.setting import Sashing
from piecewright.plan.materials import materials
from piecewright.plan.packing import Truing
from piecewright.units.measure import Measure
from tests.core.cutting.jobs import QUICK
from tests.core.plan.samples import BOLT, block, design, letters, quilt
from tests.core.strategies import designs, random_forms

TWO = (Fraction(2), Fraction(2))


def _sample(*forms: Form) -> Design:
    """Blocks of two cloths; cloth 1 also for a border and the binding, had in these forms."""
    shelf = (block(shipped_recipes()["middle-end-for-end"], letters(A="f1", B="f2")),)
    wall = quilt(
        12,
        4,
        Fraction(12),
        borders=(Border("f1", Fraction(3)),),
        binding=Binding("f1"),
        backing=Backing("f3"),
    )
    return set_forms(design(shelf, wall, BOLT), fabric="f1", forms=forms)


def _amounts(table: DesignCutting) -> list[Fraction]:
    return [each.plan.amount for each in table.fabrics]


@settings(deadline=None, max_examples=12)
@given(designs())
def test_every_plan_of_a_design_is_sound_and_never_above_plain_cutting(drawn: Design) -> None:
    for choice in CHOICES:
        table = cutting_plan(drawn, choice)
        for each in table.fabrics:
            assert verify(each.plan) == ()
            assert each.plan.amount <= each.plain.amount
            wanted = each.plan.job.demand
            for piece in each.plan.unplaced:
                del wanted[piece.key]
            assert each.plan.recount() == wanted


@settings(deadline=None, max_examples=4)
@given(designs())
def test_the_best_never_takes_more_and_keeps_its_bound(drawn: Design) -> None:
    start = cutting_plan(drawn)
    best = best_cutting(start, QUICK)
    assert [each.fabric for each in best.fabrics] == [each.fabric for each in start.fabrics]
    for first, each in zip(start.fabrics, best.fabrics, strict=True):
        assert verify(each.plan) == ()
        assert each.plan.amount <= first.plan.amount
        assert each.plan.bound is not None
        assert each.plan.bound <= each.plan.amount


def test_the_same_design_gives_the_same_cutting() -> None:
    start = cutting_plan(_sample())
    assert table_of.__wrapped__(start.materials, "level") == start  # type: ignore[attr-defined]
    assert best_cutting(start, QUICK) == best_cutting(start, QUICK)


def test_a_search_that_is_stopped_at_once_leaves_the_first_answer() -> None:
    start = cutting_plan(_sample(), "level")
    token = StopToken()
    token.stop()
    assert best_cutting(start, QUICK, cancelled=token).fabrics == start.fabrics


def test_a_search_that_is_stopped_later_keeps_what_it_has() -> None:
    start = cutting_plan(_sample(), "level")
    token = StopToken()
    seen: list[TableProgress] = []

    def watch(at: TableProgress) -> None:
        seen.append(at)
        if at.done == 1:
            token.stop()

    found = best_cutting(start, QUICK, watch, token)
    assert [at.done for at in seen] == sorted(at.done for at in seen)
    assert found.fabrics[2:] == start.fabrics[2:]
    assert all(
        new.plan.amount <= old.plan.amount for new, old in zip(found.fabrics, start.fabrics, strict=True)
    )


def test_an_earlier_answer_is_used_again_where_the_question_is_the_same() -> None:
    known = best_cutting(cutting_plan(_sample()), QUICK)
    changed = _sample(Form("strip", 1, Fraction(5, 2), Fraction(42)), Form())
    searched: list[str] = []
    found = best_cutting(
        cutting_plan(changed), QUICK, lambda at: searched.append(at.fabric), StopToken(), known
    )
    assert set(searched) == {"f1"}
    others = [each.plan for each in known.fabrics if each.fabric != "f1"]
    assert [each.plan for each in found.fabrics if each.fabric != "f1"] == others


def test_cloth_on_hand_is_cut_first_and_saves_what_it_gives() -> None:
    plain, held = cutting_plan(_sample()), cutting_plan(_sample(Form("bolt", 1, length=Fraction(10)), Form()))
    before, after = plain.of("f1"), held.of("f1")
    assert before is not None
    assert after is not None
    assert 0 < before.plan.amount - after.plan.amount <= 10
    assert any(laid.source == 0 for laid in after.plan.laid)


def test_strips_of_unlike_length_give_a_range() -> None:
    """Three strips 2 1/2 in wide, 30 to 42 in long: at 30 they hold no strip of 42 in, at 42 in each holds one."""
    form = Form("strip", 3, Fraction(5, 2), Fraction(30), Fraction(42))
    found = cutting_plan(_sample(form, Form())).of("f1")
    assert found is not None
    assert found.longest is not None
    assert found.least_amount < found.plan.amount
    assert "measure them" in cutting_text(cutting_plan(_sample(form, Form())), Measure())


def test_a_fabric_bought_in_quarters_is_planned_in_quarters() -> None:
    """Strips are then 22 in long, so border and binding are joined of more of them; nothing is left unplaced."""
    made = cutting_plan(_sample(Form("fat quarter")))
    found = made.of("f1")
    assert found is not None
    assert found.plan.job.sheet.kind == "fat quarter"
    assert found.plan.unplaced == ()
    assert all(max(piece.width, piece.height) <= 22 for piece in found.plan.job.pieces)
    assert found.plan.amount == found.plan.amount.numerator
    border = made.materials.borders[0]
    assert border.usable == 22


def test_patches_and_sashes_share_strips_with_room_to_true_them() -> None:
    """Patches and cornerstones of one cloth: fewer inches than in strips of their own, every strip trued in time."""
    shelf = (block(shipped_recipes()["churn-dash"], letters(A="f1", B="f2")),)
    wall = quilt(
        30,
        5,
        Fraction(12),
        borders=(Border("f3", Fraction(2)), Border("f1", Fraction(6))),
        sashing=Sashing("f2", *TWO, cornerstones="f1"),
    )
    start = cutting_plan(design(shelf, wall, BOLT))
    found = start.of("f1")
    assert found is not None
    names = {str(piece.label) for piece in found.plan.job.pieces}
    assert names >= {"patch", "cornerstone", "border 2"}
    assert found.saved > 0
    for each in (*start.fabrics, *best_cutting(start, QUICK).fabrics):
        assert verify(each.plan) == ()
        assert leaves_room(each.plan)
        for sheet in placed_sheets(each.plan):
            for strip in sheet.strips:
                taken = [*(piece.place for piece in strip.pieces), *strip.trims, *strip.left_over]
                assert (
                    sum(place.width * place.height for place in taken)
                    == strip.place.width * strip.place.height
                )


def test_the_first_cut_and_every_few_more_are_trued() -> None:
    truing = Truing(Fraction(1, 2), Fraction(1, 4), 3)
    assert [trim_before(truing, cuts) for cuts in range(5)] == [Fraction(1, 2), 0, 0, Fraction(1, 4), 0]
    assert sum(trim_before(truing, cuts) for cuts in range(8)) == truing.loss(8)
    # 15 squares of 2 1/2 in are 37 1/2 in, with 1 1/2 in of truing 39 in; a sixteenth does not fit on 40 in
    assert reserve_for(truing, Fraction(5, 2), Fraction(40)) == Fraction(3, 2)


def test_every_form_gives_sound_plans() -> None:
    for number in range(16):
        drawn = _sample(*random_forms(Random(number)))
        for each in cutting_plan(drawn).fabrics:
            assert verify(each.plan) == ()
            assert each.longest is None or verify(each.longest) == ()


@settings(deadline=None, max_examples=10)
@given(designs())
def test_the_list_ticks_every_piece_where_its_strip_is_cut(drawn: Design) -> None:
    for each in cutting_plan(drawn).fabrics:
        ticked: Counter[str] = Counter()
        rulers = []
        for setting in cutting_list(each.plan):
            rulers.append((setting.stage, setting.ruler))
            if setting.stage == "strips":
                for line in setting.lines:
                    ticked.update(dict(line.keys))
        assert ticked == each.plan.recount()
        assert len(set(rulers)) == len(rulers)


def test_text_has_a_box_for_every_line_and_lists_what_to_keep() -> None:
    table = cutting_plan(_sample())
    text = cutting_text(table, Measure())
    lines = sum(len(setting.lines) for each in table.fabrics for setting in cutting_list(each.plan))
    kept = sum(len(left_overs(each.plan)) for each in table.fabrics)
    assert text.count(BOX) == lines + kept
    assert kept


def test_the_plain_table_counts_every_piece() -> None:
    table = cutting_plan(_sample())
    rows = list(csv.DictReader(StringIO(cutting_csv(table, Measure()))))
    for each in table.fabrics:
        counted = sum(
            int(row["strips"]) * int(row["pieces of each strip"])
            for row in rows
            if row["fabric"] == str(each.name)
        )
        assert counted == sum(piece.count for piece in each.plan.job.pieces)


def test_the_report_is_plain_and_says_the_amounts() -> None:
    table = cutting_plan(_sample())
    report = cutting_report(table)
    assert report["cutting"] == 1
    for told, each in zip(report["fabrics"], table.fabrics, strict=True):
        assert told["amount"]["inches"] == float(each.plan.amount)
        assert told["from"]["kind"] == "bolt"


def test_nothing_to_cut_is_said() -> None:
    empty = Design("Empty")
    bare = cutting_plan(empty.changed(fabrics=()))
    text = cutting_text(bare, Measure())
    assert "Empty: what to cut" in text


def test_materials_and_cutting_agree_without_forms() -> None:
    drawn = _sample()
    counted = {cloth.fabric: cloth.inches for cloth in materials(drawn).cloth}
    for each in cutting_plan(drawn).fabrics:
        assert each.plan.amount <= counted[each.fabric]
