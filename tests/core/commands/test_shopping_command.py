"""`piecewright shopping`: the list as text, as a table and as JSON, of every sample."""

import csv
import io
import json
from pathlib import Path

import pytest

import piecewright_data
from piecewright.commands.table import main

EXAMPLES = sorted((Path(piecewright_data.__path__[0]) / "examples").glob("*.piecewright"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_sample_has_a_list(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["shopping", str(path)]) == 0
    text = capsys.readouterr().out
    assert "to buy for" in text
    assert main(["shopping", str(path), "--csv"]) == 0
    rows = list(csv.DictReader(io.StringIO(capsys.readouterr().out)))
    assert main(["shopping", str(path), "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["shopping"] == 1
    assert [row["item"] for row in rows] == [line["item"] for line in report["lines"]]
    assert all(row["buy"] in text for row in rows)


def test_a_file_that_is_not_there_is_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["shopping", str(tmp_path / "none.piecewright")]) == 2
    told = capsys.readouterr()
    assert told.err.count("\n") == 1
    assert not told.out
