"""Gaps between the blocks: the fabric of coping strips, and what of the shelf would fit; shown, then kept or not."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from piecewright.edit.gaps import Offer, gap_offers
from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright_qt.drawer import ChoiceField, Drawer, FabricField
from piecewright_qt.setting.ways import say
from piecewright_qt.theme.tokens import SPACE

_STRIPS, _ALL = "strips", "all"


class GapsPart(QWidget):
    """`wished` hands over the edit that would fill them, or None to show them as they are."""

    wished = Signal(object)
    kept = Signal()

    def __init__(self, drawer: Drawer) -> None:
        super().__init__()
        self._drawer = drawer
        self._offers: tuple[Offer, ...] = ()
        self.coping = FabricField(
            say("Coping strips"),
            drawer.document,
            name=say("Coping strips: fabric"),
            none=say("None: gaps stay open"),
        )
        self.coping.edited.connect(self._set_coping)
        self.found = QLabel()
        self.found.setWordWrap(True)
        self.filling = ChoiceField(say("Fill the gaps with"))
        self.filling.edited.connect(self._wish)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE)
        for widget in (self.coping, self.found, self.filling):
            column.addWidget(widget)
        column.addLayout(self._buttons())

    def show_design(self, design: Design) -> None:
        """What the arrangement in view leaves free."""
        self.coping.show_fabric(design.quilt.coping)
        self._offers = gap_offers(design) if design.quilt.rows else ()
        self.found.setText(_found(len(self._offers), design))
        self.filling.show_choices(self._choices(design), None)
        self.filling.setVisible(bool(self._choices(design)))
        self._offer(wished=False)

    def _choices(self, design: Design) -> list[tuple[object, str]]:
        """What fits into some gap."""
        fits = dict.fromkeys(fit.block for offer in self._offers for fit in offer.fits)
        names = design.shelf.blocks
        choices: list[tuple[object, str]] = []
        if len(fits) > 1:
            choices.append((_ALL, say("Whatever of the shelf fits best")))
        choices += [(block, names[block].name) for block in fits]
        if self._offers and design.quilt.coping is None and design.fabrics:
            choices.append((_STRIPS, say("Coping strips of {fabric}").format(fabric=design.fabrics[0].name)))
        return choices

    def _wish(self) -> None:
        chosen, design = self.filling.value, self._drawer.document.design
        if not isinstance(chosen, str):
            return
        self._offer(wished=True)
        self.wished.emit(self._call(chosen, design))

    def _call(self, chosen: str, design: Design) -> EditCall:
        if chosen == _STRIPS:
            return call("fill-gaps", fabric=design.fabrics[0].id)
        blocks = tuple(dict.fromkeys(fit.block for offer in self._offers for fit in offer.fits))
        return call("fill-gaps", blocks=blocks if chosen == _ALL else (chosen,))

    def forget(self) -> None:
        """Nothing is tried any more."""
        self.filling.show_choices(self._choices(self._drawer.document.design), None)
        self._offer(wished=False)

    def _put_back(self) -> None:
        self.forget()
        self.wished.emit(None)

    def _set_coping(self) -> None:
        fabric = self.coping.value
        wanted = fabric if isinstance(fabric, str) else None
        self._drawer.try_edit(self.coping, lambda: call("set-coping", fabric=wanted))

    def _offer(self, *, wished: bool) -> None:
        self.keep.setVisible(wished)
        self.back.setVisible(wished)

    def _buttons(self) -> QBoxLayout:
        row = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self.back = QPushButton(say("As it was"))
        self.back.setToolTip(say("Leave the gaps as they were (Escape)"))
        self.back.clicked.connect(self._put_back)
        self.keep = QPushButton(say("Keep"))
        self.keep.setProperty("weight", "main")
        self.keep.setToolTip(say("Fill the gaps so, as one step that can be undone"))
        self.keep.clicked.connect(self.kept)
        row.addStretch(1)
        row.addWidget(self.back)
        row.addWidget(self.keep)
        return row


def _found(count: int, design: Design) -> str:
    """How many gaps there are, and what becomes of them."""
    if not design.quilt.rows:
        return say("No blocks hang yet.")
    if not count:
        return say("No gaps: blocks cover everything.")
    if design.quilt.coping is not None:
        one, many = say("1 gap, filled by a coping strip"), say("{n} gaps, filled by coping strips")
    else:
        one, many = say("1 gap stays open"), say("{n} gaps stay open")
    return one if count == 1 else many.format(n=count)
