"""What comes out beside the blocks: left-overs, claims, warnings, beds, sentences and handles."""

from fractions import Fraction

from piecewright.errors import MakingError
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import attempt, run, steps_as_sentences
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.verbs import VERBS
from tests.core.making.building import (
    CORNER,
    PAIR,
    cut,
    facts,
    lay,
    press,
    rails,
    recipe,
    refusal,
    sew,
    shuffle,
    sliced,
    square,
    the_kind,
    turn,
)


def test_parts_beyond_what_fit_gave_are_refused() -> None:
    steps = [
        *PAIR,
        cut("p", "pair", "across", every="2", count="fit"),
        sew("block", ["p.1", "p.4"], "across"),
    ]
    assert refusal(steps) == "steps[4].sew[1]: There is no piece p.4. p has 3 parts."


def test_cloth_hidden_in_a_seam_that_is_cut_away_falls_out_of_it() -> None:
    found = facts([*PAIR, cut("p", "pair", "down", widths=["2 3/4", "1 1/2"])], ["p.1"])
    assert [patch.fabric for patch in the_kind(found).patches] == ["A"]
    kept = Fraction(11, 4) * 6
    seen = Fraction(9, 4) * Fraction(11, 2)
    assert (found.ledger.seen, found.ledger.allowance, found.ledger.waste) == (seen, kept - seen, 30 - kept)


def test_what_is_never_used_is_left_over_and_waste() -> None:
    found = facts([*PAIR, lay("spare", "C", "2", "5")], ["pair"])
    assert (found.ledger.laid, found.ledger.waste) == (40, 10)


def test_a_seam_that_takes_more_is_carried_through() -> None:
    """Three 2 1/2 in strips that measure 6 7/16 where 6 1/2 is perfect: 1/32 lost at every seam."""
    steps = [
        *rails(2, "40 1/2"),
        cut("t", "set", "across", every="13 1/2", count=3),
        sew("slab", ["t.*"], "down"),
        cut("c", "slab", "across", every="4 1/2", count=3),
        sew("block", ["c.*"], "across"),
    ]
    claimed = recipe(steps, finished=["12", "12"])
    found = facts_of_recipe(claimed, Given(lost=Fraction(1, 32)))
    assert (float(found.unfinished.width), float(found.unfinished.height)) == (12.4375, 12.34375)
    assert facts_of_recipe(claimed, Given()).finished.width == 12


def test_a_claim_that_the_making_does_not_keep_is_refused() -> None:
    said = refusal(PAIR, "pair", finished=["5 1/2", "4 1/4"])
    assert said == (
        "finished: The recipe claims blocks of 5 1/2 x 4 1/4 in finished. The making gives 5 1/2 x 4 in finished."
    )


def test_blocks_are_rectangles_of_one_size() -> None:
    slanted = [*CORNER, sliced("p", "a", ("top", "3"), ("bottom", "5"))]
    assert refusal(slanted, "p.1") == "block[0]: The block p.1 is not a rectangle. Square p.1 up first."
    unlike = [*CORNER, cut("p", "a", "across", widths=["3", "5"])]
    assert refusal(unlike, "p.*").startswith(
        "block: The block p.1 is 3 x 8 in unfinished, but p.2 is 5 x 8 in unfinished."
    )


def test_a_patch_that_vanishes_in_the_outer_allowance_warns() -> None:
    found = facts([*PAIR, cut("p", "pair", "down", every="3", count=1)], ["p.1"])
    assert [patch.fabric for patch in the_kind(found).patches] == ["A"]
    assert [warning.code for warning in found.warnings] == ["hidden-outside"]
    ledger = found.ledger
    assert ledger.laid == ledger.seen + ledger.allowance + ledger.waste


def test_a_making_that_stops_keeps_what_was_done() -> None:
    making = attempt(recipe([*PAIR, cut("p", "pair", "across", every="9", count=1)], ["p.1"]), Given())
    assert len(making.outcomes) == 3
    assert isinstance(making.fault, MakingError)
    assert making.fault.where == "steps[3].every"


def test_beds_are_strips_sewn_along_their_length_before_a_cut() -> None:
    def told(found: Facts) -> list[tuple[object, ...]]:
        return [
            (
                "".join(lane.fabric for lane in bed.lanes),
                bed.length,
                bed.cuts,
                bed.count,
                bed.whole,
                bed.trims,
            )
            for bed in found.beds
        ]

    steps = [*rails(2, "usable"), lay("x", "X", "2", "5"), lay("y", "X", "2", "5")]
    cuts = cut("p", "set", "across", every="8", count="fit", trim="1/2")
    assert told(facts([*steps, cuts], ["p.1"])) == [
        ("AB", 40, (8, 8, 8, 8), 1, True, True),
        ("X", 5, (), 2, False, False),
    ]
    nested = [
        *rails(2, "9"),
        lay("c", "C", "2", "9"),
        sew("three", ["set", "c"], "down"),
        turn("t", "three", 90),
    ]
    whole = facts(
        [*nested, lay("d", "D", "2", "9"), turn("u", "d", 90), sew("all", ["u", "t"], "across")], ["all"]
    )
    assert told(whole) == [("DCBA", 9, (), 1, False, False)]
    crossed = facts(
        [*rails(2, "9"), lay("c", "C", "2", "4 1/2"), turn("u", "c", 90), sew("all", ["u", "set"], "across")],
        ["all"],
    )
    assert [lanes for lanes, *_ in told(crossed)] == ["AB", "C"]


def test_every_step_is_said_in_words() -> None:
    steps = [
        lay("a", "A", "2 1/2", "20", least=True),
        lay("b", "B", "2 1/2", "20", grain="lengthwise"),
        sew("set", ["a", "b"], "down"),
        press("set", "open", layers=[0]),
        cut("p", "set", "across", every="6", count=3, trim="1/2"),
        turn("t", "p.2", 270),
        sliced("s", "p.1", ("top", "2"), ("left", "3")),
        shuffle("q", "p.3", 1),
        square("block", "q", "5", "4"),
    ]
    assert [str(sentence) for sentence in steps_as_sentences(run(recipe(steps, stack=2), Given()))] == [
        "Lay a strip of fabric A, 2 1/2 in wide and at least 20 in long (cut size), one in each of the 2 layers.",
        (
            "Lay a strip of fabric B, 2 1/2 in wide and 20 in long (cut size), along the lengthwise thread, "
            "one in each of the 2 layers."
        ),
        "Sew a and b together, each below the one before: set measures 20 x 4 1/2 in unfinished.",
        "Press the seams of set open, only in layer 1 (1 is on top).",
        "Trim 1/2 in off the left end to true it. Cut the set into 3 segments 6 in wide (cut size).",
        "Turn p.2 a quarter turn counterclockwise.",
        "Slice the p.1 from 2 in along the top to 3 in down the left side.",
        "Shuffle p.3: move the top 1 layer to the bottom.",
        "Square q up to 5 x 4 in unfinished.",
    ]


def test_every_length_has_a_handle_where_it_is_seen() -> None:
    steps = [
        *PAIR,
        cut("p", "pair", "across", widths=["2", "3"], trim="1/2"),
        square("block", "p.2", "2", "3"),
    ]
    made = recipe(steps)
    making = run(made, Given())
    found = []
    for step, outcome in zip(made.steps, making.outcomes, strict=True):
        verb = next(verb for verb in VERBS.values() if isinstance(step, verb.step))
        found.append(
            [
                (handle.place.key, handle.place.index, handle.line.start)
                for handle in verb.handles(step, outcome)
            ]
        )
    assert found == [
        [("lay.length", None, (6, 0)), ("lay.width", None, (0, 3))],
        [("lay.length", None, (6, 0)), ("lay.width", None, (0, 2))],
        [],
        [("trim", None, (0.5, 0)), ("widths", 0, (2.5, 0)), ("widths", 1, (5.5, 0))],
        [("width", None, (2.5, 0.75)), ("height", None, (0.5, 3.75))],
    ]
