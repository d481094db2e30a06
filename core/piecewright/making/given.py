"""What a making is given beside its recipe: chosen sizes, the seam in force, the cloth, the values drawn."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

QUARTER_INCH = Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class Given:
    """Inches throughout; compared and hashed by value.

    `sizes` overrides a recipe's first choices; `seam` is the allowance where the recipe has none of its
    own; `usable` is the usable width of the cloth; `draws` are the drawn values of a recipe that varies;
    `lost` is the width that each seam eats beyond its two allowances.
    """

    sizes: Mapping[str, Fraction] = field(default_factory=dict)
    seam: Fraction = QUARTER_INCH
    usable: Fraction = Fraction(40)
    draws: Mapping[str, Fraction] = field(default_factory=dict)
    lost: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        object.__setattr__(self, "sizes", MappingProxyType(dict(self.sizes)))
        object.__setattr__(self, "draws", MappingProxyType(dict(self.draws)))

    def __hash__(self) -> int:
        tables = frozenset(self.sizes.items()), frozenset(self.draws.items())
        return hash((*tables, self.seam, self.usable, self.lost))
