"""The command `sewing`: text, JSON, and a drawing."""

import json
from importlib.resources import files
from pathlib import Path

import pytest

from piecewright.commands.table import main

EXAMPLES = Path(str(files("piecewright_data"))) / "examples"
TIDE = str(EXAMPLES / "tideline.piecewright")


def test_the_steps_are_numbered_and_say_how_to_press(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sewing", TIDE]) == 0
    said = capsys.readouterr().out
    assert said.startswith("Tideline: how the top is sewn\n====")
    assert "43 seams, 1008 in long together, the longest 63 in (finished)." in said
    assert (
        "\n7. Sew row 1 to row 6 together, from top to bottom; 5 seams 48 in long finished.\n   Press" in said
    )


def test_the_same_as_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sewing", TIDE, "--json"]) == 0
    found = json.loads(capsys.readouterr().out)
    assert (found["sewing"], found["seams"], found["partial"]) == (1, 43, 0)
    assert found["length"] == {"text": "1008", "inches": 1008.0}
    assert sum(step["seams"] for step in found["steps"]) == found["seams"]
    assert [step["kind"] for step in found["steps"]] == ["row"] * 6 + ["center"] + ["border"] * 4
    by_step = sum(step["seams"] * step["seam_length"]["inches"] for step in found["steps"])
    assert by_step == found["length"]["inches"]


def test_a_drawing_goes_to_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    place = tmp_path / "sewing.svg"
    assert main(["sewing", TIDE, "--svg", str(place), "--unit", "cm"]) == 0
    assert capsys.readouterr().out == f"Written: {place}\n"
    assert place.read_text().startswith("<?xml") or place.read_text().startswith("<svg")
