"""What the last step changed, or what is tried out would, as rows: sets, strips, cloth, backing and price."""

from collections.abc import Iterator

from PySide6.QtCore import QCoreApplication

from piecewright.plan.difference import difference
from piecewright.plan.materials import Materials
from piecewright.units.measure import Measure
from piecewright_qt.materials.rows import Row

_Asked = tuple[Materials | None, Materials, Measure, bool, bool]
HEADING = "heading:changes"


class ChangeLister:
    """Keeps the rows of the last two questions, so that what was shown before is not set in type again."""

    def __init__(self) -> None:
        self._known: list[tuple[_Asked, tuple[Row, ...]]] = []

    def rows(
        self, before: Materials | None, after: Materials, measure: Measure, *, tried: bool, worded: bool
    ) -> tuple[Row, ...]:
        """The heading with the count of changes, always there; then each change in words where they are asked for."""
        asked = (before, after, measure, tried, worded)
        for known, rows in self._known:
            if known[0] is before and known[1] is after and known[2:] == asked[2:]:
                return rows
        rows = tuple(change_rows(before, after, measure, tried=tried, worded=worded))
        self._known = [(asked, rows), *self._known[:1]]
        return rows


def change_rows(
    before: Materials | None, after: Materials, measure: Measure, *, tried: bool, worded: bool
) -> Iterator[Row]:
    """The heading with the count of changes, always there; then each change in words where they are asked for."""
    found = () if before is None or before is after else difference(before, after)
    title = _say("This would change") if tried else _say("The last step changed")
    yield Row(HEADING, "changes", "heading", title, str(len(found)) if found else _say("nothing"))
    for place, change in enumerate(found if worded else ()):
        yield Row(("change", place), "changes", "finding", change.said.text(measure))


def _say(text: str) -> str:
    return QCoreApplication.translate("materials", text)
