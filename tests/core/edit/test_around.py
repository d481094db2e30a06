"""Borders, binding, backing and batting; arrangements; and the design's own words."""

from collections.abc import Callable
from fractions import Fraction

import pytest

from piecewright.edit.arrangements import (
    add_arrangement,
    duplicate_arrangement,
    remove_arrangement,
    rename_arrangement,
    switch_arrangement,
)
from piecewright.edit.borders import (
    add_border,
    change_border,
    move_border,
    remove_border,
    set_backing,
    set_batting,
    set_binding,
)
from piecewright.edit.placing import place_block
from piecewright.edit.registry import Cell
from piecewright.edit.settings import set_about, set_author, set_name
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Batting, Binding, Border
from tests.core.edit.quilts import RAILS, design, laid

INNER, MIDDLE, OUTER = (
    Border(fabric, Fraction(width)) for fabric, width in (("f1", 1), ("f2", 2), ("f3", 5))
)


def _bordered() -> Design:
    return add_border(add_border(design(), border=INNER), border=OUTER)


def test_borders_come_from_the_inside_out() -> None:
    assert _bordered().quilt.borders == (INNER, OUTER)
    assert add_border(_bordered(), border=MIDDLE, at=1).quilt.borders == (INNER, MIDDLE, OUTER)
    assert move_border(_bordered(), index=0, to=1).quilt.borders == (OUTER, INNER)
    assert change_border(_bordered(), index=1, border=MIDDLE).quilt.borders == (INNER, MIDDLE)
    assert remove_border(_bordered(), index=0).quilt.borders == (OUTER,)


def test_what_goes_behind_and_round_is_set_whole() -> None:
    made = set_batting(
        set_backing(set_binding(design(), binding=Binding("f1")), backing=Backing("f2")), batting=Batting()
    )
    assert (made.quilt.binding.fabric, made.quilt.backing.fabric) == ("f1", "f2")
    assert made.quilt.batting == Batting()


def test_arrangements_are_alternatives_of_one_quilt() -> None:
    before = laid("r.....")
    copied = duplicate_arrangement(before, index=0, name="Second")
    assert copied.current == 1
    changed = place_block(copied, block=RAILS, cell=Cell(3, 0))
    assert changed.arrangements[0] is before.quilt
    assert changed.quilt.name == "Second"
    back = switch_arrangement(changed, index=0)
    assert back.quilt is before.quilt
    assert [one.name for one in rename_arrangement(back, index=0, name="One").arrangements] == [
        "One",
        "Second",
    ]


def test_a_new_arrangement_is_empty_and_in_view() -> None:
    made = add_arrangement(laid("r....."), name="Wide", unit=Fraction(12), columns=9, rows=2)
    assert (made.current, made.quilt.name, made.quilt.rows) == (1, "Wide", ())


@pytest.mark.parametrize(
    ("current", "removed", "then"), [(0, 0, 0), (0, 1, 0), (1, 0, 0), (2, 1, 1), (2, 2, 1)]
)
def test_the_arrangement_in_view_stays_in_view_where_it_can(current: int, removed: int, then: int) -> None:
    made = duplicate_arrangement(duplicate_arrangement(design(), index=0, name="B"), index=1, name="C")
    after = remove_arrangement(switch_arrangement(made, index=current), index=removed)
    assert after.current == then
    assert len(after.arrangements) == 2


def test_the_design_has_a_name_an_author_and_notes() -> None:
    made = set_about(set_author(set_name(design(), name="Left-overs"), author="Ada"), about="From strips.")
    assert (made.name, made.author, made.about) == ("Left-overs", "Ada", "From strips.")


REFUSED: list[tuple[Callable[[Design], Design], str]] = [
    (
        lambda made: remove_border(made, index=0),
        "There is no border 1. The quilt has 0 borders, counted from the inside.",
    ),
    (
        lambda made: add_border(made, border=INNER, at=1),
        "There is no border 2. The quilt has 0 borders, counted from the inside.",
    ),
    (
        lambda made: add_border(made, border=Border("f9", Fraction(1))),
        "The design has no fabric f9. Add it to the fabrics first.",
    ),
    (
        lambda made: set_binding(made, binding=Binding("f9")),
        "The design has no fabric f9. Add it to the fabrics first.",
    ),
    (
        lambda made: set_backing(made, backing=Backing("f9")),
        "The design has no fabric f9. Add it to the fabrics first.",
    ),
    (
        lambda made: remove_arrangement(made, index=0),
        '"First" is the only arrangement. Add another one first.',
    ),
    (lambda made: switch_arrangement(made, index=1), "There is no arrangement 2: the design has 1."),
    (lambda made: rename_arrangement(made, index=0, name=" "), "This arrangement has no name."),
    (lambda made: set_name(made, name=""), "This design has no name."),
]


@pytest.mark.parametrize(("change", "sentence"), REFUSED)
def test_a_refused_change_says_why(change: Callable[[Design], Design], sentence: str) -> None:
    with pytest.raises(EditError) as refusal:
        change(design())
    assert refusal.value.sentence() == sentence
