"""Fewest sets to scrappiest: honest about what each mix costs."""

from collections import Counter
from random import Random

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.arrange.scrappy import between, free_mixes, group_of, pools_of, scrappy
from piecewright.edit.arranging import lock_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import apply
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from tests.core.arrange.test_arranging import rails
from tests.core.edit.quilts import FOUR_PATCH, RAILS, at, design, laid
from tests.core.strategies import randoms


def mixes_on(made: Design) -> Counter[object]:
    """How often each mix hangs on the wall."""
    return Counter(made.letters(one.placement) for one in all_laid(made, made.quilt))


@settings(max_examples=25, deadline=None)
@given(random=randoms, mixes=st.integers(1, 12))
def test_as_many_mixes_as_said_each_as_often_and_sets_told_truly(random: Random, mixes: int) -> None:
    made = rails(4, 3, random)
    answer = scrappy(made, RAILS, mixes, seed=2)
    after = made if answer.call is None else apply(made, answer.call)
    found = mixes_on(after)
    assert len(found) == answer.mixes <= mixes
    assert max(found.values()) - min(found.values()) <= 1
    assert answer.sets == materials(after).set_count
    pools = pools_of(made, group_of(made, RAILS))
    for letters in found:
        for letter, ids in letters.items():  # type: ignore[attr-defined]
            assert set(ids) <= set(pools[letter])


def test_one_mix_takes_the_fewest_sets_and_every_more_costs_what_it_costs() -> None:
    made = rails(6, 5, Random(2))  # 30 blocks; six to a set: 6 x 6 1/2 + 1/2 + 1/4 of 40 in
    sets = [scrappy(made, RAILS, mixes).sets for mixes in (1, 5, 6, 15)]
    assert sets[:2] == [5, 5]  # five mixes of six blocks each: a set apiece
    assert sets[2] > 5
    assert sets == sorted(sets)
    assert free_mixes(made, RAILS) == 5


def test_locked_blocks_keep_their_fabrics_and_places() -> None:
    made = lock_blocks(rails(3, 2, Random(1)), cells=at((0, 0), (2, 1)))
    answer = scrappy(made, RAILS, 3)
    assert answer.call is not None
    after = apply(made, answer.call)
    assert {one for one in all_laid(made, made.quilt) if one.placement.locked} <= set(
        all_laid(after, after.quilt)
    )


def test_a_stack_gets_its_fabrics_by_the_making() -> None:
    made = laid("fffff.", "fffff.")
    answer = scrappy(made, FOUR_PATCH, 2)
    after = made if answer.call is None else apply(made, answer.call)
    assert group_of(made, FOUR_PATCH).makings == 2
    layers = Counter(one.placement.layer for one in all_laid(after, after.quilt))
    assert layers == dict.fromkeys(range(5), 2)


def test_nothing_to_do_is_no_edit() -> None:
    assert scrappy(design(), RAILS, 3).call is None
    made = laid("rr....")
    assert between(made, made) is None
