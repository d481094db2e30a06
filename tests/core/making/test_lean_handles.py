"""Dragging the end of a leaning cut: the lean that is read from a line is the lean that cuts along it."""

from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from piecewright.making.given import Given
from piecewright.making.lean_handles import LEANS, lean_at, lean_handle, next_lean
from piecewright.making.recipe import Recipe
from piecewright.making.run import run

LEAN = st.sampled_from([sign * lean for sign in (-1, 1) for lean in LEANS])


def cut(axis: str, lean: float) -> Recipe:
    """A wide piece cut into leaning parts."""
    wide, high = ("39", "8") if axis == "across" else ("8", "39")
    size: dict[str, Any] = {"fabric": "A", "width": high, "length": wide}
    steps = [
        {"make": "a", "lay": size},
        {"make": "part", "cut": "a", "axis": axis, "every": "5", "count": 2, "angle": lean},
        {"make": "first", "square": "part.1", "width": "fit", "height": "fit"},
    ]
    return Recipe.from_plain({"recipe": 1, "name": "Lean", "steps": steps, "block": ["first"]})


@given(axis=st.sampled_from(["across", "down"]), lean=LEAN)
def test_the_line_of_a_cut_has_the_lean_it_was_cut_at(axis: str, lean: float) -> None:
    recipe = cut(axis, lean)
    making = run(recipe, Given())
    found = lean_handle(recipe.steps[1], making.outcomes[1])
    assert found is not None
    run_right, drop = (float(b - a) for a, b in zip(found.line.start, found.line.end, strict=True))
    assert lean_at(found.axis, run_right, drop) == lean == found.lean
    assert abs(lean_at(found.axis, run_right, drop, free=True) - lean) < Fraction(1, 1000)
    assert lean_at(found.axis, -run_right, -drop) == lean, "the same line, whichever end is named first"


def test_a_square_cut_has_no_lean_to_drag() -> None:
    recipe = cut("across", 45)
    plain = recipe.plain
    del plain["steps"][1]["angle"]
    square = Recipe.from_plain(plain)
    assert lean_handle(square.steps[1], run(square, Given()).outcomes[1]) is None


@given(lean=st.floats(-80, 80), by=st.sampled_from([-1, 1]))
def test_steps_of_the_lean_go_one_way_and_end(lean: float, by: int) -> None:
    after = next_lean(lean, by)
    assert (after - lean) * by > 0 or lean * by >= LEANS[-1]
    assert after == lean or abs(after) in LEANS
