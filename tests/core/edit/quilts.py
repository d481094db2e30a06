"""A small quilt to try edits on, and its wall as letters one can read."""

from fractions import Fraction

from piecewright.edit.footprint import all_laid
from piecewright.edit.placing import place_block
from piecewright.edit.registry import Cell
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Lattice, Quilt, Turn
from piecewright.model.value import Letters, Sizes

RAILS, OTHER, THIRDS, MIDDLE, FOUR_PATCH = "b11", "b12", "b13", "b14", "b15"
"""Blocks of 1 x 1, 1 x 1, 1 x 2, 2 x 2 and, from a stack of five, 1 x 1 cells of 6 in."""
NAMES = {"r": RAILS, "o": OTHER, "t": THIRDS, "m": MIDDLE, "f": FOUR_PATCH}
_RECIPES = ("rail-fence-of-three", "two-halves-from-thirds", "middle-end-for-end", "framed-four-patch")
SIX, TWELVE = Fraction(6), Fraction(12)


def design(columns: int = 6, rows: int = 4) -> Design:
    """An empty wall of cells of 6 in, three fabrics and five blocks."""
    entries = tuple(RecipeEntry(f"r{n}", shipped_recipes()[name]) for n, name in enumerate(_RECIPES, 21))
    fabrics = (
        Fabric("f1", "Rose", "#aa3344"),
        Fabric("f2", "Fern", "#2f6b3a"),
        Fabric("f3", "Dusk", "#3b3f63"),
    )
    two = Letters({"A": ("f1",), "B": ("f2",)})
    return Design(
        "Small",
        fabrics=fabrics,
        recipes=entries,
        blocks=(
            Block(RAILS, "Rails", "r21", Sizes({"F": SIX}), two.with_item("C", ("f1",))),
            Block(OTHER, "Other rails", "r21", Sizes({"F": SIX}), two.with_item("C", ("f3",))),
            Block(THIRDS, "Thirds", "r22", Sizes({"F": TWELVE}), two),
            Block(MIDDLE, "Middle", "r23", Sizes({"F": TWELVE}), two),
            Block(FOUR_PATCH, "Four-patch", "r24", Sizes({"F": SIX}), Letters({"A": ("f1", "f2", "f3")})),
        ),
        arrangements=(Quilt("First", Lattice(SIX, columns, rows)),),
        next_id=30,
    )


def laid(*rows: str, columns: int = 6) -> Design:
    """A wall from rows of letters: r o t m f begin a block (capitals: turned by 90), . and - leave a cell."""
    made = design(columns, len(rows))
    for y, row in enumerate(rows):
        for x, letter in enumerate(row):
            if letter.lower() in NAMES:
                turn: Turn = 90 if letter.isupper() else 0
                made = place_block(made, block=NAMES[letter.lower()], cell=Cell(x, y), turn=turn)
    return made


def drawn(made: Design) -> tuple[str, ...]:
    """The wall in view as rows of letters: a block's letter at its top left, - where it covers more, . where free."""
    lattice = made.quilt.lattice
    picture = [["."] * lattice.columns for _ in range(lattice.rows)]
    letters = {block: letter for letter, block in NAMES.items()}
    for one in all_laid(made, made.quilt):
        for x in range(one.column, one.column + one.columns):
            for y in range(one.row, one.row + one.rows):
                picture[y][x] = "-"
        letter = letters.get(one.placement.block, "x")
        picture[one.row][one.column] = letter.upper() if one.placement.turn in (90, 270) else letter
    return tuple("".join(row) for row in picture)


def at(*places: tuple[int, int]) -> tuple[Cell, ...]:
    """Cells by column and row."""
    return tuple(Cell(column, row) for column, row in places)
