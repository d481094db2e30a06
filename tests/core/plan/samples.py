"""Small designs to plan: rails of three on a grid, with fabrics by letter."""

from fractions import Fraction
from typing import Any

from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import NO_SIZES, Letters, Sizes

BOLT = Settings(usable=Fraction(42))
UNTRUED = BOLT.changed(trim_first=Fraction(0), trim_again=Fraction(0))
BLOCK = "b30"


def fabrics(count: int = 6) -> tuple[Fabric, ...]:
    """Fabrics f1, f2 ... with names that tell their number."""
    return tuple(Fabric(id=f"f{n}", name=f"Cloth {n}", color="#808080") for n in range(1, count + 1))


def letters(**ids: str) -> Letters:
    """One fabric a letter: `letters(A="f1", B="f2")`."""
    return Letters({letter: (fabric,) for letter, fabric in ids.items()})


def block(
    recipe: Recipe, fabrics: Letters, sizes: Sizes = NO_SIZES, number: int = 30
) -> tuple[RecipeEntry, Block]:
    """A shelf entry for a recipe and its block "b30"; another `number` for a further one."""
    entry = RecipeEntry(f"r{number + 30}", recipe)
    return entry, Block(f"b{number}", f"Block {number}", entry.id, sizes, fabrics)


def quilt(count: int, columns: int, unit: Fraction, name: str = BLOCK, **fields: Any) -> Quilt:
    """`count` blocks, each one cell, laid row by row in `columns`."""
    rows = -(-count // columns)
    return Quilt(
        name="Wall",
        lattice=Lattice(unit, columns, max(rows, 1)),
        rows=tuple(
            Row(row, tuple(Placement(column, name) for column in range(min(columns, count - row * columns))))
            for row in range(rows)
        ),
        **fields,
    )


def design(shelf: tuple[tuple[RecipeEntry, Block], ...], wall: Quilt, settings: Settings = BOLT) -> Design:
    """A design with six fabrics."""
    return Design(
        name="Sample",
        fabrics=fabrics(),
        recipes=tuple(entry for entry, _ in shelf),
        blocks=tuple(found for _, found in shelf),
        arrangements=(wall,),
        settings=settings,
        next_id=100,
    )


def rails(count: int, settings: Settings = BOLT, **fields: Any) -> Design:
    """`count` rails of three strips, 6 in finished, ten in a row, in cloths 1, 2 and 3."""
    shelf = (block(shipped_recipes()["rail-fence-of-three"], letters(A="f1", B="f2", C="f3")),)
    return design(shelf, quilt(count, 10, Fraction(6), **fields), settings)


def of_recipe(name: str, count: int, settings: Settings = BOLT, **ids: str) -> Design:
    """`count` blocks of a shipped recipe in its first sizes, on cells of 12 in."""
    recipe = shipped_recipes()[name]
    shelf = (block(recipe, letters(**ids)),)
    return design(shelf, quilt(count, 10, Fraction(12)), settings)
