"""Topic 1: cut sizes of patches and units as printed, made anew; sources in check_values.json by id."""

from collections.abc import Mapping
from fractions import Fraction
from itertools import pairwise
from math import atan2, dist, pi, radians, sin, sqrt, tan
from typing import Any

import pytest

from piecewright.errors import MakingError
from piecewright.units.rounding import nearest, up_to
from tests.outside.published import Row, Topic
from tests.outside.published_patches import (
    Plain,
    diamonds,
    eight_half_squares,
    finished,
    goose,
    goose_of_triangles,
    half_rectangles,
    half_squares,
    height_inside,
    log_cabin,
    made,
    one_patch,
    quarter_squares,
    rails,
    snowball,
    square,
    square_in_a_square,
    square_of_triangles,
    text,
)

TOPIC = Topic("1")
EIGHTH = up_to(Fraction(1, 8))
CLOSE = 1e-6


NOT_APPLICABLE = {
    "A075": "a paper template: nothing of it is cut from cloth or sewn",
}


@TOPIC.asserts("A003", "A004", "A006", "A008")
def test_half_square_triangles_two_at_a_time(row: Row) -> None:
    """The exact cut gives the finished size; the printed one, rounded up or oversize to trim, no less."""
    assert finished(half_squares(row.recomputed)) == pytest.approx([row.inputs["finished"]] * 2, abs=CLOSE)
    assert finished(half_squares(row.expected))[0] >= row.inputs["finished"]
    assert EIGHTH(row.recomputed) <= row.expected


@TOPIC.asserts("A016")
def test_half_square_triangles_eight_at_a_time(row: Row) -> None:
    exact = eight_half_squares(row.recomputed)
    assert exact.blocks == 8
    assert finished(exact) == pytest.approx([row.inputs["finished"]] * 2, abs=CLOSE)
    assert finished(eight_half_squares(row.expected))[0] >= row.inputs["finished"]
    assert EIGHTH(row.recomputed) == row.expected


@TOPIC.asserts("A011")
def test_what_the_diagonal_takes_beyond_two_allowances(row: Row) -> None:
    """A half-square unit is the square less the two halves of its seam, each 1/4 in by the root of two."""
    unfinished = float(half_squares(5).unfinished.width)
    assert 5 - unfinished == pytest.approx(row.recomputed, abs=CLOSE)
    assert EIGHTH(5 - unfinished) == row.expected


@TOPIC.refutes("A014")
def test_half_squares_are_larger_than_a_forum_reckons(row: Row) -> None:
    unfinished = float(half_squares(row.inputs["cut"]).unfinished.width)
    assert unfinished == pytest.approx(row.recomputed, abs=CLOSE)
    assert unfinished > row.expected + 0.02


@TOPIC.asserts("A026")
def test_a_half_square_unit_before_it_is_cut_again(row: Row) -> None:
    unfinished = float(half_squares(row.inputs["cut"]).unfinished.width)
    assert unfinished == pytest.approx(row.recomputed, abs=CLOSE)
    assert round(unfinished * 8) / 8 == row.expected


@TOPIC.asserts("A007", "A018", "A019", "A020")
def test_quarter_square_triangles(row: Row) -> None:
    size = row.inputs.get("finished", row.inputs.get("finished_long_edge"))
    size = row.inputs["unfinished"] - 0.5 if size is None else size
    found = quarter_squares(row.recomputed)
    assert finished(found) == pytest.approx([size] * 2, abs=CLOSE)
    assert EIGHTH(row.recomputed) <= row.expected
    assert all(len(kind.patches) == 4 for kind in found.kinds)


@TOPIC.asserts("A022", "A025")
def test_stars_of_squares_halves_and_quarters_on_one_grid(row: Row) -> None:
    grid = row.inputs["grid_finished"]
    plain, *halves, quarters = row.recomputed
    assert finished(made([square("a", "A", plain)], ["a"])) == (grid, grid)
    assert finished(quarter_squares(quarters)) == pytest.approx([grid] * 2, abs=CLOSE)
    for cut in halves:
        assert finished(half_squares(cut)) == pytest.approx([grid] * 2, abs=CLOSE)
    assert all(
        ours <= printed for ours, printed in zip(map(EIGHTH, row.recomputed), row.expected, strict=True)
    )


@TOPIC.asserts("A031", "A032")
def test_blocks_of_squares_and_half_squares_on_one_grid(row: Row) -> None:
    grid = row.inputs["grid_finished"]
    halves = next(cut for cut in row.recomputed if cut % 0.125)
    assert finished(half_squares(halves)) == pytest.approx([grid] * 2, abs=CLOSE)
    assert [EIGHTH(cut) for cut in row.recomputed] == row.expected
    (plain,) = {cut for cut in row.recomputed if cut not in (halves, 1.5)}
    assert finished(made([square("a", "A", plain)], ["a"])) == (grid, grid)
    rows = [
        {"make": name, "lay": {"fabric": name.upper(), "width": "1 1/2", "length": "2 1/2"}} for name in "bc"
    ]
    bars = made([*rows, {"make": "bars", "sew": ["b", "c"], "axis": "down"}], ["bars"])
    assert finished(bars) == (grid, grid)


@TOPIC.asserts("A109")
def test_additions_as_multiples_of_the_seam(row: Row) -> None:
    """What each way of sewing takes of the cloth, beyond the finished size, in seams."""
    plain, half, quarter = row.recomputed
    cut, seam = 8.0, 0.25
    additions = [8.0 - side for side in (finished(made([square("a", "A", cut)], ["a"]))[0],)]
    additions += [cut - finished(units(cut))[0] for units in (half_squares, quarter_squares)]
    assert [more / seam for more in additions] == pytest.approx([plain, half, quarter], abs=1e-5)


@TOPIC.asserts("A001")
def test_a_plain_square(row: Row) -> None:
    side = row.inputs["finished"]
    assert finished(made([square("a", "A", row.expected)], ["a"])) == (side, side)


GEESE = ("A033", "A034", "A038", "A040", "A041", "A043", "A044", "A045", "A047")


@TOPIC.asserts(*GEESE)
def test_flying_geese_of_triangles(row: Row) -> None:
    """Four at once or of triangles: the same two squares, cut into quarters and halves."""
    width, height = row.inputs["finished"]
    found = goose_of_triangles(*row.recomputed)
    assert finished(found) == pytest.approx((width, height), abs=CLOSE)
    (kind,) = found.kinds
    (large,) = (patch for patch in kind.patches if patch.fabric == "A")
    corners = {(round(float(x), 5), round(float(y), 5)) for x, y in large.points}
    assert corners == {(width / 2, 0), (0, height), (width, height)}
    assert [EIGHTH(cut) for cut in row.recomputed] == row.expected


@TOPIC.asserts("A050")
def test_what_geese_of_triangles_take_beyond_their_size(row: Row) -> None:
    large, small = row.recomputed
    assert finished(goose_of_triangles(6 + large, 3 + small)) == pytest.approx((6, 3), abs=CLOSE)
    assert [EIGHTH(cut) for cut in row.recomputed] == row.expected


@TOPIC.asserts("A065", "A067", "A068")
def test_a_square_in_a_square_of_triangles(row: Row) -> None:
    """The whole finishes at the root of two times its center."""
    if row.id == "A067":
        center, corner = row.recomputed
        size = row.inputs["finished"]
        assert [EIGHTH(cut) for cut in row.recomputed] == row.expected
    else:
        center, corner = row.inputs["center_finished"] + 0.5, row.recomputed
        size = row.inputs["center_finished"] * sqrt(2)
        assert EIGHTH(corner) == row.expected
    assert finished(square_of_triangles(center, corner)) == pytest.approx((size, size), abs=1e-5)


@TOPIC.refutes("A066")
def test_corner_squares_printed_too_small_for_their_center(row: Row) -> None:
    center = row.inputs["center_finished"]
    right = finished(square_of_triangles(center + 0.5, row.recomputed))
    assert right == pytest.approx([center * sqrt(2)] * 2, abs=1e-5)
    blunt = square_of_triangles(center + 0.5, row.expected)
    short = row.recomputed - row.expected
    assert finished(blunt) == pytest.approx([center * sqrt(2) - short] * 2, abs=1e-5)
    (middle,) = (patch for patch in blunt.kinds[0].patches if patch.fabric == "A")
    assert len(middle.points) == 8


@TOPIC.asserts("A069")
def test_half_rectangles_from_exact_and_from_printed_rectangles(row: Row) -> None:
    """Exact: each triangle has its allowance all round. Printed: larger one way, smaller the other."""
    width, height = row.inputs["finished"]
    tip = atan2(height, width)
    exact = (width + 0.25 * (1 + 1 / tan(tip / 2)), height + 0.25 * (1 + tan(tip / 2 + pi / 4)))
    assert exact == pytest.approx(row.recomputed, abs=CLOSE)
    found = half_rectangles(exact, (width, height))
    assert finished(found) == (width, height)
    (kind,) = found.kinds
    (seam,) = kind.seams
    assert sorted((round(float(x), 4), round(float(y), 4)) for x, y in (seam.start, seam.end)) == [
        (0, 0),
        (width, height),
    ]
    assert row.expected[0] > row.recomputed[0]
    assert row.expected[1] < row.recomputed[1]


@TOPIC.refutes("A070")
def test_seven_eighths_both_ways_is_wrong_for_rectangles(row: Row) -> None:
    width, height = row.inputs["finished"]
    found = half_rectangles(row.recomputed, (width, height))
    assert finished(found) == (width, height)
    assert row.expected[1] < row.recomputed[1]
    with pytest.raises(MakingError, match=r"is not wholly cloth|is more than"):
        half_rectangles(row.expected, (width, height))


@TOPIC.asserts("A051", "A052")
def test_flying_geese_one_at_a_time(row: Row) -> None:
    found = goose(*row.expected)
    width, height = row.inputs["finished"]
    assert finished(found) == (width, height)
    (kind,) = found.kinds
    (large,) = (patch for patch in kind.patches if patch.fabric == "A")
    tip = {(round(float(x), 6), round(float(y), 6)) for x, y in large.points}
    assert tip == {(width / 2, 0), (0, height), (width, height)}


@TOPIC.asserts("A054", "A056", "A057", "A060", "A061", "A063")
def test_a_square_in_a_square_by_stitch_and_flip(row: Row) -> None:
    found = square_in_a_square(*row.expected)
    size = row.inputs["finished"]
    assert finished(found) == (size, size)
    (kind,) = found.kinds
    (center,) = (patch for patch in kind.patches if patch.fabric == "A")
    half = size / 2
    points = {(round(float(x), 6), round(float(y), 6)) for x, y in center.points}
    assert points == {(half, 0), (size, half), (half, size), (0, half)}


def cabin_of(row: Row) -> tuple[float, list[float], int]:
    """What a row of logs begins with, the widths of its strips, and how many logs follow the center."""
    inputs: Mapping[str, Any] = row.inputs
    strips = inputs.get("strips_cut") or [inputs["strip_cut"]] * 4
    return inputs["center_cut"], strips, len(row.expected)


@TOPIC.asserts("A084", "A086", "A087", "A088")
def test_logs_round_a_center(row: Row) -> None:
    """The lists begin with the log beside the center; each is as long as the block is there, unfinished."""
    center, strips, logs = cabin_of(row)
    found, lengths = log_cabin(center, strips, logs)
    assert [float(length) for length in lengths[1:]] == row.expected
    assert found.unfinished.width == found.unfinished.height


@TOPIC.asserts("A085", "A089")
def test_log_cabins_finish_as_printed(row: Row) -> None:
    logs = {"A085": (3, [1.75] * 4), "A089": (2, [1.25, 1.25, 2, 2])}
    found, _ = log_cabin(*logs[row.id], logs=12)
    unfinished, size = row.expected
    assert (float(found.unfinished.width), float(found.unfinished.height)) == (unfinished, unfinished)
    assert finished(found) == (size, size)


@TOPIC.asserts("A091")
def test_courthouse_steps(row: Row) -> None:
    """Logs on both sides, then above and below, of a center of two strips."""
    center, *_, last = row.expected
    strip = row.inputs["strip_cut"]
    steps: list[Plain] = [square("p0", "A", center)]
    size = Fraction(text(center))
    needed = [size]
    for number in range(4):
        axis, piece = ("down", f"p{number}") if number % 2 == 0 else ("across", f"p{number}")
        for side in "ab":
            strip_laid = {"fabric": "B", "width": str(strip), "length": str(size)}
            steps.append({"make": f"{side}{number}", "lay": strip_laid})
        logs = [f"a{number}", f"b{number}"]
        if axis == "across":
            steps += [{"make": f"{log}t", "turn": log, "by": 90} for log in logs]
            logs = [f"{log}t" for log in logs]
        steps.append({"make": f"p{number + 1}", "sew": [logs[0], piece, logs[1]], "axis": axis})
        if axis == "down":
            size += 2 * (Fraction(str(strip)) - Fraction(1, 2))
        needed.append(size)
    found = made(steps, ["p4"])
    assert [float(length) for length in needed] == [
        *row.expected[:1],
        *row.expected[2:4],
        *row.expected[4:],
        last,
    ][:5]
    assert finished(found) == (12, 12)


@TOPIC.asserts("A095", "A098", "A100")
def test_rails_of_a_block(row: Row) -> None:
    size = row.inputs["finished_block"]
    assert finished(rails(row.expected, row.inputs["rails"])) == (size, size)


@TOPIC.refutes("A092")
def test_a_rail_printed_too_wide(row: Row) -> None:
    size, count = row.inputs["finished_block"], row.inputs["rails"]
    assert finished(rails(row.recomputed, count)) == (size, size)
    assert finished(rails(row.expected, count))[0] == size + 0.5


@TOPIC.asserts("A102")
def test_a_nine_patch_of_equal_squares(row: Row) -> None:
    squares = [square(f"s{n}", "AB"[n % 2], row.expected) for n in range(9)]
    rows = [{"make": f"r{n}", "sew": [f"s{3 * n + k}" for k in range(3)], "axis": "across"} for n in range(3)]
    found = made([*squares, *rows, {"make": "block", "sew": ["r0", "r1", "r2"], "axis": "down"}], ["block"])
    assert finished(found) == (6, 6)


@TOPIC.asserts("A103")
def test_a_nine_patch_from_two_strip_sets(row: Row) -> None:
    """Strips 2 in wide: A, B, A long enough for two segments, B, A, B for one, with what the source adds to trim."""
    width, long_a, short_a, long_b, short_b = (text(value) for value in row.expected)
    steps: list[Plain] = []
    for name, fabric, length in (
        *(("a1", "A", "5"), ("b1", "B", "5"), ("a2", "A", "5")),
        *(("b2", "B", short_b), ("a3", "A", short_b), ("b3", "B", short_b)),
    ):
        steps.append({"make": name, "lay": {"fabric": fabric, "width": width, "length": length}})
    steps += [
        {"make": "outer", "sew": ["a1", "b1", "a2"], "axis": "down"},
        {"make": "inner", "sew": ["b2", "a3", "b3"], "axis": "down"},
        {"make": "o", "cut": "outer", "axis": "across", "every": width, "count": 2},
        {"make": "i", "cut": "inner", "axis": "across", "every": width, "count": 1},
        {"make": "block", "sew": ["o.1", "i.1", "o.2"], "axis": "across"},
    ]
    found = made(steps, ["block"])
    assert finished(found) == (4.5, 4.5)
    assert Fraction(short_a) == Fraction(long_a) - 2
    assert Fraction(long_b) == Fraction(long_a)


@TOPIC.asserts("A110")
def test_a_block_of_two_and_a_half_inch_strips(row: Row) -> None:
    """Two strips with a row of square, strip, square between them."""
    long = {"width": "2 1/2", "length": "9 1/2"}
    steps: list[Plain] = [
        {"make": "top", "lay": {"fabric": "A", **long}},
        {"make": "low", "lay": {"fabric": "A", **long}},
        square("l", "B", 2.5),
        square("r", "B", 2.5),
        {"make": "mid", "lay": {"fabric": "C", "width": "2 1/2", "length": "5 1/2"}},
        {"make": "row", "sew": ["l", "mid", "r"], "axis": "across"},
        {"make": "block", "sew": ["top", "row", "low"], "axis": "down"},
    ]
    found = made(steps, ["block"])
    assert sorted([float(found.unfinished.width), float(found.unfinished.height)]) == row.expected


@TOPIC.asserts("A073")
def test_diamonds_finish_one_allowance_within_each_edge(row: Row) -> None:
    """Level and leaning sides lie as far apart as strip and cut are wide; two allowances are not seen."""
    cloth = diamonds(row.expected, row.expected)
    (patch,) = cloth.patches
    side = dist(*patch.seen.points[:2])
    assert float(cloth.box.height) - 0.5 == row.inputs["finished_width"]
    assert side * sin(radians(60)) - 0.5 == pytest.approx(row.inputs["finished_width"])


@TOPIC.asserts("A079")
def test_how_far_apart_diamonds_are_cut_along_the_edge(row: Row) -> None:
    """Printed to the nearest quarter; it falls short, so that cuts by it are no diamonds."""
    strip = row.inputs["strip"]
    (patch,) = diamonds(strip, strip).patches
    along = max(dist(*ends) for ends in pairwise(patch.seen.points))
    assert along == pytest.approx(row.recomputed, abs=CLOSE)
    assert nearest(Fraction(1, 4))(along) == row.expected < along


@TOPIC.asserts("A072")
def test_equal_sided_triangles_from_a_strip(row: Row) -> None:
    """A diamond of 60 degrees sliced over its short diagonal; three allowances of its height are not seen."""
    strip = row.expected
    side = strip / sin(radians(60))
    steps: list[Plain] = [
        {"make": "a", "lay": {"fabric": "A", "width": text(strip), "length": "20"}},
        {"make": "d", "cut": "a", "axis": "across", "every": text(strip), "count": 1, "angle": 30},
        {"make": "t", "slice": "d.1", "from": ["top", text(side / 2 + 1e-9)], "to": ["bottom", text(side)]},
    ]
    triangle = one_patch(steps, "t.2")
    assert triangle.length == pytest.approx(3 * side, abs=1e-5)
    assert height_inside(triangle) == pytest.approx(row.inputs["finished_height"], abs=1e-5)


@TOPIC.asserts("A074")
def test_hexagons_from_a_strip(row: Row) -> None:
    """The strip is as wide as the hexagon from flat to flat: two allowances more than is seen."""
    strip = row.expected
    side = strip / sqrt(3)
    half, far = text(strip / 2), text(1.5 * side)
    steps: list[Plain] = [
        {"make": "a", "lay": {"fabric": "A", "width": text(strip), "length": text(2 * side)}},
        {"make": "b", "slice": "a", "from": ["left", half], "to": ["top", text(side / 2)]},
        {"make": "c", "slice": "b.2", "from": ["left", half], "to": ["bottom", text(side / 2)]},
        {"make": "d", "slice": "c.2", "from": ["right", half], "to": ["top", far]},
        {"make": "e", "slice": "d.2", "from": ["right", half], "to": ["bottom", far]},
    ]
    hexagon = one_patch(steps, "e.2")
    assert hexagon.length == pytest.approx(6 * side)
    assert height_inside(hexagon) == pytest.approx(row.inputs["finished_flat"])


@TOPIC.asserts("A081")
def test_a_snowball_of_equal_thirds(row: Row) -> None:
    sides = sorted(snowball(9, 3))
    assert round(sides[-1] / sides[0], 3) == row.expected
    assert sides[-1] / sides[0] == pytest.approx(row.recomputed, abs=CLOSE)


@TOPIC.asserts("A082")
def test_a_snowball_that_is_a_regular_octagon(row: Row) -> None:
    sides = snowball(10, 10 * row.expected)
    assert len(sides) == 8
    assert sides == pytest.approx([sides[0]] * 8, abs=1e-4)


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    TOPIC.check_covered(NOT_APPLICABLE)
