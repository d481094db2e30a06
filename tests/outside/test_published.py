"""The account of published values itself must not let a row slip through."""

from importlib import import_module

import pytest

from tests.outside.published import Topic, check_covered, rows

TOPICS = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "W")


def test_every_row_has_its_own_id_and_a_source() -> None:
    everything = [row for topic in TOPICS for row in rows(topic)]
    assert len(everything) == len({row.id for row in everything}) == 394
    assert all(row.source and row.address and row.verdict for row in everything)


def test_a_value_from_memory_says_so() -> None:
    from_memory = [row for topic in TOPICS for row in rows(topic) if row.from_memory]
    assert from_memory
    assert all("memory" in row.source for row in from_memory)


def test_a_row_left_out_is_noticed() -> None:
    all_but_one = [row.id for row in rows("8")][1:]
    with pytest.raises(AssertionError, match=r"neither asserted nor set aside.*H001"):
        check_covered("8", all_but_one, {})
    check_covered("8", all_but_one, {"H001": "a reason of a few words"})


def test_a_row_may_not_be_set_aside_without_reason_nor_twice_nor_from_elsewhere() -> None:
    ids = [row.id for row in rows("8")]
    with pytest.raises(AssertionError, match="without a reason"):
        check_covered("8", ids[1:], {"H001": "no"})
    with pytest.raises(AssertionError, match="asserted and set aside"):
        check_covered("8", ids, {"H001": "a reason of a few words"})
    with pytest.raises(AssertionError, match="not rows of topic 8"):
        check_covered("8", [*ids, "I001"], {})


def test_wrong_rows_are_refuted_and_right_ones_asserted() -> None:
    topic = Topic("8")
    with pytest.raises(AssertionError, match="to be refuted"):
        topic.asserts("H025")
    with pytest.raises(AssertionError, match="not known to be wrong"):
        topic.refutes("H001")


ACCOUNTS = {
    "2": ("test_strips_published", "TOPIC", "NOT_APPLICABLE"),
    "4": ("test_around_published", "BORDERS", "NO_BORDER"),
    "5": ("test_around_published", "BINDING", "NO_BINDING"),
    "6": ("test_around_published", "BACKING", None),
    "7": ("test_beds_published", "TOPIC", "NOT_APPLICABLE"),
    "8": ("test_units_published", "TOPIC", "NOT_APPLICABLE"),
    "W": ("test_quilts_published", "TOPIC", "NOT_APPLICABLE"),
}
"""Where the account of each topic of materials is kept, and the rows it sets aside."""


def test_no_row_of_the_materials_is_forgotten() -> None:
    import_module("tests.outside.test_on_point_published")
    counted = 0
    for topic, (module, account, aside) in ACCOUNTS.items():
        found = import_module(f"tests.outside.{module}")
        set_aside = getattr(found, aside) if aside else {}
        kept = getattr(found, account)
        kept.check_covered(set_aside)
        counted += len(kept.asserted) + len(set_aside)
        assert len(kept.asserted) + len(set_aside) == len(rows(topic))
    assert counted == sum(len(rows(topic)) for topic in ACCOUNTS) == 256
