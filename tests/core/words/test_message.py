"""Messages put numbers, sizes, lists and plurals into words by the measure in force, in any language."""

import pickle
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import Finding, LengthError, PiecewrightError
from piecewright.units.measure import Measure
from piecewright.units.sizes import Cut, Finished, Unfinished
from piecewright.words.catalogue import Catalogue, merged
from piecewright.words.message import Arg, Message, message

HALF = Fraction(1, 2)

args = st.recursive(
    st.one_of(
        st.text(),
        st.integers(),
        st.fractions(),
        st.floats(),
        st.builds(Finished, st.fractions(), st.floats()),
        st.just(message("units.empty")),
    ),
    lambda inner: st.lists(inner, max_size=3).map(tuple),
    max_leaves=6,
)


def said(template: str, measure: Measure | None = None, /, **values: Arg) -> str:
    catalogue = Catalogue({"a.b": template, "units.empty": "No length is given."})
    return message("a.b", **values).text(measure or Measure(), catalogue)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (said("{x} left", x=Fraction(13, 2)), "6 1/2 in left"),
        (said("{x} left", Measure("cm", comma=True), x=Fraction(13, 2)), "16,51 cm left"),
        (said("{x:bare} wide", x=Fraction(13, 2)), "6 1/2 wide"),
        (said("{x} wide", x=7.986327), "7.986 in wide"),
        (said("step {n}", n=3), "step 3"),
        (said("{n:length} left", n=3), "3 in left"),
        (said("{x:yards}", x=Fraction(99, 2)), "1 3/8 yd"),
        (said("{x:area}", x=Fraction(195)), "195 sq in"),
        (said("{x:degrees}", x=13.2405), "13.24°"),
        (said("{x:percent}", x=Fraction(1, 8)), "12.5 %"),
        (said("{x:number} times", x=Fraction(5, 2)), "2 1/2 times"),
        (said("{s}", s=Unfinished(Fraction(13, 2), Fraction(25, 2))), "6 1/2 x 12 1/2 in unfinished"),
        (said("{s}", s=Finished(Fraction(6), Fraction(12))), "6 x 12 in finished"),
        (said("{s}", Measure("cm"), s=Cut(HALF, HALF)), "1.27 x 1.27 cm cut"),
        (said("{n:block|blocks}", n=1), "1 block"),
        (said("{n:block|blocks}", n=6), "6 blocks"),
        (said("{n:block|blocks}", n=0), "0 blocks"),
        (said("{n:yard|yards}", n=Fraction(3, 2)), "1 1/2 yards"),
        (said("{n:~this block|these blocks}", n=1), "this block"),
        (said("{n:~this block|these blocks}", n=2), "these blocks"),
        (said("{names:and}", names=("a", "b", "c")), "a, b and c"),
        (said("{names:or}", names=("a", "b")), "a or b"),
        (said("{names:and}", names=("a",)), "a"),
        (said("{names:and}", names=()), "none"),
        (said("{names}", names=("a", "b")), "a, b"),
        (said("{sizes:bare}", sizes=(HALF, Fraction(2))), "1/2, 2"),
        (said("{sizes:and}", sizes=(HALF, Fraction(2))), "1/2 in and 2 in"),
        (said("{m} Stop.", m=message("units.empty")), "No length is given. Stop."),
        (said("{{{x}}}", x="a"), "{a}"),
        (said("{x}", x="{y} two\nlines\x00"), "{y} two lines "),
    ],
)
def test_how_arguments_are_put_into_words(text: str, expected: str) -> None:
    assert text == expected


@given(args, st.sampled_from(["", "and", "or"]))
def test_no_argument_is_too_odd_for_a_sentence(value: Arg, form: str) -> None:
    assert said(f"{{x:{form}}}" if form else "{x}", x=value).isprintable()


@given(st.text())
def test_a_users_text_stays_on_one_line_as_it_is(text: str) -> None:
    shown = said("{x}", x=text)
    assert len(shown) == len(text)
    assert all(was == now or now == " " for was, now in zip(text, shown, strict=True))


def test_another_language_brings_its_own_plurals_and_joins() -> None:
    def polish_form(count: int | float | Fraction) -> int:
        # CLDR plural rules for Polish: one; 2 to 4 but not 12 to 14; the rest
        if count == 1:
            return 0
        return 1 if count % 10 in (2, 3, 4) and count % 100 not in (12, 13, 14) else 2

    polish = Catalogue(
        {"a.b": "{n:blok|bloki|bloków}: {names:and}, {s}"},
        polish_form,
        {"and": "i", "or": "lub", "none": "nic"},
        {"cut": "cięte", "unfinished": "surowe", "finished": "gotowe"},
    )
    texts = [
        message("a.b", n=n, names=("A", "B"), s=Finished(HALF, HALF)).text(Measure("mm", comma=True), polish)
        for n in (1, 3, 12)
    ]
    assert [text.partition(":")[0] for text in texts] == ["1 blok", "3 bloki", "12 bloków"]
    assert texts[0].endswith(": A i B, 12,7 x 12,7 mm gotowe")


def test_a_message_is_a_value() -> None:
    first, second = (message("units.unknown-unit", unit="ell") for _ in range(2))
    assert first == second
    assert hash(first) == hash(second)
    assert first != message("units.unknown-unit", unit="rod")
    assert str(first) == first.text() == '"ell" is not a unit of length.'


def test_a_fault_of_the_program_is_not_hidden() -> None:
    with pytest.raises(KeyError):
        message("units.no-such-sentence").text()
    with pytest.raises(KeyError):
        message("units.unknown-unit").text()
    with pytest.raises(KeyError):
        said("{x:furlongs}", x=HALF)
    with pytest.raises(TypeError):
        said("{x:block|blocks}", x="three")


def test_one_code_can_not_have_two_sentences() -> None:
    with pytest.raises(ValueError, match=r"a\.b"):
        merged([{"a.b": "one"}, {"a.b": "two"}])


def test_an_error_says_where_what_and_what_to_do_in_one_line() -> None:
    fault = PiecewrightError(
        message("units.too-large", text="9 mi", most=Fraction(14)),
        message("units.known-units"),
        "steps[4].every",
    )
    assert fault.sentence() == str(fault)
    assert fault.sentence() == (
        'steps[4].every: "9 mi" is more than 14 in. Write in, ft, yd, mm, cm or m, or leave the unit out.'
    )
    assert '"9 mi" is more than 35.56 cm.' in fault.sentence(Measure("cm"))
    assert PiecewrightError(message("units.empty")).sentence() == "No length is given."


def test_an_error_survives_the_way_between_processes() -> None:
    fault = LengthError(message("units.empty"), message("units.write-length"), "seam")
    copy = pickle.loads(pickle.dumps(fault))  # noqa: S301 - our own bytes
    assert (type(copy), copy.sentence()) == (LengthError, fault.sentence())


@pytest.mark.parametrize("severity", ["error", "warning", "note"])
def test_a_finding_reads_like_an_error(severity: Literal["error", "warning", "note"]) -> None:
    finding = Finding("checks.x", severity, message("units.empty"), "border 2", Message("units.write-length"))
    assert finding.sentence().startswith("border 2: No length is given. Write it like")
    assert hash(finding) == hash(finding)
