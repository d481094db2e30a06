"""How a top is sewn together: text, JSON, or every step drawn."""

import argparse
from pathlib import Path

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_measure,
    declare_report,
    design_at,
    print_json,
)
from piecewright.files.atomic import write_whole
from piecewright.plan.pressing import quilt_pressing
from piecewright.plan.sewing_report import sewing_report, sewing_text
from piecewright.render.sewing_page import sewing_svg
from piecewright.words.message import message


def _declare(parser: argparse.ArgumentParser) -> None:
    declare_report(parser)
    parser.add_argument("--svg", type=Path, metavar="PICTURE", help=str(message("commands.sewing-svg")))


def _run(chosen: Arguments) -> int:
    design, measure = design_at(chosen), chosen_measure(chosen)
    found = quilt_pressing(design)
    if chosen.svg is not None:
        write_whole(chosen.svg, sewing_svg(design, measure).encode())
    if chosen.json:
        print_json(sewing_report(design, found))
    elif chosen.svg is None:
        print(sewing_text(design, found, measure), end="")
    else:
        print(message("commands.written", place=str(chosen.svg)))
    return 0


SEWING_COMMANDS = (Command("sewing", "commands.sewing", _declare, _run),)
