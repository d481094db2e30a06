"""The command line: a table of commands that need no screen. Exit 0, or 2 with one sentence and no traceback."""

import argparse
import json
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from types import MappingProxyType
from typing import Any, NoReturn

from piecewright.checks.check import check, check_arrangement
from piecewright.errors import PiecewrightError, UsageError
from piecewright.files.atomic import read_file, write_whole
from piecewright.files.design_file import load_design
from piecewright.files.faults import shown_name
from piecewright.files.limits import FILE_BYTES
from piecewright.making.faults import nearest
from piecewright.making.given import Given
from piecewright.making.nudging import Named, Spot, spot_at, with_lengths
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.report import report
from piecewright.making.run import facts, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.solve import Fill, Finish, Goal, UseUp, solve
from piecewright.making.text import making_text
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright.plan.report import materials_report
from piecewright.plan.sizes_table import NO_TRUING, USUAL_TRUING, sizes_table
from piecewright.plan.sizes_text import sizes_csv, sizes_text
from piecewright.plan.text import materials_text
from piecewright.render.pictures import quilt_picture, recipe_picture
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.units.sizes import Finished
from piecewright.words.message import message

Arguments = argparse.Namespace


@dataclass(frozen=True)
class Picture:
    """What a picture is to be drawn of: a design, or a recipe as given."""

    design: Design | None
    recipe: Recipe | None
    given: Given
    measure: Measure


Draw = Callable[[Picture], bytes]
"""The bytes of a picture file of one kind."""


@dataclass(frozen=True)
class Command:
    """A command by its word: the code of its help sentence, what it takes, what it does (the exit code)."""

    word: str
    help: str
    declare: Callable[[argparse.ArgumentParser], None]
    run: Callable[[Arguments], int]


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


class _Parser(argparse.ArgumentParser):
    """An argument parser that refuses in one sentence."""

    def error(self, text: str) -> NoReturn:
        raise UsageError(
            message("commands.usage", text=text, usage=" ".join(self.format_usage().split()[1:]))
        )


def _parser(commands: Sequence[Command], draws: Mapping[str, Draw]) -> argparse.ArgumentParser:
    parser = _Parser(prog="piecewright", description=str(message("commands.about")))
    words = parser.add_subparsers(dest="command", required=True, parser_class=_Parser, metavar="COMMAND")
    for command in commands:
        text = str(message(command.help))
        sub = words.add_parser(command.word, help=text, description=text)
        command.declare(sub)
        sub.add_argument(
            "--unit", choices=("in", "cm", "mm"), default="in", help=str(message("commands.unit"))
        )
        sub.add_argument("--comma", action="store_true", help=str(message("commands.comma")))
        sub.set_defaults(run=command.run, draws=draws)
    return parser


def _measure(chosen: Arguments) -> Measure:
    return Measure(unit=chosen.unit, comma=chosen.comma)


def _declare_file(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.design-file")))


def _declare_json(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("--json", action="store_true", help=str(message("commands.json")))


def _declare_given(parser: argparse.ArgumentParser) -> None:
    """The options that a making is given."""
    parser.add_argument(
        "--set", action="append", default=[], metavar="F=9", help=str(message("commands.set"))
    )
    parser.add_argument("--seam", metavar="LENGTH", help=str(message("commands.seam")))
    parser.add_argument("--usable", metavar="LENGTH", help=str(message("commands.usable")))


def _given(chosen: Arguments, recipe: Recipe) -> Given:
    sizes = dict(_setting(text) for text in chosen.set)
    if chosen.seam is not None and recipe.seam is not None and parse_length(chosen.seam) != recipe.seam:
        raise UsageError(message("commands.seam-against", name=recipe.name, seam=recipe.seam), where="--seam")
    given: dict[str, Any] = {
        name: _option_length(name, getattr(chosen, name))
        for name in ("seam", "usable")
        if getattr(chosen, name) is not None
    }
    return Given(sizes=sizes, **given)


def _option_length(name: str, text: str) -> Any:
    try:
        return parse_length(text)
    except PiecewrightError as error:
        raise UsageError(error.message, error.hint, f"--{name}") from None


def _setting(text: str) -> tuple[str, Any]:
    name, equals, value = text.partition("=")
    if not equals:
        raise UsageError(message("commands.set-form", text=text), where="--set")
    return name.strip(), _option_length("set", value)


def _recipe_at(path: Path) -> Recipe:
    """A recipe in a file, or one that ships, by its name."""
    shipped = shipped_recipes()
    if not path.exists():
        if str(path) in shipped:
            return shipped[str(path)]
        _refuse_misspelt(str(path))
    try:
        return read_recipe(read_file(path, FILE_BYTES))
    except PiecewrightError as error:
        where = (
            f"{shown_name(path)} {error.where}".rstrip()
            if not error.where.startswith(shown_name(path))
            else error.where
        )
        raise type(error)(error.message, error.hint, where) from None


def _refuse_misspelt(name: str) -> None:
    """Name the shipped recipe that was probably meant; say nothing where none is near."""
    near = nearest(name, shipped_recipes())
    if near:
        raise UsageError(message("commands.no-recipe", name=name), message("model.did-you-mean", word=near))


def _design_at(chosen: Arguments) -> Design:
    """The design in the file named; what is to know of the file goes to the error stream."""
    loaded = load_design(chosen.file)
    for note in loaded.notes:
        print(note.text(_measure(chosen)), file=sys.stderr)
    return loaded.design


def _write_json(value: object) -> None:
    print(json.dumps(value, indent=2, ensure_ascii=False))


def _run_block(chosen: Arguments) -> int:
    recipe = _recipe_at(chosen.file)
    given = _given(chosen, recipe)
    if chosen.json:
        _write_json(report(facts(recipe, given)))
    else:
        print(making_text(run(recipe, given), _measure(chosen)), end="")
    return 0


def _run_materials(chosen: Arguments) -> int:
    """The materials with all that a check finds: numbers for blocks that lie on one another must say so."""
    design = _design_at(chosen)
    needed = replace(materials(design), findings=check_arrangement(design))
    if chosen.json:
        _write_json(materials_report(needed))
    else:
        print(materials_text(needed, _measure(chosen)), end="")
    return 0


def _run_check(chosen: Arguments) -> int:
    loaded = load_design(chosen.file)
    findings = check(loaded.design)
    measure = _measure(chosen)
    if chosen.json:
        _write_json([_finding(finding, measure) for finding in findings])
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


def _is_recipe(data: bytes) -> bool:
    """Whether a file's JSON is a recipe rather than a design."""
    try:
        plain = json.loads(data)
    except (ValueError, RecursionError):
        return False
    return isinstance(plain, dict) and "recipe" in plain


def _run_picture(chosen: Arguments) -> int:
    draw = chosen.draws.get(chosen.output.suffix.lower())
    if draw is None:
        kinds = tuple(sorted(chosen.draws))
        raise UsageError(message("commands.picture-kind", kinds=kinds), where=shown_name(chosen.output))
    write_whole(chosen.output, draw(_subject(chosen)))
    print(message("commands.written", place=str(chosen.output)))
    return 0


def _subject(chosen: Arguments) -> Picture:
    measure = _measure(chosen)
    is_shipped = not chosen.file.exists() and str(chosen.file) in shipped_recipes()
    if is_shipped or _is_recipe(read_file(chosen.file, FILE_BYTES)):
        recipe = _recipe_at(chosen.file)
        return Picture(None, recipe, _given(chosen, recipe), measure)
    if chosen.set or chosen.seam is not None or chosen.usable is not None:
        raise UsageError(message("commands.only-recipe"), where=shown_name(chosen.file))
    return Picture(_design_at(chosen), None, Given(), measure)


def _draw_svg(picture: Picture) -> bytes:
    if picture.design is not None:
        return quilt_picture(picture.design, picture.measure).encode()
    assert picture.recipe is not None  # noqa: S101 - one of the two is there
    return recipe_picture(picture.recipe, picture.given, measure=picture.measure).encode()


def _declare_block(parser: argparse.ArgumentParser) -> None:
    _declare_recipe(parser)
    _declare_json(parser)


def _declare_picture(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.either-file")))
    parser.add_argument(
        "-o", "--output", type=Path, required=True, metavar="PICTURE", help=str(message("commands.output"))
    )
    _declare_given(parser)


def _declare_report(parser: argparse.ArgumentParser) -> None:
    _declare_file(parser)
    _declare_json(parser)


def _declare_recipe(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.recipe-file")))
    _declare_given(parser)


def _declare_sizes(parser: argparse.ArgumentParser) -> None:
    _declare_recipe(parser)
    parser.add_argument(
        "--width", nargs="+", default=["2 1/2"], metavar="LENGTH", help=str(message("commands.strip-width"))
    )
    parser.add_argument("--no-truing", action="store_true", help=str(message("commands.no-truing")))
    parser.add_argument("--csv", action="store_true", help=str(message("commands.csv")))


def _run_sizes(chosen: Arguments) -> int:
    recipe = _recipe_at(chosen.file)
    width = _option_length("width", " ".join(chosen.width))
    truing = NO_TRUING if chosen.no_truing else USUAL_TRUING
    table = sizes_table(recipe, _given(chosen, recipe), width, truing)
    write = sizes_csv if chosen.csv else sizes_text
    print(write(table, _measure(chosen)), end="")
    return 0


def _declare_solve(parser: argparse.ArgumentParser) -> None:
    _declare_recipe(parser)
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
    recipe = _recipe_at(chosen.file)
    given = _given(chosen, recipe)
    free = [spot_at(recipe, text) for text in chosen.free]
    step = _option_length("step", chosen.step)
    if not step:
        raise UsageError(message("commands.step-nothing"), where="--step")
    found = solve(recipe, given, _goal(chosen, facts(recipe, given).finished), free, step)
    for said in found.messages:
        print(said.text(_measure(chosen)))
    if chosen.output is not None:
        sizes: dict[Spot, Fraction] = {Named("sizes", name): size for name, size in found.given.sizes.items()}
        text = json.dumps(with_lengths(found.recipe, sizes).plain, indent=2, ensure_ascii=False)
        write_whole(chosen.output, f"{text}\n".encode())
        print(message("commands.written", place=str(chosen.output)))
    return 0


def _goal(chosen: Arguments, now: Finished) -> Goal:
    """What the options ask for; one length alone is the side of a square block, or the width of another."""
    if chosen.use_up is not None:
        return UseUp(_option_length("use-up", chosen.use_up))
    option, text = ("finished", chosen.finished) if chosen.fill is None else ("fill", chosen.fill)
    first, *more = (_option_length(option, part) for part in text.split(" x " if " x " in text else "x"))
    if len(more) > 1:
        raise UsageError(message("commands.size-form", text=text), where=f"--{option}")
    second = more[0] if more else None
    if option == "fill":
        return Fill(second, first)
    return Finish(first, first if second is None and now.width == now.height else second)


DRAWS: Mapping[str, Draw] = MappingProxyType({".svg": _draw_svg})
"""The kinds of picture that need no screen's library, by the ending of the file."""

COMMANDS: tuple[Command, ...] = (
    Command("block", "commands.block", _declare_block, _run_block),
    Command("materials", "commands.materials", _declare_report, _run_materials),
    Command("picture", "commands.picture", _declare_picture, _run_picture),
    Command("check", "commands.check", _declare_report, _run_check),
    Command("sizes", "commands.sizes", _declare_sizes, _run_sizes),
    Command("solve", "commands.solve", _declare_solve, _run_solve),
)
