"""Any number opens to its sum, and its terms lead to the cells, blocks and fabrics that it comes of."""

from fractions import Fraction

import pytest
from hypothesis import given

from piecewright.edit.recoloring import recolor_letter
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border, Label, Sleeve
from piecewright.plan.materials import materials
from piecewright.plan.why import Subject, Term, Why, cells_of, subjects, why
from tests.core.plan.samples import BOLT, rails
from tests.core.strategies import designs


def throw() -> Design:
    around = {"binding": Binding("f4"), "backing": Backing("f5", sleeve=Sleeve(), label=Label())}
    return rails(110, BOLT, borders=(Border("f4", Fraction(3)),), **around)


def opened(found: Design) -> list[Why]:
    return [why(found, subject) for subject in subjects(materials(found))]


def test_the_number_of_strips_opens_to_sets_blocks_and_cells() -> None:
    found = throw()
    cloth = why(found, Subject("cloth", "f1"))
    (sets,) = [term for term in cloth.terms if term.opens and term.opens.number == "set"]
    assert str(sets.said).startswith("19 x 2 1/2 for 19 sets of Cloth 1 2 1/2")
    assert sets.opens is not None
    inner = why(found, sets.opens)
    # 110 blocks, 6 to a set, are 19 sets
    assert str(inner.said).startswith("57 strips = 19 sets of 3; 110 blocks, 6 to a set")
    batch = inner.terms[0]
    assert batch.opens is not None
    blocks = why(found, batch.opens)
    assert len(blocks.refers.cells) == 110
    assert blocks.terms[0].refers.cells == blocks.refers.cells
    assert blocks.refers.fabrics == ("f1", "f2", "f3")


def test_one_recolored_block_is_the_only_cell_of_its_batch() -> None:
    found = recolor_letter(rails(60), cells=(Cell(3, 2),), letter="B", fabric="f4")
    made = materials(found)
    (other,) = [batch for batch in made.batches if batch.blocks == 1]
    assert cells_of(found, other.key) == (Cell(3, 2),)
    assert why(found, Subject("cloth", "f4")).refers.cells == (Cell(3, 2),)


@given(designs())
def test_every_number_opens_and_every_term_leads_somewhere_that_is_there(found: Design) -> None:
    known = set(subjects(materials(found)))
    cells = {Cell(placement.column, row.row) for row in found.quilt.rows for placement in row.placements}
    for each in opened(found):
        assert str(each.said)
        assert each.terms
        for term in each.terms:
            assert str(term.said)
            assert term.opens is None or term.opens in known
            _check_refers(found, term, cells)


def _check_refers(found: Design, term: Term, cells: set[Cell]) -> None:
    assert set(term.refers.cells) <= cells
    assert set(term.refers.blocks) <= found.shelf.blocks.keys()
    assert set(term.refers.fabrics) <= found.shelf.fabrics.keys()


@given(designs())
def test_the_strips_of_the_terms_are_the_strips_of_the_fabric(found: Design) -> None:
    made = materials(found)
    for cloth in made.cloth:
        terms = why(found, Subject("cloth", cloth.fabric)).terms
        sets = {term.opens.key for term in terms if term.opens and term.opens.number == "set"}
        lanes = {lane.fabric for each in made.sets if each.key in sets for lane in each.lanes}
        pieced = any(use.part == "piecing" for use in cloth.uses)
        assert (cloth.fabric in lanes) == pieced


@given(designs())
def test_the_cells_of_all_batches_are_the_blocks_that_can_be_made(found: Design) -> None:
    made = materials(found)
    cells = [cell for batch in made.batches for cell in cells_of(found, batch.key)]
    assert len(cells) == len(set(cells)) <= sum(batch.blocks for batch in made.batches)
    placed = {Cell(placement.column, row.row) for row in found.quilt.rows for placement in row.placements}
    faulty = {finding.where.split(",")[0] for finding in made.findings if finding.severity == "error"}
    left = placed - set(cells)
    at = {Cell(one.column, row.row): one.block for row in found.quilt.rows for one in row.placements}
    assert all(at[cell] in faulty for cell in left)


def test_what_is_not_there_is_a_key_error() -> None:
    for subject in (
        Subject("border", 7),
        Subject("cloth", "f99"),
        Subject("set", "none"),
        Subject("batch", "none"),
    ):
        with pytest.raises(KeyError):
            why(throw(), subject)


def test_the_parts_round_the_quilt_light_up_by_name() -> None:
    found = throw()
    assert why(found, Subject("border", 0)).refers.parts == ("border 1",)
    assert why(found, Subject("binding")).refers.fabrics == ("f4",)
    assert len(why(found, Subject("backing")).terms) == 4
    assert why(found, Subject("cloth", "f5")).refers.parts == ("backing", "sleeve", "label")
