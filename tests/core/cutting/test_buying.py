"""From a plan of the cutting to the shopping list: never more than strip by strip, and what is left out is said."""

from fractions import Fraction

from hypothesis import given

from piecewright.cutting.buying import amounts
from piecewright.cutting.table import cutting_plan
from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.model.settings import Bundles
from piecewright.plan.shopping import shopping
from piecewright.plan.shopping_text import shopping_text
from tests.core.plan.samples import BOLT, rails
from tests.core.strategies import designs


def cut_from(found: Design, *forms: Form) -> Design:
    cloths = tuple(fabric.changed(forms=forms) if fabric.id == "f1" else fabric for fabric in found.fabrics)
    return found.changed(fabrics=cloths)


@given(designs())
def test_a_plan_never_buys_more_than_strip_by_strip(found: Design) -> None:
    plain = {line.fabric: line for line in shopping(found).lines if line.form == "bolt"}
    for line in shopping(found, cut=amounts(cutting_plan(found))).lines:
        old = plain.get(line.fabric)
        if old is not None and line.form == "bolt" and line.buy is not None and old.buy is not None:
            assert line.buy <= old.buy


def test_quarters_and_strips_are_counted_by_the_plan() -> None:
    quarters = cut_from(rails(12, BOLT), Form("fat quarter"))
    line = next(
        line for line in shopping(quarters, cut=amounts(cutting_plan(quarters))).lines if line.fabric == "f1"
    )
    assert line.form == "fat quarter"
    assert line.buy == 1  # 7 strips of 2 1/2 x 22 in from 18 in; 12 blocks take 4
    rolls = cut_from(rails(24, BOLT), Form("roll strip"))
    bought = shopping(rolls, cut=amounts(cutting_plan(rolls)))
    assert [(bundle.form, bundle.count, bundle.pieces) for bundle in bought.bundles] == [
        ("roll strip", 1, 40)
    ]
    assert "At least 1 bundle of 40 strips of a roll" in shopping_text(bought)


def test_the_size_of_a_quarter_is_a_setting() -> None:
    small = BOLT.changed(bundles=Bundles(quarter_width=Fraction(20), quarter_length=Fraction(5)))
    quarters = cut_from(rails(12, small), Form("fat quarter"))
    line = next(
        line for line in shopping(quarters, cut=amounts(cutting_plan(quarters))).lines if line.fabric == "f1"
    )
    assert line.buy == 2  # two strips of each
