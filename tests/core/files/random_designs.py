"""Random designs for the tests of files: any text, lengths, tables and grids that the model allows."""

from fractions import Fraction
from typing import Any

from hypothesis import strategies as st

from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print
from piecewright.model.quilt import Border, Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import Letters, Sizes
from tests.core.files.sample_design import RAILS

_LETTERS = st.characters(exclude_categories=["Cs"])
texts = st.text(_LETTERS, max_size=30)
names = st.text(_LETTERS, min_size=1, max_size=30).filter(str.strip)
lengths = st.fractions(Fraction(1, 64), Fraction(1000), max_denominator=720)
colors = st.from_regex("#[0-9a-f]{6}", fullmatch=True)
prints = st.builds(
    Print,
    kind=st.sampled_from(["dots", "stripes", "waves"]),
    inks=st.lists(colors, min_size=1, max_size=8).map(tuple),
    scale=st.fractions(Fraction(1, 50), Fraction(100), max_denominator=100),
    turn=st.integers(0, 359),
    one_way=st.booleans(),
)


@st.composite
def designs(draw: Any) -> Design:
    """A design of up to four fabrics, three blocks and three arrangements."""
    count = draw(st.integers(1, 4))
    fabrics = tuple(_fabric(draw, f"f{number}") for number in range(1, count + 1))
    ids = st.sampled_from([fabric.id for fabric in fabrics])
    letters = st.dictionaries(st.sampled_from("AB"), st.lists(ids, min_size=1, max_size=3).map(tuple)).map(
        Letters
    )
    blocks = tuple(
        Block(
            id=f"b{number}",
            name=draw(names),
            recipe="r5",
            sizes=Sizes(draw(st.dictionaries(st.just("F"), lengths))),
            fabrics=draw(letters),
            favorite=draw(st.booleans()),
            note=draw(texts),
        )
        for number in range(6, 6 + draw(st.integers(1, 3)))
    )
    quilts = tuple(
        _quilt(draw, ids, letters, [block.id for block in blocks]) for _ in range(draw(st.integers(1, 3)))
    )
    return Design(
        name=draw(names),
        fabrics=fabrics,
        recipes=(RecipeEntry("r5", Recipe.from_plain(RAILS)),),
        blocks=blocks,
        arrangements=quilts,
        current=draw(st.integers(0, len(quilts) - 1)),
        settings=Settings(
            trim_first=draw(lengths.filter(lambda length: length < 10)), currency=draw(texts)[:5]
        ),
        about=draw(texts),
        author=draw(texts),
        next_id=draw(st.integers(9, 500)),
    )


def _fabric(draw: Any, name: str) -> Fabric:
    return Fabric(
        id=name,
        name=draw(names),
        color=draw(colors),
        print=draw(st.none() | prints),
        price=draw(st.none() | lengths),
        width=draw(st.none() | lengths),
        note=draw(texts),
    )


def _quilt(draw: Any, ids: Any, letters: Any, blocks: list[str]) -> Quilt:
    lattice = Lattice(draw(lengths), draw(st.integers(1, 5)), draw(st.integers(1, 5)))
    filled = draw(st.sets(st.integers(0, lattice.rows - 1)))
    rows = []
    for row in sorted(filled):
        columns = sorted(draw(st.sets(st.integers(0, lattice.columns - 1), min_size=1)))
        placed = st.builds(
            Placement,
            column=st.just(0),
            block=st.sampled_from(blocks),
            turn=st.sampled_from([0, 90, 180, 270]),
            layer=st.integers(0, 5),
            fabrics=letters,
        )
        rows.append(Row(row, tuple(draw(placed).changed(column=column) for column in columns)))
    borders = st.lists(st.builds(Border, fabric=ids, width=lengths), max_size=3).map(tuple)
    return Quilt(name=draw(names), lattice=lattice, rows=tuple(rows), borders=draw(borders))
