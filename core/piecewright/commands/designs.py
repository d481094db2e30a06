"""What is asked of a design: its materials, and whether it is in order."""

from dataclasses import replace
from typing import Any

from piecewright.checks.check import check, check_arrangement
from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_measure,
    declare_report,
    design_at,
    print_json,
)
from piecewright.files.design_file import load_design
from piecewright.plan.materials import materials
from piecewright.plan.report import materials_report
from piecewright.plan.text import materials_text
from piecewright.units.measure import Measure
from piecewright.words.message import message


def _run_materials(chosen: Arguments) -> int:
    """The materials with all that a check finds: numbers for blocks that lie on one another must say so."""
    design = design_at(chosen)
    needed = replace(materials(design), findings=check_arrangement(design))
    if chosen.json:
        print_json(materials_report(needed))
    else:
        print(materials_text(needed, chosen_measure(chosen)), end="")
    return 0


def _run_check(chosen: Arguments) -> int:
    loaded = load_design(chosen.file)
    findings = check(loaded.design)
    measure = chosen_measure(chosen)
    if chosen.json:
        print_json([_finding(finding, measure) for finding in findings])
    else:
        for note in loaded.notes:
            print(note.text(measure))
        for finding in findings:
            print(f"{finding.severity}: {finding.sentence(measure)}")
        if not findings and not loaded.notes:
            print(message("commands.all-well", name=loaded.design.name).text(measure))
    return 2 if any(finding.severity == "error" for finding in findings) else 0


def _finding(finding: Any, measure: Measure) -> dict[str, str]:
    return {
        "code": finding.code,
        "severity": finding.severity,
        "where": finding.where,
        "text": finding.sentence(measure),
    }


DESIGN_COMMANDS = (
    Command("materials", "commands.materials", declare_report, _run_materials),
    Command("check", "commands.check", declare_report, _run_check),
)
