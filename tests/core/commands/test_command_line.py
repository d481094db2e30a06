"""The command line does its job, and says in one sentence what it can not do: exit 2 and no traceback."""

import json
import zipfile
from collections.abc import Callable
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from piecewright.commands.table import main
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import FORMAT

EXAMPLES = Path(str(files("piecewright_data"))) / "examples"
SAMPLES = sorted(EXAMPLES.glob("*.piecewright"))
RAILS = {
    "recipe": 1,
    "name": "Rails",
    "sizes": {"F": ["4", "6"]},
    "steps": [
        {"make": "a", "lay": {"fabric": "A", "width": "F / 2 + 2*seam", "length": "F + 2*seam"}},
        {"make": "b", "lay": {"fabric": "B", "width": "F / 2 + 2*seam", "length": "F + 2*seam"}},
        {"make": "block", "sew": ["a", "b"], "axis": "down"},
    ],
    "block": ["block"],
    "finished": ["F", "F"],
}


def write(folder: Path, recipe: object) -> str:
    path = folder / "x.recipe.json"
    path.write_text(recipe if isinstance(recipe, str) else json.dumps(recipe), encoding="utf-8")
    return str(path)


def changed(**keys: object) -> dict[str, object]:
    return {**RAILS, **keys}


def first_step(**keys: object) -> dict[str, object]:
    return changed(steps=[{"make": "a", "lay": {**RAILS["steps"][0]["lay"], **keys}}, *RAILS["steps"][1:]])  # type: ignore[index]


def refused(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> str:
    """The one sentence on the error stream."""
    assert main(arguments) == 2
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith("piecewright: ")
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err


@pytest.mark.parametrize("name", shipped_recipes())
def test_a_block_prints_exactly_the_keys_of_its_format(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["block", name, "--json"]) == 0
    printed = json.loads(capsys.readouterr().out)
    assert list(printed) == [
        "name", "sizes", "seam", "unfinished", "finished", "blocks", "strips", "kinds", "ledger", "warnings",
    ]  # fmt: skip
    assert set(printed["kinds"][0]) == {
        "blocks",
        "layers",
        "patches",
        "area_by_fabric",
        "bias_edges",
        "seams",
    }


def test_a_block_is_a_page_of_sentences_without_json(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["block", "middle-end-for-end", "--set", "F=9"]) == 0
    page = capsys.readouterr().out
    assert "9 x 9 in finished, 9 1/2 x 9 1/2 in unfinished" in page
    assert "Turn column.2 end for end." in page


def test_lengths_on_the_command_line_take_any_spelling(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["block", "rail-fence-of-two", "--set", "F=16,5 cm", "--seam", "6 mm", "--json"]) == 0
    printed = json.loads(capsys.readouterr().out)
    assert printed["finished"] == pytest.approx([16.5 / 2.54, 16.5 / 2.54])
    assert printed["seam"] == pytest.approx(6 / 25.4)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_each_sample_is_in_order_and_gives_materials_and_a_picture(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    picture = tmp_path / "quilt.svg"
    assert main(["check", str(path)]) == 0
    assert main(["materials", str(path)]) == 0
    assert main(["picture", str(path), "-o", str(picture)]) == 0
    assert "<svg" in picture.read_text(encoding="utf-8")
    capsys.readouterr()
    assert main(["materials", str(path), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["materials"] == 1


def test_the_large_sample_is_what_it_is_said_to_be(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["materials", str(EXAMPLES / "tideline.piecewright")]) == 0
    page = capsys.readouterr().out
    assert "60 x 72 in finished" in page
    assert {"Tide table", "Halyards", "Jetty", "Porthole"} <= set(page.replace("  ", "\n").split("\n"))


BAD_RECIPES: dict[str, tuple[object, str]] = {
    "broken JSON": ('{"recipe": 1, "name": ', "JSON"),
    "unknown key": (changed(colour="red"), "colour"),
    "wrong unit": (first_step(width="2 1/2 ell"), "steps[0].lay.width"),
    "missing strip": (changed(steps=[*RAILS["steps"][:1], RAILS["steps"][2]]), "b"),  # type: ignore[index]
    "overlong cut": (
        changed(
            steps=[*RAILS["steps"][:2], {"make": "set", "sew": ["a", "b"], "axis": "down"},  # type: ignore[index]
                   {"make": "part", "cut": "set", "axis": "across", "every": "9", "count": 1}],
            block=["part.1"],
        ),
        "steps[3]",
    ),
    "expression bomb": (first_step(width="*".join(["9"] * 99)), "steps[0].lay.width"),
    "nesting bomb": (first_step(width="(" * 60 + "1" + ")" * 60), "steps[0].lay.width"),
    "no cloth": (first_step(width="0"), "0"),
    "too much cloth": (first_step(length="20000"), "10000"),
    "a quarter and a bit": (
        changed(steps=[*RAILS["steps"], {"make": "t", "turn": "block", "by": 45}], block=["t"]),  # type: ignore[misc]
        "rectangle",
    ),
    "newer file": (changed(recipe=99), "99"),
    "a claim that does not hold": (changed(finished=["5", "5"]), "5"),
}  # fmt: skip


@pytest.mark.parametrize("fault", BAD_RECIPES)
def test_a_bad_recipe_is_one_sentence_that_names_the_fault(
    fault: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    recipe, named = BAD_RECIPES[fault]
    assert named in refused(["block", write(tmp_path, recipe)], capsys)


@pytest.mark.parametrize(
    ("arguments", "named"),
    [
        (["block", "nowhere"], "nowhere"),
        (["block", "rail-fence-of-thre"], "rail-fence-of-three"),
        (["block", "rail-fence-of-two", "--set", "G=9"], "G"),
        (["block", "rail-fence-of-two", "--set", "nine"], "F=9"),
        (["block", "rail-fence-of-two", "--set", "F=nine"], "nine"),
        (["block", "rail-fence-of-two", "--seam", "-1"], "--seam"),
        (["picture", "rail-fence-of-two", "-o", "x.bmp"], ".svg"),
        (["picture", str(SAMPLES[0]), "-o", "x.svg", "--set", "F=9"], "--set"),
        (["sew"], "sew"),
        ([], "COMMAND"),
    ],
)
def test_a_command_that_is_not_understood_is_one_sentence(
    arguments: list[str], named: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert named in refused(arguments, capsys)


def test_lengths_are_printed_to_the_nearest_mark_of_a_ruler(capsys: pytest.CaptureFixture[str]) -> None:
    """F = 10 in makes rails of 3 1/3 in: 3 5/6 in cut, which is 3 7/8 to the nearest 1/8 and 3 13/16 to 1/16."""
    cuts = {None: "3 5/6", "8": "3 7/8", "16": "3 13/16"}
    for mark, cut in cuts.items():
        options = [] if mark is None else ["--nearest", mark]
        assert main(["block", "rail-fence-of-three", "--set", "F=10", *options]) == 0
        assert f" {cut} " in capsys.readouterr().out
    assert main(["materials", str(EXAMPLES / "tideline.piecewright"), "--nearest", "8"]) == 0
    capsys.readouterr()
    assert "--nearest" in refused(["block", "rail-fence-of-three", "--nearest", "7"], capsys)


def test_a_seam_against_the_recipes_own_is_refused(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = write(tmp_path, changed(seam="3/8"))
    assert "3/8" in refused(["block", path, "--seam", "1/4"], capsys)
    assert main(["block", path, "--seam", "3/8", "--json"]) == 0


def test_too_narrow_cloth_says_no_block_loudly(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """40 1/2 in of strip from 40 in usable: no block."""
    tideline = zipfile.ZipFile(EXAMPLES / "tideline.piecewright").read("design.json")
    design = json.loads(tideline)
    design["settings"]["usable"] = "40"
    path = tmp_path / "narrow.json"
    path.write_text(json.dumps(design), encoding="utf-8")
    assert main(["check", str(path)]) == 2
    assert "no block" in capsys.readouterr().out
    assert main(["materials", str(path)]) == 2
    out, err = capsys.readouterr()
    assert "no block" in out
    assert "no block" in err


def written(folder: Path, sample: str, change: Callable[[dict[str, Any]], object]) -> str:
    """The path of a sample as plain JSON, with a change."""
    design = json.loads(zipfile.ZipFile(EXAMPLES / f"{sample}.piecewright").read("design.json"))
    change(design)
    path = folder / "changed.json"
    path.write_text(json.dumps(design), encoding="utf-8")
    return str(path)


def test_materials_say_where_blocks_lie_on_one_another(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Numbers for a quilt that can not be sewn must not look like those of one that can."""

    def double_the_size(design: dict[str, Any]) -> None:
        lattice = design["arrangements"][0]["lattice"]
        lattice["unit"] = str(Fraction(lattice["unit"]) / 2)

    path = written(tmp_path, "breakfast-mats", double_the_size)
    assert main(["check", path]) == 2
    errors = [line for line in capsys.readouterr().out.splitlines() if line.startswith("error: column ")]
    assert errors
    assert main(["materials", path]) == 2
    out, err = capsys.readouterr()
    said = " ".join(out.split())
    assert all(error.removeprefix("error: ") in said for error in errors)
    assert set(errors) <= set(err.splitlines())
    assert main(["materials", path, "--json"]) == 2
    out, err = capsys.readouterr()
    found = json.loads(out)["findings"]
    assert set(errors) <= set(err.splitlines())
    assert {"checks.overlap", "checks.outside"} & {finding["code"] for finding in found}


def test_a_making_that_fails_in_a_design_names_its_step(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def overcut(design: dict[str, Any]) -> None:
        for entry in design["recipes"]:
            for step in entry["recipe"]["steps"]:
                if "cut" in step and "every" in step:
                    step["every"] = "9999"

    path = written(tmp_path, "tideline", overcut)
    assert main(["check", path]) == 2
    assert "steps[3].every: " in capsys.readouterr().out
    assert main(["materials", path]) == 2
    assert "steps[3].every: " in capsys.readouterr().out


def test_what_is_to_know_of_a_file_is_said_beside_its_materials(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = written(tmp_path, "tideline", lambda design: design.update(piecewright=FORMAT + 1))
    assert main(["materials", path, "--json"]) == 0
    out, err = capsys.readouterr()
    assert json.loads(out)["materials"] == 1
    assert "newer" in err


def test_a_block_says_no_block_loudly_where_the_cloth_is_too_narrow(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["block", "middle-end-for-end", "--usable", "40"]) == 0
    assert "40 1/2 from 40 usable: no block!" in capsys.readouterr().out
    assert main(["block", "middle-end-for-end", "--usable", "40 1/2"]) == 0
    assert "no block" not in capsys.readouterr().out


def test_a_block_tells_unlike_kinds_and_the_bias_of_each(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Turned in the lower layer alone, the slanted part of that layer has its bias elsewhere, but it has it."""
    steps = [
        {"make": "a", "lay": {"fabric": "A", "width": "9", "length": "9"}},
        {"make": "part", "slice": "a", "from": ["top", "4"], "to": ["bottom", "5"]},
        {"make": "slanted", "sew": ["part.1", "part.2"], "axis": "across", "match": "points"},
        {"make": "square", "square": "slanted", "width": "8", "height": "8"},
        {"make": "edge", "lay": {"fabric": "B", "width": "8", "length": "1"}},
        {"make": "sewn", "sew": ["square", "edge"], "axis": "across"},
        {"make": "half", "cut": "sewn", "axis": "down", "into": 2},
        {"make": "turned", "turn": "half.2", "by": 180, "layers": [1]},
        {"make": "block", "sew": ["half.1", "turned"], "axis": "down"},
    ]
    recipe = changed(steps=steps, stack=2)
    del recipe["sizes"], recipe["finished"]
    assert main(["block", write(tmp_path, recipe)]) == 0
    page = capsys.readouterr().out
    assert "They come out in 2 kinds: block of layer 1 and block of layer 2 (" in page
    assert "Bias edges in a finished block, kind 1" in page
    assert "Bias edges in a finished block, kind 2" in page


def test_a_picture_that_is_no_picture_and_a_newer_design_are_sentences(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source = zipfile.ZipFile(EXAMPLES / "breakfast-mats.piecewright")
    design = json.loads(source.read("design.json"))
    bad = tmp_path / "bad.piecewright"
    with zipfile.ZipFile(bad, "w") as packed:
        packed.writestr("design.json", json.dumps(design))
        packed.writestr("pictures/cloth.png", b"no picture at all")
    assert "cloth.png" in refused(["materials", str(bad)], capsys)
    newer = tmp_path / "newer.json"
    newer.write_text(json.dumps({**design, "piecewright": FORMAT + 1, "kites": []}), encoding="utf-8")
    assert "newer" in refused(["materials", str(newer)], capsys)
