"""What is asked of a design: its materials, and whether it is in order."""

import argparse
import sys
from dataclasses import replace
from pathlib import Path
from typing import Any

from piecewright.checks.check import check, check_arrangement
from piecewright.checks.recipe_check import check_recipe
from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_measure,
    declare_json,
    declare_report,
    design_at,
    print_json,
    recipe_at,
)
from piecewright.commands.shopping import SHOPPING
from piecewright.errors import Finding
from piecewright.files.design_file import load_design
from piecewright.making.shipped import ENDING
from piecewright.plan.materials import materials
from piecewright.plan.report import materials_report
from piecewright.plan.text import materials_text
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message


def _run_materials(chosen: Arguments) -> int:
    """The materials with all that a check finds: numbers for blocks that lie on one another must say so.

    They are printed in any case; errors among the findings are also told apart, and end with 2 as `check` does.
    """
    design = design_at(chosen)
    needed = replace(materials(design), findings=check_arrangement(design))
    if chosen.json:
        print_json(materials_report(needed))
    else:
        print(materials_text(needed, chosen_measure(chosen)), end="")
    errors = [finding for finding in needed.findings if finding.severity == "error"]
    for finding in errors:
        print(f"{finding.severity}: {finding.sentence(chosen_measure(chosen))}", file=sys.stderr)
    return 2 if errors else 0


def _declare_check(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.either-file")))
    declare_json(parser)


def _run_check(chosen: Arguments) -> int:
    name, notes, findings = _checked(chosen.file)
    measure = chosen_measure(chosen)
    if chosen.json:
        print_json([_finding(finding, measure) for finding in findings])
    else:
        for note in notes:
            print(note.text(measure))
        for finding in findings:
            print(f"{finding.severity}: {finding.sentence(measure)}")
        if not findings and not notes:
            print(message("commands.all-well", name=name).text(measure))
    return 2 if any(finding.severity == "error" for finding in findings) else 0


def _checked(path: Path) -> tuple[str, tuple[Message, ...], tuple[Finding, ...]]:
    """The name of what was looked over, what is to know of its file, and the findings."""
    if path.name.endswith(ENDING) or not path.exists():
        recipe = recipe_at(path)
        return recipe.name, (), check_recipe(recipe)
    loaded = load_design(path)
    return loaded.design.name, loaded.notes, check(loaded.design)


def _finding(finding: Any, measure: Measure) -> dict[str, str]:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "where": finding.where,
        "text": finding.sentence(measure),
    }


DESIGN_COMMANDS = (
    Command("materials", "commands.materials", declare_report, _run_materials),
    SHOPPING,
    Command("check", "commands.check", _declare_check, _run_check),
)
