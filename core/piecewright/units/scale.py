"""The units of length, each as exact inches: the one place where a conversion factor is written.

The inch of 25.4 mm and the yard of 0.9144 m are exact by the international agreement of 1959
(US National Bureau of Standards, Circular 572, addendum 1960).
"""

from fractions import Fraction
from typing import Literal

Number = Fraction | float
UnitName = Literal["in", "cm", "mm"]

INCH = Fraction(1)
MM = Fraction(5, 127)
CM = Fraction(50, 127)
METRE = Fraction(5000, 127)
FOOT = Fraction(12)
YARD = Fraction(36)

INCHES_BY_UNIT: dict[UnitName, Fraction] = {"in": INCH, "cm": CM, "mm": MM}
