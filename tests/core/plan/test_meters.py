"""Cloth in meters is rounded once, from what is exact."""

import re
from fractions import Fraction

import pytest

from piecewright.plan.difference import difference
from piecewright.plan.materials import materials
from piecewright.plan.text import materials_text
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.units.rounding import round_yardage
from piecewright.units.scale import METRE
from tests.core.plan.samples import BOLT, rails

METRIC = Measure("cm")


@pytest.mark.parametrize("rounding", ["eighth", "quarter", "half"])
@pytest.mark.parametrize("count", [1, 12, 60])
def test_meters_hold_what_is_needed_and_less_than_a_tenth_more(rounding: str, count: int) -> None:
    made = materials(rails(count, BOLT.changed(yardage=rounding)))
    page = materials_text(made, METRIC)
    for cloth in made.cloth:
        assert cloth.buy == round_yardage(cloth.exact, rounding)
        meters = METRIC.yards(cloth.yardage)
        assert meters in page
        assert cloth.exact <= parse_length(meters) < cloth.exact + METRE / 10
        assert meters in cloth.why.text(METRIC)


@pytest.mark.parametrize("rounding", ["exact", "eighth", "quarter", "third", "half"])
def test_a_why_in_meters_names_their_rounding_and_no_yard(rounding: str) -> None:
    made = materials(rails(12, BOLT.changed(yardage=rounding, margin=Fraction(2))))
    for cloth in made.cloth:
        said = cloth.why.text(METRIC)
        assert "yard" not in said
        assert f"up to a tenth of a meter: {METRIC.yards(cloth.yardage)}." in said
        exactly = re.search(r"= ([\d./ ]+ m);", said)
        assert exactly is not None
        assert parse_length(exactly[1]) == cloth.exact
        assert "meter" not in cloth.why.text()


def test_a_change_is_told_in_meters_rounded_once() -> None:
    few, many = (materials(rails(count, BOLT.changed(yardage="half"))) for count in (1, 60))
    for change in difference(few, many):
        if change.part == "cloth":
            assert change.cloth is not None
            before, after = change.cloth
            said = change.said.text(METRIC)
            assert f"{METRIC.yards(before)} before" in said
            assert f"{METRIC.yards(after)} now" in said
            assert (change.before, change.after) == (before.rounded, after.rounded)
    assert Fraction(0) < many.cloth[0].exact
