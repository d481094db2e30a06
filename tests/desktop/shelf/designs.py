"""Designs for the shelf: a few blocks of shipped recipes, one of a stack; and a full one."""

from collections.abc import Mapping
from fractions import Fraction

from piecewright.edit.registry import Cell, apply, call
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.fabric import Print
from piecewright.model.quilt import Lattice, Quilt
from piecewright.model.value import Letters, Sizes

FABRICS = (
    ("Ink", "#1d2733", None),
    ("Chalk", "#f4f1e8", None),
    ("Reed", "#7d8c5c", Print("stripes", ("#5c6a40", "#a8b584"), Fraction(1))),
    ("Clay", "#b4634a", Print("dots", ("#e0a78e",), Fraction(1, 2), 90, one_way=True)),
    ("Mist", "#b9c4cb", None),
)


def small_design() -> Design:
    """Three blocks ("b7" to "b11"): 6 x 12 rails' halves, an 8 in stack of five, and 6 in rails; none placed."""
    design = Design("Shelf", arrangements=(Quilt("First", Lattice(Fraction(2), 12, 12)),))
    for name, color, printed in FABRICS:
        design = apply(design, call("add-fabric", name=name, color=color, print=printed))
    ids = [fabric.id for fabric in design.fabrics]
    design = _with_block(design, "Halves", "two-halves-from-thirds", {"A": (ids[0],), "B": (ids[1],)})
    design = _with_block(design, "Windows", "framed-four-patch", {"A": tuple(ids)})
    letters = {"A": (ids[2],), "B": (ids[1],), "C": (ids[3],)}
    return _with_block(design, "Rails", "rail-fence-of-three", letters)


def block_named(design: Design, name: str) -> str:
    """The id of a block."""
    return next(block.id for block in design.blocks if block.name == name)


def fabric_named(design: Design, name: str) -> str:
    """The id of a fabric."""
    return next(fabric.id for fabric in design.fabrics if fabric.name == name)


def with_placed(design: Design, name: str, *cells: tuple[int, int], **how: object) -> Design:
    """The design with a block laid on cells."""
    for column, row in cells:
        block = block_named(design, name)
        design = apply(design, call("place-block", block=block, cell=Cell(column, row), **how))
    return design


def full_design(fabrics: int = 60, blocks: int = 40) -> Design:
    """Many fabrics and blocks, some with names as long as names can be."""
    design = Design("Full", arrangements=(Quilt("First", Lattice(Fraction(3), 20, 20)),))
    for number in range(fabrics):
        name = f"Cloth {number} " + "of a long story " * (number % 12)
        color = f"#{(number * 37) % 256:02x}{(number * 91) % 256:02x}{(number * 53) % 256:02x}"
        printed = Print("leaves", ("#ffffff", "#202020"), Fraction(3, 2)) if number % 2 else None
        design = apply(design, call("add-fabric", name=name.strip(), color=color, print=printed))
    ids = [fabric.id for fabric in design.fabrics]
    for number in range(blocks):
        name = f"Block {number} " + "with very much to say for itself " * (number % 6)
        letters = {letter: (ids[(number * 3 + at) % fabrics],) for at, letter in enumerate("ABC")}
        design = _with_block(design, name.strip(), "rail-fence-of-three", letters)
    return design


def _with_block(design: Design, name: str, recipe: str, letters: Mapping[str, tuple[str, ...]]) -> Design:
    made = shipped_recipes()[recipe]
    sizes = Sizes({"F": Fraction(6)}) if recipe == "rail-fence-of-three" else Sizes()
    return apply(design, call("add-block", name=name, new_recipe=made, fabrics=Letters(letters), sizes=sizes))
