"""The words of every step's picture stand apart, in small places too."""

import pytest

from piecewright.making.given import Given
from piecewright.making.reading import verb_word
from piecewright.making.run import attempt
from piecewright.making.shipped import shipped_recipes
from piecewright.making.verbs import VERBS
from piecewright.units.measure import Measure
from piecewright_qt.sewing_table.sheet import Subject, sheet_of_figure, sheet_with_handles
from tests.core.render.labels import overlapping


@pytest.mark.parametrize("room", [(6.0, 4.0), (3.6, 1.7)])
@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_no_words_lie_on_each_other(name: str, room: tuple[float, float]) -> None:
    """At a text scale of 1 and at 2, the smallest place being the least that the canvas gives a picture."""
    making = attempt(shipped_recipes()[name], Given())
    for index, outcome in enumerate(making.outcomes):
        subject, step = Subject(making, index, {}, Measure()), making.recipe.steps[index]
        handles = VERBS[verb_word(step)].handles(step, outcome)
        sheet = (
            sheet_with_handles(subject, handles[0].piece, room) if handles else sheet_of_figure(subject, room)
        )
        assert overlapping(sheet.draw) == [], (index, sheet.look.scale)
