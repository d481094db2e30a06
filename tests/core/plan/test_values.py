"""Values of a quilt: areas that add up, neighbors found as shapely finds them, and what reads as one."""

import pytest
from hypothesis import given, settings
from shapely import Polygon  # type: ignore[import-untyped]

from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.plan.values import fabric_values, meeting, value_report
from tests.core.edit.quilts import design, laid
from tests.core.strategies import designs


@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_the_seams_of_a_block_are_where_its_patches_share_a_border(name: str) -> None:
    for kind in facts(shipped_recipes()[name], Given()).kinds:
        shapes = [Polygon([(float(x), float(y)) for x, y in patch.points]) for patch in kind.patches]
        expected = {
            (one, other): length
            for one in range(len(shapes))
            for other in range(one)
            if (length := shapes[one].intersection(shapes[other].buffer(1e-7)).length / 2) > 1e-3
        }
        numbers = {id(patch): number for number, patch in enumerate(kind.patches)}
        found: dict[tuple[int, int], float] = {}
        for one, other, inches in meeting(kind.patches):
            high, low = sorted((numbers[id(one)], numbers[id(other)]), reverse=True)
            found[high, low] = found.get((high, low), 0) + inches
        assert found == pytest.approx(expected, abs=1e-4)


@settings(max_examples=40, deadline=None)
@given(made=designs())
def test_what_is_seen_adds_up(made: Design) -> None:
    report = value_report(made)
    whole = sum(report.shares.values())
    assert whole == pytest.approx(1) or not report.fabrics
    assert [pair.difference for pair in report.neighbors] == sorted(
        pair.difference for pair in report.neighbors
    )
    assert all(each.area > 0 and 0 <= each.lightness <= 100.01 for each in report.fabrics)


def test_two_rails_of_one_color_read_as_one() -> None:
    made = laid("oo....")  # rails of rose, fern and dusk, 6 in square, alike where they meet
    alike = [fabric.changed(color="#2f6b3b") if fabric.id == "f3" else fabric for fabric in made.fabrics]
    report = value_report(made.changed(fabrics=tuple(alike)))
    assert [(pair.first, pair.second, pair.inches) for pair in report.as_one] == [("f2", "f3", 12)]
    assert value_report(made).as_one == ()
    assert {each.fabric: each.area for each in report.fabrics} == pytest.approx(
        {"f1": 24, "f2": 24, "f3": 24}
    )


def test_blocks_beside_each_other_are_neighbors_too() -> None:
    made = laid("o.....", "o.....")  # dusk at the foot of one, rose at the head of the next
    alone = value_report(laid("o.....", "......"))
    assert ("f1", "f3") not in {(pair.first, pair.second) for pair in alone.neighbors}
    found = {(pair.first, pair.second): pair.inches for pair in value_report(made).neighbors}
    assert found["f1", "f3"] == 6
    assert found["f1", "f2"] == 12


def test_what_the_quilter_says_goes_before_what_is_measured() -> None:
    fabrics = design().fabrics
    assert fabric_values(fabrics) == {"f1": "medium", "f2": "light", "f3": "dark"}
    by_hand = (fabrics[0].changed(value="dark"), *fabrics[1:])
    assert fabric_values(by_hand)["f1"] == "dark"
    made = laid("r.....").changed(fabrics=by_hand)
    assert [each.by_hand for each in value_report(made).fabrics] == [True, False]


def test_the_same_quilt_in_another_order_has_the_same_values() -> None:
    made = laid("rot...", "or-...")
    turned = laid("ort...", "ro-...")
    assert value_report(made).fabrics == value_report(turned).fabrics
