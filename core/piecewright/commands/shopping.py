"""What to buy for a design: a list to take along, a table, or JSON."""

import argparse

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_measure,
    declare_report,
    design_at,
    print_json,
)
from piecewright.cutting.buying import amounts
from piecewright.cutting.table import cutting_plan
from piecewright.plan.shopping import shopping
from piecewright.plan.shopping_text import shopping_csv, shopping_report, shopping_text
from piecewright.words.message import message


def _declare(parser: argparse.ArgumentParser) -> None:
    declare_report(parser)
    parser.add_argument("--csv", action="store_true", help=str(message("commands.shopping-csv")))


def _run(chosen: Arguments) -> int:
    design, measure = design_at(chosen), chosen_measure(chosen)
    bought = shopping(design, cut=amounts(cutting_plan(design)))
    if chosen.json:
        print_json(shopping_report(bought))
    elif chosen.csv:
        print(shopping_csv(bought, measure), end="")
    else:
        print(shopping_text(bought, measure), end="")
    return 0


SHOPPING = Command("shopping", "commands.shopping", _declare, _run)
