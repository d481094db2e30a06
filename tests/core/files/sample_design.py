"""A small design that uses every kind of thing a file holds; a picture of each kind; and a larger one."""

import io
from fractions import Fraction
from random import Random

from PIL import Image

from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print
from piecewright.model.quilt import Backing, Batting, Binding, Border, Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Sizes

RAILS = {
    "recipe": 1,
    "name": "Rails of two",
    "sizes": {"F": ["4", "6", "4 1/3"]},
    "let": {"w": "F/2 + 2*seam"},
    "steps": [
        {"make": "a", "lay": {"fabric": "A", "width": "w", "length": "F + 2*seam", "least": True}},
        {"make": "b", "lay": {"fabric": "B", "width": "w", "length": "F + 2*seam", "least": True}},
        {"make": "set", "sew": ["a", "b"], "axis": "down"},
        {"make": "segment", "cut": "set", "axis": "across", "every": "F + 2*seam", "count": 1},
    ],
    "block": ["segment.1"],
    "finished": ["F", "F"],
}


def picture(kind: str = "PNG", width: int = 24, height: int = 16) -> bytes:
    """A real picture, made by an image library."""
    made = io.BytesIO()
    Image.new("RGB", (width, height), (90, 120, 60)).save(made, kind)
    return made.getvalue()


def sample_pictures() -> dict[str, bytes]:
    """The pictures that the sample's fabrics show."""
    return {"leaf.png": picture("PNG"), "Stoff mit Ä.jpg": picture("JPEG"), "moss.webp": picture("WEBP")}


def sample_design(columns: int = 5, rows: int = 4) -> Design:
    """Fabrics with and without print and picture, two arrangements, recolored and turned blocks."""
    fabrics = (
        Fabric("f1", "Leaf", "#507030", picture="leaf.png", price=Fraction(49, 4)),
        Fabric("f2", "Stoff mit Ä", "#a08050", picture="Stoff mit Ä.jpg", note="left over"),
        Fabric("f3", "Moss", "#304020", picture="moss.webp", width=Fraction(85, 2)),
        Fabric(
            "f4",
            "Dots",
            "#e0d0b0",
            print=Print("dots", ("#aa3344", "#223344"), Fraction(1, 3), 90, one_way=True),
        ),
    )
    blocks = (
        Block(
            "b6",
            "Rails",
            "r5",
            Sizes({"F": Fraction(4)}),
            Letters({"A": ("f1",), "B": ("f4",)}),
            favorite=True,
        ),
        Block("b7", "Thirds", "r5", Sizes({"F": Fraction(13, 3)}), Letters({"A": ("f2",), "B": ("f3",)})),
    )
    full = tuple(Row(row, tuple(_placed(column, row) for column in range(columns))) for row in range(rows))
    around = (Border("f3", Fraction(5, 2)), Border("f1", Fraction(4), "top and bottom"))
    quilt = Quilt(
        "Zigzag",
        Lattice(Fraction(4), columns, rows),
        full,
        around,
        Binding("f2", Fraction(9, 4)),
        Backing("f4", Fraction(6), Fraction(3, 8)),
        Batting(Fraction(10)),
    )
    return Design(
        name="Hedgerow",
        fabrics=fabrics,
        recipes=(RecipeEntry("r5", Recipe.from_plain(RAILS)),),
        blocks=blocks,
        arrangements=(quilt, Quilt("Empty", Lattice(Fraction(9, 2), 3, 2))),
        settings=Settings(seam=Fraction(3, 8), yardage="third", currency="€"),
        about='A first line.\nA second with "quotes" and \\.',
        author="Ada",
        next_id=8,
    )


def _placed(column: int, row: int) -> Placement:
    own = Letters({"A": ("f3",)}) if (column + row) % 3 == 0 else Letters()
    return Placement(column, "b6", 90 if (column + row) % 2 else 0, fabrics=own)


def noisy_picture(width: int, height: int) -> bytes:
    """A picture that can not be packed: about three bytes for each pixel."""
    made = io.BytesIO()
    noise = Random(1).randbytes(width * height * 3)
    Image.frombytes("RGB", (width, height), noise).save(made, "PNG", compress_level=0)
    return made.getvalue()
