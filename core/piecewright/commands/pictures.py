"""Pictures of a design or of a recipe's steps, written to a file."""

import argparse
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_given,
    chosen_measure,
    declare_given,
    design_at,
    recipe_at,
)
from piecewright.errors import UsageError
from piecewright.files.atomic import read_file, write_whole
from piecewright.files.faults import shown_name
from piecewright.files.limits import FILE_BYTES
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_names
from piecewright.model.design import Design
from piecewright.render.pictures import quilt_picture, recipe_picture
from piecewright.units.measure import Measure
from piecewright.words.message import message


@dataclass(frozen=True)
class Picture:
    """What a picture is to be drawn of: a design, or a recipe as given."""

    design: Design | None
    recipe: Recipe | None
    given: Given
    measure: Measure


Draw = Callable[[Picture], bytes]
"""The bytes of a picture file of one kind."""


def _declare_picture(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.either-file")))
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="PICTURE", help=str(message("commands.output"))
    )
    declare_given(parser)


def _run_picture(chosen: Arguments) -> int:
    draw = chosen.draws.get(chosen.output.suffix.lower())
    if draw is None:
        kinds = tuple(sorted(chosen.draws))
        raise UsageError(message("commands.picture-kind", kinds=kinds), where=shown_name(chosen.output))
    write_whole(chosen.output, draw(_subject(chosen)))
    print(message("commands.written", place=str(chosen.output)))
    return 0


def _subject(chosen: Arguments) -> Picture:
    measure = chosen_measure(chosen)
    is_shipped = not chosen.file.exists() and str(chosen.file) in shipped_names()
    if is_shipped or _is_recipe(read_file(chosen.file, FILE_BYTES)):
        recipe = recipe_at(chosen.file)
        return Picture(None, recipe, chosen_given(chosen, recipe), measure)
    if chosen.set or chosen.seam is not None or chosen.usable is not None:
        raise UsageError(message("commands.only-recipe"), where=shown_name(chosen.file))
    return Picture(design_at(chosen), None, Given(), measure)


def _is_recipe(data: bytes) -> bool:
    """Whether a file's JSON is a recipe rather than a design."""
    try:
        plain = json.loads(data)
    except (ValueError, RecursionError):
        return False
    return isinstance(plain, dict) and "recipe" in plain


def _draw_svg(picture: Picture) -> bytes:
    if picture.design is not None:
        return quilt_picture(picture.design, picture.measure).encode()
    assert picture.recipe is not None  # noqa: S101 - one of the two is there
    return recipe_picture(picture.recipe, picture.given, measure=picture.measure).encode()


DRAWS: Mapping[str, Draw] = MappingProxyType({".svg": _draw_svg})
"""The kinds of picture that need no screen's library, by the ending of the file."""

PICTURE_COMMANDS = (Command("picture", "commands.picture", _declare_picture, _run_picture),)
