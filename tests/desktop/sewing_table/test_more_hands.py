"""Seams left open at one end, blocks of the shelf made as pieces, and leaning cuts dragged by their ends."""

from fractions import Fraction
from typing import Any

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from piecewright.edit.registry import call
from piecewright.making.recipe import Recipe
from piecewright.model.value import Letters
from piecewright.units.length import parse_length
from tests.desktop.sewing_table.conftest import ALT, Key, SetUp, Work, move
from tests.desktop.sewing_table.hands import LEFT, Hands, one_strip
from tests.desktop.sewing_table.test_steps_view import view_of

SHIFT = Qt.KeyboardModifier.ShiftModifier


def recipe_of(*steps: dict[str, Any], block: list[str]) -> Recipe:
    return Recipe.from_plain({"recipe": 1, "name": "By hand", "steps": list(steps), "block": block})


def lay(name: str, letter: str, width: str, length: str) -> dict[str, Any]:
    return {"make": name, "lay": {"fabric": letter, "width": width, "length": length}}


@pytest.fixture
def hands(set_up: SetUp) -> Hands:
    """A long strip, and a square that is shorter than it."""
    steps = (lay("long", "A", "2 1/2", "12 1/2"), lay("square", "B", "6 1/2", "6 1/2"))
    work = set_up(recipe_of(*steps, block=["square"]))
    work.bench.show_step(1)
    return Hands(work)


@pytest.mark.parametrize(("share", "leave"), [(0.2, "left"), (0.8, "right")])
def test_with_shift_the_stitches_stop_where_the_pointer_is(hands: Hands, share: float, leave: str) -> None:
    square = hands.piece("square")
    start, end = square.edge("top")
    spot = start + (end - start) * share - QPointF(0, 3)
    hands.drag(hands.middle("long"), spot, SHIFT)
    assert hands.last["sew"] == ["long", "square"]
    found: Any = hands.last["leave"]
    assert found[0] == leave
    assert abs(parse_length(found[1]) - Fraction("1.3")) <= Fraction(1, 4)
    assert hands.work.bench.fault_step is None
    assert hands.piece("sewn").cloth.state == "partial"


def test_a_seam_is_left_open_by_keys_alone_and_may_be_finished_later(hands: Hands) -> None:
    hands.top.mark("long")
    hands.key(Key.Key_S, SHIFT)
    hands.key(Key.Key_Up)
    assert "open" in hands.line
    hands.key(Key.Key_Up)
    hands.type("3 1/4")
    hands.key(Key.Key_Return)
    assert hands.last["leave"] == ["right", "3 1/4"]
    hands.key(Key.Key_N)
    assert hands.last["finish"] == "sewn"
    fault = hands.work.bench.fault
    assert fault is not None, "until something is sewn over its other end the edge is not even"
    hands.work.document.undo()
    assert hands.work.bench.fault_step is None


def test_brackets_move_where_the_stitches_stop(hands: Hands) -> None:
    hands.top.mark("long")
    hands.key(Key.Key_S, SHIFT)
    hands.key(Key.Key_Up)
    hands.type("[[")
    hands.key(Key.Key_Return)
    assert hands.last["leave"] == ["left", "3"]


def test_even_edges_are_refused_in_words(set_up: SetUp) -> None:
    work = set_up(recipe_of(lay("a", "A", "2 1/2", "9"), lay("b", "B", "2 1/2", "9"), block=["b"]))
    work.bench.show_step(1)
    hands = Hands(work)
    hands.top.mark("a")
    hands.key(Key.Key_S, SHIFT)
    hands.key(Key.Key_Down)
    assert hands.line.startswith("⚠")
    hands.key(Key.Key_Return)
    assert work.steps == work.in_design.plain["steps"]


def with_second_block(work: Work) -> None:
    """One more block on the shelf, in fabrics that the first does not have."""
    design = work.document.design
    fabrics = Letters({"A": (design.fabrics[3].id,), "B": (design.fabrics[0].id,)})
    rail = Recipe.from_plain({
        "recipe": 1, "name": "Pair", "sizes": {"w": ["2 1/2", "3 1/2"]},
        "steps": [
            {"make": "a", "lay": {"fabric": "A", "width": "w", "length": "9"}},
            {"make": "b", "lay": {"fabric": "B", "width": "w", "length": "9"}},
            {"make": "pair", "sew": ["a", "b"], "axis": "down"},
        ],
        "block": ["pair"],
    })  # fmt: skip
    assert work.document.perform(call("add-block", name="Pair", new_recipe=rail, fabrics=fabrics))


def test_a_block_dropped_is_made_as_a_piece_in_the_fabrics_it_has(set_up: SetUp) -> None:
    work = set_up(one_strip())
    with_second_block(work)
    hands = Hands(work)
    count = work.document.undo_stack.count()
    assert hands.drop_block(1)
    assert hands.names == ["a", "used"]
    assert work.bench.fault_step is None
    assert work.document.undo_stack.count() == count + 1
    fabrics = {work.bench.fabrics[patch.letter][0].id for patch in hands.piece("used").cloth.patches}
    assert fabrics == {work.document.design.fabrics[3].id, work.document.design.fabrics[0].id}


def test_a_block_is_no_piece_of_itself(set_up: SetUp) -> None:
    hands = Hands(set_up(one_strip()))
    assert not hands.drop_block(0)
    assert hands.names == ["a"]


@pytest.fixture
def leaning(set_up: SetUp) -> Work:
    """A strip cut at a lean of 45 degrees, with that step in view."""
    cut = {"make": "part", "cut": "a", "axis": "across", "every": "3", "count": 3, "angle": 45}
    work = set_up(recipe_of(lay("a", "A", "4 1/2", "38"), cut, square("part.1"), block=["trued"]))
    work.bench.show_step(1)
    return work


def square(piece: str) -> dict[str, Any]:
    return {"make": "trued", "square": piece, "width": "fit", "height": "fit"}


def drag_end(work: Work, run: float, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    """Drag the end of the middle cut to so many times its drop to the left."""
    grip = work.table.canvas.lean
    assert grip is not None
    drop = grip.end.y() - grip.stays.y()
    to = (grip.stays + QPointF(-run * drop, drop)).toPoint()
    QTest.mousePress(work.table.canvas, LEFT, Qt.KeyboardModifier.NoModifier, grip.end.toPoint())
    move(work.table.canvas, QPointF(to), keys)
    QTest.mouseRelease(work.table.canvas, LEFT, keys, to)


@pytest.mark.parametrize(("run", "lean"), [(0.6, 30), (0.40, 22.5), (1.8, 60), (-1.05, -45)])
def test_the_end_of_a_leaning_cut_is_dragged_to_a_usual_lean(leaning: Work, run: float, lean: float) -> None:
    drag_end(leaning, run)
    assert leaning.steps[1]["angle"] == lean
    leaning.document.undo()
    assert leaning.steps[1]["angle"] == 45


def test_arrows_go_to_the_next_usual_lean_and_the_sentence_takes_any(leaning: Work) -> None:
    canvas = leaning.table.canvas
    canvas.setFocus()
    for _ in canvas.grips:
        QTest.keyClick(canvas, Key.Key_Space)
    QTest.keyClick(canvas, Key.Key_Left)
    assert leaning.steps[1]["angle"] == 30
    QTest.keyClick(canvas, Key.Key_Left)
    assert leaning.steps[1]["angle"] == 22.5
    view = view_of(leaning)
    at = next(at for at, number in enumerate(view.numbers(1)) if number.place.key == "angle")
    view.number_typed(1, at, "37.25", None)
    assert leaning.steps[1]["angle"] == 37.25


def test_alt_lets_go_of_the_usual_leans(leaning: Work) -> None:
    drag_end(leaning, 0.7, ALT)  # the arc tangent of 0.7 is 34.99 degrees
    assert abs(leaning.steps[1]["angle"] - 35) <= 1
