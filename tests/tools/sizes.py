"""Measure the code: functions stop at 60 lines with 95 of 100 within 35, files stop at 500 lines."""

import ast
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
FUNCTION_LIMIT, FUNCTION_P95, FILE_LIMIT = 60, 35, 500


def python_files() -> list[Path]:
    """Every Python file of the project."""
    return sorted(path for folder in ("core", "desktop", "resources", "tests") for path in (ROOT / folder).rglob("*.py"))


def function_lengths(path: Path) -> list[tuple[int, str]]:
    """Lines of each function in a file, docstring and signature included, with its place."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    return [
        ((node.end_lineno or node.lineno) - node.lineno + 1, f"{path.relative_to(ROOT)}:{node.lineno} {node.name}")
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    ]


def faults() -> list[str]:
    """What is too long, a sentence each."""
    files = python_files()
    lengths = sorted(length for path in files for length in function_lengths(path))
    found = [f"{place}: {n} lines" for path in files for n, place in lengths_over(path)]
    found += [
        f"{path.relative_to(ROOT)}: {n} lines in one file"
        for path in files
        if (n := len(path.read_text(encoding="utf-8").splitlines())) > FILE_LIMIT
    ]
    p95 = lengths[int(len(lengths) * 0.95)] if lengths else 0
    if p95 > FUNCTION_P95:
        found.append(f"95 of 100 functions should stay within {FUNCTION_P95} lines; they reach {p95}")
    return found


def lengths_over(path: Path) -> list[tuple[int, str]]:
    """The functions of a file that are over the limit."""
    return [entry for entry in function_lengths(path) if entry[0] > FUNCTION_LIMIT]


if __name__ == "__main__":
    problems = faults()
    print("\n".join(problems))
    sys.exit(bool(problems))
