"""Published values to hold the program against, and the account of which of them a test has asserted.

`check_values.json` has one row a value: where it was printed, what it takes and gives, the rounding of
its source, our own recomputation and the verdict, which starts with "disagrees" for a row known to be wrong.
"""

import json
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, TypeVar

import pytest

Test = TypeVar("Test", bound=Callable[..., object])


@dataclass(frozen=True)
class Row:
    """One published value; `inputs`, `expected` and `recomputed` are plain JSON in the unit `unit`."""

    id: str
    topic: str
    inputs: Mapping[str, Any]
    expected: Any
    unit: str
    rounding: str
    source: str
    address: str
    from_memory: bool
    recomputed: Any
    verdict: str
    note: str

    @property
    def known_wrong(self) -> bool:
        """Whether the printed value is an error of its source."""
        return self.verdict.startswith("disagrees")

    def __str__(self) -> str:
        return f"{self.id} ({self.source}, {self.address})"


@cache
def _all_rows() -> tuple[Row, ...]:
    path = Path(__file__).with_name("check_values.json")
    return tuple(Row(**row) for row in json.loads(path.read_text(encoding="utf-8")))


def rows(topic: str) -> tuple[Row, ...]:
    """The rows of a topic by its number or letter ("8", "W"), in the order of the file."""
    found = tuple(row for row in _all_rows() if row.topic.split()[0] == topic)
    if not found:
        raise KeyError(f"no published values of topic {topic}")
    return found


def check_covered(topic: str, asserted_ids: Collection[str], not_applicable: Mapping[str, str]) -> None:
    """Assert that each row of a topic is either asserted or set aside with a reason, and never both."""
    ids = {row.id for row in rows(topic)}
    asserted, aside = set(asserted_ids), set(not_applicable)
    assert not asserted & aside, f"asserted and set aside: {sorted(asserted & aside)}"
    assert not (asserted | aside) - ids, f"not rows of topic {topic}: {sorted((asserted | aside) - ids)}"
    assert not ids - asserted - aside, f"neither asserted nor set aside: {sorted(ids - asserted - aside)}"
    without_reason = sorted(name for name, reason in not_applicable.items() if len(reason.split()) < 4)
    assert not without_reason, f"set aside without a reason: {without_reason}"


class Topic:
    """The account of one topic in one test module.

    `@topic.asserts("H001", "H004")` runs a test once a row, given as its argument `row`, and counts those as
    asserted; `@topic.refutes("H025")` does so for rows known to be wrong, which the test must show to differ
    from ours. `topic.check_covered(not_applicable)` then holds the account against the file.
    """

    def __init__(self, topic: str) -> None:
        self.topic = topic
        self._rows = {row.id: row for row in rows(topic)}
        self._asserted: set[str] = set()

    def asserts(self, *ids: str) -> Callable[[Test], Test]:
        """Parametrize a test with rows that are right."""
        wrong = [name for name in ids if self._rows[name].known_wrong]
        assert not wrong, f"known to be wrong, so to be refuted: {wrong}"
        return self._parametrize(ids)

    def refutes(self, *ids: str) -> Callable[[Test], Test]:
        """Parametrize a test with rows that are known to be wrong."""
        right = [name for name in ids if not self._rows[name].known_wrong]
        assert not right, f"not known to be wrong: {right}"
        return self._parametrize(ids)

    def ids(self, where: Callable[[Row], bool]) -> tuple[str, ...]:
        """The ids of the rows that a condition holds for, in order, known wrong ones left out."""
        return tuple(row.id for row in self._rows.values() if not row.known_wrong and where(row))

    @property
    def asserted(self) -> frozenset[str]:
        """The ids of the rows that a test asserts or refutes."""
        return frozenset(self._asserted)

    def check_covered(self, not_applicable: Mapping[str, str]) -> None:
        """Assert that every row of the topic is asserted, refuted or set aside with a reason."""
        check_covered(self.topic, self._asserted, not_applicable)

    def _parametrize(self, ids: Collection[str]) -> Callable[[Test], Test]:
        assert ids, "a test of published values needs rows"
        self._asserted |= set(ids)
        parametrize = pytest.mark.parametrize("row", [self._rows[name] for name in ids], ids=list(ids))

        def decorate(test: Test) -> Test:
            decorated: Test = parametrize(test)
            return decorated

        return decorate
