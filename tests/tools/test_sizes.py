"""The measure of sizes finds what is too long, and only that."""

from pathlib import Path

import pytest

from tests.tools.sizes import FILE_LIMIT, FUNCTION_LIMIT, faults, percentile


def _function(lines: int, name: str = "long_one") -> str:
    return f"def {name}():\n" + "    pass\n" * (lines - 1)


def _write(root: Path, text: str) -> None:
    (root / "core").mkdir()
    (root / "core" / "made.py").write_text(text, encoding="utf-8")


def test_limits_may_be_reached(tmp_path: Path) -> None:
    functions = "".join(_function(10, f"short_{number}") for number in range(30))
    _write(tmp_path, functions + _function(FUNCTION_LIMIT))
    assert faults(tmp_path) == []


def test_a_function_over_the_limit_is_named_with_its_line(tmp_path: Path) -> None:
    functions = "".join(_function(2, f"short_{number}") for number in range(30))
    _write(tmp_path, functions + _function(FUNCTION_LIMIT + 1))
    assert faults(tmp_path) == [
        f"core/made.py:61 long_one: {FUNCTION_LIMIT + 1} lines, {FUNCTION_LIMIT} at most"
    ]


def test_a_method_counts_as_a_function(tmp_path: Path) -> None:
    method = "".join(f"    {line}\n" for line in _function(FUNCTION_LIMIT + 1).splitlines())
    _write(tmp_path, "class Holder:\n" + method)
    assert "core/made.py:2 long_one" in faults(tmp_path)[0]


def test_a_file_over_the_limit_is_named(tmp_path: Path) -> None:
    _write(tmp_path, "\n" * (FILE_LIMIT + 1))
    assert faults(tmp_path) == [f"core/made.py: {FILE_LIMIT + 1} lines, {FILE_LIMIT} at most"]


def test_many_middling_functions_are_too_long_together(tmp_path: Path) -> None:
    _write(tmp_path, "".join(_function(40, f"middling_{number}") for number in range(10)))
    assert faults(tmp_path) == ["95 of 100 functions should stay within 35 lines; they reach 40"]


@pytest.mark.parametrize(
    ("lengths", "share", "value"),
    [([], 0.95, 0), ([7], 0.95, 7), (list(range(1, 101)), 0.95, 95), ([3, 1, 2], 1.0, 3)],
)
def test_percentile_is_by_nearest_rank(lengths: list[int], share: float, value: int) -> None:
    assert percentile(lengths, share) == value
