"""What a quilt is to be resized to: a size typed, a bed of the quilter's country, or what the blocks at hand give."""

from PySide6.QtCore import QCoreApplication, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright.model.design import Design
from piecewright.plan.resize_wish import BedWish, BlocksWish, SizeWish, Wish, blocks_at_hand, target_of
from piecewright.plan.trade import mattresses
from piecewright.units.measure import Measure
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.materials.target import parse_target
from piecewright_qt.messages import words
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_LEAST_FIELD = 80
_SIZE = SizeWish.__name__


class WishField(QWidget):
    """`asked` hands a wish over once it is meant; `complained` a sentence where what is typed is no size."""

    asked = Signal(object)
    complained = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._measure = Measure()
        self._design: Design | None = None
        self.kind = ChoiceField(say("Bring the quilt to"), say("What the quilt is to be resized to"))
        self.kind.edited.connect(self._chosen)
        self.target = QLineEdit()
        self.target.setAccessibleName(say("Size to come near to"))
        self.target.setToolTip(say("Width by height, finished: 60 x 72, 60 1/2 x 72, 152 x 183 cm (Enter)"))
        self.target.setMinimumWidth(_LEAST_FIELD)
        self.target.returnPressed.connect(self.ask)
        self.go = QPushButton(say("Show ways"))
        self.go.setToolTip(say("Work out the ways to this size (Enter)"))
        self.go.clicked.connect(self.ask)
        self.note = QLabel()
        self.note.setProperty("type", "small")
        self.note.setWordWrap(True)
        self._lay_out()

    def show_design(self, design: Design, measure: Measure) -> None:
        """Offer the beds of the settings, and what there is of blocks."""
        self._design, self._measure = design, measure
        chosen = self.kind.value if self.kind.value is not None else _SIZE
        beds = [
            (f"bed:{one.name}", self._bed_said(one.name, measure.size(one.width, one.length)))
            for one in mattresses(design.settings.country)
        ]
        at_hand = blocks_at_hand(design).total()
        blocks = [("blocks", say("As large as my blocks allow"))] if at_hand else []
        choices: list[tuple[object, str]] = [(_SIZE, say("A size")), *blocks, *beds]
        known = chosen in {value for value, _ in choices}
        self.kind.show_choices(choices, chosen if known else _SIZE)
        self.target.setPlaceholderText(say("60 x 72") if measure.unit == "in" else say("152 x 183 cm"))
        self._show_note()

    @property
    def wish(self) -> Wish | None:
        """What is wished for now; None where no size is typed yet. Raises LengthError for what is no size."""
        chosen = str(self.kind.value)
        if chosen == "blocks":
            return BlocksWish()
        if chosen.startswith("bed:"):
            return BedWish(chosen.removeprefix("bed:"))
        return SizeWish(*parse_target(self.target.text(), self._measure))

    def ask(self) -> None:
        """Hand the wish over, or say what is wrong with it."""
        try:
            wish = self.wish
            if isinstance(wish, SizeWish | BedWish) and self._design is not None:
                target_of(wish, self._design.settings)
        except PiecewrightError as error:
            self.complained.emit(words(error, self._measure))
            self.target.selectAll()
            return
        self.asked.emit(wish)

    def focus(self) -> None:
        """Take the keys: where a size is typed, or to what is chosen."""
        (self.target if self.kind.value == _SIZE else self.kind.box).setFocus()

    def _chosen(self) -> None:
        self._show_note()
        if self.kind.value == _SIZE:
            self.target.setFocus()
        else:
            self.ask()

    def _show_note(self) -> None:
        typed = self.kind.value == _SIZE
        self._row.setVisible(typed)
        text = "" if typed or self._design is None else self._note(self._design)
        self.note.setText(text)
        self.note.setVisible(bool(text))

    def _note(self, design: Design) -> str:
        """What the wish comes to: the size for a bed and what it is made of, or how many blocks there are."""
        measure, settings = self._measure, design.settings
        if self.kind.value == "blocks":
            count = blocks_at_hand(design).total()
            made = any(block.made for block in design.blocks)
            text = (
                say("{n} blocks made so far") if made else say("{n} blocks on the wall; none counted as made")
            )
            return text.format(n=count)
        size = target_of(BedWish(str(self.kind.value).removeprefix("bed:")), settings)
        text = say("{size} finished: drop {drop}, pillow tuck {tuck}, {percent} % taken up")
        return text.format(
            size=measure.size(size.width, size.height),
            drop=measure.length(settings.drop),
            tuck=measure.length(settings.tuck),
            percent=measure.number(settings.shrinkage.take_up),
        )

    def _bed_said(self, name: str, size: str) -> str:
        return say("Bed: {name}, mattress {size}").format(name=name, size=size)

    def _lay_out(self) -> None:
        self._row = QWidget()
        row = QHBoxLayout(self._row)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE)
        row.addWidget(self.target, 1)
        row.addWidget(self.go)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE_TIGHT)
        column.addWidget(self.kind)
        column.addWidget(self._row)
        column.addWidget(self.note)


def say(text: str) -> str:
    """A text of the resizer in the user's language."""
    return QCoreApplication.translate("resize", text)
