"""The numbers of the Sewing table: the order that sews bias soonest, and seams that lie thick."""

from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from piecewright.making.given import Given
from piecewright.making.pressing_plan import plan_of
from piecewright.making.pressing_words import bulges
from piecewright.making.recipe import Recipe
from piecewright.making.run import run
from piecewright.making.stretch import stretch_of
from tests.desktop.sewing_table.conftest import SetUp
from tests.desktop.sewing_table.test_numbers import LEFT, unfold


def waiting_slice() -> Recipe:
    """A piece is sliced before the strip that it is sewn to is even laid."""
    steps: list[dict[str, object]] = [
        {"lay": {"fabric": "A", "width": "6 1/2", "length": "10"}, "make": "a"},
        {"slice": "a", "from": ["top", "4"], "to": ["bottom", "5"], "make": "part"},
        {"lay": {"fabric": "B", "width": "2 1/2", "length": "6"}, "make": "b"},
        {"sew": ["part.1", "part.2"], "axis": "across", "match": "points", "make": "joined"},
        {"square": "joined", "width": "6", "height": "6", "make": "middle"},
        {"sew": ["middle", "b"], "axis": "down", "make": "block"},
    ]
    return Recipe.from_plain({"recipe": 1, "name": "Waits", "steps": steps, "block": ["block"]})


def test_the_steps_are_put_in_the_order_that_sews_bias_soonest(set_up: SetUp) -> None:
    work = set_up(waiting_slice())
    section = work.table.numbers.stretch
    unfold(work, section)
    assert section.edges.texts[-1].startswith(
        "Bias edges lie open less long when the steps are done in this order"
    )
    assert section.sooner.isVisibleTo(section)
    QTest.mouseClick(section.sooner, LEFT)
    QApplication.processEvents()
    assert stretch_of(run(work.in_design, Given())).is_soonest
    assert not section.sooner.isVisibleTo(section)
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    assert work.in_design == waiting_slice()


def test_where_seams_lie_thick_they_may_be_opened(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    section = work.table.numbers.stretch
    unfold(work, section)
    best = {bulge.step for bulge in bulges(plan_of(work.in_design, Given())) if bulge.best == "opened"}
    assert [button.accessibleName() for button in section.openings.buttons] == [
        f"Press {step} open" for step in best
    ]
    assert section.openings.isVisibleTo(section) == bool(best)
