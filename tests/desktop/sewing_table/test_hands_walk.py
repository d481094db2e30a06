"""Any gestures keep either a block that can be made or a named broken step, and undo leads all the way back."""

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPointF
from PySide6.QtWidgets import QApplication

from tests.desktop.sewing_table.conftest import ALT, NONE, Key, SetUp
from tests.desktop.sewing_table.hands import Hands, one_strip
from tests.desktop.sewing_table.test_table_top import CTRL, SHIFT

SIDES = ("left", "right", "top", "bottom")
KEYS = (
    Key.Key_R,
    Key.Key_D,
    Key.Key_L,
    Key.Key_T,
    Key.Key_U,
    Key.Key_P,
    Key.Key_O,
    Key.Key_F,
    Key.Key_S,
    Key.Key_Left,
)
gestures = st.lists(
    st.tuples(
        st.sampled_from(
            ["drop", "sew", "cut", "click", "square", "key", "step", "remove", "move", "undo", "redo"]
        ),
        st.integers(0, 9),
        st.integers(0, 9),
        st.sampled_from([NONE, NONE, ALT, SHIFT, CTRL]),
    ),
    min_size=4,
    max_size=12,
)


def do(hands: Hands, what: str, one: int, other: int, keys: object) -> None:
    """One gesture, aimed at whatever lies there."""
    work, bench = hands.work, hands.work.bench
    names = hands.names
    if what == "drop":
        hands.drop_fabric(one % 5)
    elif what == "undo":
        work.document.undo()
    elif what == "redo":
        work.document.redo()
    elif what == "step":
        bench.show_step(one)
    elif what == "remove":
        bench.remove()
    elif what == "move":
        bench.move(1 if one % 2 else -1)
    elif what == "key":
        hands.key(KEYS[one])
        hands.key(Key.Key_Return)
    elif names:
        aim(hands, what, names[one % len(names)], names[other % len(names)], SIDES[other % 4], keys)
    hands.top.drop_hold()
    QApplication.processEvents()


def aim(hands: Hands, what: str, name: str, other: str, side: str, keys: object) -> None:
    """A gesture on a piece."""
    if what == "sew":
        hands.sew(name, other, side, keys=keys)  # type: ignore[arg-type]
    elif what == "cut":
        hands.cut(name, side, 1.25, keys)  # type: ignore[arg-type]
    elif what == "click":
        hands.click(hands.middle(name))
    elif what == "square":
        corner = hands.piece(name).rect.bottomRight()
        hands.drag(corner, corner - QPointF(18, 9))


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(walk=gestures)
def test_gestures_leave_a_block_or_a_named_broken_step(
    set_up: SetUp, walk: list[tuple[str, int, int, object]]
) -> None:
    hands = Hands(set_up(one_strip()))
    work, bench = hands.work, hands.work.bench
    for what, one, other, keys in walk:
        do(hands, what, one, other, keys)
        assert (bench.facts is not None) != (bench.fault is not None)
        assert set(hands.names) <= set(bench.lying)
        if bench.facts is not None and bench.draft is not None:
            assert work.in_design.plain["steps"] == bench.draft.steps
    while work.document.undo_stack.canUndo():
        work.document.undo()
    assert work.in_design == one_strip()
    assert work.steps == one_strip().plain["steps"]
    work.table.close()
