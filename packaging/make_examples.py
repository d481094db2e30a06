"""Make the samples anew, edit by edit, and save them where they ship. Run after the format or an edit changes."""

from fractions import Fraction
from pathlib import Path

from piecewright.edit.registry import Cell, apply, call
from piecewright.files.design_file import save_design
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.fabric import Print
from piecewright.model.quilt import Backing, Batting, Binding, Border, Lattice, Quilt
from piecewright.model.setting import Sashing, Triangles
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Sizes

FOLDER = Path(__file__).resolve().parents[1] / "resources" / "piecewright_data" / "examples"
INCH = Fraction(1)

HARBOR = (
    ("Deep channel", "#22384f", Print("crosshatch", ("#3a5873",), INCH / 2)),
    ("Slate quay", "#56697a", Print("texture", ("#64788a", "#4a5c6c"), INCH)),
    ("Sea glass", "#a9cbc0", Print("waves", ("#7fb0a3", "#d5e8e1"), INCH)),
    ("Foam", "#eef0e9", Print("dots", ("#b9c7c4",), INCH * 3 / 8)),
    ("Driftwood", "#b7a48c", Print("stripes", ("#9c876d", "#cdbda8"), INCH / 2)),
    ("Wet sand", "#dccdb2", Print("sprigs", ("#a98f66", "#8a9a7b"), INCH * 3 / 2)),
    ("Rust buoy", "#a84f36", Print("dots", ("#d88c6d",), INCH / 2)),
    ("Coral rope", "#dd8d76", Print("crosshatch", ("#f0b9a6",), INCH * 3 / 4)),
    ("Kelp", "#4f5f3c", Print("leaves", ("#7d8f5f", "#39472b"), INCH * 3 / 2)),
    ("Lamp room", "#e6bd5b", Print("rings", ("#f6dea0",), INCH * 3 / 4)),
    ("Gull", "#c6ccce", None),
    ("Mussel", "#3d3a52", Print("stars", ("#8b86ad",), INCH)),
    ("Net loft", "#8fa7b5", Print("checks", ("#dfe8ec",), INCH / 2)),
    ("Thrift", "#d9a5b5", Print("florals", ("#a9536f", "#f6e7ec", "#6f8f63"), INCH * 3 / 2)),
    ("Night tide", "#18222e", None),
)


class Maker:
    """A design under way: fabrics and blocks by the names given to them."""

    def __init__(self, name: str, about: str, unit: int, columns: int, rows: int, usable: int = 42) -> None:
        quilt = Quilt("As first hung", Lattice(Fraction(unit), columns, rows))
        self.design = Design(
            name, arrangements=(quilt,), about=about, settings=Settings(usable=Fraction(usable))
        )
        self.fabrics: dict[str, str] = {}
        self.blocks: dict[str, str] = {}

    def do(self, edit: str, /, **arguments: object) -> None:
        """One edit."""
        self.design = apply(self.design, call(edit, **arguments))

    def fabric(self, name: str, color: str, motif: Print | None) -> None:
        """A fabric on the shelf."""
        self.do("add-fabric", name=name, color=color, print=motif)
        self.fabrics[name] = self.design.fabrics[-1].id

    def letters(self, **names: str | tuple[str, ...]) -> Letters:
        """Fabric ids by letter from fabric names, one or one a layer."""
        several = {letter: (given,) if isinstance(given, str) else given for letter, given in names.items()}
        return Letters(
            {letter: tuple(self.fabrics[name] for name in given) for letter, given in several.items()}
        )

    def block(self, name: str, recipe: str, sizes: dict[str, int], **names: str | tuple[str, ...]) -> None:
        """A block on the shelf, from a shipped recipe."""
        made = shipped_recipes()[recipe]
        known = next((entry.id for entry in self.design.recipes if entry.recipe == made), None)
        which = {"recipe": known} if known else {"new_recipe": made}
        exact = Sizes({key: Fraction(value) for key, value in sizes.items()})
        self.do("add-block", name=name, **which, sizes=exact, fabrics=self.letters(**names))
        self.blocks[name] = self.design.blocks[-1].id

    def place(self, block: str, column: int, row: int, turn: int = 0, layer: int = 0, **names: str) -> None:
        """A block on the wall, in other fabrics where they are named."""
        fabrics = self.letters(**names) if names else Letters()
        self.do(
            "place-block",
            block=self.blocks[block],
            cell=Cell(column, row),
            turn=turn,
            layer=layer,
            fabrics=fabrics,
        )

    def border(self, fabric: str, width: str) -> None:
        """One more border on the outside."""
        self.do("add-border", border=Border(self.fabrics[fabric], Fraction(width)))

    def finish(self, binding: str, backing: str) -> None:
        """Binding, backing and batting."""
        self.do("set-binding", binding=Binding(self.fabrics[binding]))
        self.do("set-backing", backing=Backing(self.fabrics[backing]))
        self.do("set-batting", batting=Batting())

    def save(self, file: str) -> None:
        """Where it ships."""
        save_design(FOLDER / f"{file}.piecewright", self.design)


MIDDLES = (
    ("Deep channel", "Foam"), ("Kelp", "Wet sand"), ("Rust buoy", "Gull"),
    ("Mussel", "Sea glass"), ("Slate quay", "Lamp room"), ("Deep channel", "Thrift"),
)  # fmt: skip
HALVES = (
    ("Slate quay", "Foam"), ("Kelp", "Sea glass"), ("Rust buoy", "Wet sand"),
    ("Mussel", "Thrift"), ("Deep channel", "Net loft"), ("Driftwood", "Foam"),
)  # fmt: skip
BANDS = ("MhhMhh", "FRFRFR", "hhMhhM", "RFRFRF", "MhhMhh", "FRFFRF")
SPANS = {"M": 6, "h": 3, "F": 4, "R": 4}


def tideline() -> Maker:
    """Sixty by seventy-two inches from four kinds of strip block."""
    about = "A harbor quilt: six tides of strip blocks inside a narrow quay and a deep channel."
    maker = Maker("Tideline", about, 2, 24, 30)
    for name, color, motif in HARBOR:
        maker.fabric(name, color, motif)
    maker.block("Tide table", "middle-end-for-end", {"F": 12}, A="Deep channel", B="Foam")
    maker.block("Halyards", "two-halves-from-thirds", {"F": 12}, A="Slate quay", B="Foam")
    maker.block("Jetty", "rail-fence-of-four", {"F": 8}, A="Mussel", B="Net loft", C="Foam", D="Coral rope")
    portholes = ("Rust buoy", "Sea glass", "Lamp room", "Deep channel", "Wet sand")
    maker.block("Porthole", "framed-four-patch", {"F": 8}, A=portholes)
    counts = dict.fromkeys("MhFR", 0)
    row = 0
    for band in BANDS:
        column = 0
        for mark in band:
            _hang(maker, mark, column, row, counts[mark])
            counts[mark] += 1
            column += SPANS[mark]
        row += 6 if "M" in band else 4
    maker.border("Coral rope", "3/2")
    maker.border("Deep channel", "9/2")
    maker.finish("Mussel", "Net loft")
    return maker


def _hang(maker: Maker, mark: str, column: int, row: int, number: int) -> None:
    """The next block of a kind, in its turn and fabrics."""
    if mark == "M":
        dark, light = MIDDLES[number % len(MIDDLES)]
        maker.place("Tide table", column, row, 90 * (number % 2), A=dark, B=light)
    elif mark == "h":
        dark, light = HALVES[number // 2 % len(HALVES)]
        maker.place("Halyards", column, row, 180 * (number % 2), A=dark, B=light)
    elif mark == "R":
        maker.place("Jetty", column, row, 90 * (number % 2))
    else:
        maker.place("Porthole", column, row, layer=number % 5)


def window_seat() -> Maker:
    """A cushion of four slanted blocks."""
    maker = Maker(
        "Window seat", "A cushion front of four slanted blocks, two from each pair.", 8, 2, 2, usable=40
    )
    for name, color, motif in HARBOR[:4] + HARBOR[6:10]:
        maker.fabric(name, color, motif)
    maker.block(
        "Heeling", "slanted-exchange", {"F": 8},
        A=("Deep channel", "Rust buoy"), B=("Sea glass", "Coral rope"),
        C=("Foam", "Lamp room"), D=("Slate quay", "Kelp"),
    )  # fmt: skip
    for number, (column, row) in enumerate(((0, 0), (1, 0), (1, 1), (0, 1))):
        maker.place("Heeling", column, row, 90 * number, number % 2)
    maker.border("Deep channel", "2")
    maker.finish("Rust buoy", "Foam")
    return maker


def breakfast_mats() -> Maker:
    """A small rail fence."""
    maker = Maker("Breakfast at the quay", "A place mat in rail fence of three.", 6, 3, 2, usable=40)
    for name, color, motif in HARBOR[3:10]:
        maker.fabric(name, color, motif)
    maker.block("Slipway", "rail-fence-of-three", {"F": 6}, A="Rust buoy", B="Foam", C="Kelp")
    for number in range(6):
        column, row = number % 3, number // 3
        maker.place("Slipway", column, row, 90 * ((column + row) % 2))
    maker.finish("Kelp", "Wet sand")
    return maker


def mantel_runner() -> Maker:
    """A table runner of cut, turned and resewn squares between rails of two."""
    maker = Maker("Mantel runner", "A runner of turned squares between narrow rails.", 2, 24, 7, usable=40)
    for name, color, motif in HARBOR[:8]:
        maker.fabric(name, color, motif)
    maker.block("Swell", "cut-turn-sew", {"F": 6}, A="Deep channel", B="Foam", C="Sea glass")
    maker.block("Ripple", "rail-fence-of-two", {"F": 4}, A="Driftwood", B="Wet sand")
    for number in range(8):
        maker.place("Swell", 3 * number, 0, 90 * (number % 2))
    for number in range(12):
        maker.place("Ripple", 2 * number, 3, 90 * (number % 2))
        maker.place("Ripple", 2 * number, 5, 90 * ((number + 1) % 2), A="Rust buoy", B="Foam")
    maker.border("Slate quay", "1")
    maker.finish("Deep channel", "Wet sand")
    return maker


ORCHARD = (
    ("Bark", "#4a3b32", Print("texture", ("#5d4b3f", "#3a2e27"), INCH)),
    ("Blossom", "#f3e2dc", Print("florals", ("#d88f95", "#fbf4ef", "#8aa07a"), INCH * 3 / 2)),
    ("Russet", "#b0592f", Print("dots", ("#d98f5c",), INCH / 2)),
    ("Orchard grass", "#6b7f45", Print("leaves", ("#8fa564", "#4f6030"), INCH * 3 / 2)),
    ("Ladder", "#d9bd86", Print("stripes", ("#c3a269",), INCH / 2)),
    ("Morning mist", "#dfe6e4", Print("dots", ("#b9c8c6",), INCH * 3 / 8)),
    ("Plum skin", "#59384f", Print("stars", ("#8d6683",), INCH)),
)


def orchard_gate() -> Maker:
    """Eighteen blocks on point between sashes with cornerstones, in a mitered border."""
    about = "Seen through an orchard gate: blocks on point between ladders, grass at their feet."
    maker = Maker("Orchard gate", about, 8, 5, 4)
    for name, color, motif in ORCHARD:
        maker.fabric(name, color, motif)
    maker.block(
        "Windfall", "framed-four-patch", {"F": 8}, A=("Russet", "Blossom", "Bark", "Ladder", "Morning mist")
    )
    maker.block(
        "Rungs", "rail-fence-of-four", {"F": 8}, A="Plum skin", B="Morning mist", C="Russet", D="Blossom"
    )
    for number in range(18):
        maker.place(("Windfall", "Rungs")[number % 2], number % 5, number // 5, 90 * (number // 2 % 2))
    maker.do("change-setting", kind="on point", columns=3, rows=4)
    ladder, plum = maker.fabrics["Ladder"], maker.fabrics["Plum skin"]
    maker.do("set-sashing", sashing=Sashing(ladder, INCH * 3 / 2, INCH * 3 / 2, plum))
    maker.do("set-triangles", triangles=Triangles(maker.fabrics["Orchard grass"]))
    maker.do("add-border", border=Border(maker.fabrics["Bark"], INCH * 3, corners="mitered"))
    maker.finish("Russet", "Morning mist")
    return maker


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    tideline().save("tideline")
    window_seat().save("window-seat")
    breakfast_mats().save("breakfast-mats")
    mantel_runner().save("mantel-runner")
    orchard_gate().save("orchard-gate")
