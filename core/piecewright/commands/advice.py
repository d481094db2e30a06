"""What is worth knowing of a recipe before it is sewn: which numbers matter, my seam, pressing, stretch and lump."""

import argparse
from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

from piecewright.commands.command import (
    Arguments,
    Command,
    chosen_given,
    chosen_measure,
    declare_given,
    declare_recipe,
    design_at,
    option_length,
    recipe_at,
)
from piecewright.errors import PiecewrightError, UsageError
from piecewright.making.bias_care import bias_care
from piecewright.making.matters import folds, matters
from piecewright.making.my_seam import my_seam
from piecewright.making.pressing_plan import plan_of
from piecewright.making.pressing_words import bulge_sentences, pressing_findings, pressing_sentences
from piecewright.making.run import facts, run
from piecewright.making.stretch import stretch_of, stretch_sentences
from piecewright.model.settings import PERFECT_STRIPS, Settings
from piecewright.plan.pressing import quilt_pressing
from piecewright.plan.pressing_of_block import joins_summary
from piecewright.words.message import Message, message


def _run_matters(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    given = chosen_given(chosen, recipe)
    found = matters(recipe, given)
    _print(chosen, (matter.sentence for matter in found))
    _print(chosen, (fold.sentence for fold in folds(recipe, given)))
    return 0


def _declare_my_seam(parser: argparse.ArgumentParser) -> None:
    declare_recipe(parser)
    parser.add_argument(
        "--three-strips",
        required=True,
        nargs="+",
        metavar="LENGTH",
        help=str(message("commands.three-strips")),
    )


def _run_my_seam(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    measured = option_length("three-strips", " ".join(chosen.three_strips))
    try:
        lost = Settings(three_strips=measured).lost_per_seam
    except PiecewrightError as error:
        hint = error.hint or message("commands.three-strips-perfect", perfect=PERFECT_STRIPS)
        raise UsageError(error.message, hint, "--three-strips") from None
    found = my_seam(recipe, replace(chosen_given(chosen, recipe), lost=lost))
    _print(chosen, found.messages)
    if lost:
        _print(chosen, (real.sentence for real in found.steps))
    return 0


def _declare_pressing(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("file", type=Path, metavar="FILE", help=str(message("commands.recipe-or-design")))
    declare_given(parser)


def _run_pressing(chosen: Arguments) -> int:
    _print(chosen, _pressing_of_quilt(chosen) if _is_design(chosen.file) else _pressing_of_recipe(chosen))
    return 0


def _is_design(path: Path) -> bool:
    """Whether a file is named as designs are; recipes end in .recipe.json."""
    return path.suffix == ".piecewright" or (
        path.suffix == ".json" and not path.name.endswith(".recipe.json")
    )


def _pressing_of_recipe(chosen: Arguments) -> Iterator[Message]:
    recipe = recipe_at(chosen.file)
    plan = plan_of(recipe, chosen_given(chosen, recipe))
    yield from pressing_sentences(plan)
    for finding in pressing_findings(plan):
        yield finding.message
        if finding.hint is not None:
            yield finding.hint


def _pressing_of_quilt(chosen: Arguments) -> Iterator[Message]:
    found = quilt_pressing(design_at(chosen))
    yield from found.sentences
    yield joins_summary(found)
    for finding in found.findings:
        yield finding.message
        if finding.hint is not None:
            yield finding.hint


def _run_stretch(chosen: Arguments) -> int:
    recipe = recipe_at(chosen.file)
    given = chosen_given(chosen, recipe)
    _print(chosen, (each.sentence for each in bias_care(facts(recipe, given))))
    _print(chosen, stretch_sentences(stretch_of(run(recipe, given))))
    _print(chosen, bulge_sentences(plan_of(recipe, given)))
    return 0


def _print(chosen: Arguments, said: Iterable[Message]) -> None:
    for sentence in said:
        print(sentence.text(chosen_measure(chosen)))


ADVICE_COMMANDS = (
    Command("matters", "commands.matters", declare_recipe, _run_matters),
    Command("my-seam", "commands.my-seam", _declare_my_seam, _run_my_seam),
    Command("pressing", "commands.pressing", _declare_pressing, _run_pressing),
    Command("stretch", "commands.stretch", declare_recipe, _run_stretch),
)
