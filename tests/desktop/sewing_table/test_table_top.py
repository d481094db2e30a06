"""Every verb by hand on the pieces that lie on the table, with the mouse and with keys alone."""

from fractions import Fraction
from typing import Any

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt
from PySide6.QtTest import QTest

from piecewright.making.recipe import Recipe
from tests.desktop.sewing_table.conftest import ALT, Key, SetUp
from tests.desktop.sewing_table.hands import ONE_STRIP, Hands, drop_on, one_strip

SHIFT, CTRL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier


def recipe_of(*steps: dict[str, Any], block: list[str], stack: int = 1) -> Recipe:
    return Recipe.from_plain(
        {"recipe": 1, "name": "By hand", "steps": list(steps), "block": block, "stack": stack}
    )


def lay(name: str, letter: str, width: str = "2 1/2", length: str = "20") -> dict[str, Any]:
    return {"make": name, "lay": {"fabric": letter, "width": width, "length": length}}


TWO = (lay("a", "A"), lay("b", "B"))


@pytest.fixture
def hands(set_up: SetUp) -> Hands:
    """Two strips on the table."""
    work = set_up(recipe_of(*TWO, block=["b"]))
    work.bench.show_step(1)
    return Hands(work)


def test_a_fabric_dropped_lays_a_strip_of_it_in_one_step_of_undo(set_up: SetUp) -> None:
    hands = Hands(set_up(one_strip()))
    hands.drop_fabric(3)
    assert hands.names == ["a", "strip"]
    assert hands.last == lay("strip", "B")
    block = hands.work.bench.block
    assert block is not None
    assert block.fabrics["B"] == (hands.work.document.design.fabrics[3].id,)
    hands.drop_fabric(3, on=hands.work.table.canvas)
    assert hands.last["lay"] == lay("", "B")["lay"]
    hands.work.document.undo()
    hands.work.document.undo()
    assert hands.work.in_design == one_strip()
    assert hands.work.steps == ONE_STRIP["steps"]


def test_what_is_no_fabric_of_this_design_is_not_taken(hands: Hands) -> None:
    stranger = QMimeData()
    stranger.setData("application/x-piecewright-fabric", b"f999")
    assert not drop_on(hands.top, stranger, QPoint(60, 60))
    assert not drop_on(hands.top, QMimeData(), QPoint(60, 60))


@pytest.mark.parametrize(
    ("side", "sewn", "axis"),
    [
        ("bottom", ["a", "b"], "down"),
        ("top", ["b", "a"], "down"),
        ("right", ["a", "b"], "across"),
        ("left", ["b", "a"], "across"),
    ],
)
def test_a_strip_dragged_to_an_edge_is_sewn_there(
    hands: Hands, side: str, sewn: list[str], axis: str
) -> None:
    hands.sew("b", "a", side)
    assert hands.last == {"make": "sewn", "sew": sewn, "axis": axis}
    assert hands.names == ["sewn"]
    assert hands.work.document.undo_stack.count() == 1


def test_the_ghost_says_what_will_be_sewn_before_it_is(hands: Hands) -> None:
    hands.pull(hands.middle("b"), hands.to_edge("a", "bottom"))
    assert "Sew a and b" in hands.line
    assert "20 x 4 1/2 in unfinished" in hands.line
    assert len(hands.work.steps) == 2
    hands.key(Key.Key_Escape)
    hands.release(hands.to_edge("a", "bottom"))
    assert len(hands.work.steps) == 2


def test_pieces_dropped_one_after_the_other_on_the_outer_edge_are_one_step(set_up: SetUp) -> None:
    work = set_up(recipe_of(*TWO, lay("c", "C"), block=["c"]))
    work.bench.show_step(2)
    hands = Hands(work)
    hands.sew("b", "a", "bottom")
    hands.sew("c", "sewn", "bottom")
    assert hands.last == {"make": "sewn", "sew": ["a", "b", "c"], "axis": "down"}
    # A rail of three 2 1/2 in strips: 6 1/2 in (common practice, no source).
    assert hands.piece("sewn").cloth.box.height == Fraction("6.5")


@pytest.mark.parametrize(("along", "align"), [(0.05, "start"), (0.5, "centre"), (0.95, "end")])
def test_unlike_edges_are_sewn_with_the_ends_even_that_are_nearest(
    set_up: SetUp, along: float, align: str
) -> None:
    work = set_up(recipe_of(lay("a", "A"), lay("b", "B", length="12"), block=["b"]))
    work.bench.show_step(1)
    hands = Hands(work)
    hands.sew("b", "a", "bottom", along)
    assert hands.last == {"make": "sewn", "sew": ["a", "b"], "axis": "down", "align": align}


def test_where_sewing_can_not_be_it_is_said_and_nothing_is_done(set_up: SetUp) -> None:
    slant = {"make": "s", "slice": "a", "from": ["left", "1"], "to": ["bottom", "6"]}
    work = set_up(recipe_of(*TWO, slant, block=["b"]))
    work.bench.show_step(2)
    hands = Hands(work)
    hands.sew("b", "s.2", "left")
    assert len(work.steps) == 3
    assert hands.line.startswith("⚠")


def test_a_ruler_drawn_from_an_edge_cuts_on_the_eighth(hands: Hands) -> None:
    hands.cut("a", "left", 6.07)
    assert hands.last == {"make": "part", "cut": "a", "axis": "across", "widths": ["6", "14"]}
    hands.cut("part.2", "left", 6.04)
    assert hands.last["widths"] == ["6", "6", "8"]
    assert hands.work.bench.fault_step is None


def test_alt_lets_go_of_the_snap_of_the_ruler(hands: Hands) -> None:
    hands.cut("a", "left", 6.06, ALT)
    first = str(hands.last["widths"][0])  # type: ignore[index]
    assert first.startswith(("6 ", "5 "))
    assert first.split("/")[-1] in ("16", "32", "64")


def test_a_ruler_drawn_from_the_right_measures_from_there(hands: Hands) -> None:
    hands.cut("a", "right", 5)
    assert hands.last["widths"] == ["15", "5"]
    hands.cut("b", "top", 1)
    assert hands.last == {"make": "part2", "cut": "b", "axis": "down", "widths": ["1", "1 1/2"]}


def test_shift_cuts_as_often_as_there_is_cloth(hands: Hands) -> None:
    hands.cut("a", "left", 6, SHIFT)
    assert hands.last == {"make": "part", "cut": "a", "axis": "across", "every": "6", "count": 3}
    hands.cut("b", "right", 6, SHIFT)
    assert hands.last["trim"] == "2"


def test_a_ruler_let_go_outside_the_cloth_cuts_nothing(hands: Hands) -> None:
    hands.cut("a", "left", -0.7)
    assert len(hands.work.steps) == 2


def test_a_line_drawn_with_ctrl_slices_from_edge_to_edge(hands: Hands) -> None:
    piece = hands.piece("a")
    hands.drag(piece.point(6, 0) + QPointF(0, 1), piece.point(9, 2.4), CTRL)
    assert hands.last == {"make": "side", "slice": "a", "from": ["top", "6"], "to": ["bottom", "9"]}


def test_a_ruler_that_leans_cuts_at_an_angle(hands: Hands) -> None:
    piece = hands.piece("a")
    start, end = piece.edge("left")
    at = (start + end) / 2
    hands.pull(at, at + QPointF(4 * piece.inch, 0))
    for _ in range(3):
        hands.type("]")
    hands.release(at + QPointF(4 * piece.inch, 0))
    assert hands.last == {
        "make": "part", "cut": "a", "axis": "across", "every": "4", "count": "fit", "angle": 45.0,
    }  # fmt: skip
    assert hands.work.bench.fault_step is None


def test_a_click_turns_by_a_quarter_and_again_by_the_same_step(hands: Hands) -> None:
    hands.click(hands.middle("b"))
    assert hands.last == {"make": "turned", "turn": "b", "by": 90}
    assert hands.piece("turned").rect.height() > hands.piece("turned").rect.width()
    for by in (180, 270):
        hands.click(hands.middle("turned"))
        assert hands.last["by"] == by
    hands.click(hands.middle("turned"))
    assert hands.work.steps == list(TWO)


def test_layers_pulled_out_of_a_pile_go_to_its_bottom(set_up: SetUp) -> None:
    work = set_up(recipe_of(lay("a", "A"), block=["a"], stack=5))
    hands = Hands(work)
    piece = hands.piece("a")
    start = piece.rect.bottomRight() + QPointF(-40, piece.fanned - 3)
    hands.drag(start, start + QPointF(0, 50))
    assert hands.last == {"make": "pile", "shuffle": "a", "by": 2}


def test_a_corner_dragged_inward_squares_up(hands: Hands) -> None:
    piece = hands.piece("a")
    hands.drag(piece.rect.bottomRight(), piece.point(12, 2))
    assert hands.last == {
        "make": "squared", "square": "a", "width": "12", "height": "2", "from": "top left",
    }  # fmt: skip


def test_a_square_dropped_on_a_corner_is_sewn_over_it(set_up: SetUp) -> None:
    steps = (lay("a", "A", "8", "8"), lay("b", "B", "2 1/2", "2 1/2"))
    work = set_up(recipe_of(*steps, block=["b"]))
    work.bench.show_step(1)
    hands = Hands(work)
    hands.drag(hands.middle("b"), hands.piece("a").rect.topRight() + QPointF(-9, 9))
    assert hands.last == {"make": "cornered", "corner": "a", "with": "b", "at": "top right"}
    assert work.bench.fault_step is None


def test_a_piece_laid_on_another_with_ctrl_is_faced_and_a_click_opens_it(set_up: SetUp) -> None:
    work = set_up(recipe_of(lay("a", "A", "5", "5"), lay("b", "B", "5", "5"), block=["b"]))
    work.bench.show_step(1)
    hands = Hands(work)
    hands.drag(hands.middle("b"), hands.middle("a"), CTRL)
    assert hands.last["face"] == ["a", "b"]
    hands.click(hands.middle(hands.names[-1]))
    assert "open" in hands.last


def test_a_tube_is_opened_by_a_click_on_a_seam(set_up: SetUp) -> None:
    sewn = {"make": "set", "sew": ["a", "b"], "axis": "down"}
    work = set_up(recipe_of(*TWO, sewn, {"make": "tube", "loop": "set", "axis": "down"}, block=["tube"]))
    work.bench.show_step(3)
    hands = Hands(work)
    piece = hands.piece("tube")
    hands.click(piece.point(8, 2))
    assert hands.last["unpick"] == "tube"
    assert work.bench.fault_step is None


def test_pieces_are_marked_and_sewn_by_keys_alone(hands: Hands) -> None:
    hands.top.setFocus()
    hands.key(Key.Key_Left)
    assert hands.top.marked == ["a"]
    hands.key(Key.Key_Right, SHIFT)
    assert hands.top.marked == ["a", "b"]
    hands.key(Key.Key_S)
    assert hands.last == {"make": "sewn", "sew": ["a", "b"], "axis": "down"}


def test_one_piece_is_carried_to_an_edge_by_keys(hands: Hands) -> None:
    hands.key(Key.Key_S)
    hands.key(Key.Key_Left)
    assert "Sew b and a" in hands.line
    hands.key(Key.Key_Return)
    assert hands.last == {"make": "sewn", "sew": ["b", "a"], "axis": "across"}


def test_the_ruler_is_moved_by_arrows_and_placed_by_numbers(hands: Hands) -> None:
    hands.key(Key.Key_C)
    hands.key(Key.Key_Right)
    hands.key(Key.Key_Return)
    assert hands.last["widths"] == ["10 1/8", "9 7/8"]
    hands.key(Key.Key_C)
    hands.type("4 3/16")
    hands.key(Key.Key_Return)
    assert hands.last["widths"] == ["10 1/8", "4 3/16", "5 11/16"]
    hands.key(Key.Key_C)
    hands.type("1")
    hands.key(Key.Key_Return, SHIFT)
    assert (hands.last["every"], hands.last["count"]) == ("1", 5)


def test_every_other_verb_by_its_key(set_up: SetUp) -> None:
    for key, verb in ((Key.Key_R, "turn"), (Key.Key_D, "slice"), (Key.Key_T, "loop"), (Key.Key_L, "lay")):
        work = set_up(recipe_of(*TWO, block=["b"]))
        work.bench.show_step(1)
        hands = Hands(work)
        hands.key(key)
        assert verb in hands.last
        assert work.bench.fault_step is None, work.bench.fault
    hands.key(Key.Key_Q)
    hands.key(Key.Key_Left)
    hands.key(Key.Key_Return)
    assert hands.last["width"] == "19 7/8"


def test_escape_drops_what_keys_took_hold_of(hands: Hands) -> None:
    for key in (Key.Key_C, Key.Key_Q, Key.Key_S):
        hands.key(key)
        assert hands.top.hold is not None
        hands.key(Key.Key_Escape)
        assert hands.top.hold is None
    assert len(hands.work.steps) == 2


def test_buttons_and_menu_do_the_verbs_to_the_piece_in_hand(hands: Hands) -> None:
    hands.click(hands.middle("a"), SHIFT)
    assert hands.top.in_hand is hands.piece("a")
    QTest.mouseClick(hands.work.table.work.verbs.buttons["turn"], Qt.MouseButton.LeftButton)
    assert hands.last["turn"] == "a"
    menu = hands.top.menu()
    next(action for action in menu.actions() if action.data() == "slice").trigger()
    assert hands.last["slice"] == "turned"


def test_pieces_are_heard_by_number_name_and_size(hands: Hands) -> None:
    from piecewright_qt.sewing_table.piece_voice import PieceVoice

    heard = [one.accessibleName() for one in hands.top.findChildren(PieceVoice) if not one.isHidden()]
    assert heard == ["1, a: 20 x 2 1/2 in cut", "2, b: 20 x 2 1/2 in cut"]


def test_labels_never_lie_on_each_other_or_on_cloth(set_up: SetUp) -> None:
    cut = {"make": "part", "cut": "a", "axis": "across", "every": "1", "count": 20}
    for percent in (100, 200):
        work = set_up(recipe_of(*TWO, cut, block=["b"]), text_percent=percent)
        work.bench.show_step(2)
        pieces = Hands(work).top.pieces
        assert len(pieces) == 21
        for one in pieces:
            for other in pieces:
                if one is not other:
                    assert not one.label.intersects(other.label)
                assert not one.label.intersects(other.rect)
