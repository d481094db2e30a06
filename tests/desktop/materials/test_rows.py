"""The rows tell what the plan says, every number with its word, and are the same however they were reached."""

import re
from collections.abc import Iterator
from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.registry import EditCall, apply, call
from piecewright.edit.scaling import block_units
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright.units.measure import Measure
from piecewright_qt.materials.lister import Lister, rows
from piecewright_qt.materials.rows import Amount, Row, compared
from tests.core.edit_strategies import random_call
from tests.core.strategies import random_design
from tests.desktop.materials.plans import border_of_leaflet, named, two_colorings, without_first
from tests.desktop.wall.quilts import empty, mixed, rails, unmade

INCH, METRIC = Measure(), Measure("cm", comma=True)
LENGTH = re.compile(r"\d (?:in|cm|mm)\b")
SAID = re.compile(r"\b(?:cut|finished|unfinished|to spare|package)\b")


def walk(design: Design, random: Random, steps: int) -> Iterator[Design]:
    """Designs after random edits, one after another."""
    for _ in range(steps):
        try:
            design = apply(design, random_call(random, design))
        except EditError:
            continue
        yield design


@given(st.integers(0, 2**32))
@settings(max_examples=25)
def test_rows_after_any_edits_are_those_from_nothing(seed: int) -> None:
    random = Random(seed)
    lister, start = Lister(), random_design(random)
    measure = random.choice((INCH, METRIC))
    before = lister.rows(materials(start), measure)
    for design in walk(start, random, 12):
        after = lister.rows(materials(design), measure)
        assert after == rows(materials(design), measure)
        found = compared(before, after, measure)
        assert [row for row in found.rows if not row.gone] == list(after)
        before = after


@given(st.integers(0, 2**32))
@settings(max_examples=25)
def test_what_is_marked_is_the_difference_of_what_is_read(seed: int) -> None:
    random = Random(seed)
    start = random_design(random)
    before = rows(materials(start), METRIC)
    for design in walk(start, random, 6):
        after = rows(materials(design), METRIC)
        found = compared(before, after, METRIC)
        keys = [row.key for row in found.rows]
        assert len(keys) == len(set(keys))
        old = {row.key: row for row in before}
        for row in after:
            was = old.get(row.key)
            if was is not None and row.amount is not None and was.amount is not None:
                changed = row.amount.shown != was.amount.shown
                mark = found.marks.get(row.key)
                assert changed == bool(mark is not None and mark.delta)
        assert not compared(after, after, METRIC).marks
        before = after


@pytest.mark.parametrize("measure", [INCH, METRIC, Measure("mm")])
@pytest.mark.parametrize("design", [two_colorings(), mixed(), rails(4, 5), unmade(), empty(), named(30, 12)])
def test_each_length_says_what_size_it_is(design: Design, measure: Measure) -> None:
    told = rows(materials(design), measure)
    lengths = [note.text for row in told for note in row.notes if LENGTH.search(note.text)]
    assert lengths
    for text in lengths:
        assert SAID.search(text), text


def test_the_cuts_of_a_border_are_those_of_a_published_example() -> None:
    """A quilting club's handout '4Bs': borders of 2 in cut 46 in long, then 34 1/2 + 2 x 2 = 38 1/2 in."""
    told = rows(materials(border_of_leaflet()), INCH)
    border = next(row for row in told if row.label == "Border 1")
    texts = [note.text for note in border.notes]
    assert "2 of 46 x 2 1/2 in cut" in texts
    assert "2 of 38 1/2 x 2 1/2 in cut" in texts
    assert "2 in finished" in texts


def test_blocks_sewn_alike_in_other_cloth_stand_in_a_group() -> None:
    told = rows(materials(two_colorings()), INCH)
    middle = [row for row in told if row.under == "Middle end for end"]
    assert [row.value for row in middle] == ["1", "1"]
    group = next(row for row in told if row.kind == "group")
    assert (group.label, group.value) == ("Middle end for end", "2")
    rail = next(row for row in told if row.label == "Rail fence of three")
    assert rail.value == "4"
    assert not rail.under


def test_headings_sum_what_stands_under_them() -> None:
    told = rows(materials(two_colorings()), INCH)
    for section in ("sets", "cloth"):
        heading = next(row for row in told if row.kind == "heading" and row.section == section)
        lines = [row for row in told if row.kind == "line" and row.section == section]
        assert lines
        assert heading.amount is not None
        assert heading.amount.shown == sum(row.amount.shown for row in lines if row.amount)


def test_a_block_taken_away_leaves_its_line_with_nothing_in_it() -> None:
    before, after = two_colorings(), apply(two_colorings(), without_first())
    found = compared(rows(materials(before), INCH), rows(materials(after), INCH), INCH)
    gone = [row for row in found.rows if row.gone]
    assert {row.section for row in gone} == {"blocks", "sets"}
    for row in gone:
        assert found.marks[row.key].delta.startswith("−")
        assert row.value == "0"
    batch = next(row for row in gone if row.section == "blocks")
    assert batch.label == "Middle end for end"  # the group that named it is gone too
    assert [note.text for note in batch.notes] == ["Cloth 1 · Cloth 2"]
    other = next(row for row in found.rows if row.label == "Middle end for end" and not row.gone)
    assert other.key not in found.marks  # it has only left the group


def test_a_set_in_another_size_is_the_same_line_changed() -> None:
    before = two_colorings()
    after = apply(before, next(_sizes(before)))
    old, new = rows(materials(before), INCH), rows(materials(after), INCH)
    found = compared(old, new, INCH)
    assert not [row for row in found.rows if row.gone and row.section == "sets"]
    sets = [row for row in found.rows if row.section == "sets" and row.kind == "line"]
    assert any(found.marks[row.key].notes for row in sets if row.key in found.marks)


def _sizes(design: Design) -> Iterator[EditCall]:
    for unit in block_units(design):
        if unit != design.quilt.lattice.unit:
            yield call("resize-quilt", unit=unit)


def test_only_what_changed_is_put_into_words_again() -> None:
    lister, before = Lister(), two_colorings()
    lister.rows(materials(before), INCH)
    made = lister.made
    after = apply(before, without_first())
    lister.rows(materials(after), INCH)
    changed = lister.made - made
    assert 0 < changed < made / 2
    lister.rows(materials(before), INCH)
    assert lister.made - made == changed  # what was told once is remembered


def test_metric_differences_are_those_of_the_meters_shown() -> None:
    eighth = Fraction(36, 8)
    one, two = (Fraction(n, 10) / Fraction(127, 5000) for n in (12, 13))
    assert Amount(two, "yards").signed(Amount(one, "yards"), METRIC) == "+0,1 m"
    assert Amount(3 * eighth, "yards").signed(Amount(4 * eighth, "yards"), INCH) == "−1/8 yd"
    assert Amount(2).signed(None, INCH) == "+2"
    assert Amount(2).signed(Amount(2), INCH) == ""


def test_prices_are_summed_in_the_currency_of_the_design() -> None:
    design = two_colorings()
    priced = tuple(fabric.changed(price=Fraction(12)) for fabric in design.fabrics)
    design = design.changed(fabrics=priced, settings=design.settings.changed(currency="EUR"))
    plan = materials(design)
    row = next(row for row in rows(plan, METRIC) if row.key == "cost")
    assert plan.cost is not None
    assert row.value == f"{float(plan.cost):.2f} EUR".replace(".", ",")


def test_a_screen_reader_hears_the_group_and_all_the_small_print() -> None:
    told = rows(materials(two_colorings()), INCH)
    row: Row = next(row for row in told if row.under)
    assert row.spoken.startswith("Middle end for end, Cloth ")
    for note in row.notes:
        assert note.text in row.spoken
