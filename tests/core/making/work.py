"""What lies on the table while a random recipe is made up, and the lengths it is made in."""

from dataclasses import dataclass, field
from fractions import Fraction

from hypothesis import strategies as st

from tests.core.making.building import Plain, shuffle, turn

SEAM = Fraction(1, 4)
LEAST = Fraction(1)
EIGHTH = Fraction(1, 8)


@dataclass
class Work:
    """What lies on the table while a recipe is made up: the piece in work and its size by plain sums."""

    draw: st.DrawFn
    stack: int
    steps: list[Plain] = field(default_factory=list)
    piece: str = ""
    width: Fraction = Fraction(0)
    height: Fraction = Fraction(0)
    count: int = 0
    slanted: bool = False
    patches: int = 0

    def name(self, word: str) -> str:
        self.count += 1
        return f"{word}{self.count}"

    def eighths(self, least: Fraction, most: Fraction) -> Fraction:
        """A length in eighths of an inch between two others."""
        return EIGHTH * self.draw(
            st.integers(int(least / EIGHTH) + 1, max(int(most / EIGHTH), int(least / EIGHTH) + 1))
        )

    def took(self, piece: str, width: Fraction, height: Fraction) -> None:
        self.piece, self.width, self.height = piece, width, height


def change_some(work: Work, part: str) -> str:
    """Turn or shuffle some of the parts, or leave them."""
    which = work.draw(st.sampled_from(["odd", "even", [1], [2]]))
    change = work.draw(st.sampled_from(["turn", "turn layers", "shuffle", "nothing"]))
    made = work.name("changed")
    if change == "turn":
        work.steps.append(turn(made, f"{part}.*", 180, which=which))
    elif change == "turn layers" and work.stack > 1:
        layers = work.draw(
            st.lists(st.integers(0, work.stack - 1), min_size=1, max_size=work.stack, unique=True)
        )
        work.steps.append(turn(made, f"{part}.*", 180, which=which, layers=layers))
    elif change == "shuffle" and work.stack > 1:
        by = work.draw(st.integers(1, work.stack - 1))
        work.steps.append(shuffle(made, f"{part}.*", by, which=which))
    else:
        return part
    return made
