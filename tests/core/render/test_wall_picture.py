"""The quilt: quarter turns exact, seams each once, every square inch of cloth accounted for, SVG small."""

from collections import defaultdict
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.motion import Point
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Binding, Border, Lattice, Placement, Quilt, Row
from piecewright.model.value import Letters
from piecewright.plan.layout import layout
from piecewright.plan.rects import Rect
from piecewright.render.bounds_pen import bounds
from piecewright.render.path import spots_of
from piecewright.render.pen import ClothFill, Flat
from piecewright.render.pictures import quilt_drawing, quilt_picture, quilt_scale
from piecewright.render.recording_pen import Drawn, Stamped, flattened, record
from piecewright.render.wall_picture import FLANNEL, block_motion, block_seams, border_seams
from tests.core.render.fabrics import KINDS, printed
from tests.core.render.reading import SVG, read_svg

COLORS = {"f1": "#111111", "f2": "#222222", "f3": "#333333", "f4": "#444444", "f5": "#555555"}
HALVES = shipped_recipes()["two-halves-from-thirds"]  # 6 x 12 finished
RAILS = shipped_recipes()["rail-fence-of-three"]  # 6 x 6


def _design(rows: tuple[Row, ...], columns: int = 4, high: int = 4, **quilt: object) -> Design:
    return Design(
        name="Quilt & more",
        fabrics=tuple(Fabric(id=name, name=name, color=color) for name, color in COLORS.items()),
        recipes=(RecipeEntry("r6", HALVES), RecipeEntry("r7", RAILS)),
        blocks=(
            Block("b8", "Halves", "r6", fabrics=Letters({"A": ("f1",), "B": ("f2",)})),
            Block("b9", "Rails", "r7", fabrics=Letters({"A": ("f1",), "B": ("f2",), "C": ("f3",)})),
        ),
        arrangements=(Quilt("One", Lattice(Fraction(6), columns, high), rows, **quilt),),  # type: ignore[arg-type]
        next_id=10,
    )


FULL = _design(
    (
        Row(0, (Placement(0, "b8"), Placement(1, "b8", 180), Placement(2, "b8", 90))),
        Row(1, (Placement(2, "b9", 270), Placement(3, "b9"))),
        Row(2, tuple(Placement(column, "b9", 90) for column in range(4))),
        Row(3, tuple(Placement(column, "b9") for column in range(4))),
    ),
    borders=(Border("f4", Fraction(2)), Border("f5", Fraction(3, 2), "top and bottom")),
    binding=Binding("f3"),
)


@given(
    st.sampled_from([0, 90, 180, 270]), st.integers(0, 9), st.integers(0, 9), st.sampled_from([HALVES, RAILS])
)
def test_a_turned_block_fills_its_rectangle_exactly(turn: int, column: int, row: int, recipe: object) -> None:
    made = facts(recipe, Given())
    width, height = Fraction(made.finished.width), Fraction(made.finished.height)
    across, down = (height, width) if turn in (90, 270) else (width, height)
    rect = Rect(Fraction(column) + Fraction(1, 3), Fraction(row), across, down)
    motion = block_motion(made, turn, rect)
    corners = {motion.apply(corner) for corner in ((0, 0), (width, 0), (width, height), (0, height))}
    assert corners == {
        (rect.x, rect.y),
        (rect.x + across, rect.y),
        (rect.x + across, rect.y + down),
        (rect.x, rect.y + down),
    }
    assert motion.turn_degrees == turn


def _areas(design: Design) -> dict[str, float]:
    found: dict[str, float] = defaultdict(float)
    for step in flattened(record(quilt_drawing(design))):
        if isinstance(step, Drawn) and step.fill is not None and not step.crisp:
            color = step.fill.color if isinstance(step.fill, Flat) else step.fill.fabric.color
            found[color] += _area(step)
    return found


def _area(step: Drawn) -> float:
    total = 0.0
    ring: list[tuple[float, float]] = []
    for verb, points in step.path:
        if verb == "Z":
            total += (
                abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)))
                / 2
            )
            ring = []
        else:
            ring.append(points[0])
    return total


def test_every_square_inch_of_the_quilt_is_drawn_in_its_fabric() -> None:
    """By hand: 24 x 24 in of blocks; a 2 in border with the sides first, a 1 1/2 in one with top and bottom first."""
    areas = _areas(FULL)
    halves, rails = 3 * 72 / 2, 10 * 12
    quarter = Fraction(1, 4)
    bound = float((31 + 2 * quarter) ** 2 - 31 * 31)
    assert areas == pytest.approx(
        {
            COLORS["f1"]: halves + rails,
            COLORS["f2"]: halves + rails,
            COLORS["f3"]: rails + bound,
            COLORS["f4"]: 28 * 28 - 24 * 24,
            COLORS["f5"]: 31 * 31 - 28 * 28,
        }
    )


def test_borders_are_butted_as_cut() -> None:
    """Sides first: the sides are as long as the center, top and bottom run over both; and the other way about."""
    inner, outer = layout(FULL).borders
    assert [f"{rect.width} x {rect.height}" for rect in inner] == ["2 x 24", "2 x 24", "28 x 2", "28 x 2"]
    assert [f"{rect.width} x {rect.height}" for rect in outer] == [
        "3/2 x 31",
        "3/2 x 31",
        "28 x 3/2",
        "28 x 3/2",
    ]
    lengths = sorted(_length(seam) for seam in border_seams(layout(FULL)))
    assert lengths == [24, 24, 28, 28, 28, 28, 31, 31]


def _length(line: tuple[Point, Point]) -> Fraction:
    (x0, y0), (x1, y1) = line
    return abs(Fraction(x1) - Fraction(x0)) + abs(Fraction(y1) - Fraction(y0))


@st.composite
def _tilings(draw: st.DrawFn) -> Design:
    """Quilts of whole cells, some left empty."""
    columns, high = draw(st.integers(1, 5)), draw(st.integers(1, 5))
    rows = []
    for row in range(high):
        cells = draw(st.sets(st.integers(0, columns - 1)))
        if cells:
            rows.append(Row(row, tuple(Placement(column, "b9") for column in sorted(cells))))
    return _design(tuple(rows), columns, high)


@given(_tilings())
def test_seams_between_blocks_are_the_inner_sides_of_blocks_each_once(design: Design) -> None:
    sides: set[tuple[str, int, int]] = set()
    for column, row, _, _ in layout(design).cells.tolist():
        sides |= {("h", column, row), ("h", column, row + 1), ("v", column, row), ("v", column + 1, row)}
    lattice = design.quilt.lattice
    inner = {
        side
        for side in sides
        if (0 < side[2] < lattice.rows if side[0] == "h" else 0 < side[1] < lattice.columns)
    }
    seams = block_seams(layout(design))
    assert sum((_length(seam) for seam in seams), Fraction(0)) == 6 * len(inner)
    assert len(set(seams)) == len(seams)


@given(_tilings())
def test_empty_cells_are_flannel_with_a_grid_and_a_full_wall_has_none(design: Design) -> None:
    fills = [step.fill for step in flattened(record(quilt_drawing(design))) if isinstance(step, Drawn)]
    assert (Flat(FLANNEL) in fills) == bool(layout(design).empty_cells())


def test_the_picture_is_whole_to_scale_and_says_what_it_shows() -> None:
    root = read_svg(quilt_picture(FULL))
    assert root.findtext(f"{SVG}title") == "Quilt & more, 31 x 31 in finished"
    assert quilt_scale(FULL) == 1 / 4
    box = bounds(quilt_drawing(FULL))
    assert box is not None
    assert (box.left, box.right) == pytest.approx((-0.25, 31.25), abs=0.15)
    assert root.attrib["width"] == f"{(box.width + 2) / 4:.4f}".rstrip("0").rstrip(".") + "in"


def test_blocks_that_look_alike_are_written_once() -> None:
    stamps = [step for step in record(quilt_drawing(FULL)) if isinstance(step, Stamped)]
    text = quilt_picture(FULL)
    assert len(stamps) == 13
    assert text.count("<use ") == 13
    assert text.count('<g id="') == len({step.key for step in stamps}) == 2


def test_a_quilt_of_400_blocks_in_prints_is_a_small_file() -> None:
    rows = tuple(Row(row, tuple(Placement(column, "b9", 90) for column in range(20))) for row in range(20))
    design = _design(rows, 20, 20)
    prints = tuple(
        fabric.changed(print=printed(kind).print) for fabric, kind in zip(design.fabrics, KINDS, strict=False)
    )
    text = quilt_picture(design.changed(fabrics=prints))
    assert len(text) < 60_000
    assert text.count("<use ") == 400


def test_a_placement_shows_its_own_fabrics_over_those_of_the_shelf() -> None:
    recolored = _design((Row(0, (Placement(0, "b9", fabrics=Letters({"B": ("f5",)})),)),), 1, 1)
    assert _areas(recolored) == pytest.approx({COLORS["f1"]: 12, COLORS["f5"]: 12, COLORS["f3"]: 12})


def test_a_block_that_can_not_be_made_is_crossed_out_and_the_rest_still_shown() -> None:
    plain = RAILS.plain
    too_much = {"make": "part", "cut": _last_sewn(plain), "axis": "across", "widths": ["500"]}
    steps = [*(step for step in plain["steps"] if "cut" not in step), too_much]
    unmakable = Recipe.from_plain({**plain, "steps": steps, "block": ["part.1"]})
    design = _design((Row(0, (Placement(0, "b9"), Placement(1, "b8"))),), 2, 2)
    areas = _areas(design.changed(recipes=(design.recipes[0], RecipeEntry("r7", unmakable))))
    assert areas[COLORS["f1"]] == pytest.approx(36)
    assert COLORS["f3"] not in areas


def _last_sewn(plain: dict[str, Any]) -> str:
    return str([step["make"] for step in plain["steps"] if "sew" in step][-1])


def test_border_strips_are_cut_from_selvage_to_selvage() -> None:
    """Their lengthwise thread runs across them: down in the top border, level in the sides."""
    striped = FULL.changed(
        fabrics=tuple(
            fabric.changed(print=printed("stripes").print) if fabric.id == "f4" else fabric
            for fabric in FULL.fabrics
        )
    )
    ways = set()
    for step in flattened(record(quilt_drawing(striped))):
        if isinstance(step, Drawn) and isinstance(step.fill, ClothFill) and step.fill.fabric.id == "f4":
            xs, ys = zip(*spots_of(step.path), strict=True)
            ways.add((max(xs) - min(xs) > max(ys) - min(ys), step.fill.came.quarters % 2))
    assert ways == {(True, 0), (False, 1)}
