"""A row of the sizes table in sentences: the numbers of the table, none of its own."""

from fractions import Fraction

import pytest

from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.plan.sizes_rows import row_sentences
from piecewright.plan.sizes_table import sizes_table
from piecewright.units.measure import Measure


def test_a_rail_fence_is_told_as_it_is_cut() -> None:
    """By hand: three strips 2 1/2 x 6 1/2 give 6 x 6; 40 - 1/2 of truing is 6 x 6 1/2 and 1/4 + 1/4 - 1/4 left."""
    table = sizes_table(shipped_recipes()["rail-fence-of-three"], Given())
    row = next(row for row in table.rows if row.facts.finished.width == 6)
    assert [str(said) for said in row_sentences(row)] == [
        "6 x 6 in finished, as the strips give it",
        "6 1/2 x 6 1/2 in unfinished",
        "Strips, cut size: A, B, C 2 1/2 x 6 1/2",
        "Cuts: 1 x 6 1/2",
        "6 blocks from a set of 3 strips, 1/4 in left over",
        "1.9 % waste",
    ]


def test_a_cloth_too_narrow_says_so_and_tells_no_waste() -> None:
    table = sizes_table(shipped_recipes()["middle-end-for-end"], Given(usable=Fraction(30)))
    short = [row for row in table.rows if not row.possible]
    assert short
    for row in short:
        said = [str(sentence) for sentence in row_sentences(row)]
        assert any(text.startswith("No block: the cloth is") for text in said)
        assert not any("waste" in text for text in said)


@pytest.mark.parametrize("name", shipped_recipes())
def test_every_row_is_what_its_making_gives(name: str) -> None:
    for row in sizes_table(shipped_recipes()[name], Given()).rows:
        made = facts(row.recipe, row.given)
        size, unfinished, *_ = (str(said) for said in row_sentences(row))
        assert size.startswith(f"{Measure().size(made.finished.width, made.finished.height)} finished")
        assert unfinished.endswith("unfinished")
        assert made.finished == row.facts.finished
