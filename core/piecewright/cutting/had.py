"""What a fabric is cut from: the form that is bought, and the cloth on hand, told as sheets."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.sheets import OnHand, Sheet
from piecewright.model.fabric import Fabric
from piecewright.model.forms import Form, bought_form, form_size
from piecewright.model.settings import Settings

Quarter = tuple[Fraction, Fraction]
"""The usual size of a fat quarter."""


@dataclass(frozen=True, slots=True)
class Had:
    """The cloth that costs, and what is on hand.

    `longest` is the cloth on hand if strips of unlike length are all as long as the longest: the same as
    `on_hand` where no length is open.
    """

    sheet: Sheet
    on_hand: tuple[OnHand, ...]
    longest: tuple[OnHand, ...]


def had_of(fabric: Fabric | None, settings: Settings) -> Had:
    """The cloth of a fabric; one that is not chosen yet comes off the bolt."""
    if fabric is None:
        return Had(Sheet("bolt", settings.usable), (), ())
    usable = fabric.width or settings.usable
    held = [form for form in fabric.forms if form.count is not None]
    longest = [form.changed(length=form.longest or form.length) for form in held]
    quarter = settings.bundles.quarter_width, settings.bundles.quarter_length
    return Had(
        sheet=_sheet(bought_form(fabric.forms), usable, quarter),
        on_hand=tuple(_held(held, usable, quarter)),
        longest=tuple(_held(longest, usable, quarter)),
    )


def _held(forms: list[Form], usable: Fraction, quarter: Quarter) -> Iterator[OnHand]:
    for form in forms:
        if form.count is not None:
            yield OnHand(_sheet(form, usable, quarter), form.count)


def _sheet(form: Form, usable: Fraction, quarter: Quarter) -> Sheet:
    return Sheet(form.kind, *form_size(form, usable, quarter))
