"""What a command is, and the options that several share."""

import argparse
import json
import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any, NoReturn

from piecewright.errors import PiecewrightError, UsageError
from piecewright.files.design_file import load_design
from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import own_recipes, recipe_in
from piecewright.making.faults import nearest
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import ENDING, shipped_names, shipped_recipe
from piecewright.model.design import Design
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.words.message import message

Arguments = argparse.Namespace


@dataclass(frozen=True)
class Command:
    """A command by its word: the code of its help sentence, what it takes, what it does (the exit code)."""

    word: str
    help: str
    declare: Callable[[argparse.ArgumentParser], None]
    run: Callable[[Arguments], int]


class Parser(argparse.ArgumentParser):
    """An argument parser that refuses in one sentence."""

    def error(self, text: str) -> NoReturn:
        """Raise a UsageError with argparse's text and the command's usage."""
        raise UsageError(
            message("commands.usage", text=text, usage=" ".join(self.format_usage().split()[1:]))
        )


def chosen_measure(chosen: Arguments) -> Measure:
    """How lengths are to be printed."""
    return Measure(unit=chosen.unit, fraction=chosen.nearest, comma=chosen.comma)


def declare_file(parser: argparse.ArgumentParser) -> None:
    """The design file a command is about."""
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.design-file")))


def declare_json(parser: argparse.ArgumentParser) -> None:
    """The choice of JSON instead of text."""
    parser.add_argument("--json", action="store_true", help=str(message("commands.json")))


def declare_report(parser: argparse.ArgumentParser) -> None:
    """A design file, reported on as text or JSON."""
    declare_file(parser)
    declare_json(parser)


def declare_recipe(parser: argparse.ArgumentParser) -> None:
    """A recipe and what its making is given."""
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.recipe-file")))
    declare_given(parser)


def declare_given(parser: argparse.ArgumentParser) -> None:
    """The options that a making is given."""
    parser.add_argument(
        "--set", action="append", default=[], metavar="F=9", help=str(message("commands.set"))
    )
    parser.add_argument("--seam", metavar="LENGTH", help=str(message("commands.seam")))
    parser.add_argument("--usable", metavar="LENGTH", help=str(message("commands.usable")))


def chosen_given(chosen: Arguments, recipe: Recipe) -> Given:
    """What the making of a recipe is given by the options; a UsageError where they contradict it."""
    sizes = dict(_setting(text) for text in chosen.set)
    if chosen.seam is not None and recipe.seam is not None and parse_length(chosen.seam) != recipe.seam:
        raise UsageError(message("commands.seam-against", name=recipe.name, seam=recipe.seam), where="--seam")
    given: dict[str, Any] = {
        name: option_length(name, getattr(chosen, name))
        for name in ("seam", "usable")
        if getattr(chosen, name) is not None
    }
    return Given(sizes=sizes, **given)


def option_length(name: str, text: str) -> Any:
    """An option's length in exact inches; a UsageError that names the option."""
    try:
        return parse_length(text)
    except PiecewrightError as error:
        raise UsageError(error.message, error.hint, f"--{name}") from None


def _setting(text: str) -> tuple[str, Any]:
    name, equals, value = text.partition("=")
    if not equals:
        raise UsageError(message("commands.set-form", text=text), where="--set")
    return name.strip(), option_length("set", value)


def recipe_at(path: Path) -> Recipe:
    """A recipe in a file, or one that ships or is kept on the user's own shelf, by its name."""
    if not path.exists():
        if str(path) in shipped_names():
            return shipped_recipe(str(path))
        for own in own_recipes(recipes_folder()):
            if own.recipe is not None and str(path) in (own.name, own.path.name.removesuffix(ENDING)):
                return own.recipe
        _refuse_misspelt(str(path))
    return recipe_in(path)


def _refuse_misspelt(name: str) -> None:
    """Name the shipped recipe that was probably meant; say nothing where none is near."""
    near = nearest(name, shipped_names())
    if near:
        raise UsageError(message("commands.no-recipe", name=name), message("model.did-you-mean", word=near))


def design_at(chosen: Arguments) -> Design:
    """The design in the file named; what is to know of the file goes to the error stream."""
    loaded = load_design(chosen.file)
    for note in loaded.notes:
        print(note.text(chosen_measure(chosen)), file=sys.stderr)
    return loaded.design


def print_json(value: object) -> None:
    """Print plain data as JSON to read."""
    print(json.dumps(value, indent=2, ensure_ascii=False))
