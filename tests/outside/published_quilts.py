"""Quilts whose patterns were published, as far as they are made of squares and strips, built as designs.

What a pattern does not print is chosen freely and said; sizes, counts and widths are the pattern's own.
"""

from collections.abc import Iterable
from fractions import Fraction

from piecewright.making.recipe import Recipe
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Backing, Batting, Binding, Border, Lattice, Placement, Quilt, Row, Turn
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Sizes

BOLT = Settings(usable=Fraction(42))
UNTRUED = BOLT.changed(trim_first=Fraction(0), trim_again=Fraction(0))
"""Patterns seldom allow for truing; what they print is held against plans without it, unless both agree."""


def letters(**ids: str) -> Letters:
    """One fabric a letter."""
    return Letters({letter: (fabric,) for letter, fabric in ids.items()})


def fabrics(*names: str, **widths: int) -> tuple[Fabric, ...]:
    """Fabrics f1, f2 ... with these names; a usable width of its own by name."""
    return tuple(
        Fabric(
            id=f"f{number}",
            name=name,
            color="#808080",
            width=Fraction(widths[name]) if name in widths else None,
        )
        for number, name in enumerate(names, 1)
    )


def design(
    name: str,
    cloths: tuple[Fabric, ...],
    recipes: Iterable[tuple[Recipe, Letters, Sizes]],
    wall: Quilt,
    settings: Settings = UNTRUED,
) -> Design:
    """A design whose recipes and blocks are r50, b50, r51, b51 and so on."""
    shelf = tuple(enumerate(recipes, 50))
    return Design(
        name=name,
        fabrics=cloths,
        recipes=tuple(RecipeEntry(f"r{number}", recipe) for number, (recipe, _, _) in shelf),
        blocks=tuple(
            Block(f"b{number}", recipe.name, f"r{number}", sizes, given)
            for number, (recipe, given, sizes) in shelf
        ),
        arrangements=(wall,),
        settings=settings,
        next_id=99,
    )


def wall(lattice: Lattice, laid: Iterable[tuple[int, int, str, Turn]], quilt: Quilt | None = None) -> Quilt:
    """An arrangement of blocks laid at (column, row), with a turn."""
    rows: dict[int, list[Placement]] = {}
    for column, row, block, turn in sorted(laid, key=lambda place: (place[1], place[0])):
        rows.setdefault(row, []).append(Placement(column, block, turn))
    base = quilt or Quilt("As published", lattice)
    return base.changed(
        lattice=lattice, rows=tuple(Row(row, tuple(placements)) for row, placements in rows.items())
    )


def piece(width: str, length: str, name: str = "Piece") -> Recipe:
    """One patch, cut `width` by `length`; it lies `length` across and `width` down."""
    return Recipe.from_plain(
        {
            "recipe": 1,
            "name": name,
            "steps": [{"make": "block", "lay": {"fabric": "A", "width": width, "length": length}}],
            "block": ["block"],
        }
    )


def framed(center: tuple[str, str], strip: str) -> Recipe:
    """A patch cut so wide and high, framed by strips of one cut width: sides first."""
    width, height = center
    edge = f"{width} + 2 * ({strip}) - 4 * seam"
    return Recipe.from_plain(
        {
            "recipe": 1,
            "name": "Framed patch",
            "steps": [
                {"make": "middle", "lay": {"fabric": "A", "width": height, "length": width}},
                *(
                    step
                    for side in ("left", "right")
                    for step in (
                        {"make": f"{side}_strip", "lay": {"fabric": "B", "width": strip, "length": height}},
                        {"make": side, "turn": f"{side}_strip", "by": 90},
                    )
                ),
                {"make": "row", "sew": ["left", "middle", "right"], "axis": "across"},
                *(
                    {"make": end, "lay": {"fabric": "B", "width": strip, "length": edge}}
                    for end in ("top", "bottom")
                ),
                {"make": "block", "sew": ["top", "row", "bottom"], "axis": "down"},
            ],
            "block": ["block"],
        }
    )


def four_patch(cut: str) -> Recipe:
    """Two segments of a set of two strips, one turned end for end."""
    return Recipe.from_plain(
        {
            "recipe": 1,
            "name": "Four-patch",
            "steps": [
                *(
                    {"make": name.lower(), "lay": {"fabric": name, "width": cut, "length": f"2 * ({cut})"}}
                    for name in "AB"
                ),
                {"make": "set", "sew": ["a", "b"], "axis": "down"},
                {"make": "half", "cut": "set", "axis": "across", "every": cut, "count": 2},
                {"make": "turned", "turn": "half.2", "by": 180},
                {"make": "block", "sew": ["half.1", "turned"], "axis": "across"},
            ],
            "block": ["block"],
        }
    )


def rail_fence_throw() -> Design:
    """10 x 11 rails of three, two colorings; border and binding of the red, as its yardage says."""
    three = shipped_recipes()["rail-fence-of-three"]
    quilt = Quilt(
        "As published",
        Lattice(Fraction(6), 10, 11),
        borders=(Border("f2", Fraction(3)),),
        binding=Binding("f2"),
        backing=Backing("f5", overage=Fraction(17, 2)),
        batting=Batting(Fraction(17, 2)),
    )
    places = [(column, row) for row in range(11) for column in range(10)]
    laid: list[tuple[int, int, str, Turn]] = [
        (column, row, "b50" if (column + row) % 2 else "b51", 90 if (column + row) % 2 else 0)
        for column, row in places
    ]
    return design(
        "Rail fence throw",
        fabrics("black", "red", "teal", "fourth", "back"),
        [
            (three, letters(A="f1", B="f2", C="f3"), Sizes()),
            (three, letters(A="f1", B="f2", C="f4"), Sizes()),
        ],
        wall(quilt.lattice, laid, quilt),
        BOLT,
    )


def columns_quilt() -> Design:
    """The five pieced columns of the columns-and-sashing quilt: pieces 4 x 6 and 3 x 6, 8 and 10 in each."""
    heights = (7, 5) * 8 + (5, 5)
    laid: list[tuple[int, int, str, Turn]] = []
    for column in range(5):
        row = 0
        for height in heights:
            laid.append((11 * column, row, "b50" if height == 7 else "b51", 0))
            row += height
    return design(
        "Columns",
        fabrics("prints"),
        [(piece("4", "6"), letters(A="f1"), Sizes()), (piece("3", "6"), letters(A="f1"), Sizes())],
        wall(Lattice(Fraction(1, 2), 55, 106), laid),
    )


def staggered_throw() -> Design:
    """Seven rows of rectangles 5 x 10 of 10 in squares; every other row begins and ends with 2 3/4 x 10."""
    laid: list[tuple[int, int, str, Turn]] = []
    for row in range(7):
        shifted = 9 * (row % 2)
        if shifted:
            laid += [(0, 38 * row, "b51", 90), (189, 38 * row, "b51", 90)]
        laid += [(shifted + 18 * n, 38 * row, "b50", 90) for n in range(10 if shifted else 11)]
    quilt = Quilt(
        "As published",
        Lattice(Fraction(1, 4), 198, 266),
        binding=Binding("f2"),
        backing=Backing("f3", overage=Fraction(8)),
        batting=Batting(Fraction(8)),
    )
    return design(
        "Staggered squares",
        fabrics("squares", "binding", "back", squares=10),
        [(piece("5", "10"), letters(A="f1"), Sizes()), (piece("2 3/4", "10"), letters(A="f1"), Sizes())],
        wall(quilt.lattice, laid, quilt),
    )


def rolling_stones() -> Design:
    """9 x 9 of 9 in, pieced blocks and setting squares by turns; a rail of three stands for the pieced block."""
    laid: list[tuple[int, int, str, Turn]] = [
        (column, row, "b51" if (column + row) % 2 else "b50", 0) for row in range(9) for column in range(9)
    ]
    quilt = Quilt(
        "As published",
        Lattice(Fraction(9), 9, 9),
        binding=Binding("f5"),
        backing=Backing("f6", overage=Fraction(13, 2)),
        batting=Batting(Fraction(13, 2)),
    )
    three = shipped_recipes()["rail-fence-of-three"]
    return design(
        "Rolling stones",
        fabrics("one", "two", "three", "setting squares", "binding", "back"),
        [
            (three, letters(A="f1", B="f2", C="f3"), Sizes({"F": Fraction(9)})),
            (piece("9 1/2", "9 1/2"), letters(A="f4"), Sizes()),
        ],
        wall(quilt.lattice, laid, quilt),
        BOLT,
    )


def cobblestones() -> Design:
    """Blocks of a 3 in center and 2 1/2 in strips; so many of them, 6 x 7, are our own choice."""
    laid: list[tuple[int, int, str, Turn]] = [
        (column, row, "b50", 0) for row in range(7) for column in range(6)
    ]
    return design(
        "Cobblestones",
        fabrics("centers", "strips"),
        [(framed(("3", "3"), "2 1/2"), letters(A="f1", B="f2"), Sizes())],
        wall(Lattice(Fraction(13, 2), 6, 7), laid),
    )


def around_the_block() -> Design:
    """9 x 10 units of 5 in: 54 four-patches of squares cut 3, and 36 plain squares."""
    places = [(column, row) for row in range(10) for column in range(9)]
    laid: list[tuple[int, int, str, Turn]] = [
        (column, row, "b50" if index % 5 < 3 else "b51", 0) for index, (column, row) in enumerate(places)
    ]
    quilt = Quilt(
        "As published",
        Lattice(Fraction(5), 9, 10),
        backing=Backing("f4", overage=Fraction(5)),
        batting=Batting(Fraction(5)),
    )
    return design(
        "Around the block",
        fabrics("one", "two", "plain", "back", back=44),
        [
            (four_patch("3"), letters(A="f1", B="f2"), Sizes()),
            (piece("5 1/2", "5 1/2"), letters(A="f3"), Sizes()),
        ],
        wall(quilt.lattice, laid, quilt),
    )


def sixteen_patches(count: int) -> Design:
    """So many blocks of sixteen 2 1/2 in squares: four segments of a set of four strips."""
    recipe = Recipe.from_plain(
        {
            "recipe": 1,
            "name": "Sixteen-patch",
            "steps": [
                *(
                    {"make": name.lower(), "lay": {"fabric": name, "width": "2 1/2", "length": "10"}}
                    for name in "ABCD"
                ),
                {"make": "set", "sew": ["a", "b", "c", "d"], "axis": "down"},
                {"make": "row", "cut": "set", "axis": "across", "every": "2 1/2", "count": 4},
                {"make": "block", "sew": ["row.*"], "axis": "across"},
            ],
            "block": ["block"],
        }
    )
    laid: list[tuple[int, int, str, Turn]] = [(column, 0, "b50", 0) for column in range(count)]
    return design(
        "Sixteen-patches",
        fabrics("a", "b", "c", "d"),
        [(recipe, letters(A="f1", B="f2", C="f3", D="f4"), Sizes())],
        wall(Lattice(Fraction(8), count, 1), laid),
    )
