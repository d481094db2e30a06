"""The shopping list: what the materials say less what the stash has, in words a shop understands."""

import csv
import io
import json
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.model.settings import Shrinkage
from piecewright.plan.materials import materials
from piecewright.plan.shopping import Amount, Line, shopping
from piecewright.plan.shopping_text import COLUMNS, shopping_csv, shopping_report, shopping_text
from piecewright.plan.stash_first import StripOnHand, taken_from
from piecewright.units.measure import Measure
from tests.core.plan.samples import BOLT, rails
from tests.core.strategies import designs

STRIP = Fraction(5, 2)


def throw() -> Design:
    red = {"binding": Binding("f4"), "backing": Backing("f5")}
    found = rails(110, BOLT.changed(currency="EUR"), borders=(Border("f4", Fraction(3)),), **red)
    cloths = tuple(
        fabric.changed(price=Fraction(12)) if fabric.id == "f4" else fabric for fabric in found.fabrics
    )
    return found.changed(fabrics=cloths)


def line_of(found: Design, fabric: str, *stash: StripOnHand) -> Line:
    return next(line for line in shopping(found, stash).lines if line.fabric == fabric)


@given(designs())
def test_without_a_stash_the_list_is_that_of_the_materials(found: Design) -> None:
    made = materials(found)
    lines = [line for line in shopping(found).lines if line.form == "bolt"]
    assert [line.need for line in lines] == [
        each.inches for each in made.cloth if each.fabric in {line.fabric for line in lines}
    ]
    for line in lines:
        each = next(cloth for cloth in made.cloth if cloth.fabric == line.fabric)
        assert line.buy == (each.buy if each.inches else 0)


@given(designs(), st.integers(0, 40), st.sampled_from((Fraction(5, 2), Fraction(3), Fraction(4))))
def test_the_stash_never_makes_it_more_and_is_never_used_twice(
    found: Design, count: int, width: Fraction
) -> None:
    stash = tuple(
        StripOnHand(fabric.id, width, Fraction(44), count)
        for fabric in found.fabrics
        for _ in range(min(count, 1))
    )
    before = {line.fabric: line for line in shopping(found).lines}
    for line in shopping(found, stash).lines:
        old = before[line.fabric]
        assert line.need <= old.need
        assert line.buy is None or old.buy is None or line.buy <= old.buy
        assert sum(taken.count for taken in line.taken) <= count
        assert all(taken.cut <= width for taken in line.taken)


def test_strips_on_hand_come_first_and_the_rest_is_bought() -> None:
    found = throw()  # 19 sets: 19 strips of 2 1/2 in of each of three cloths
    some = line_of(found, "f1", StripOnHand("f1", STRIP, Fraction(42), 12))
    assert [(taken.count, taken.part) for taken in some.taken] == [(12, "piecing")]
    assert some.need == 7 * STRIP
    assert some.buy == Fraction(18)
    all_of_it = line_of(found, "f1", StripOnHand("f1", Fraction(3), Fraction(42), 30))
    assert [all_of_it.need, all_of_it.buy] == [0, 0]
    assert str(all_of_it.why) == "The stash has enough."


def test_a_strip_too_short_or_too_narrow_serves_for_nothing() -> None:
    made = materials(throw())
    assert not taken_from(made, (StripOnHand("f1", STRIP, Fraction(12), 9),))
    assert not taken_from(made, (StripOnHand("f1", Fraction(2), Fraction(42), 9),))
    # the last set gives only two blocks: 13 1/2 in of it are enough
    (one,) = taken_from(made, (StripOnHand("f1", STRIP, Fraction(20), 9),))
    assert one.count == 1


def test_the_narrowest_strip_that_serves_is_taken() -> None:
    made = materials(throw())
    stash = (StripOnHand("f1", Fraction(4), Fraction(42), 19), StripOnHand("f1", STRIP, Fraction(42), 19))
    assert {taken.strip.width for taken in taken_from(made, stash)} == {STRIP}


def test_a_plan_of_the_cutting_decides_what_is_bought() -> None:
    found = throw().changed(settings=BOLT.changed(shrinkage=Shrinkage(Fraction(5)), margin=Fraction(2)))
    bought = shopping(
        found, cut={"f1": Amount("bolt", Fraction(38)), "f2": Amount("fat quarter", Fraction(3))}
    )
    first, second = bought.lines[:2]
    assert first.need == 38
    assert first.buy == Fraction(45)  # 38 / 0.95 + 2 = 42 in, up to an eighth of a yard
    assert second.form == "fat quarter"
    assert second.buy == 3


def test_a_fabric_bought_in_quarters_waits_for_the_plan() -> None:
    found = throw()
    cloths = tuple(
        fabric.changed(forms=(Form("fat quarter"),)) if fabric.id == "f1" else fabric
        for fabric in found.fabrics
    )
    line = line_of(found.changed(fabrics=cloths), "f1")
    assert (line.form, line.buy) == ("fat quarter", None)


def test_the_list_reads_as_one_shops() -> None:
    lines = shopping_text(shopping(throw())).splitlines()
    assert lines[0] == "Sample: to buy for Wall"
    (red,) = [line for line in lines if "Cloth 4" in line]
    assert red.split() == ["Cloth", "4", "1", "1/4", "yd", "1.2", "m", "off", "the", "bolt", "15.00", "EUR"]
    assert any("full, 81 x 96 in" in line and "206 x 244 cm" in line for line in lines)
    assert lines[-1] == "  Together 15 EUR"


def test_meters_hold_what_is_needed_and_less_than_a_tenth_more() -> None:
    report = shopping_report(shopping(throw()))
    for line in report["lines"]:
        if line["yards"]:
            meters = float(line["buy_metric_text"].removesuffix(" m"))
            assert line["meters"] <= meters < line["meters"] + 0.1


@given(designs())
def test_the_table_and_the_report_have_every_line(found: Design) -> None:
    bought = shopping(found)
    rows = list(csv.DictReader(io.StringIO(shopping_csv(bought))))
    assert len(rows) == len(bought.lines)
    assert tuple(rows[0]) == COLUMNS
    report = shopping_report(bought)
    assert json.loads(json.dumps(report)) == report
    assert [row["why"] for row in rows] == [line["why"] for line in report["lines"]]
    for measure in (Measure(), Measure("cm", comma=True)):
        assert all(line == line.rstrip() for line in shopping_text(bought, measure).splitlines())


def test_a_name_is_no_formula_in_a_spreadsheet() -> None:
    found = throw()
    evil = found.fabrics[0].changed(name='=HYPERLINK("x")')
    text = shopping_csv(shopping(found.changed(fabrics=(evil, *found.fabrics[1:]))))
    (row,) = [row for row in csv.reader(io.StringIO(text)) if "HYPERLINK" in row[0]]
    assert row[0].startswith("'=")
