"""The fabrics of a design: added, changed, taken away, and exchanged everywhere at once."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from piecewright.edit.ids import with_new_id
from piecewright.edit.recoloring import check_fabric, with_letters
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Arguments, edit, last_wins
from piecewright.edit.wall import with_placements
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric, Print
from piecewright.model.forms import Form
from piecewright.model.quilt import Placement, Quilt
from piecewright.words.message import Message, message


@edit("add-fabric", undo="edit.undo-add-fabric")
def add_fabric(
    design: Design,
    *,
    name: str,
    color: str,
    print: Print | None = None,  # noqa: A002 - the trade's word, and the fabric's field
    picture: str | None = None,
    price: Fraction | None = None,
    width: Fraction | None = None,
    note: str = "",
    forms: tuple[Form, ...] = (),
    value: Literal["light", "medium", "dark"] | None = None,
) -> Design:
    """Add a fabric under a new id, the last of the design's fabrics."""
    new, counted = with_new_id(design, "f")
    fabric = Fabric(new, name, color, print, picture, price, width, note, forms, value)
    return counted.changed(fabrics=(*design.fabrics, fabric))


def _same_fabric(previous: Arguments, following: Arguments) -> Arguments | None:
    return following if previous["fabric"].id == following["fabric"].id else None


@edit("change-fabric", undo="edit.undo-change-fabric", merge=_same_fabric)
def change_fabric(design: Design, *, fabric: Fabric) -> Design:
    """Put a fabric in the place of the one that has its id."""
    check_fabric(design, fabric.id)
    return design.changed(fabrics=tuple(fabric if old.id == fabric.id else old for old in design.fabrics))


@edit("set-forms", undo="edit.undo-set-forms", merge=last_wins("fabric"))
def set_forms(design: Design, *, fabric: str, forms: tuple[Form, ...]) -> Design:
    """Say in which forms a fabric is had; none: as much off the bolt as it takes."""
    check_fabric(design, fabric)
    return design.changed(
        fabrics=tuple(old.changed(forms=forms) if old.id == fabric else old for old in design.fabrics)
    )


@edit("remove-fabric", undo="edit.undo-remove-fabric")
def remove_fabric(design: Design, *, fabric: str) -> Design:
    """Take away a fabric that nothing uses.

    Raises EditError, with the count of uses, where something does.
    """
    check_fabric(design, fabric)
    uses = fabric_uses(design, fabric)
    if uses:
        refuse(
            "fabric-used",
            message("edit.replace-fabric-first"),
            name=design.shelf.fabrics[fabric].name,
            uses=uses,
        )
    return design.changed(fabrics=tuple(old for old in design.fabrics if old.id != fabric))


@edit("replace-fabric", undo="edit.undo-replace-fabric")
def replace_fabric(design: Design, *, fabric: str, to: str) -> Design:
    """Use another fabric wherever this one is used: on the shelf and in all arrangements."""
    check_fabric(design, fabric)
    check_fabric(design, to)
    return with_fabrics_renamed(design, {fabric: to})


@edit("swap-fabrics", undo="edit.undo-swap-fabrics")
def swap_fabrics(design: Design, *, first: str, second: str) -> Design:
    """Let two fabrics change places everywhere."""
    check_fabric(design, first)
    check_fabric(design, second)
    return with_fabrics_renamed(design, {first: second, second: first})


def with_fabrics_renamed(design: Design, names: Mapping[str, str]) -> Design:
    """The design in which each fabric id of `names` is another wherever it is used."""
    blocks = tuple(_block(block, names) for block in design.blocks)
    own = {block.id: block for block in blocks}
    quilts = tuple(_quilt(quilt, names, own) for quilt in design.arrangements)
    return design.changed(blocks=blocks, arrangements=quilts)


def fabric_uses(design: Design, fabric: str) -> tuple[Message, ...]:
    """Where a fabric is used, each place counted: none, where nothing uses it."""
    quilts = design.arrangements
    counts = {
        "blocks": sum(fabric in block.fabrics.ids() for block in design.blocks),
        "placed": sum(
            fabric in placement.fabrics.ids()
            for quilt in quilts
            for row in quilt.rows
            if fabric in row.fabrics
            for placement in row.placements
        ),
        "borders": sum(fabric in border.fabrics for quilt in quilts for border in quilt.borders),
        "sashings": sum(quilt.sashing is not None and fabric in quilt.sashing.fabrics for quilt in quilts),
        "triangles": sum(
            quilt.triangles.fabric == fabric and quilt.lattice.kind == "on point" for quilt in quilts
        ),
        "coping": sum(quilt.coping == fabric for quilt in quilts),
        "bindings": sum(quilt.binding.fabric == fabric for quilt in quilts),
        "backings": sum(quilt.backing.fabric == fabric for quilt in quilts),
    }
    return tuple(message(f"edit.uses-{place}", count=count) for place, count in counts.items() if count)


def _block(block: Block, names: Mapping[str, str]) -> Block:
    fabrics = block.fabrics.renamed(names)
    return block if fabrics is block.fabrics else block.changed(fabrics=fabrics)


def _quilt(quilt: Quilt, names: Mapping[str, str], blocks: Mapping[str, Block]) -> Quilt:
    if quilt.fabrics.isdisjoint(names):
        return quilt
    borders = tuple(border.renamed(names) for border in quilt.borders)
    binding, backing = quilt.binding.fabric, quilt.backing.fabric
    return quilt.changed(
        rows=with_placements(quilt, lambda one: _placement(one, names, blocks)),
        borders=borders,
        sashing=quilt.sashing and quilt.sashing.renamed(names),
        triangles=quilt.triangles.renamed(names),
        coping=quilt.coping and names.get(quilt.coping, quilt.coping),
        binding=quilt.binding.changed(fabric=binding and names.get(binding, binding)),
        backing=quilt.backing.changed(fabric=backing and names.get(backing, backing)),
    )


def _placement(placement: Placement, names: Mapping[str, str], blocks: Mapping[str, Block]) -> Placement:
    if placement.fabrics.ids().isdisjoint(names):
        return placement
    return with_letters(placement, blocks[placement.block].fabrics, placement.fabrics.renamed(names))
