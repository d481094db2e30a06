"""`matters`, `my-seam`, `pressing` and `stretch` on the command line, and how they refuse."""

from pathlib import Path

import pytest

from piecewright.edit.registry import Cell, apply, call
from piecewright.files.design_file import save_design
from piecewright.making.given import Given
from piecewright.making.matters import matters
from piecewright.making.pressing_plan import plan_of
from piecewright.making.pressing_words import pressing_sentences
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from tests.core.commands.test_command_line import refused
from tests.core.commands.test_solving_commands import printed

NAME = "middle-end-for-end"


def test_matters_tells_every_length(capsys: pytest.CaptureFixture[str]) -> None:
    lines = printed(["matters", NAME], capsys).splitlines()
    assert lines == [str(matter.sentence) for matter in matters(shipped_recipes()[NAME], Given())]
    assert lines[:2] == [
        "Exact: the width of the strip a, 2 1/2 in.",
        "At least 40 1/2 in: the length of the strip a.",
    ]


def test_my_seam_tells_the_block_and_every_step(capsys: pytest.CaptureFixture[str]) -> None:
    """By hand: three strips at 6 3/8 lose 1/16 in a seam; two 2 1/2 strips sewn lose it once, 4 1/2 - 1/16."""
    page = printed(["my-seam", NAME, "--three-strips", "6", "3/8"], capsys)
    assert "sew a scant seam, 1/32 in narrower" in page
    assert (
        "Step 3, set: 40 1/2 x 4 7/16 in unfinished with your seam, 40 1/2 x 4 1/2 in unfinished by the recipe."
        in page
    )
    perfect = printed(["my-seam", NAME, "--three-strips", "6 1/2"], capsys)
    assert perfect == "Your seam is true: sizes are as the recipe says.\n"


def test_my_seam_refuses_what_no_seam_gives(capsys: pytest.CaptureFixture[str]) -> None:
    assert "--three-strips" in refused(["my-seam", NAME, "--three-strips", "12"], capsys)


def test_pressing_of_a_recipe_and_of_a_quilt(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    recipe = shipped_recipes()[NAME]
    sentences = pressing_sentences(plan_of(recipe, Given()))
    assert printed(["pressing", NAME], capsys).splitlines() == [str(said) for said in sentences]
    design = apply(Design("Two"), call("add-block", name="One", new_recipe=recipe))
    size = 12 / design.quilt.lattice.unit
    for column in (0, int(size)):
        design = apply(design, call("place-block", block=design.blocks[0].id, cell=Cell(column, 0)))
    path = tmp_path / "two.piecewright"
    save_design(path, design, {})
    page = printed(["pressing", str(path)], capsys)
    assert page.startswith("One: press")
    assert "On the joins of blocks" in page


def test_stretch_tells_care_waits_and_layers(capsys: pytest.CaptureFixture[str]) -> None:
    page = printed(["stretch", "slanted-exchange"], capsys)
    assert "pin it closely and press straight down, not sideways." in page
    assert "lie open for 1 step until step 8 sews them." in page
    assert "layers lie on each other" in page
    straight = printed(["stretch", NAME], capsys)
    assert straight.startswith("Every edge runs with the thread, so nothing stretches while it waits.")
