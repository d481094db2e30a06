"""The rules that the values of a design keep in their constructors, and how they compare, hash and share."""

from collections.abc import Callable
from fractions import Fraction
from random import Random

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.errors import DesignError
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print
from piecewright.model.forms import Form
from piecewright.model.quilt import (
    Backing,
    Batting,
    Binding,
    Border,
    Lattice,
    Placement,
    Quilt,
    Row,
    Turn,
    turned_by,
)
from piecewright.model.settings import Settings
from piecewright.model.value import NO_LETTERS, Letters, Sizes, Value
from piecewright.units.sizes import Finished
from tests.core.strategies import TURNS, randoms, values

ROSE = Fabric("f1", "Rose", "#aa3344")
LATTICE = Lattice(Fraction(6), 4, 3)
ids = st.sampled_from(("f1", "f2", "f3"))
letters = st.dictionaries(
    st.sampled_from("ABC"), st.lists(ids, min_size=1, max_size=3).map(tuple), max_size=3
).map(Letters)


def _rail() -> RecipeEntry:
    return RecipeEntry("r2", shipped_recipes()["rail-fence-of-three"])


BROKEN: list[tuple[Callable[[], object], str]] = [
    (lambda: Fabric("f1", "", "#aa3344"), "This fabric has no name."),
    (
        lambda: Fabric("f1", "x" * 201, "#aa3344"),
        "The name of this fabric is 201 characters long. Shorten it to 200 characters at most.",
    ),
    (
        lambda: Fabric("f1", "Rose", "#AA334G"),
        '"#AA334G" is no color. Write # and six digits or letters a to f, such as #8c2f39.',
    ),
    (
        lambda: Fabric("f1", "Rose", "#aa3344", price=Fraction(-1)),
        "The price of a yard is -1 in; it can not be less than 0.",
    ),
    (
        lambda: Fabric("f1", "Rose", "#aa3344", width=Fraction(0)),
        "The usable width of a fabric is 0 in; it must be more than 0.",
    ),
    (lambda: Form("strip", 3), "A strip on hand needs its count, its width and its length."),
    (
        lambda: Form("bolt", 1),
        "Cloth off the bolt is bought by its length; a piece on hand needs its count and its length.",
    ),
    (
        lambda: Form("strip", 1, Fraction(2), Fraction(9), Fraction(8)),
        "Only strips have unlike lengths, and the longest (8 in) is not below the length.",
    ),
    (lambda: Form("fat quarter", 0), "pieces of cloth on hand: 0. It must be from 1 to 10000."),
    (
        lambda: Fabric("f1", "Rose", "#aa3344", forms=(Form(), Form("fat quarter"))),
        "Only one form of a fabric can be bought as it takes; give the others a count.",
    ),
    (lambda: Print("dots", ()), "inks of a print: 0. It must be from 1 to 8."),
    (
        lambda: Print("dots", ("#aa3344",), turn=360),
        "turn of a print in degrees: 360. It must be from 0 to 359.",
    ),
    (
        lambda: Block("b1", "Rails", "r1", Sizes({"F": Fraction(0)})),
        "The size F is 0 in; it must be more than 0.",
    ),
    (lambda: Lattice(Fraction(0), 1, 1), "The grid unit is 0 in; it must be more than 0."),
    (lambda: Lattice(Fraction(6), 0, 1), "columns: 0. It must be from 1 to 1000."),
    (lambda: Lattice(Fraction(6), 1, 1001), "rows: 1001. It must be from 1 to 1000."),
    (lambda: Placement(-1, "b1"), "column of a block: -1. It must be from 0 to 999."),
    (lambda: Placement(0, "b1", layer=-1), "layer of a block: -1. It must be from 0 to 999."),
    (
        lambda: Placement(0, "b1", turn=45),  # type: ignore[arg-type]
        "A block can not lie turned by 45. A turn is 0, 90, 180 or 270.",
    ),
    (lambda: Row(0, ()), "Row 0 (the first is 0) has no blocks; leave such a row out."),
    (
        lambda: Row(1, (Placement(2, "b1"), Placement(2, "b1"))),
        "In row 1 (the first is 0) the block in column 2 does not lie right of the one before it.",
    ),
    (
        lambda: Quilt("A", LATTICE, (Row(1, (Placement(0, "b1"),)), Row(1, (Placement(1, "b1"),)))),
        "Row 1 (the first is 0) does not lie below the one before it.",
    ),
    (
        lambda: Quilt("A", LATTICE, (Row(1, (Placement(4, "b1"),)),)),
        "A block in column 4 of row 1 (the first are 0) lies outside the 4 x 3 cells.",
    ),
    (lambda: Border("f1", Fraction(0)), "The border width is 0 in; it must be more than 0."),
    (lambda: Binding(width=Fraction(-1)), "The binding strip width is -1 in; it must be more than 0."),
    (lambda: Backing(overage=Fraction(-1)), "The backing overage is -1 in; it can not be less than 0."),
    (lambda: Batting(Fraction(10_001)), "The batting overage is 10001 in; 10000 in is the most."),
    (lambda: Settings(seam=Fraction(3)), "The seam allowance is 3 in; 2 in is the most."),
    (
        lambda: Settings(three_strips=Fraction(5)),
        "Three strips sewn together can not measure 5 in: that is more than 1 in from 6 1/2 in.",
    ),
    (lambda: Settings(trim_every=0), "cuts between trims: 0. It must be from 1 to 1000."),
    (lambda: Letters({"A": ()}), "The letter A has an empty list of fabrics."),
    (lambda: Design("x", arrangements=()), "arrangements: 0. It must be from 1 to 200."),
    (lambda: Design("x", current=1), "arrangement in view (the first is 0): 1. It must be from 0 to 0."),
    (
        lambda: Design("x", fabrics=(ROSE, ROSE), next_id=2),
        "fabrics[1].id: The id f1 is given twice.",
    ),
    (
        lambda: Design("x", recipes=(_rail(),), blocks=(Block("b3", "Rails", "r1"),), next_id=4),
        'blocks[0].recipe: There is no recipe "r1". Add it to the recipes.',
    ),
    (
        lambda: Design(
            "x", recipes=(_rail(),), blocks=(Block("b3", "R", "r2", Sizes({"G": Fraction(6)})),), next_id=4
        ),
        'blocks[0].sizes: The recipe has no size "G". Its sizes: F.',
    ),
    (
        lambda: Design("x", arrangements=(Quilt("A", LATTICE, borders=(Border("f9", Fraction(2)),)),)),
        'arrangements[0]: There is no fabric "f9". Add it to the fabrics.',
    ),
]


@pytest.mark.parametrize(("make", "sentence"), BROKEN)
def test_a_broken_rule_is_refused_in_words(make: Callable[[], object], sentence: str) -> None:
    with pytest.raises(DesignError) as refusal:
        make()
    assert refusal.value.sentence() == sentence


@settings(max_examples=100, deadline=None)
@given(value=values())
def test_values_can_not_be_changed_in_place(value: Value) -> None:
    first = value.__struct_fields__[0]
    with pytest.raises(AttributeError):
        setattr(value, first, getattr(value, first))


@settings(max_examples=60, deadline=None)
@given(random=randoms)
def test_a_changed_copy_keeps_the_rules_and_the_rest(random: Random) -> None:
    lattice = Lattice(Fraction(random.randint(1, 12)), 3, 3)
    assert lattice.changed(columns=5) == Lattice(lattice.unit, 5, 3)
    with pytest.raises(DesignError):
        lattice.changed(columns=0)


@given(own=letters, over=letters)
def test_letters_laid_over_others_win_letter_by_letter(own: Letters, over: Letters) -> None:
    both = over.over(own)
    assert set(both) == set(own) | set(over)
    assert all(both[letter] == (over[letter] if letter in over else own[letter]) for letter in both)


@given(table=letters)
def test_tables_know_no_order_and_no_two_empties(table: Letters) -> None:
    turned_round = Letters(reversed(list(table.items())))
    assert turned_round == table
    assert hash(turned_round) == hash(table)
    assert list(table) == sorted(table)
    assert table.without(table) is NO_LETTERS
    assert Letters() is NO_LETTERS


@given(table=letters, layer=st.integers(0, 7))
def test_too_few_fabrics_repeat_round_the_stack(table: Letters, layer: int) -> None:
    for letter, named in table.items():
        assert table.fabric(letter, layer) == named[layer % len(named)]
    assert table.fabric("Z", layer) is None


@given(table=letters)
def test_exchanging_two_fabrics_twice_changes_nothing(table: Letters) -> None:
    swap = {"f1": "f2", "f2": "f1"}
    assert table.renamed(swap).renamed(swap) == table
    assert table.renamed({"f9": "f1"}) is table


@given(turn=st.sampled_from(TURNS), by=st.sampled_from(TURNS))
def test_turns_add_up_round_the_clock(turn: Turn, by: Turn) -> None:
    assert turned_by(turn, by) == (turn + by) % 360


def test_the_finished_size_takes_each_border_twice() -> None:
    borders = (Border("f1", Fraction(1)), Border("f1", Fraction(7, 2)))
    assert Quilt("A", LATTICE, borders=borders).finished == Finished(Fraction(33), Fraction(27))


def test_the_loss_of_a_seam_is_half_of_what_three_strips_lack() -> None:
    # common practice, no source: three 2 1/2 in strips sewn with a 1/4 in seam measure 6 1/2 in
    assert Settings().lost_per_seam == 0
    assert Settings(three_strips=Fraction(51, 8)).lost_per_seam == Fraction(1, 16)


def test_colors_are_kept_in_small_letters_however_they_are_written() -> None:
    small, large = Fabric("f1", "Rose", "#aa3344"), Fabric("f1", "Rose", "#AA3344")
    assert large == small
    assert hash(large) == hash(small)
    assert large.color == "#aa3344"
    assert Print("dots", ("#FFeeDD", "#000000")).inks == ("#ffeedd", "#000000")
    read = msgspec.convert({"id": "f1", "name": "Rose", "color": "#AA3344"}, Fabric)
    assert read == small
