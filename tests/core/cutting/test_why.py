"""Why a number of the cutting is what it is: its terms lead to the blocks and parts that ask for it."""

from fractions import Fraction

import pytest
from hypothesis import given, settings

from piecewright.cutting.table import cutting_plan
from piecewright.cutting.why import amount_why, piece_why
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.model.setting import Sashing
from tests.core.plan.samples import BOLT, block, design, letters, quilt
from tests.core.strategies import designs


def _sample() -> Design:
    """Thirty blocks of cloths 1 and 2; cloth 1 also for cornerstones and the outer border."""
    shelf = (block(shipped_recipes()["churn-dash"], letters(A="f1", B="f2")),)
    wall = quilt(
        30,
        5,
        Fraction(12),
        borders=(Border("f3", Fraction(2)), Border("f1", Fraction(6))),
        sashing=Sashing("f2", Fraction(2), Fraction(2), cornerstones="f1"),
        binding=Binding("f2"),
        backing=Backing("f4"),
    )
    return design(shelf, wall, BOLT)


def test_patches_lead_to_the_blocks_and_borders_to_the_border() -> None:
    drawn = _sample()
    found = cutting_plan(drawn).of("f1")
    assert found is not None
    for piece in found.plan.job.pieces:
        told = piece_why(drawn, found, piece.key)
        assert told.terms
        if piece.key.startswith("patch"):
            assert told.refers.blocks == ("b30",)
            assert len(told.refers.cells) == 30
        if piece.key.startswith("border"):
            assert told.refers.parts == ("border 2",)
            assert told.terms[0].opens is not None
            assert told.terms[0].opens.key == 1


def test_the_terms_of_the_cloth_sum_to_it() -> None:
    drawn = _sample()
    for each in cutting_plan(drawn).fabrics:
        strips = {strip.height for laid in each.plan.laid for strip in laid.strips}
        told = amount_why(drawn, each)
        assert len(told.terms) == len(strips)
        total = sum(
            (Fraction(str(dict(term.said.args)["count"])) * Fraction(str(dict(term.said.args)["height"])))
            for term in told.terms
        )
        assert total == each.plan.amount


def test_a_key_that_is_not_cut_is_refused() -> None:
    drawn = _sample()
    with pytest.raises(KeyError):
        piece_why(drawn, cutting_plan(drawn).fabrics[0], "no such piece 1")


@settings(deadline=None, max_examples=8)
@given(designs())
def test_every_piece_of_any_design_opens(drawn: Design) -> None:
    for each in cutting_plan(drawn).fabrics:
        for piece in each.plan.job.pieces:
            assert piece_why(drawn, each, piece.key).terms
        assert amount_why(drawn, each).said.text()
