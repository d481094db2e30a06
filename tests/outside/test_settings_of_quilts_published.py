"""Topic W once more: published quilts with their settings, built as design files, read back and planned as wholes.

Each row is asserted where its topic is accounted for; here the same numbers come out of one design.
"""

from collections import Counter
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from piecewright.edit.alternating import alternate_plain, stack_columns
from piecewright.edit.setting import change_setting, set_sashing, set_triangles
from piecewright.files.design_file import load_design, save_design
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Quilt, Turn
from piecewright.model.setting import Sashing, Triangles
from piecewright.model.value import Sizes
from piecewright.plan.materials import Materials, materials
from piecewright.plan.sewing_order import sewing_order
from piecewright.units.sizes import Cut, Unfinished
from tests.outside.published_quilts import (
    BOLT,
    columns_quilt,
    design,
    fabrics,
    four_patch,
    letters,
    piece,
    wall,
)


def squares(cut: str, columns: int, rows: int, finished: str, *borders: Border) -> Design:
    """A quilt of plain squares in the place of its blocks, which patterns piece in ways of their own."""
    laid: list[tuple[int, int, str, Turn]] = [(x, y, "b50", 0) for y in range(rows) for x in range(columns)]
    lattice = Lattice(Fraction(finished), columns, rows)
    return design(
        "As published",
        fabrics("block", "sashing", "cornerstones", "border", "triangles"),
        [(piece(cut, cut), letters(A="f1"), Sizes())],
        wall(lattice, laid, Quilt("As published", lattice, borders=borders)),
        BOLT,
    )


def churn_dash() -> Design:
    """W026: 3 x 4 blocks of 8 3/4, sashing of 1 1/2 between and round them, borders of 1 and 4."""
    quilt = squares("9 1/4", 3, 4, "35/4", Border("f4", Fraction(1)), Border("f4", Fraction(4)))
    return set_sashing(quilt, sashing=Sashing("f2", Fraction(3, 2), Fraction(3, 2)))


def crib_quilt() -> Design:
    """W099, D004: 3 x 3 blocks of 10, sashing of 2 with cornerstones all round."""
    sashing = Sashing("f2", Fraction(2), Fraction(2), "f3")
    return set_sashing(squares("10 1/2", 3, 3, "10"), sashing=sashing)


def columns_and_sashing() -> Design:
    """W011 to W013: five columns of 8 + 10 pieces with six strips beside them that share 16 1/2 in."""
    stacked = stack_columns(columns_quilt(), width=11)
    sashing = Sashing("f1", Fraction(11, 4), Fraction(0), long="columns")
    return set_sashing(stacked, sashing=sashing, space_columns=11)


def four_patch_on_point() -> Design:
    """W056 to W059: 20 four-patches of 5 in on point, 4 across and 5 down, 12 plain squares between them."""
    laid: list[tuple[int, int, str, Turn]] = [(x, y, "b50", 0) for y in range(5) for x in range(4)]
    lattice = Lattice(Fraction(5), 4, 5)
    straight = design(
        "As published",
        fabrics("one", "two", "plain", "border", "triangles"),
        [(four_patch("3"), letters(A="f1", B="f2"), Sizes())],
        wall(lattice, laid),
        BOLT,
    )
    pointed = change_setting(straight, kind="on point", columns=4, rows=5)
    return set_triangles(alternate_plain(pointed, fabric="f3"), triangles=Triangles("f5"))


QUILTS: tuple[Callable[[], Design], ...] = (
    churn_dash,
    crib_quilt,
    columns_and_sashing,
    four_patch_on_point,
)


def planned(made: Design, folder: Path) -> Materials:
    """The materials of a design written to a file and read back."""
    path = folder / "quilt.piecewright"
    save_design(path, made, {})
    read = load_design(path).design
    assert read == made
    return materials(read)


def parts(made: Materials) -> Counter[str]:
    counts = Counter[str]()
    for part in made.parts:
        counts[part.part] += part.count
    return counts


@pytest.mark.parametrize("quilt", QUILTS)
def test_it_has_no_errors_and_is_sewn_in_straight_seams(quilt: Callable[[], Design]) -> None:
    made = quilt()
    assert [finding for finding in materials(made).findings if finding.severity == "error"] == []
    order = sewing_order(made)
    assert order.count.partial == 0
    pieces = len(order.blocks) + len(order.fillings)
    assert order.count.seams == pieces - 1


def test_churn_dash(tmp_path: Path) -> None:
    # 42 3/4 x 53; without cornerstones rows of three blocks and four sashes between five long ones
    made = planned(churn_dash(), tmp_path)
    assert made.size.unfinished == Unfinished(Fraction(171, 4), Fraction(53))
    assert [border.strips for border in made.borders] == [4, 5]
    cuts = {part.cut: part.count for part in made.parts}
    assert cuts == {Cut(Fraction(37, 4), Fraction(2)): 16, Cut(Fraction(131, 4), Fraction(2)): 5}


def test_crib_quilt(tmp_path: Path) -> None:
    made = planned(crib_quilt(), tmp_path)
    assert made.size.unfinished == Unfinished(Fraction(77, 2), Fraction(77, 2))
    assert parts(made) == {"cornerstone": 16, "sash": 24}
    assert made.binding.strips == 4


def test_columns_and_sashing(tmp_path: Path) -> None:
    # 44 1/2 wide; 53 1/2 is the length of a column and of the six strips cut along the cloth beside it
    made = planned(columns_and_sashing(), tmp_path)
    assert made.size.unfinished == Unfinished(Fraction(89, 2), Fraction(107, 2))
    assert [alike.count for alike in made.blocks] == [40, 50]
    (sash,) = made.parts
    assert (sash.count, sash.cut) == (6, Cut(Fraction(107, 2), Fraction(13, 4)))


def test_four_patch_on_point(tmp_path: Path) -> None:
    made = planned(four_patch_on_point(), tmp_path)
    assert sorted(alike.count for alike in made.blocks) == [12, 20]
    assert parts(made) == {"side-triangle": 14, "corner-triangle": 4}
    cut = {part.part: (part.cuts, part.cut.width) for part in made.parts}
    assert cut["side-triangle"] == (4, Fraction(67, 8))
    assert cut["corner-triangle"] == (2, Fraction(9, 2))
    # the source adds up five diagonals rounded to 7 1/8: 36 1/8; the true center is 35.855, ours the eighth above
    assert made.size.unfinished.height == Fraction(287, 8)
