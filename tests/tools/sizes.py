"""Measure the code: functions stop at 60 lines with 95 of 100 within 35, files stop at 500 lines."""

import ast
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ("core", "desktop", "resources", "tests", "packaging")
FUNCTION_LIMIT, FUNCTION_P95, FILE_LIMIT = 60, 35, 500


@dataclass(frozen=True)
class Measured:
    """How many lines something has, with its place."""

    lines: int
    place: str


def python_files(root: Path) -> list[Path]:
    """Every Python file of the project."""
    return sorted(path for folder in SOURCES for path in (root / folder).rglob("*.py"))


def function_lengths(text: str, place: str) -> Iterator[Measured]:
    """Lines of each function in a file's text: signature, docstring and functions inside it included."""
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            lines = (node.end_lineno or node.lineno) - node.lineno + 1
            yield Measured(lines, f"{place}:{node.lineno} {node.name}")


def percentile(lengths: Sequence[int], share: float) -> int:
    """The least of the lengths that `share` of them do not exceed (nearest rank); 0 where there are none."""
    return sorted(lengths)[ceil(len(lengths) * share) - 1] if lengths else 0


def faults(root: Path = ROOT) -> list[str]:
    """What is too long, a sentence each."""
    files: list[Measured] = []
    functions: list[Measured] = []
    for path in python_files(root):
        text, place = path.read_text(encoding="utf-8"), str(path.relative_to(root))
        files.append(Measured(len(text.splitlines()), place))
        functions += function_lengths(text, place)
    found = [f"{m.place}: {m.lines} lines, {FILE_LIMIT} at most" for m in files if m.lines > FILE_LIMIT]
    found += [
        f"{m.place}: {m.lines} lines, {FUNCTION_LIMIT} at most" for m in functions if m.lines > FUNCTION_LIMIT
    ]
    p95 = percentile([m.lines for m in functions], 0.95)
    if p95 > FUNCTION_P95:
        found.append(f"95 of 100 functions should stay within {FUNCTION_P95} lines; they reach {p95}")
    return found


if __name__ == "__main__":
    problems = faults()
    print("\n".join(problems or ["functions and files are within their limits"]))
    sys.exit(bool(problems))
