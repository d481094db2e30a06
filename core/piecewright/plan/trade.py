"""Tables of the trade, as shipped: mattresses, batting in packages and off the roll, each by country."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Any

import msgspec

from piecewright.model.settings import Country, Settings
from piecewright.units.length import parse_length
from piecewright.units.sizes import Cut, Finished


@dataclass(frozen=True, slots=True)
class Package:
    """A batting as sold, inches; `source` tells where the size was printed."""

    name: str
    width: Fraction
    height: Fraction
    source: str = ""

    def holds(self, size: Cut) -> bool:
        """Whether a piece of that size can be cut from it, either way round."""
        near, far = sorted((size.width, size.height))
        short, long = sorted((self.width, self.height))
        return near <= short and far <= long


@dataclass(frozen=True, slots=True)
class Mattress:
    """A mattress as sold, inches; they vary by an inch or so."""

    name: str
    width: Fraction
    length: Fraction
    source: str = ""


@cache
def packages(country: Country) -> tuple[Package, ...]:
    """The batting packages sold in a country, from the smallest.

    Sources differ on full (84 x 96) and king (124 x 120); the smaller is given, so that what is bought is
    enough.
    """
    found = (
        Package(row["name"], parse_length(row["width"]), parse_length(row["height"]), row["source"])
        for row in _rows("batting-packages", country)
    )
    return tuple(sorted(found, key=lambda package: package.width * package.height))


@cache
def roll_widths(country: Country) -> tuple[Fraction, ...]:
    """How wide batting comes off the roll in a country, inches, from the narrowest."""
    return tuple(sorted(parse_length(row["width"]) for row in _rows("batting-rolls", country)))


@cache
def mattresses(country: Country) -> tuple[Mattress, ...]:
    """The mattresses of a country, from the smallest."""
    found = (
        Mattress(row["name"], parse_length(row["width"]), parse_length(row["length"]), row["source"])
        for row in _rows("mattresses", country)
    )
    return tuple(sorted(found, key=lambda one: (one.width * one.length, one.name)))


def bed_quilt(mattress: Mattress, settings: Settings) -> Finished:
    """The quilt for a bed, as it should be once washed.

    The drop hangs over both sides and the foot; the pillow tuck is added at the head: 39 x 75 with 13 in of drop is
    65 x 88 in (Fabric shop 'Common quilt and batting sizes', 2012).
    """
    return Finished(mattress.width + 2 * settings.drop, mattress.length + settings.drop + settings.tuck)


def sewn_for_washed(washed: Finished, settings: Settings) -> Finished:
    """How large a top must finish so that quilting and washing leave it at the size wanted."""
    shrinkage = settings.shrinkage
    width, height = (
        shrinkage.before(Fraction(side), shrinkage.take_up) for side in (washed.width, washed.height)
    )
    return Finished(width, height)


def _rows(table: str, country: Country) -> Iterator[dict[str, str]]:
    text = (files("piecewright_data") / "trade" / f"{table}.json").read_bytes()
    rows: list[dict[str, Any]] = msgspec.json.decode(text)
    return (row for row in rows if row["country"] == country)
