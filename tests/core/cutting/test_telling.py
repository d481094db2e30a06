"""What a plan says: sentences, the list for the table, the drawing."""

from dataclasses import replace
from fractions import Fraction

from piecewright.cutting.cutting_list import cutting_list, plain_table
from piecewright.cutting.job import Job
from piecewright.cutting.left_overs import LeftOver, left_overs
from piecewright.cutting.pieces import Piece
from piecewright.cutting.placed import Rectangle, placed_sheets
from piecewright.cutting.planning import best_plan, first_plan, plain_plan
from piecewright.cutting.plans import CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.sheets import OnHand, bolt, roll_strip, ten_inch_square
from piecewright.cutting.telling import findings, kind, least, saves, takes
from tests.core.cutting.jobs import QUICK, quilt_job

JOB = Job(
    (Piece("a", Fraction(5), Fraction(3), 5), Piece("b", Fraction(4), Fraction(6), 1, may_turn=False)),
    bolt(Fraction(20)),
)
PLAN = CuttingPlan(
    JOB,
    (
        Laid(
            JOB.sheet,
            None,
            "across",
            (
                Strip(
                    Fraction(6),
                    (
                        SubCut(Fraction(4), Fraction(6), 1, (("b", 1),)),
                        SubCut(Fraction(5), Fraction(3), 2, (("a", 5),)),
                    ),
                ),
            ),
        ),
    ),
)


def test_savings_and_bounds_in_words() -> None:
    plain = replace(PLAN, laid=(replace(PLAN.laid[0], strips=(replace(PLAN.laid[0].strips[0], count=3),)),))
    assert takes(PLAN).text() == "Takes 6 in of cloth, 1/4 yd to buy."
    assert saves(PLAN, plain).text() == (
        "Saves 12 in of cloth, 1/4 yd to buy, against each size in strips of its own."
    )
    assert saves(PLAN, plain, "half").text() == (
        "Saves 12 in of cloth against each size in strips of its own, but buys as much."
    )
    assert saves(PLAN, PLAN).text() == "Takes as much as each size in strips of its own."
    assert least(PLAN).text() == "How little cloth could do is not known."
    assert least(replace(PLAN, bound=Fraction(6))).text() == "No plan of this kind can use less."
    assert least(replace(PLAN, bound=Fraction(9, 2))).text() == (
        "No plan of this kind can use less than 4 1/2 in; this one is at most 1 1/2 in from the least possible."
    )
    assert "equal pieces up to 4 deep" in kind(PLAN).text()
    assert [found.code for found in findings(replace(PLAN, stopped=True))] == ["cutting.stopped"]


def test_sheets_are_counted_in_words() -> None:
    job = Job((Piece("a", Fraction(5), Fraction(5), 9),), ten_inch_square())
    plan = best_plan(job, QUICK)
    assert takes(plan).text() == "Takes 3 10 inch squares."
    assert least(plan).text() == "No plan of this kind can use less."
    assert least(replace(plan, bound=Fraction(2))).text() == (
        "No plan of this kind can use less than 2 10 inch squares; this one is at most 1 10 inch square from the "
        "least possible."
    )


def test_the_list_keeps_the_ruler_at_one_setting() -> None:
    settings = cutting_list(PLAN)
    assert [(each.stage, int(each.ruler)) for each in settings] == [
        ("strips", 6),
        ("across", 5),
        ("across", 4),
        ("part", 3),
    ]
    said = [line.said.text() for each in settings for line in each.lines]
    assert said == [
        "1 strip from selvage to selvage",
        "3 cuts across 1 strip of 6 in",
        "1 cut across 1 strip of 6 in",
        "5 pieces parted from cuts of 5 in",
    ]
    assert [each.count for each in settings] == [1, 3, 1, 5]


def test_the_list_and_the_table_end_in_every_piece() -> None:
    job = quilt_job(8, 200, may_turn=True, number=2)
    plan = first_plan(replace(job, on_hand=(OnHand(roll_strip(Fraction(40)), 4),)))
    cut = sum(
        count
        for each in cutting_list(plan)
        if each.stage == "across"
        for line in each.lines
        for _, count in line.keys
    )
    rows = sum(count * row.strips * row.sheets for row in plain_table(plan) for _, count in row.pieces)
    assert cut == rows == sum(piece.count for piece in job.pieces)
    rulers = [(each.stage, each.ruler) for each in cutting_list(plan)]
    assert len(rulers) == len(set(rulers))
    said = [line.said.text() for each in cutting_list(plan) for line in each.lines]
    assert not [text for text in said if "{" in text]


def test_the_drawing_has_strips_fold_and_left_overs() -> None:
    (sheet,) = placed_sheets(PLAN)
    assert sheet.fold == 10
    (strip,) = sheet.strips
    assert sheet.outline == Rectangle(Fraction(0), Fraction(0), Fraction(20), Fraction(6))
    assert [(piece.key, int(piece.place.x), int(piece.place.y)) for piece in strip.pieces] == [
        ("b", 0, 0),
        ("a", 4, 0),
        ("a", 4, 3),
        ("a", 9, 0),
        ("a", 9, 3),
        ("a", 14, 0),
    ]
    assert left_overs(PLAN) == ()
    kept = replace(PLAN, job=replace(JOB, keep=replace(JOB.keep, width=Fraction(1), length=Fraction(5))))
    assert left_overs(kept) == (LeftOver(Fraction(5), Fraction(3), 1), LeftOver(Fraction(1), Fraction(6), 1))


def test_a_plain_plan_has_a_height_for_every_size() -> None:
    job = quilt_job(5, 60, may_turn=False, number=3)
    plan = plain_plan(job)
    assert set(plan.heights) == {piece.height for piece in job.pieces}
