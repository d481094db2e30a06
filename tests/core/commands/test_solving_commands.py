"""`sizes` and `solve` on the command line: what they print, what they write, and how they refuse."""

import csv
import json
from io import StringIO
from pathlib import Path

import pytest

from piecewright.commands.table import main
from tests.core.commands.test_command_line import refused


def printed(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    assert main(arguments) == 0
    return capsys.readouterr().out


def test_sizes_are_columns_or_csv_for_any_strip_and_cloth(capsys: pytest.CaptureFixture[str]) -> None:
    options = ["sizes", "rail-fence-of-three", "--usable", "42", "--width", "2", "1/2"]
    page = printed(options, capsys)
    assert page.startswith("Sizes of Rail fence of three\nStrips of 42 in usable width; 1/2 in off")
    rows = list(csv.DictReader(StringIO(printed([*options, "--csv", "--no-truing"], capsys))))
    assert [row["F (in)"] for row in rows if row["fitted"]] == ["6"]
    assert [row["blocks from a set"] for row in rows] == ["8", "6", "5", "4"]


def test_solve_prints_what_to_change_and_writes_a_recipe_that_stands_alone(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "nine.recipe.json"
    page = printed(["solve", "middle-end-for-end", "--finished", "9", "-o", str(out)], capsys)
    assert page.startswith("Change F from 12 in to 9 in.\nThe block is 9 x 9 in finished.\n")
    assert json.loads(printed(["block", str(out), "--json"], capsys))["finished"] == [9, 9]


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["two-halves-from-thirds", "--finished", "5x10"], "Change F from 12 in to 10 in."),
        (["two-halves-from-thirds", "--finished", "5"], "The block is 5 x 10 in finished."),
        (
            ["rail-fence-of-two", "--finished", "15 cm x 15 cm", "--unit", "cm"],
            "The block is 15 x 15 cm finished.",
        ),
        (["rail-fence-of-two", "--use-up", "6"], "Change F from 4 in to 5 1/2 in."),
        (["rail-fence-of-two", "--fill", "3"], "The block is 5 x 5 in finished."),
        (["rail-fence-of-two", "--fill", "3 x 5"], "The block is 4 1/2 x 4 1/2 in finished."),
        (["rail-fence-of-two", "--finished", "4x4", "--free", "F"], "Nothing has to change."),
        (["rail-fence-of-two", "--finished", "4 1/3", "--step", "1/12"], "Change F from 4 in to 4 1/3 in."),
    ],
)
def test_solve_takes_any_goal(options: list[str], said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert said in printed(["solve", *options], capsys)


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["two-halves-from-thirds", "--finished", "10x10"], "Sizes near that: 5 x 10 in finished"),
        (["rail-fence-of-two", "--finished", "4x4x4"], '--finished: "4x4x4" is no size.'),
        (["rail-fence-of-two", "--finished", "4x"], "--finished: No length is given."),
        (
            ["rail-fence-of-two", "--finished", "4", "--step", "0"],
            "--step: A step of nothing rounds nothing.",
        ),
        (["rail-fence-of-two", "--finished", "4", "--free", "FF"], 'no length at "FF". Did you mean "F"?'),
        (["rail-fence-of-two", "--finished", "4", "--use-up", "9"], "not allowed with argument"),
        (["rail-fence-of-two"], "one of the arguments --finished --use-up --fill is required"),
    ],
)
def test_solve_refuses_in_one_sentence(
    options: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in refused(["solve", *options], capsys)
