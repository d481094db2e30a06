"""The command `cutting`: text, JSON, a plain table and drawings, of one fabric or all."""

import csv
import json
from importlib.resources import files
from io import StringIO
from pathlib import Path

import pytest

from piecewright.commands.table import main

EXAMPLES = Path(str(files("piecewright_data"))) / "examples"
MATS = str(EXAMPLES / "breakfast-mats.piecewright")


def test_the_list_is_text_with_boxes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutting", MATS]) == 0
    said = capsys.readouterr().out
    kelp = said[said.index("Kelp") :]
    assert "Ruler at 2 1/2 in: strips" in kelp
    assert (
        "[ ] 3 strips from selvage to selvage, for 1 x strip for a set, 1 x binding and 1 x binding, last"
        in kelp
    )


def test_one_fabric_alone_by_name_or_id(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutting", MATS, "--fabric", "Kelp", "--json"]) == 0
    by_name = json.loads(capsys.readouterr().out)
    assert main(["cutting", MATS, "--fabric", "f6", "--json"]) == 0
    assert json.loads(capsys.readouterr().out) == by_name
    assert [each["name"] for each in by_name["fabrics"]] == ["Kelp"]


def test_a_fabric_of_which_nothing_is_cut_is_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutting", MATS, "--fabric", "Kelb"]) == 2
    assert capsys.readouterr().err == (
        "piecewright: --fabric: Nothing is cut of a fabric Kelb. Did you mean Kelp?\n"
    )


def test_the_plain_table_is_csv(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutting", MATS, "--csv", "--unit", "cm"]) == 0
    rows = list(csv.reader(StringIO(capsys.readouterr().out)))
    assert len({len(row) for row in rows}) == 1
    assert "6.35" in {row[3] for row in rows}


def test_the_best_is_told_with_its_bound(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutting", MATS, "--best", "--json"]) == 0
    for each in json.loads(capsys.readouterr().out)["fabrics"]:
        assert each["proven"] is True


def test_drawings_go_to_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "cut.svg"
    sample = str(EXAMPLES / "tideline.piecewright")
    assert main(["cutting", sample, "--svg", str(place), "--left-handed", "--choice", "plain"]) == 0
    written = capsys.readouterr().out.splitlines()
    assert len(written) > 1
    assert place.read_text().startswith("<svg")
    assert (tmp_path / "cut-2.svg").exists()
