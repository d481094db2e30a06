"""The pieces of a quilt: from its materials, each with its place in them, and never more cloth than they count."""

from fractions import Fraction

import pytest
from hypothesis import given, settings

from piecewright.cutting.demand import FabricDemand, demand_of
from piecewright.cutting.planning import first_plan, plain_plan
from piecewright.cutting.verify import verify
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.plan.materials import Materials, materials
from tests.core.plan.samples import BOLT, block, design, letters, quilt
from tests.core.strategies import designs


def _sample() -> Materials:
    shelf = (block(shipped_recipes()["middle-end-for-end"], letters(A="f1", B="f2")),)
    wall = quilt(
        12,
        4,
        Fraction(12),
        borders=(Border("f1", Fraction(3)),),
        binding=Binding("f2"),
        backing=Backing("f3"),
    )
    return materials(design(shelf, wall, BOLT))


def _of(found: tuple[FabricDemand, ...], fabric: str) -> FabricDemand:
    return next(each for each in found if each.fabric == fabric)


def test_borders_and_binding_end_in_a_shorter_strip() -> None:
    made = _sample()
    (border,), binding = made.borders, made.binding
    found = demand_of(made)
    strips = [piece for piece in _of(found, "f1").pieces if piece.key.startswith("border")]
    assert [piece.count for piece in strips] == [border.strips - 1, 1]
    joined = sum(piece.width * piece.count for piece in strips) - (border.strips - 1) * 2 * made.settings.seam
    assert joined == border.total
    strips = [piece for piece in _of(found, "f2").pieces if piece.key.startswith("binding")]
    joined = sum(piece.width * piece.count for piece in strips) - binding.strips * binding.width
    assert joined == binding.around


def test_backing_panels_are_whole_widths() -> None:
    made = _sample()
    (panel,) = _of(demand_of(made), "f3").pieces
    assert (panel.width, panel.height, panel.count) == (
        made.backing.usable,
        made.backing.panels.length,
        made.backing.panels.count,
    )
    assert first_plan(_of(demand_of(made), "f3").job).amount == made.backing.panels.cloth


def test_every_strip_of_a_set_is_wanted() -> None:
    made = _sample()
    for fabric in ("f1", "f2"):
        wanted = sum(
            piece.count for piece in _of(demand_of(made), fabric).pieces if piece.key[:3] in ("set", "sin")
        )
        counted = sum(
            use.count
            for cloth in made.cloth
            if cloth.fabric == fabric
            for use in cloth.uses
            if use.part == "piecing"
        )
        assert wanted == counted


def test_labels_are_said_in_words() -> None:
    labels = {str(piece.label) for found in demand_of(_sample()) for piece in found.pieces}
    assert labels >= {"strip for a set", "border 1", "border 1, last strip", "binding", "backing panel"}


@settings(deadline=None, max_examples=40)
@given(designs())
def test_a_plan_never_takes_more_than_the_materials_count(drawn: Design) -> None:
    made = materials(drawn)
    found = {each.fabric: each for each in demand_of(made)}
    for cloth in made.cloth:
        job = found[cloth.fabric].job
        for plan in (plain_plan(job), first_plan(job)):
            assert verify(plan) == ()
        if not any(use.grain == "lengthwise" and use.part == "piecing" for use in cloth.uses):
            assert first_plan(job).amount <= cloth.inches


@pytest.mark.parametrize(("blocks", "columns"), [(9, 3), (30, 5)])
def test_ends_of_border_and_binding_share_a_strip(blocks: int, columns: int) -> None:
    """The border's last strip and the binding's fit side by side on 42 in: one strip of 2 1/2 in less."""
    shelf = (block(shipped_recipes()["middle-end-for-end"], letters(A="f3", B="f2")),)
    wall = quilt(
        blocks,
        columns,
        Fraction(12),
        borders=(Border("f1", Fraction(2)),),
        binding=Binding("f1", Fraction(5, 2)),
    )
    made = materials(design(shelf, wall, BOLT))
    cloth = next(each for each in made.cloth if each.fabric == "f1")
    assert first_plan(_of(demand_of(made), "f1").job).amount == cloth.inches - Fraction(5, 2)
