"""What a fabric is cut from: the form that is bought, and the cloth on hand, told as sheets."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.sheets import OnHand, Sheet
from piecewright.model.fabric import Fabric
from piecewright.model.forms import Form, bought_form, form_size
from piecewright.model.settings import Settings


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
    return Had(
        sheet=_sheet(bought_form(fabric.forms), usable),
        on_hand=tuple(_held(held, usable)),
        longest=tuple(_held([form.changed(length=form.longest or form.length) for form in held], usable)),
    )


def _held(forms: list[Form], usable: Fraction) -> Iterator[OnHand]:
    for form in forms:
        if form.count is not None:
            yield OnHand(_sheet(form, usable), form.count)


def _sheet(form: Form, usable: Fraction) -> Sheet:
    return Sheet(form.kind, *form_size(form, usable))
