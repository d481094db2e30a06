"""What is asked of a recipe: its block, its sizes, its lengths solved."""

import argparse
import json
from fractions import Fraction
from pathlib import Path

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_given,
    chosen_measure,
    declare_json,
    declare_recipe,
    option_length,
    print_json,
    recipe_at,
)
from piecewright.errors import UsageError
from piecewright.files.atomic import write_whole
from piecewright.making.nudging import Named, Spot, spot_at, with_lengths
from piecewright.making.report import report
from piecewright.making.run import facts, run
from piecewright.making.solve import Fill, Finish, Goal, UseUp, solve
from piecewright.making.text import making_text
from piecewright.plan.sizes_table import NO_TRUING, USUAL_TRUING, sizes_table
from piecewright.plan.sizes_text import sizes_csv, sizes_text
from piecewright.units.sizes import Finished
from piecewright.words.message import message


def _declare_block(parser: argparse.ArgumentParser) -> None:
    declare_recipe(parser)
    declare_json(parser)


def _run_block(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    given = chosen_given(chosen, recipe)
    if chosen.json:
        print_json(report(facts(recipe, given)))
    else:
        print(making_text(run(recipe, given), chosen_measure(chosen)), end="")
    return 0


def _declare_sizes(parser: argparse.ArgumentParser) -> None:
    declare_recipe(parser)
    parser.add_argument(
        "--width", nargs="+", default=["2 1/2"], metavar="LENGTH", help=str(message("commands.strip-width"))
    )
    parser.add_argument("--no-truing", action="store_true", help=str(message("commands.no-truing")))
    parser.add_argument("--csv", action="store_true", help=str(message("commands.csv")))


def _run_sizes(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    width = option_length("width", " ".join(chosen.width))
    truing = NO_TRUING if chosen.no_truing else USUAL_TRUING
    table = sizes_table(recipe, chosen_given(chosen, recipe), width, truing)
    write = sizes_csv if chosen.csv else sizes_text
    print(write(table, chosen_measure(chosen)), end="")
    return 0


def _declare_solve(parser: argparse.ArgumentParser) -> None:
    declare_recipe(parser)
    asked = parser.add_mutually_exclusive_group(required=True)
    asked.add_argument("--finished", metavar="SIZE", help=str(message("commands.finished")))
    asked.add_argument("--use-up", metavar="LENGTH", help=str(message("commands.use-up")))
    asked.add_argument("--fill", metavar="STRIP", help=str(message("commands.fill")))
    parser.add_argument(
        "--free", action="append", default=[], metavar="PLACE", help=str(message("commands.free"))
    )
    parser.add_argument("--step", default="1/8", metavar="LENGTH", help=str(message("commands.step")))
    parser.add_argument(
        "-o", "--output", type=Path, metavar="RECIPE", help=str(message("commands.solved-file"))
    )


def _run_solve(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    given = chosen_given(chosen, recipe)
    free = [spot_at(recipe, text) for text in chosen.free]
    step = option_length("step", chosen.step)
    if not step:
        raise UsageError(message("commands.step-nothing"), where="--step")
    found = solve(recipe, given, _goal(chosen, facts(recipe, given).finished), free, step)
    for said in found.messages:
        print(said.text(chosen_measure(chosen)))
    if chosen.output is not None:
        sizes: dict[Spot, Fraction] = {Named("sizes", name): size for name, size in found.given.sizes.items()}
        text = json.dumps(with_lengths(found.recipe, sizes).plain, indent=2, ensure_ascii=False)
        write_whole(chosen.output, f"{text}\n".encode())
        print(message("commands.written", place=str(chosen.output)))
    return 0


def _goal(chosen: Arguments, now: Finished) -> Goal:
    """What the options ask for; one length alone is the side of a square block, or the width of another."""
    if chosen.use_up is not None:
        return UseUp(option_length("use-up", chosen.use_up))
    option, text = ("finished", chosen.finished) if chosen.fill is None else ("fill", chosen.fill)
    first, *more = (option_length(option, part) for part in text.split(" x " if " x " in text else "x"))
    if len(more) > 1:
        raise UsageError(message("commands.size-form", text=text), where=f"--{option}")
    second = more[0] if more else None
    if option == "fill":
        return Fill(second, first)
    return Finish(first, first if second is None and now.width == now.height else second)


RECIPE_COMMANDS = (
    Command("block", "commands.block", _declare_block, _run_block),
    Command("sizes", "commands.sizes", _declare_sizes, _run_sizes),
    Command("solve", "commands.solve", _declare_solve, _run_solve),
)
