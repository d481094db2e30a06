"""In which form a fabric is had: off the bolt, in quarters, squares and strips, bought or on hand."""

from fractions import Fraction
from typing import Literal

from piecewright.model.limits import check_count, check_positive, refuse
from piecewright.model.value import Value

FormKind = Literal[
    "bolt", "fat quarter", "fat eighth", "10 inch square", "5 inch square", "roll strip", "strip"
]
MOST_FORMS = 100
MOST_SHEETS = 10_000
STRIPS: frozenset[FormKind] = frozenset(("roll strip", "strip"))


class Form(Value, frozen=True, omit_defaults=True):
    """One form of cloth; inches. What is left out is as is usual for its kind.

    `count`: so many are on hand and are used first; None: as many are bought as it takes. `width` runs from
    selvage to selvage and `length` along the selvage; of a strip `width` is how wide and `length` how long it
    is, from selvage to selvage unless it was cut `lengthwise`. `longest`: strips of unlike length, from
    `length` up to it. Cloth off the bolt with a `length` is a piece of cloth on hand.
    """

    kind: FormKind = "bolt"
    count: int | None = None
    width: Fraction | None = None
    length: Fraction | None = None
    longest: Fraction | None = None
    lengthwise: bool = False

    def __post_init__(self) -> None:
        if self.count is not None:
            check_count(self.count, "pieces of cloth on hand", 1, MOST_SHEETS)
        for side, what in ((self.width, "width of the cloth"), (self.length, "length of the cloth")):
            if side is not None:
                check_positive(side, what)
        self._check_counted()
        if self.longest is not None and (
            self.kind not in STRIPS or self.length is None or self.longest < self.length
        ):
            refuse("form-longest", longest=self.longest)

    def _check_counted(self) -> None:
        """Cloth on hand is counted and has its sizes; cloth off the bolt is bought by its length."""
        if self.kind == "strip" and (self.count is None or self.width is None or self.length is None):
            refuse("form-strip")
        if self.kind == "bolt" and (self.count is None) != (self.length is None):
            refuse("form-bolt")

    @property
    def bought(self) -> bool:
        """Whether there is as much as it takes."""
        return self.count is None


def check_forms(forms: tuple[Form, ...]) -> None:
    """Refuse too many forms, and two that are both bought: a plan would not know which to take."""
    check_count(len(forms), "forms of a fabric", 0, MOST_FORMS)
    if sum(form.bought for form in forms) > 1:
        refuse("forms-bought")
