"""Files of every format that was ever released: they open for ever, and say what they said when they were written.

The files are never written anew. A new format adds its own, with their sums and what they hold; these stay.
"""

import hashlib
from fractions import Fraction
from pathlib import Path

import msgspec
import pytest

from piecewright.files.design_file import Loaded, load_design, pack_design, read_design
from piecewright.files.folders import path_from_text
from piecewright.files.journal_contents import read_contents

FOLDER = Path(__file__).parent
SUMS = {
    "format-1-by-hand.json": "b8da08b55d84f68cd84d15e423902d15fd5e38f331e2f098fb12dd56fd2b2929",
    "format-1-hedgerow.journal": "ce82074a1a247c8626f024aa220bf0ace62f960301c4a8d8b51a37b3d94572cf",
    "format-1-hedgerow.piecewright": "dd88795b01cf9e7b7e876747177965bc2ac0c0ac84d51f140b743469abf6e83d",
    "format-1-plain.json": "8c1799615dae84ee3f5743d21a395fda67b6ff5cfdf3cdc7fe7d3e271b2dd54b",
    "format-1-zipped-by-hand.piecewright": "8caff67877200014295f9fbb450970b7dbc7be123e2a1c6d9ed03cc48d6d850c",
}
DESIGNS = [name for name in SUMS if not name.endswith(".journal")]


def opened(name: str) -> Loaded:
    return load_design(FOLDER / name)


def test_every_frozen_file_is_listed_and_none_has_changed() -> None:
    found = {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in FOLDER.glob("format-*")}
    assert found == SUMS


@pytest.mark.parametrize("name", DESIGNS)
def test_it_opens_to_be_worked_on_and_can_be_saved_in_the_present_format(name: str) -> None:
    loaded = opened(name)
    assert loaded.version == int(name.split("-")[1])
    assert not loaded.read_only
    assert loaded.notes == ()
    saved = read_design(pack_design(Path("q.piecewright"), loaded.design, loaded.pictures))
    assert (saved.design, saved.pictures) == (loaded.design, loaded.pictures)


def test_what_the_program_saved_in_format_1() -> None:
    loaded = opened("format-1-hedgerow.piecewright")
    design = loaded.design
    assert (design.name, design.author, design.next_id) == ("Hedgerow", "Ada", 8)
    assert design.about == 'A first line.\nA second with "quotes" and \\.'
    assert [(one.id, one.name, one.color) for one in design.fabrics] == [
        ("f1", "Leaf", "#507030"),
        ("f2", "Stoff mit Ä", "#a08050"),
        ("f3", "Moss", "#304020"),
        ("f4", "Dots", "#e0d0b0"),
    ]
    assert (design.fabrics[0].price, design.fabrics[2].width) == (Fraction(49, 4), Fraction(85, 2))
    printed = design.fabrics[3].print
    assert printed is not None
    assert (printed.kind, printed.inks, printed.scale) == ("dots", ("#aa3344", "#223344"), Fraction(1, 3))
    assert (printed.turn, printed.one_way) == (90, True)
    assert {name: len(data) for name, data in loaded.pictures.items()} == {
        "Stoff mit Ä.jpg": 636,
        "leaf.png": 85,
        "moss.webp": 70,
    }
    assert (design.settings.seam, design.settings.yardage, design.settings.currency) == (
        Fraction(3, 8),
        "third",
        "€",
    )


def test_the_quilt_in_format_1() -> None:
    design = opened("format-1-hedgerow.piecewright").design
    (recipe,) = design.recipes
    assert (recipe.id, recipe.recipe.name, recipe.recipe.letters) == ("r5", "Rails of two", ("A", "B"))
    assert [(one.id, dict(one.sizes), one.favorite) for one in design.blocks] == [
        ("b6", {"F": Fraction(4)}, True),
        ("b7", {"F": Fraction(13, 3)}, False),
    ]
    assert [quilt.name for quilt in design.arrangements] == ["Zigzag", "Empty"]
    quilt = design.quilt
    assert (quilt.lattice.unit, quilt.lattice.columns, quilt.lattice.rows) == (Fraction(4), 7, 5)
    assert quilt.finished.width == 7 * 4 + 2 * (Fraction(5, 2) + 4)
    placed = [
        (row.row, one.column, one.turn, dict(one.fabrics)) for row in quilt.rows for one in row.placements
    ]
    assert len(placed) == 35
    assert placed[:3] == [(0, 0, 0, {"A": ("f3",)}), (0, 1, 90, {}), (0, 2, 0, {})]
    assert (quilt.binding.width, quilt.backing.seam, quilt.batting.overage) == (
        Fraction(9, 4),
        Fraction(3, 8),
        Fraction(10),
    )


@pytest.mark.parametrize("name", ["format-1-by-hand.json", "format-1-zipped-by-hand.piecewright"])
def test_what_was_written_by_hand_in_format_1(name: str) -> None:
    design = opened(name).design
    assert design.name == "Harbor fence"
    assert sum(len(row.placements) for row in design.quilt.rows) == 16
    assert (design.quilt.finished.width, design.quilt.finished.height) == (30, 30)


def test_a_journal_of_format_1_is_understood() -> None:
    contents = read_contents((FOLDER / "format-1-hedgerow.journal").read_bytes())
    assert contents is not None
    assert path_from_text(contents.beginning.base or "") == Path("/home/ada/quilts/hedgerow.piecewright")
    assert (contents.beginning.owner.pid, contents.beginning.owner.host) == (4711, "sewing-room")
    assert contents.chain == (1, 2, 3, 4)
    assert len(contents.edits) == 6
    assert not contents.damaged
    assert list(contents.pictures) == ["leaf.png"]
    begun = msgspec.json.decode(contents.beginning.design)
    assert begun["name"] == "Hedgerow"
