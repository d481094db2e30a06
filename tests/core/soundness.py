"""What holds in every design, checked the plain way: a set of cells for each wall."""

from piecewright.edit.facts_of import facts_of
from piecewright.model.design import Design
from piecewright.model.quilt import Quilt
from tests.core.strategies import cells_under


def assert_sound(design: Design) -> None:
    """Every id resolves; rows and columns rise; every placed block can be made, is inside and apart."""
    fabrics = {fabric.id for fabric in design.fabrics}
    recipes = {entry.id for entry in design.recipes}
    blocks = {block.id: block for block in design.blocks}
    names = [*fabrics, *recipes, *blocks]
    assert len(names) == len(design.fabrics) + len(design.recipes) + len(design.blocks) == len(set(names))
    assert all(int("".join(filter(str.isdigit, name))) < design.next_id for name in names)
    for block in design.blocks:
        assert block.recipe in recipes
        assert block.fabrics.ids() <= fabrics
    for quilt in design.arrangements:
        _assert_quilt_sound(design, quilt, fabrics, set(blocks))


def _assert_quilt_sound(design: Design, quilt: Quilt, fabrics: set[str], blocks: set[str]) -> None:
    around = {border.fabric for border in quilt.borders} | {quilt.binding.fabric, quilt.backing.fabric}
    sashing = set(quilt.sashing.fabrics) if quilt.sashing else set[str]()
    between = {quilt.coping, quilt.triangles.fabric if quilt.lattice.kind == "on point" else None}
    assert (around | sashing | between) - {None} <= fabrics
    numbers = [row.row for row in quilt.rows]
    assert numbers == sorted(set(numbers))
    taken: set[tuple[int, int]] = set()
    for row in quilt.rows:
        columns = [placement.column for placement in row.placements]
        assert columns
        assert columns == sorted(set(columns))
        for placement in row.placements:
            assert placement.block in blocks
            assert placement.fabrics.ids() <= fabrics
            assert placement.layer in facts_of(design, placement.block).kinds[placement.kind].layers
            cells = cells_under(design, placement, placement.column, row.row, quilt.lattice.unit)
            assert cells
            assert all(quilt.lattice.holds(x, y) for x, y in cells)
            assert len({quilt.frame.x(x) - x * quilt.lattice.unit for x, _ in cells}) == 1
            assert len({quilt.frame.y(y) - y * quilt.lattice.unit for _, y in cells}) == 1
            assert taken.isdisjoint(cells)
            taken |= cells
