"""The one formatter of lengths, sizes, areas, yardage and angles for the whole program."""

from dataclasses import dataclass
from fractions import Fraction
from math import isfinite

from piecewright.units.rounding import nearest, up_to
from piecewright.units.scale import CM, INCHES_BY_UNIT, METRE, YARD, Number, UnitName

_FLOAT_PLACES = 3
_EXACT_PLACES = 12
_FINEST_AREA = 64**2
"""Square inches in finer parts than squares of 1/64 in are shown as a decimal: no one reads 8003/64516."""


@dataclass(frozen=True, slots=True)
class Yardage:
    """Cloth to buy, inches: `exact` as worked out, and `rounded` as shops that sell by the yard cut it.

    Meters are rounded from the exact length, never from rounded yards.
    """

    exact: Fraction
    rounded: Fraction


@dataclass(frozen=True, slots=True)
class Measure:
    """How numbers are shown: the unit, to the nearest 1/`fraction` of it (None: exactly), the decimal mark.

    All values given are inches or square inches. A `Fraction` is shown exactly, in inches as a mixed number,
    in metric units as a decimal (a mixed number where no decimal ends); a `float` to three decimals at most.
    """

    unit: UnitName = "in"
    fraction: int | None = None
    comma: bool = False

    def length(self, inches: Number) -> str:
        """A length with its unit, such as "6 1/2 in"."""
        return f"{self.bare(inches)} {self.unit}"

    def bare(self, inches: Number) -> str:
        """A length without its unit, such as "6 1/2"."""
        value = _divided(inches, INCHES_BY_UNIT[self.unit])
        if self.fraction is not None and _is_finite(value):
            value = nearest(Fraction(1, self.fraction))(value)
        return self._shown(value, as_decimal=self.unit != "in")

    def size(self, width: Number, height: Number) -> str:
        """Width by height, such as "6 1/2 x 12 1/2 in"."""
        return f"{self.bare(width)} x {self.length(height)}"

    def area(self, square_inches: Number) -> str:
        """An area, such as "42 1/4 sq in"; where no one could read it, and metric, to three decimals."""
        if self.unit == "in":
            fine = isinstance(square_inches, Fraction) and square_inches.denominator > _FINEST_AREA
            return f"{self.number(float(square_inches) if fine else square_inches)} sq in"
        return f"{self._rounded(_divided(square_inches, CM**2), _FLOAT_PLACES)} sq cm"

    def yards(self, inches: Number | Yardage) -> str:
        """A length of cloth to buy, such as "1 3/8 yd"; metric as "1.3 m", up to a tenth: never less."""
        if isinstance(inches, Yardage):
            return self.yards(inches.rounded if self.unit == "in" else inches.exact)
        if not _is_finite(inches):
            return self.number(inches)
        if self.unit != "in":
            meters = up_to(Fraction(1, 10))(_divided(inches, METRE))
            return f"{self._shown(meters, as_decimal=True)} m"
        yards = _divided(inches, YARD)
        if isinstance(yards, float):
            return f"{self._shown(up_to(Fraction(1, 10**_FLOAT_PLACES))(yards), as_decimal=True)} yd"
        return f"{self.number(yards)} yd"

    def cloth(self, inches: Number) -> str:
        """A length of cloth as it was worked out, in the unit it is bought by: "1 5/72 yd", metric "0.9652 m"."""
        if self.unit == "in" or not _is_finite(inches):
            return self.yards(inches)
        return f"{self._shown(_divided(inches, METRE), as_decimal=True)} m"

    def degrees(self, degrees: Number) -> str:
        """An angle, such as "13.24°": two decimals at most."""
        return f"{self._rounded(degrees, 2)}°"

    def number(self, value: Number) -> str:
        """A plain number without unit: `Fraction` as a mixed number, `float` to three decimals at most."""
        return self._shown(value, as_decimal=False)

    def percent(self, share: Number) -> str:
        """A share, 1 being all, such as "12.5 %": one decimal at most."""
        return f"{self._rounded(share * 100, 1)} %"

    def _shown(self, value: Number, as_decimal: bool) -> str:
        if isinstance(value, float):
            return self._rounded(value, _FLOAT_PLACES)
        places = _decimal_places(value) if as_decimal else None
        return _mixed(value) if places is None else self._decimal(value, places)

    def _rounded(self, value: Number, places: int) -> str:
        if not _is_finite(value):
            return str(value)
        return self._decimal(nearest(Fraction(1, 10**places))(value), places)

    def _decimal(self, value: Fraction, places: int) -> str:
        """Exactly, for a value that is a whole number of 10 ** -places; trailing zeros left off."""
        whole, part = divmod(abs(int(value * 10**places)), 10**places)
        decimals = f"{part:0{places}d}".rstrip("0") if places else ""
        sign = "-" if value < 0 else ""
        return f"{sign}{whole}{',' if self.comma else '.'}{decimals}" if decimals else f"{sign}{whole}"


def _is_finite(value: Number) -> bool:
    return not isinstance(value, float) or isfinite(value)


def _divided(value: Number, divisor: Fraction) -> Number:
    return value / float(divisor) if isinstance(value, float) else Fraction(value) / divisor


def _mixed(value: Fraction) -> str:
    """A number as a quilter writes it: "6 1/2", "3/8", "4"."""
    whole, part = divmod(abs(Fraction(value)), 1)
    words = [str(whole)] if whole or not part else []
    if part:
        words.append(str(part))
    return ("-" if value < 0 else "") + " ".join(words)


def _decimal_places(value: Fraction) -> int | None:
    """How many decimals show a number exactly; None where none do, or more than anyone would read."""
    return next((n for n in range(_EXACT_PLACES + 1) if 10**n % Fraction(value).denominator == 0), None)
