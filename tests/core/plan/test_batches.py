"""Sewing in batches: a test before the rest, what is left over, what one more block costs, and keeping to the stash."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from piecewright.edit.registry import Cell, apply, call
from piecewright.model.design import Design
from piecewright.model.quilt import Batting
from piecewright.plan.difference import difference
from piecewright.plan.keeping import OnHandCloth, first_over, goes_over, over
from piecewright.plan.materials import materials, materials_with
from piecewright.plan.sewing_batches import block_rounds, one_more, rests, set_rounds
from piecewright.plan.stash_first import StripOnHand
from tests.core.plan.samples import BLOCK, BOLT, UNTRUED, rails
from tests.core.strategies import designs


def test_one_set_is_sewn_and_measured_before_the_rest() -> None:
    (sets,) = set_rounds(materials(rails(110)))
    assert [sets.test, sets.others] == [1, 18]
    # three strips of 2 1/2 in with 1/4 in seams: 6 1/2 in, as every class on the quarter inch seam measures it
    assert sets.width == Fraction(13, 2)
    assert "it should be 6 1/2 in wide, unfinished. Then sew the other 18 in a chain." in str(sets.said)
    (blocks,) = block_rounds(rails(110))
    assert [blocks.test, blocks.others] == [1, 109]
    assert str(blocks.said) == (
        "Block 30: make 1 block first and measure: 6 1/2 x 6 1/2 in unfinished. Then piece the other 109 in a chain."
    )


def test_a_single_set_has_no_rest() -> None:
    (sets,) = set_rounds(materials(rails(4)))
    assert [sets.test, sets.others] == [1, 0]
    assert str(sets.said).startswith("Sew the one set of Cloth 1 2 1/2, Cloth 2 2 1/2, Cloth 3 2 1/2")


@given(designs())
def test_every_set_and_block_is_sewn_once(found: Design) -> None:
    made = materials(found)
    assert sum(each.test + each.others for each in set_rounds(made)) == made.set_count
    for batch, each in zip(made.batches, block_rounds(found), strict=True):
        assert each.test + each.others == batch.batches * batch.per_batch


def test_what_a_begun_set_still_gives_costs_nothing() -> None:
    # 110 of 6 to a set: the nineteenth set gives 2 and would give 4 more
    found = rails(110, UNTRUED)
    (rest,) = rests(materials(found))
    assert [rest.count, rest.length] == [4, Fraction(13, 2)]
    (batch,) = materials(found).batches
    assert one_more(found, batch.key) == ()
    full = rails(114, UNTRUED)
    assert rests(materials(full)) == ()
    (batch,) = materials(full).batches
    told = {(change.part, change.by) for change in one_more(full, batch.key)}
    assert ("sets", 1) in told
    assert ("strips", 1) in told


@given(designs())
def test_one_more_costs_what_a_quilt_with_one_more_costs(found: Design) -> None:
    made = materials(found)
    for batch in made.batches:
        changes = one_more(found, batch.key)
        assert all(change.by > 0 for change in changes)
        assert not changes or {change.part for change in changes} <= {"sets", "strips", "cloth", "cost"}


@given(designs())
def test_with_no_block_more_the_materials_are_the_same(found: Design) -> None:
    assert materials_with(found, {}) == materials(found)


@given(designs())
def test_a_rest_can_really_be_cut(found: Design) -> None:
    made = materials(found)
    by_key = {each.key: each for each in made.sets}
    for rest in rests(made):
        spare = sum(cuts.sets * cuts.to_spare for cuts in by_key[rest.sets].cuts)
        assert 0 < rest.count * rest.length <= spare


def test_batting_panels_and_price_are_told_when_they_change() -> None:
    found = rails(110)
    priced = found.changed(fabrics=tuple(fabric.changed(price=Fraction(9)) for fabric in found.fabrics))
    larger = priced.with_quilt(priced.quilt.changed(batting=Batting(Fraction(30))))
    changes = difference(materials(priced), materials(larger))
    assert [(change.part, change.by) for change in changes] == [("package", -1), ("package", 1)]
    assert str(changes[0].said) == "Batting, twin, 72 x 90 in: 1 package before, 0 now"
    dearer = priced.changed(settings=BOLT.changed(margin=Fraction(9)))
    assert "cost" in {change.part for change in difference(materials(priced), materials(dearer))}


# keeping to what there is


def test_the_edit_that_goes_over_is_named() -> None:
    found = rails(6)  # one set: 2 1/2 in of each of three cloths
    have = OnHandCloth({"f1": Fraction(5), "f2": Fraction(5), "f3": Fraction(5)})
    assert over(materials(found), have) == ()
    wider = call("resize-quilt", columns=10, rows=2)
    place = tuple(call("place-block", block=BLOCK, cell=Cell(column, 1)) for column in range(10))
    step = first_over(found, (wider, *place), have)
    assert step is not None
    assert step.call == place[6]  # 6 + 6 blocks are two sets and 5 in; the next is a third
    assert {each.fabric for each in step.over} == {"f1", "f2", "f3"}
    assert step.over[0].by == Fraction(5, 2)
    assert (
        str(step.over[0].finding.message)
        == "Cloth 1: 7 1/2 in of cloth, and there is 5 in: 2 1/2 in too much."
    )


@given(st.integers(1, 60), st.integers(1, 60), st.integers(0, 30))
def test_what_makes_it_better_never_goes_over(before: int, after: int, inches: int) -> None:
    have = OnHandCloth({"f1": Fraction(inches)})
    old, new = materials(rails(before)), materials(rails(after))
    found = goes_over(old, new, have)
    need = next(each.inches for each in new.cloth if each.fabric == "f1")
    was = next(each.inches for each in old.cloth if each.fabric == "f1")
    assert bool(found) == (need > inches and need > was)


def test_strips_on_hand_count_too() -> None:
    made = materials(rails(12))
    nothing = {"f1": Fraction(0)}
    assert over(made, OnHandCloth(nothing))
    strips = (StripOnHand("f1", Fraction(5, 2), Fraction(42), 2),)
    assert over(made, OnHandCloth(nothing, strips)) == ()


def test_applying_the_edits_gives_the_quilt_that_was_judged() -> None:
    found = rails(6)
    step = call("resize-quilt", columns=10, rows=2)
    assert first_over(found, (step,), OnHandCloth({})) is None
    assert materials(apply(found, step)).missing == 14
