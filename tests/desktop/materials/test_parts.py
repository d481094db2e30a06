"""Rows of sashing, triangles, coping strips and pieced borders, and of what else is cut for the back."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border, Label, Lattice, Sleeve
from piecewright.model.setting import Pieced, Sashing, Triangles
from piecewright.plan.materials import materials
from piecewright.units.measure import Measure
from piecewright_qt.materials.lister import rows
from piecewright_qt.materials.rows import Row
from tests.core.plan.samples import of_recipe, rails

INCH = Measure()


def told(design: Design) -> dict[str, Row]:
    """The lines of a design by their label."""
    return {row.label: row for row in rows(materials(design), INCH) if row.kind == "line"}


def notes(row: Row) -> list[str]:
    """The small print of a row."""
    return [note.text for note in row.notes]


def with_quilt(design: Design, **fields: Any) -> Design:
    return design.with_quilt(design.quilt.changed(**fields))


def test_sashing_cornerstones_and_coping_strips_each_have_a_line() -> None:
    design = with_quilt(
        rails(5),
        lattice=Lattice(Fraction(6), 3, 2),
        sashing=Sashing("f4", Fraction(2), Fraction(2), "f5"),
        coping="f6",
        rows=rails(2).quilt.rows,
    )
    lines = told(design)
    # 3 x 2 spaces: 4 x 2 upright and 3 x 3 level sashes, 4 x 3 cornerstones; one space for coping, and one row
    assert lines["Sashing"].value == "17"
    assert "6 x 2 in finished" in notes(lines["Sashing"])
    assert "17 of 6 1/2 x 2 1/2 in cut" in notes(lines["Sashing"])
    assert lines["Cornerstones"].value == "12"
    assert lines["Cornerstones"].fabrics == ("f5",)
    assert lines["Coping strips"].fabrics == ("f6",)
    plan = materials(design)
    assert sum(int(row.value) for row in lines.values() if row.section == "between") == sum(
        part.count for part in plan.parts
    )


def test_setting_triangles_tell_the_squares_they_are_cut_from() -> None:
    """Chart page 'on-point layout, side and corner triangles': 12 in blocks take squares of 18 1/4 and 9 3/8 in.

    Two blocks corner to corner are 33.94 in; the outline of 34 in leaves 0.03 in of float at each edge, and
    8.485 + 2 x 0.03 + 7/8 in is over 9 3/8 in: the corner triangle takes the next eighth.
    """
    design = of_recipe("middle-end-for-end", 1, A="f1", B="f2")
    lines = told(
        with_quilt(
            design, lattice=Lattice(Fraction(12), 2, 2, "on point"), rows=(), triangles=Triangles("f3")
        )
    )
    assert any("18 1/4 x 18 1/4 in cut, cut twice" in note for note in notes(lines["Side triangles"]))
    assert any("9 1/2 x 9 1/2 in cut, cut once" in note for note in notes(lines["Corner triangles"]))


def test_a_pieced_border_tells_its_pieces_and_its_coping_strips() -> None:
    border = Border(
        "f5", Fraction(2), corners="squares", corner="f4", pieced=Pieced(Fraction(4), ("f1", "f2"))
    )
    lines = told(with_quilt(rails(20), borders=(border,)))
    # 60 x 12 in: 15 pieces of 4 in along top and bottom, 3 along each side
    assert lines["Border 1"].value == "36 pieces"
    assert {"3 along each side", "15 along top and bottom"} <= set(notes(lines["Border 1"]))
    assert lines["Corner squares"].value == "4"
    assert "Coping strips" not in lines
    longer = border.changed(pieced=Pieced(Fraction(5), ("f1", "f2")))
    lines = told(with_quilt(rails(20), borders=(longer,)))
    # 12 in: 2 pieces of 5 in and 1 in at each end
    assert lines["Coping strips"].value == "4"
    assert "1 x 2 in finished" in notes(lines["Coping strips"])


def test_a_mitered_border_says_so() -> None:
    lines = told(with_quilt(rails(20), borders=(Border("f5", Fraction(2), corners="mitered"),)))
    assert "mitered" in notes(lines["Border 1"])


def test_sleeve_label_and_the_ways_to_back_are_told() -> None:
    backing = Backing("f5", sleeve=Sleeve(), label=Label(), pieced=True)
    lines = told(with_quilt(rails(100), backing=backing))
    assert lines["Sleeve"].fabrics == ("f5",)
    assert lines["Label"].value == "1"
    backed = notes(lines["Backing"])
    assert any(note.startswith("seams ") for note in backed)
    assert any("wide backing of 108 in" in note for note in backed)


@pytest.mark.parametrize(("extra", "tone"), [(0, "warn"), (40, "")])
def test_a_tight_binding_is_marked(extra: int, tone: str) -> None:
    """60 x 18 in take 158 in round; 4 strips of 39 1/2 in give just 158."""
    binding = Binding("f4", extra=Fraction(extra))
    row = told(with_quilt(rails(30), binding=binding))["Binding"]
    spare = next(note for note in row.notes if note.text.endswith("to spare"))
    assert spare.tone == tone


def test_what_is_told_again_of_a_plan_is_the_same() -> None:
    def designs() -> Iterator[Design]:
        border = Border("f5", Fraction(2), pieced=Pieced(Fraction(5), ("f1", "f2")))
        for backing in (Backing("f5", label=Label()), Backing("f4", label=Label())):
            yield with_quilt(rails(20), borders=(border,), backing=backing)

    for design in designs():
        assert told(design) == told(design)
