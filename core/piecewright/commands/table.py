"""The table of all commands. Exit 0, or 2 with one sentence and no traceback."""

import argparse
import sys
from collections.abc import Mapping, Sequence
from types import MappingProxyType

from piecewright.commands.advice import ADVICE_COMMANDS
from piecewright.commands.command import Command, Parser
from piecewright.commands.cutting import CUTTING_COMMANDS
from piecewright.commands.designs import DESIGN_COMMANDS
from piecewright.commands.pictures import DRAWS, PICTURE_COMMANDS, Draw
from piecewright.commands.recipes import RECIPE_COMMANDS
from piecewright.commands.sewing import SEWING_COMMANDS
from piecewright.errors import PiecewrightError
from piecewright.words.message import message

COMMANDS: tuple[Command, ...] = (
    *RECIPE_COMMANDS,
    *ADVICE_COMMANDS,
    *DESIGN_COMMANDS,
    *CUTTING_COMMANDS,
    *SEWING_COMMANDS,
    *PICTURE_COMMANDS,
)


def main(
    argv: Sequence[str], more: Sequence[Command] = (), draws: Mapping[str, Draw] = MappingProxyType({})
) -> int:
    """Run one command. `more` and `draws` add the commands and the kinds of picture that need a screen's library."""
    try:
        chosen = _parser([*COMMANDS, *more], {**DRAWS, **draws}).parse_args(argv)
        return int(chosen.run(chosen))
    except PiecewrightError as error:
        print(f"piecewright: {error.sentence()}", file=sys.stderr)
    except BrokenPipeError:
        sys.stderr.close()
    return 2


def _parser(commands: Sequence[Command], draws: Mapping[str, Draw]) -> argparse.ArgumentParser:
    parser = Parser(prog="piecewright", description=str(message("commands.about")))
    words = parser.add_subparsers(dest="command", required=True, parser_class=Parser, metavar="COMMAND")
    for command in commands:
        text = str(message(command.help))
        sub = words.add_parser(command.word, help=text, description=text)
        command.declare(sub)
        sub.add_argument(
            "--unit", choices=("in", "cm", "mm"), default="in", help=str(message("commands.unit"))
        )
        sub.add_argument("--nearest", type=int, choices=(8, 16), help=str(message("commands.nearest")))
        sub.add_argument("--comma", action="store_true", help=str(message("commands.comma")))
        sub.set_defaults(run=command.run, draws=draws)
    return parser
