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


QUARTER = (Fraction(22), Fraction(18))
"""A fat quarter, selvage to selvage and along the selvage: half of 44 in, half a yard (common practice, no source)."""
ROLL_STRIP = Fraction(5, 2)
_SQUARES: dict[FormKind, Fraction] = {"10 inch square": Fraction(10), "5 inch square": Fraction(5)}


def form_size(
    form: Form, usable: Fraction, quarter: tuple[Fraction, Fraction] = QUARTER
) -> tuple[Fraction, Fraction | None]:
    """Inches from selvage to selvage and along the selvage, what is left out as usual; None: as long as it takes.

    `usable` is the usable width of the cloth, `quarter` the usual size of a fat quarter; a fat eighth is half
    as long.
    """
    if form.kind in STRIPS:
        long, wide = form.length or usable, form.width or ROLL_STRIP
        return (wide, long) if form.lengthwise else (long, wide)
    if form.kind == "bolt":
        return form.width or usable, form.length
    width, length = quarter
    if form.kind == "fat eighth":
        length /= 2
    side = _SQUARES.get(form.kind)
    return form.width or side or width, form.length or side or length


def bought_form(forms: tuple[Form, ...]) -> Form:
    """The form that is bought as it takes: cloth off the bolt where none is."""
    return next((form for form in forms if form.bought), Form())
