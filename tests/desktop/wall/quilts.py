"""Quilts to hang: from nothing to thousands of blocks, all of blocks that the shipped recipes make."""

from fractions import Fraction
from random import Random

from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print, PrintKind
from piecewright.model.quilt import Binding, Border, Lattice, Placement, Quilt, Row, Turn
from piecewright.model.value import Letters, Sizes
from piecewright.render.tint import mix

TURNS: tuple[Turn, ...] = (0, 90, 180, 270)
_INKS = ("#f3ead8", "#3c4a5c", "#b9654a")
_COLORS = ("#2f4a66", "#f1ebdd", "#a6533b", "#6d7d52", "#e0b25a", "#d59aa4", "#8fa3a8", "#54414e")
_KINDS: tuple[PrintKind, ...] = ("dots", "stripes", "florals", "checks", "leaves", "crosshatch")

RAIL, HALVES, MIDDLE, FOUR, SLANT, STACK = "b20", "b21", "b22", "b23", "b24", "b25"
"""Blocks of 6 x 6, 6 x 12, 12 x 12, 8 x 8, 8 x 8 with slants, and 8 x 8 from a stack of five."""
_RECIPES = {
    RAIL: "rail-fence-of-three",
    HALVES: "two-halves-from-thirds",
    MIDDLE: "middle-end-for-end",
    FOUR: "rail-fence-of-four",
    SLANT: "slanted-exchange",
    STACK: "framed-four-patch",
}


def fabrics(count: int = 8) -> tuple[Fabric, ...]:
    """Fabrics f1, f2, ...: every second one printed, no two of one color."""
    made = []
    for number in range(count):
        color = mix(_COLORS[number % len(_COLORS)], "#808080", 0.07 * (number // len(_COLORS)))
        inks = (_INKS[number % 3], _INKS[(number + 1) % 3])
        printed = Print(_KINDS[number // 2 % 6], inks, Fraction(3, 4)) if number % 2 == 0 else None
        made.append(Fabric(f"f{number + 1}", f"Cloth {number + 1}", color, printed))
    return tuple(made)


def design(quilt: Quilt, cloth: tuple[Fabric, ...] = fabrics()) -> Design:
    """A design with the six blocks on its shelf and one quilt."""
    shipped = shipped_recipes()
    entries = tuple(RecipeEntry(f"r{100 + n}", shipped[name]) for n, name in enumerate(_RECIPES.values()))
    blocks = tuple(
        Block(name, entry.recipe.name, entry.id, fabrics=_letters(entry, cloth))
        for name, entry in zip(_RECIPES, entries, strict=True)
    )
    return Design("Quilt to hang", cloth, entries, blocks, (quilt,), next_id=1000)


def empty(columns: int = 24, rows: int = 30, unit: int = 2) -> Design:
    """A wall of 48 x 60 in with nothing on it."""
    return design(Quilt("First", Lattice(Fraction(unit), columns, rows)))


def mixed() -> Design:
    """Blocks of several sizes on a grid of 2 in, 24 x 18 cells."""
    places = (
        (0, 0, MIDDLE, 0),
        (6, 0, HALVES, 0),
        (9, 0, RAIL, 0),
        (9, 3, RAIL, 90),
        (12, 0, SLANT, 0),
        (16, 0, FOUR, 90),
        (0, 6, HALVES, 90),
        (6, 6, STACK, 0),
    )
    rows: dict[int, list[Placement]] = {}
    for column, row, block, turn in places:
        rows.setdefault(row, []).append(Placement(column, block, TURNS[turn // 90]))
    laid = tuple(Row(row, tuple(rows[row])) for row in sorted(rows))
    return design(Quilt("Mixed", Lattice(Fraction(2), 24, 18), laid))


def unmade() -> Design:
    """The mixed quilt, its slanted blocks leaning so far that they can not be squared up."""
    whole = mixed()
    lean = Sizes({"lean": Fraction(8)})
    return whole.changed(
        blocks=tuple(block.changed(sizes=lean) if block.id == SLANT else block for block in whole.blocks)
    )


def rails(columns: int, rows: int, bordered: bool = True) -> Design:
    """Rails of 6 in, every second turned, each cell of 6 in filled; two borders and a binding."""
    laid = tuple(
        Row(row, tuple(Placement(column, RAIL, TURNS[(column + row) % 2]) for column in range(columns)))
        for row in range(rows)
    )
    borders = (Border("f2", Fraction(3, 2)), Border("f1", Fraction(5))) if bordered else ()
    binding = Binding("f3") if bordered else Binding()
    return design(Quilt("Rails", Lattice(Fraction(6), columns, rows), laid, borders, binding))


def unlike(columns: int, rows: int, seed: int = 1) -> Design:
    """Blocks of 12 in with 18 patches each, every one in two fabrics of sixty and turned its own way."""
    random, cloth = Random(seed), fabrics(60)
    laid = tuple(
        Row(
            row,
            tuple(
                Placement(column, MIDDLE, random.choice(TURNS), fabrics=_two(random, cloth))
                for column in range(columns)
            ),
        )
        for row in range(rows)
    )
    return design(Quilt("Unlike", Lattice(Fraction(12), columns, rows), laid), cloth)


def _two(random: Random, cloth: tuple[Fabric, ...]) -> Letters:
    one, other = random.sample(cloth, 2)
    return Letters({"A": (one.id,), "B": (other.id,)})


def _letters(entry: RecipeEntry, cloth: tuple[Fabric, ...]) -> Letters:
    recipe = entry.recipe
    return Letters(
        {
            letter: tuple(cloth[(number + layer) % len(cloth)].id for layer in range(recipe.stack))
            for number, letter in enumerate(recipe.letters)
        }
    )
