"""Random designs, in one place for every test: all are drawn from a `Random`.

Hypothesis hands in a `Random` that it steers and shrinks (`randoms`); the long walk hands in a seeded one.
"""

from collections.abc import Callable, Sequence
from fractions import Fraction
from random import Random
from typing import get_args

from hypothesis import strategies as st

from piecewright.edit.facts_of import facts_of
from piecewright.errors import MakingError, RecipeError
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print, PrintKind
from piecewright.model.forms import Form
from piecewright.model.note import Note
from piecewright.model.quilt import (
    Backing,
    Batting,
    Binding,
    Border,
    Label,
    Lattice,
    Placement,
    Quilt,
    Row,
    Sleeve,
    Turn,
)
from piecewright.model.setting import Pieced
from piecewright.model.settings import Bundles, Settings, Shrinkage
from piecewright.model.shape import Shape
from piecewright.model.usual_shapes import USUAL_SHAPES
from piecewright.model.value import NO_LETTERS, Letters, Sizes, Value

TURNS: tuple[Turn, ...] = get_args(Turn)
UNITS = (Fraction(2), Fraction(3), Fraction(3, 2), Fraction(6))
NAMES = ("Rose", "Fern", "Dusk", "Old brick", "Größe ½", "夜", 'Aunt "May"')

randoms = st.randoms(use_true_random=False)


def designs() -> st.SearchStrategy[Design]:
    """Sound designs with blocks on their walls."""
    return randoms.map(random_design)


def values() -> st.SearchStrategy[Value]:
    """Values of the kinds that a design is built of."""
    return st.tuples(randoms, st.sampled_from(VALUES)).map(lambda pair: pair[1](pair[0]))


def random_design(random: Random) -> Design:
    """A sound design: every block on its walls inside, apart from the others, and made by its recipe."""
    fabrics = tuple(random_fabric(random, f"f{number}") for number in range(1, random.randint(2, 5)))
    recipes = random.sample(sorted(shipped_recipes()), random.randint(1, 4))
    entries = tuple(RecipeEntry(f"r{10 + n}", shipped_recipes()[name]) for n, name in enumerate(recipes))
    blocks = tuple(
        random_block(random, f"b{20 + number}", random.choice(entries), fabrics)
        for number in range(random.randint(1, 5))
    )
    design = Design(
        name=random.choice(NAMES),
        fabrics=fabrics,
        recipes=entries,
        blocks=blocks,
        settings=Settings(),
        next_id=30,
    )
    quilts = tuple(random_quilt(random, design) for _ in range(random.randint(1, 3)))
    return design.changed(
        arrangements=quilts, current=random.randrange(len(quilts)), about=random.choice(("", "Plan"))
    )


def random_fabric(random: Random, name: str) -> Fabric:
    """A fabric of that id: solid or printed."""
    return Fabric(
        id=name,
        name=random.choice(NAMES),
        color=random_color(random),
        print=random_print(random) if random.random() < 0.5 else None,
        price=random.choice((None, Fraction(0), Fraction(1299, 100))),
        width=random.choice((None, Fraction(43), Fraction(85, 2))),
        note=random.choice(("", "two\nlines")),
        forms=random_forms(random) if random.random() < 0.4 else (),
        value=random.choice((None, None, "light", "dark")),
    )


def random_forms(random: Random) -> tuple[Form, ...]:
    """Forms of cloth on hand, and at most one that is bought."""
    held = (
        Form("strip", random.randint(1, 4), Fraction(5, 2), Fraction(random.randint(8, 44))),
        Form("strip", 2, Fraction(5, 2), Fraction(20), Fraction(30), lengthwise=random.random() < 0.3),
        Form("fat quarter", random.randint(1, 3)),
        Form("bolt", 1, length=Fraction(27, 2)),
    )
    bought = (Form(), Form("fat quarter"), Form("fat eighth"), Form("10 inch square"), Form("roll strip"))
    return (*random.sample(held, random.randint(0, 2)), *random.sample(bought, random.randint(0, 1)))


def random_print(random: Random) -> Print:
    """A print of any kind."""
    return Print(
        kind=random.choice(get_args(PrintKind)),
        inks=tuple(random_color(random) for _ in range(random.randint(1, 3))),
        scale=Fraction(random.randint(1, 40), 8),
        turn=random.choice((0, 45, 90, 359)),
        one_way=random.random() < 0.5,
    )


def random_color(random: Random) -> str:
    """A color as #rrggbb."""
    return f"#{random.randrange(1 << 24):06x}"


def random_block(random: Random, name: str, entry: RecipeEntry, fabrics: Sequence[Fabric]) -> Block:
    """A block of a recipe, in one of its listed sizes, with fabrics for most of its letters."""
    recipe = entry.recipe
    return Block(
        id=name,
        name=random.choice(NAMES),
        recipe=entry.id,
        sizes=random_sizes(random, recipe),
        fabrics=random_letters(random, recipe, [fabric.id for fabric in fabrics]),
        favorite=random.random() < 0.2,
        made=random.choice((0, 0, 3, 7)),
    )


def random_sizes(random: Random, recipe: Recipe) -> Sizes:
    """Some of a recipe's sizes, each one that the recipe lists."""
    return Sizes(
        {name: random.choice(listed) for name, listed in recipe.sizes.items() if random.random() < 0.7}
    )


def random_letters(random: Random, recipe: Recipe, fabrics: Sequence[str], most: float = 0.9) -> Letters:
    """Fabrics for some of a recipe's letters, as many as its stack has layers or fewer."""
    if not fabrics:
        return NO_LETTERS
    return Letters(
        {
            letter: tuple(random.choice(fabrics) for _ in range(random.randint(1, recipe.stack)))
            for letter in recipe.letters
            if random.random() < most
        }
    )


def random_lattice(random: Random) -> Lattice:
    """A small lattice."""
    return Lattice(random.choice(UNITS), random.randint(1, 14), random.randint(1, 14))


def random_quilt(random: Random, design: Design) -> Quilt:
    """An arrangement with blocks strewn where a plain set of cells says that there is room."""
    lattice = random_lattice(random)
    taken: set[tuple[int, int]] = set()
    rows: dict[int, list[Placement]] = {}
    for _ in range(random.randint(0, 12)):
        column, row = random.randrange(lattice.columns), random.randrange(lattice.rows)
        placement = random_placement(random, design, column)
        cells = cells_under(design, placement, column, row, lattice.unit)
        inside = all(x < lattice.columns and y < lattice.rows for x, y in cells)
        if cells and inside and taken.isdisjoint(cells):
            taken |= cells
            rows.setdefault(row, []).append(placement)
    laid = tuple(
        Row(row, tuple(sorted(rows[row], key=lambda placement: placement.column))) for row in sorted(rows)
    )
    fabric = random.choice((None, *design.shelf.fabrics))
    return Quilt(
        name=random.choice(NAMES),
        lattice=lattice,
        rows=laid,
        borders=tuple(random_border(random, fabric) for _ in range(random.randint(0, 2)) if fabric),
        binding=random_binding(random, fabric),
        backing=random_backing(random, fabric),
        batting=random_batting(random),
        notes=tuple(random_note(random) for _ in range(random.choice((0, 0, 1, 2)))),
        shape=random_shape(random) if random.random() < 0.15 else None,
    )


def random_shape(random: Random) -> Shape:
    """One of the shapes that are offered, as usual or a little larger."""
    usual_shape = USUAL_SHAPES[random.choice(tuple(USUAL_SHAPES))]
    more = Fraction(random.choice((0, 0, 1, 3)), 2)
    sizes = {
        name: size + more for name, size in usual_shape.usual.items() if name in ("width", "height", "length")
    }
    return Shape(usual_shape.name, Sizes(sizes), margin=Fraction(random.choice((0, 1, 2)), 2))


def random_note(random: Random) -> Note:
    """A note on the quilt or beside it."""
    across, down = (Fraction(random.randint(-40, 800), 8) for _ in range(2))
    return Note(random.choice((*NAMES, "two\nlines")), across, down)


def cells_under(
    design: Design, placement: Placement, column: int, row: int, unit: Fraction
) -> set[tuple[int, int]]:
    """The cells that a block covers, counted without the edits' code; none if it fits no whole cells."""
    try:
        finished = facts_of(design, placement.block).finished
    except (RecipeError, MakingError):
        return set()
    across, down = Fraction(finished.width) / unit, Fraction(finished.height) / unit
    if placement.turn in (90, 270):
        across, down = down, across
    if across != int(across) or down != int(down):
        return set()
    return {(column + x, row + y) for x in range(int(across)) for y in range(int(down))}


def random_placement(random: Random, design: Design, column: int) -> Placement:
    """A block of the shelf, turned, of any of its kinds and layers, sometimes recolored."""
    block = random.choice(design.blocks)
    kind, layer = random_version(random, design, block.id)
    recipe = design.shelf.recipes[block.recipe]
    fabrics = (
        random_letters(random, recipe, tuple(design.shelf.fabrics), 0.4)
        if random.random() < 0.3
        else NO_LETTERS
    )
    group = random.choice((0, 0, 0, 1, 2))
    return Placement(column, block.id, random.choice(TURNS), kind, layer, fabrics, group=group)


def random_version(random: Random, design: Design, block: str) -> tuple[int, int]:
    """A kind and layer that a block's batch yields; the first of both for a block that can not be made."""
    try:
        kinds = facts_of(design, block).kinds
    except (RecipeError, MakingError):
        return 0, 0
    kind = random.randrange(len(kinds))
    return kind, random.choice(kinds[kind].layers)


def random_border(random: Random, fabric: str | None = "f1") -> Border:
    """A border of a fabric: butted, mitered, with corner squares, or pieced of strips."""
    fabric = fabric or "f1"
    first = random.choice(("sides", "top and bottom"))
    corners = random.choice(("butted", "butted", "mitered", "squares"))
    pieced = None
    if corners != "mitered" and random.random() < 0.3:
        pieced = Pieced(Fraction(random.randint(4, 40), 8), (fabric,) * random.randint(1, 3))
    corner = random.choice((None, fabric))
    width = Fraction(random.randint(1, 48), 8)
    grain = random.choice(("crosswise", "crosswise", "lengthwise"))
    return Border(fabric, width, first, corners, corner, pieced=pieced, grain=grain)  # type: ignore[arg-type]


def random_binding(random: Random, fabric: str | None = None) -> Binding:
    """A binding of a fabric, or of none yet: straight or bias, joined either way."""
    return Binding(
        fabric,
        random.choice((Fraction(5, 2), Fraction(9, 4))),
        random.choice(("straight", "straight", "bias")),
        random.choice(("diagonal", "straight")),
        random.choice((Fraction(1, 4), Fraction(3, 8))),
        Fraction(random.choice((0, 10))),
    )


def random_backing(random: Random, fabric: str | None = None) -> Backing:
    """A backing of a fabric, or of none yet, with or without a sleeve and a label."""
    return Backing(
        fabric,
        Fraction(random.randint(0, 10)),
        random.choice((Fraction(1, 2), Fraction(1, 4))),
        random.choice(("least", "up", "across")),
        random.random() < 0.5,
        random.choice((None, Sleeve(), Sleeve(Fraction(3), Fraction(1)))),
        random.choice((None, Label())),
    )


def random_batting(random: Random) -> Batting:
    """A batting."""
    return Batting(Fraction(random.randint(0, 10)))


def random_settings(random: Random) -> Settings:
    """A quilter's settings; few values of what decides a making, so that makings repeat."""
    return Settings(
        seam=random.choice((Fraction(1, 4), Fraction(1, 4), Fraction(3, 8))),
        three_strips=random.choice((Fraction(13, 2), Fraction(103, 16))),
        usable=random.choice((Fraction(40), Fraction(42))),
        trim_every=random.randint(1, 5),
        yardage=random.choice(("exact", "eighth", "quarter", "third", "half")),
        currency=random.choice(("", "EUR")),
        lengths=random.choice(("exact", "eighth", "half")),
        shrinkage=random.choice((Shrinkage(), Shrinkage(Fraction(3), Fraction(5), Fraction(2), "add"))),
        bundles=random.choice((Bundles(), Bundles(roll=20))),
        country=random.choice(("us", "uk", "europe", "australia")),
        drop=Fraction(random.randint(0, 20)),
    )


VALUES: tuple[Callable[[Random], Value], ...] = (
    lambda random: random_fabric(random, "f1"),
    random_print,
    random_lattice,
    random_border,
    random_binding,
    random_backing,
    random_batting,
    random_settings,
    random_note,
    random_design,
)
"""How a value of each kind is drawn."""
