"""What to cut from what: the list, the plain table, the drawing."""

import argparse
from dataclasses import replace
from pathlib import Path

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_measure,
    declare_report,
    design_at,
    print_json,
)
from piecewright.cutting.table import CHOICES, DesignCutting, best_cutting, cutting_plan
from piecewright.cutting.table_report import cutting_report
from piecewright.cutting.table_text import cutting_csv, cutting_text
from piecewright.errors import UsageError
from piecewright.files.atomic import write_whole
from piecewright.making.faults import nearest
from piecewright.model.design import Design
from piecewright.render.cutting_picture import cutting_pictures
from piecewright.words.message import message


def _declare(parser: argparse.ArgumentParser) -> None:
    declare_report(parser)
    parser.add_argument("--fabric", metavar="NAME", help=str(message("commands.cutting-fabric")))
    parser.add_argument("--csv", action="store_true", help=str(message("commands.cutting-csv")))
    parser.add_argument("--svg", type=Path, metavar="PICTURE", help=str(message("commands.cutting-svg")))
    parser.add_argument("--best", action="store_true", help=str(message("commands.cutting-best")))
    parser.add_argument(
        "--choice", choices=CHOICES, default="level", help=str(message("commands.cutting-choice"))
    )
    parser.add_argument(
        "--left-handed", action="store_true", help=str(message("commands.cutting-left-handed"))
    )


def _run(chosen: Arguments) -> int:
    design, measure = design_at(chosen), chosen_measure(chosen)
    table = cutting_plan(design, chosen.choice)
    if chosen.fabric is not None:
        table = _only(table, design, chosen.fabric)
    if chosen.best or chosen.choice in ("best", "any-order"):
        table = replace(best_cutting(table), choice="any-order" if chosen.choice == "any-order" else "best")
    if chosen.svg is not None:
        _write_pictures(table, design, chosen)
    if chosen.json:
        print_json(cutting_report(table))
    elif chosen.csv:
        print(cutting_csv(table, measure), end="")
    elif chosen.svg is None:
        print(cutting_text(table, measure), end="")
    return 0


def _only(table: DesignCutting, design: Design, wanted: str) -> DesignCutting:
    """The cutting of one fabric, by its id or its name. Raises UsageError for one of which nothing is cut."""
    ids = {fabric.id for fabric in design.fabrics if wanted in (fabric.id, fabric.name)}
    found = tuple(each for each in table.fabrics if each.fabric in ids or str(each.name) == wanted)
    if not found:
        names = tuple(str(each.name) for each in table.fabrics)
        near = nearest(wanted, names)
        hint = message("model.did-you-mean", word=near) if near else None
        raise UsageError(message("commands.cutting-no-fabric", name=wanted), hint, "--fabric")
    return replace(table, fabrics=found)


def _write_pictures(table: DesignCutting, design: Design, chosen: Arguments) -> None:
    """One file for each page: the name as given, and with -2, -3 ... before its ending."""
    pictures = cutting_pictures(table, design, chosen_measure(chosen), left_handed=chosen.left_handed)
    for number, picture in enumerate(pictures, 1):
        name = chosen.svg.name if number == 1 else f"{chosen.svg.stem}-{number}{chosen.svg.suffix}"
        place = chosen.svg.with_name(name)
        write_whole(place, picture.encode())
        if not chosen.json and not chosen.csv:
            print(message("commands.written", place=str(place)))


CUTTING_COMMANDS = (Command("cutting", "commands.cutting", _declare, _run),)
