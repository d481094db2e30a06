"""What a check finds in a design, where, and what it says to do."""

from fractions import Fraction
from typing import Any

from hypothesis import given

from piecewright.checks.check import check
from piecewright.errors import Finding
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Lattice, Placement, Row
from piecewright.plan.materials import materials
from tests.core.plan.samples import BLOCK, BOLT, block, design, letters, quilt, rails
from tests.core.strategies import designs

DONE: dict[str, Any] = {"binding": Binding("f4", extra=Fraction(10)), "backing": Backing("f5")}


def codes(found: Design) -> list[str]:
    return [finding.code for finding in check(found)]


def the(found: Design, code: str) -> Finding:
    (finding,) = [finding for finding in check(found) if finding.code == code]
    return finding


def test_a_finished_design_has_nothing_to_find() -> None:
    assert check(rails(60, BOLT, **DONE)) == ()


@given(designs())
def test_every_finding_speaks_and_the_gravest_come_first(found: Design) -> None:
    findings = check(found)
    assert all(finding.sentence().isprintable() for finding in findings)
    order = ["error", "warning", "note"]
    graveness = [order.index(finding.severity) for finding in findings]
    assert graveness == sorted(graveness)
    assert len(findings) == len(set(findings))


@given(designs())
def test_sound_designs_have_no_block_out_of_place(found: Design) -> None:
    assert not {"checks.outside", "checks.overlap"} & set(codes(found))


@given(designs())
def test_all_that_the_materials_find_is_found(found: Design) -> None:
    told = {finding.message for finding in check(found)}
    assert told >= {finding.message for finding in materials(found).findings}


def test_blocks_over_the_edge_and_on_one_another() -> None:
    found = rails(4, BOLT, **DONE)
    lattice = Lattice(Fraction(2), 8, 3)
    row = Row(0, (Placement(0, BLOCK), Placement(2, BLOCK), Placement(6, BLOCK)))
    wrong = found.with_quilt(found.quilt.changed(lattice=lattice, rows=(row,)))
    outside, overlap = the(wrong, "checks.outside"), the(wrong, "checks.overlap")
    assert outside.where == "column 7, row 1"
    assert overlap.where == "column 3, row 1"
    assert str(overlap.message) == "Block 30 lies on Block 30."
    assert outside.hint is not None
    assert outside.severity == overlap.severity == "error"


def test_a_block_that_fits_no_whole_cells() -> None:
    found = rails(1, BOLT, **DONE)
    wrong = found.with_quilt(found.quilt.changed(lattice=Lattice(Fraction(4), 2, 2)))
    finding = the(wrong, "edit.off-grid")
    assert finding.where == BLOCK
    assert "2 in" in str(finding.hint)


def test_no_block_from_the_strip_is_an_error() -> None:
    thirds = shipped_recipes()["middle-end-for-end"]
    shelf = (block(thirds, letters(A="f1", B="f2")),)
    found = design(shelf, quilt(1, 1, Fraction(12), **DONE), BOLT.changed(usable=Fraction(40)))
    assert codes(found) == ["plan.no-block"]


def test_a_seam_of_its_own_is_a_warning() -> None:
    plain = shipped_recipes()["rail-fence-of-three"].plain
    shelf = (block(Recipe.from_plain({**plain, "seam": "3/8"}), letters(A="f1", B="f2", C="f3")),)
    finding = the(design(shelf, quilt(1, 1, Fraction(6), **DONE)), "checks.seam")
    assert str(finding.message) == (
        "Block 30 has a seam allowance of its own, 3/8 in; the quilt is sewn with 1/4 in."
    )


def test_what_a_making_warns_of_is_told_with_its_block() -> None:
    eased = Recipe.from_plain(
        {
            "recipe": 1,
            "name": "Eased",
            "steps": [
                {"make": "a", "lay": {"fabric": "A", "width": "3 1/2", "length": "6 1/2"}},
                {"make": "b", "lay": {"fabric": "B", "width": "3 1/2", "length": "6 9/16"}},
                {"make": "block", "sew": ["a", "b"], "axis": "down"},
            ],
            "block": ["block"],
        }
    )
    shelf = (block(eased, letters(A="f1", B="f2")),)
    findings = check(design(shelf, quilt(1, 1, Fraction(6), **DONE)))
    assert [finding.severity for finding in findings] == ["warning"]
    assert str(findings[0].message).startswith("Block 30, step block: ")


def test_fabrics_not_chosen_yet_and_empty_cells_are_notes() -> None:
    found = rails(59)
    assert codes(found) == [
        "plan.binding-tight",
        "plan.cells-empty",
        "checks.no-binding-fabric",
        "checks.no-backing-fabric",
    ]
    assert {finding.severity for finding in check(found)} == {"note"}


def test_every_arrangement_is_looked_over_and_named() -> None:
    found = rails(60, BOLT, **DONE)
    second = rails(59, BOLT, **DONE).quilt.changed(name="Smaller")
    finding = the(found.changed(arrangements=(found.quilt, second)), "plan.cells-empty")
    assert finding.where == "Smaller, quilt"
