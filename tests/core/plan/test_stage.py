"""A stage runs once for each value of its arguments, and says how often it ran."""

from piecewright.plan.stage import RERUNS, forget, stage


@stage(keep=2)
def doubled_for_test(number: int) -> int:
    """Twice the number."""
    return 2 * number


def test_a_stage_runs_once_for_a_value_and_is_counted() -> None:
    forget()
    before = RERUNS["doubled_for_test"]
    assert [doubled_for_test(3), doubled_for_test(3), doubled_for_test(4)] == [6, 6, 8]
    assert RERUNS["doubled_for_test"] == before + 2


def test_a_stage_keeps_no_more_than_its_bound_and_can_forget() -> None:
    forget()
    before = RERUNS["doubled_for_test"]
    for number in (1, 2, 3, 1):
        doubled_for_test(number)
    assert RERUNS["doubled_for_test"] == before + 4
    forget()
    doubled_for_test(1)
    assert RERUNS["doubled_for_test"] == before + 5
    assert doubled_for_test.__doc__ == "Twice the number."
