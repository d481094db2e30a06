"""A drawer pulled out where the shelf is: fields for what is set once, each saying what it changes."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QIcon, QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.registry import EditCall
from piecewright.errors import PiecewrightError
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.focusing import focus_first
from piecewright_qt.look import Look
from piecewright_qt.materials.typesetting import kept_whole
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.numbers.wrap_button import FoldButton
from piecewright_qt.shelf.fields import Field, shrink
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_CHIP = QSize(28, 20)


class Drawer(QWidget):
    """What is typed is an edit at once, one undo step a field; what can not be is said under the field.

    `done` asks for the shelf to come back.
    """

    done = Signal()

    def __init__(self, document: Document, look: Look, title: str) -> None:
        super().__init__()
        self.document = document
        self.look = look
        self._measure = look.measure
        self._gesture = object()
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(title)
        self.body = QVBoxLayout()
        self.folds: dict[str, FoldButton] = {}
        self._unfolded: dict[str, bool] = {}
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addLayout(self._head(title))
        column.addWidget(self._scroll, 1)
        document.changed.connect(self._follow)
        look.changed.connect(self._follow_look)
        self.rebuild()

    def build(self) -> None:
        """Put the fields into `body`."""
        raise NotImplementedError

    def show_values(self, design: Design) -> None:
        """Show what a design has, in every field that shows something else."""
        raise NotImplementedError

    def begin(self) -> None:
        """Pulled out: what is done from now on is of its own."""
        self._gesture = object()
        self.show_values(self.document.design)

    def focus_first(self) -> None:
        """Take the keys to the first field."""
        focus_first(self._scroll)

    def rebuild(self) -> None:
        """All fields anew."""
        page = QWidget()
        page.setProperty("place", "panel")
        self.body = QVBoxLayout(page)
        self.body.setContentsMargins(SPACE_WIDE, SPACE, SPACE_WIDE, SPACE_WIDE)
        self.body.setSpacing(SPACE)
        self.folds = {}
        self.build()
        self.body.addStretch(1)
        self._scroll.setWidget(page)
        self.show_values(self.document.design)

    def try_edit(self, field: Field | None, make: Callable[[], EditCall]) -> None:
        """Do an edit, or say under its field why it can not be done."""
        try:
            call = make()
        except PiecewrightError as error:
            self._complain(field, error)
            return
        if self.document.preview(call):
            self.document.perform(call, (self._gesture, id(field)))
        elif self.document.preview_refusal is not None:
            refusal = self.document.preview_refusal
            self.document.drop_preview()
            self._complain(field, refusal)

    def add_heading(self, text: str) -> QLabel:
        """A heading within the drawer."""
        label = QLabel(text)
        label.setProperty("type", "strong")
        label.setWordWrap(True)
        label.setContentsMargins(0, SPACE, 0, 0)
        self.body.addWidget(label)
        return label

    def add_note(self, text: str) -> QLabel:
        """What the field above changes."""
        label = QLabel(kept_whole(text))
        label.setProperty("type", "small")
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        self.body.addWidget(label)
        return label

    @contextmanager
    def fold(self, name: str, title: str, *, is_open: bool = False) -> Iterator[None]:
        """What is added meanwhile goes under a heading that folds; how it was left is kept over `rebuild`."""
        head, inside = FoldButton(title, self.look), QWidget()
        head.row.setContentsMargins(SPACE_TIGHT, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        head.setChecked(self._unfolded.setdefault(name, is_open))
        head.dress()
        outer, self.body = self.body, QVBoxLayout(inside)
        self.body.setContentsMargins(0, 0, 0, SPACE)
        self.body.setSpacing(SPACE)
        if not head.isChecked():
            inside.hide()
        head.toggled.connect(lambda on: self._unfold(name, inside, on))
        self.folds[name] = head
        yield
        self.body = outer
        self.body.addWidget(head)
        self.body.addWidget(inside)

    def _unfold(self, name: str, inside: QWidget, on: bool) -> None:
        self._unfolded[name] = on
        inside.setVisible(on)
        self.folds[name].dress()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape pushes it back in."""
        if event.key() == Qt.Key.Key_Escape:
            self.done.emit()
        else:
            super().keyPressEvent(event)

    def _head(self, title: str) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setContentsMargins(SPACE_WIDE, SPACE, SPACE, SPACE)
        label = QLabel(title)
        label.setProperty("type", "lead")
        label.setWordWrap(True)
        close = QPushButton(self.tr("Done"))
        close.setToolTip(self.tr("Back to the shelf (Esc)"))
        close.clicked.connect(self.done)
        row.addWidget(label, 1)
        row.addWidget(close)
        return row

    def _complain(self, field: Field | None, error: PiecewrightError) -> None:
        if field is not None:
            field.complain(words(error, self.look.measure))

    def _follow(self, _before: Design, after: Design) -> None:
        if self.isVisible():
            self.show_values(after)

    def _follow_look(self) -> None:
        if self.look.measure != self._measure:
            self._measure = self.look.measure
            self.rebuild()
        for head in self.folds.values():
            head.dress()


class ChoiceField(Field):
    """One of several, by name; `edited` follows a choice of the user's."""

    def __init__(self, label: str, name: str = "") -> None:
        super().__init__(label, name)
        self.box = QComboBox()
        shrink(self.box)
        self.hold(self.box)
        self.box.activated.connect(lambda _index: self.edited.emit())

    @property
    def value(self) -> object:
        """What is chosen."""
        return self.box.currentData()

    def show_choices(self, choices: list[tuple[object, str]], chosen: object) -> None:
        """Offer these, this one chosen, silently."""
        if [(self.box.itemData(n), self.box.itemText(n)) for n in range(self.box.count())] != choices:
            self.box.clear()
            for value, text in choices:
                self.box.addItem(text, value)
        values = [value for value, _ in choices]
        self.box.setCurrentIndex(values.index(chosen) if chosen in values else -1)


class FabricField(ChoiceField):
    """One of the design's fabrics, each with its cloth; where it may be, none yet, or what `none` says."""

    def __init__(
        self, label: str, document: Document, may_be_none: bool = False, name: str = "", none: str = ""
    ) -> None:
        super().__init__(label, name)
        self._document = document
        self._pictures = Pictures(self)
        self._none = [(None, none or self.tr("Not chosen yet"))] if may_be_none or none else []
        self.box.setIconSize(_CHIP)

    def show_fabric(self, fabric: str | None) -> None:
        """Show what is chosen, silently, and offer what the design has now."""
        fabrics = self._document.design.fabrics
        self.show_choices([*self._none, *((one.id, one.name) for one in fabrics)], fabric)
        for number, one in enumerate(fabrics, len(self._none)):
            photo = self._document.pictures.get(one.picture) if one.picture else None
            swatch = self._pictures.swatch(one, photo, _CHIP, self.devicePixelRatioF(), pinked=False)
            self.box.setItemIcon(number, QIcon(swatch))
