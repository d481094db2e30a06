"""Topic 7: mattresses and quilts for beds as printed, against the tables that ship; sources in check_values.json."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from piecewright.model.settings import Country, Settings
from piecewright.plan.trade import Mattress, bed_quilt, mattresses
from piecewright.units.length import parse_length
from tests.outside.published import Row, Topic

TOPIC = Topic("7")
MARKETS: dict[str, Country] = {"US/Canada": "us", "UK": "uk", "Europe": "europe"}
VARIES = Fraction(1)
"""US mattresses "usually vary 1 in" ('US mattress sizes table')."""
RANGE = "a size of finished quilts that a writer likes: no number of the plan is computed from it"
CHARITY = "what a charity accepts: a limit for its givers, nothing to compute"
CRIB = "a standard for mattresses themselves: the table of quilts only needs their size"
ALLOWANCE = "an allowance by feel for pillows, which the tuck of the settings takes as entered"
NOT_APPLICABLE = {
    "G003": "sold as long twin by one source only, 3 in narrower than twin xl, which ships",
    "G074": ALLOWANCE,
    "G075": ALLOWANCE,
    **dict.fromkeys(("G077", "G079", "G080", "G081", "G082", "G083", "G086", "G088"), RANGE),
    **dict.fromkeys(("G089", "G090", "G091", "G092", "G093"), CHARITY),
    **dict.fromkeys(("G101", "G102"), CRIB),
}


def exact(value: Any) -> Fraction:
    return Fraction(str(value))


def sides(row: Row) -> Iterator[Fraction]:
    return (parse_length(f"{side} {row.unit}") for side in row.expected)


@TOPIC.asserts(*TOPIC.ids(lambda row: "market" in row.inputs and row.id != "G003"))
def test_the_mattresses_that_ship_are_those_in_print(row: Row) -> None:
    known = {one.name: one for one in mattresses(MARKETS[row.inputs["market"]])}
    one = known[row.inputs["mattress"]]
    for side, printed in zip((one.width, one.length), sides(row), strict=True):
        assert abs(side - printed) <= VARIES
    assert one.source


@TOPIC.asserts(*TOPIC.ids(lambda row: "quilt_size_from_mattress" in row.inputs and row.id != "G057"))
def test_a_quilt_hangs_over_three_sides_of_the_mattress(row: Row) -> None:
    width, length = map(exact, row.inputs["mattress"])
    found = bed_quilt(Mattress("bed", width, length), Settings(drop=exact(row.inputs["drop"])))
    assert [found.width, found.height] == row.expected


@TOPIC.asserts("G057")
def test_one_printed_width_is_two_inches_over_its_own_rule(row: Row) -> None:
    width, length = map(exact, row.inputs["mattress"])
    found = bed_quilt(Mattress("california king", width, length), Settings(drop=exact(row.inputs["drop"])))
    assert [found.width + 2, found.height] == row.expected


@TOPIC.asserts("G063", "G065", "G066")
def test_a_bedspread_with_its_tuck(row: Row) -> None:
    width, length = map(exact, row.inputs["mattress"])
    settings = Settings(drop=exact(row.inputs["drop"]), tuck=exact(row.inputs["tuck"]))
    found = bed_quilt(Mattress("bed", width, length), settings)
    assert [found.width, found.height] == row.expected


@TOPIC.asserts("G068", "G070", "G071")
def test_drops_in_words(row: Row) -> None:
    width, length, drop, tuck = {
        "G068": (39, 75, 12, 0),
        "G070": (39, 75, 12, 10),
        "G071": (60, 80, 13, 0),
    }[row.id]
    settings = Settings(drop=Fraction(drop), tuck=Fraction(tuck))
    found = bed_quilt(Mattress("bed", Fraction(width), Fraction(length)), settings)
    assert [found.width, found.height] == row.expected


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    TOPIC.check_covered(NOT_APPLICABLE)
