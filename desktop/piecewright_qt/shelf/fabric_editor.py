"""One fabric, made or changed in the shelf's own place; the wall shows it as it will be."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSpinBox,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.ids import new_ids
from piecewright.edit.registry import EditCall, call
from piecewright.errors import DesignError, FileError
from piecewright.model.fabric import MOST_INKS, Fabric, Print, PrintKind
from piecewright.render.cloth import stand_in
from piecewright.render.tint import mix
from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.shelf.fabric_words import PRINTS, fabric_line, print_name
from piecewright_qt.shelf.fields import (
    CheckField,
    ColorField,
    Field,
    LengthField,
    PriceField,
    TextField,
    shrink,
)
from piecewright_qt.shelf.naming import free_name
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.photos import (
    PICTURE_ENDINGS,
    Photo,
    carries_photo,
    photo_from_file,
    photo_from_mime,
)
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.swatch import Swatch
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_SCALES = tuple(Fraction(n, 4) for n in (1, 2, 3, 4, 6, 8, 12))
_ICON = QSize(32, 24)


class FabricEditor(QWidget):
    """`done(id)` follows a saved fabric, with its id, and a given-up one, with ""."""

    done = Signal(str)

    def __init__(self, document: Document, look: Look, pictures: Pictures) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self._pictures = pictures
        self._before: Fabric | None = None
        self._photo: Photo | None = None
        self._picture: str | None = None
        self._open = False
        self.setAcceptDrops(True)
        self._build()
        self._lay_out()
        self._connect()

    def open(self, fabric: Fabric | None, photo: Photo | None = None) -> None:
        """Begin with a fabric of the design, or a new one, or a new one that shows a photo."""
        self._open = True
        self._before = fabric
        self._photo = None
        self._picture = fabric.picture if fabric is not None else None
        self._title.setText(self.tr("Change the fabric") if fabric is not None else self.tr("New fabric"))
        self.save.setText(self.tr("Save") if fabric is not None else self.tr("Add the fabric"))
        self._fill(fabric if fabric is not None else self._first())
        if photo is not None:
            self.take_photo(photo)
        self._follow()
        self._scroll.verticalScrollBar().setValue(0)
        self.name.line.setFocus()
        self.name.line.selectAll()

    def take_photo(self, photo: Photo) -> None:
        """Show a photo in place of a print; its average color becomes the fabric's."""
        self._photo = photo
        self._picture = photo.name
        self.ground.show_color(photo.color)
        self._follow()

    def remove_photo(self) -> None:
        """Back to a color and a print that the program draws."""
        self._photo = None
        self._picture = None
        self._follow()

    def finish(self) -> None:
        """Save as one step; where something is wrong, stay and say so."""
        fabric = self._fabric()
        if fabric is None:
            return
        before = self._document.design
        if self._photo is not None and fabric.picture == self._photo.name:
            self._document.add_picture(self._photo.name, self._photo.data)
        edit = self._edit(fabric)
        if self._document.perform(edit) or self._before is not None:
            self._close(fabric.id if self._before is not None else new_ids(before, self._document.design)[-1])

    def give_up(self) -> None:
        """Leave everything as it was."""
        self._close("")

    # Making -----------------------------------------------------------------------------------------------------

    def _first(self) -> Fabric:
        """A new fabric with a color that the design has not had yet."""
        fabrics = self._document.design.fabrics
        used = {fabric.color for fabric in fabrics}
        colors = (stand_in("A", layer).color for layer in range(len(fabrics), len(fabrics) + 12))
        color = next((color for color in colors if color not in used), stand_in("A").color)
        name = free_name(self.tr("New fabric"), {fabric.name for fabric in fabrics})
        return Fabric("f0", name, color)

    def _fill(self, fabric: Fabric) -> None:
        printed = fabric.print
        self.name.show_value(fabric.name)
        self.ground.show_color(fabric.color)
        self._choose_kind(printed.kind if printed is not None else None)
        self._show_inks(printed.inks if printed is not None else ())
        self.scale.show_value(printed.scale if printed is not None else Fraction(1))
        self.turn.setValue(printed.turn if printed is not None else 0)
        self.one_way.box.setChecked(printed.one_way if printed is not None else False)
        self.price.show_price(fabric.price)
        self.width_of_cloth.show_value(fabric.width)
        self.note.show_value(fabric.note)

    def _fabric(self) -> Fabric | None:
        """The fabric as the fields say; None while they say what can not be."""
        if any(field.fault for field in self._fields()):
            return None
        try:
            fabric = Fabric(
                id=self._before.id if self._before is not None else "f0",
                name=self.name.line.text().strip(),
                color=self.ground.color,
                print=self._print(),
                picture=self._picture,
                price=self.price.value,
                width=self.width_of_cloth.value,
                note=self.note.line.text().strip(),
            )
        except DesignError as error:
            self._say(words(error, self._look.measure))
            return None
        self._say("")
        return fabric

    def _print(self) -> Print | None:
        kind = self._kind()
        if kind is None or self._picture is not None:
            return None
        inks = tuple(field.color for field in self.inks)
        scale = self.scale.value or Fraction(1)
        return Print(kind, inks, scale, self.turn.value(), self.one_way.box.isChecked())

    def _kind(self) -> PrintKind | None:
        found: PrintKind | None = self.kind.currentData()
        return found

    def _edit(self, fabric: Fabric) -> EditCall:
        if self._before is not None:
            return call("change-fabric", fabric=fabric)
        names = ("name", "color", "print", "picture", "price", "width", "note")
        return call("add-fabric", **{name: getattr(fabric, name) for name in names})

    def _fields(self) -> tuple[Field, ...]:
        """The fields in use: what is out of sight can not be wrong."""
        always = (self.name, self.ground, self.price, self.width_of_cloth, self.note)
        drawn = self._picture is None and self._kind() is not None
        return (*always, self.scale, *self.inks) if drawn else always

    def _photo_data(self) -> bytes | None:
        if self._picture is None:
            return None
        if self._photo is not None and self._photo.name == self._picture:
            return self._photo.data
        return self._document.pictures.get(self._picture)

    # Following ----------------------------------------------------------------------------------------------------

    def _follow(self) -> None:
        """Show what the fields say: here, and where the fabric is used already, on the wall."""
        drawn = self._kind() is not None and self._picture is None
        for part in (self.scale, self._turn_field, self.one_way, self._more, self._fewer, *self.inks):
            part.setVisible(drawn)
        self.ground.rename(self.tr("Ground") if drawn else self.tr("Color"))
        self._kind_field.setVisible(self._picture is None)
        self._photo_note.setVisible(self._picture is not None)
        self._without_photo.setVisible(self._picture is not None)
        self._more.setEnabled(len(self.inks) < MOST_INKS)
        self._fewer.setEnabled(len(self.inks) > 1)
        fabric = self._fabric()
        self.save.setEnabled(fabric is not None)
        if fabric is None:
            return
        line = fabric_line(fabric, self._look.measure)
        self.swatch.show_cloth(fabric, self._photo_data(), f"{fabric.name}, {line}")
        if self._before is not None:
            self._document.preview(self._edit(fabric))

    def _kind_chosen(self) -> None:
        """A print needs inks: a lighter and a darker tint of the ground to begin with."""
        if self._kind() is not None and not self.inks:
            ground = self.ground.color
            self._show_inks((mix(ground, "#ffffff", 0.45), mix(ground, "#000000", 0.35)))
        self._follow()

    def _choose_kind(self, kind: PrintKind | None) -> None:
        self.kind.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.kind.setCurrentIndex(self.kind.findData(kind))
        self.kind.blockSignals(False)  # noqa: FBT003 - Qt's own signature

    def _show_inks(self, inks: tuple[str, ...]) -> None:
        while len(self.inks) > len(inks):
            self._drop_ink()
        while len(self.inks) < len(inks):
            self._bring_ink()
        for field, ink in zip(self.inks, inks, strict=True):
            field.show_color(ink)

    def _bring_ink(self) -> None:
        color = self.inks[-1].color if self.inks else self.ground.color
        field = ColorField(self.tr("Ink {number}").format(number=len(self.inks) + 1), color)
        field.edited.connect(self._follow)
        self.inks.append(field)
        self._ink_column.addWidget(field)

    def _drop_ink(self) -> None:
        field = self.inks.pop()
        self._ink_column.removeWidget(field)
        field.hide()
        field.deleteLater()

    def _more_inks(self) -> None:
        self._bring_ink()
        self._follow()

    def _fewer_inks(self) -> None:
        self._drop_ink()
        self._follow()

    def _close(self, saved: str) -> None:
        self._open = False
        self._document.drop_preview()
        self.done.emit(saved)

    def _document_changed(self, _before: object, _after: object) -> None:
        """The fabric may be gone, or another, by undo."""
        if not self._open or self._before is None:
            return
        found = self._document.design.shelf.fabrics.get(self._before.id)
        if found is None:
            self.give_up()
        elif found != self._before:
            self.open(found)

    def _say(self, text: str) -> None:
        self._said.setText(text)
        self._said.setVisible(bool(text))

    # Photos -------------------------------------------------------------------------------------------------------

    def _choose_photo(self) -> None:
        kinds = self.tr("Pictures ({endings})").format(endings=" ".join(PICTURE_ENDINGS))
        chosen, _ = QFileDialog.getOpenFileName(
            self, self.tr("A photo of the cloth"), str(Path.home()), kinds
        )
        if chosen:
            self._take(lambda: photo_from_file(Path(chosen)))

    def paste(self) -> None:
        """Take the photo on the clipboard."""
        self._take(lambda: photo_from_mime(QGuiApplication.clipboard().mimeData()))

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A photo may be dropped anywhere here."""
        if carries_photo(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Take the photo."""
        event.acceptProposedAction()
        mime = event.mimeData()
        self._take(lambda: photo_from_mime(mime))

    def _take(self, read: Callable[[], Photo | None]) -> None:
        try:
            photo = read()
        except FileError as error:
            self._say(words(error, self._look.measure))
            return
        if photo is None:
            missing = message("shelf.no-photo-there"), message("shelf.copy-photo-first")
            self._say(" ".join(part.text(self._look.measure) for part in missing))
        else:
            self.take_photo(photo)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape gives up, Enter saves."""
        if event.key() == Qt.Key.Key_Escape:
            self.give_up()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.finish()
        else:
            super().keyPressEvent(event)

    # Arranging ------------------------------------------------------------------------------------------------------

    def _build(self) -> None:
        measure = self._look.measure
        self._title = QLabel()
        self._title.setProperty("type", "lead")
        self.cancel = QPushButton(self.tr("Cancel"))
        self.cancel.setToolTip(self.tr("Leave everything as it was (Esc)"))
        self.save = QPushButton()
        self.save.setProperty("weight", "main")
        self.save.setToolTip(self.tr("Save the fabric (Enter)"))
        self.swatch = Swatch(self._pictures)
        self.name = TextField(self.tr("Name"), self.tr("Name of the fabric"))
        self.kind = QComboBox()
        self.kind.setIconSize(_ICON)
        for kind in (None, *PRINTS):
            self.kind.addItem(print_name(kind), kind)
        shrink(self.kind)
        self._kind_field = Field(self.tr("Print"))
        self._kind_field.hold(self.kind)
        self.ground = ColorField(self.tr("Ground"), "#808080")
        self.inks: list[ColorField] = []
        self._more = QToolButton()
        self._fewer = QToolButton()
        for button, sign, tip in (
            (self._more, "add", self.tr("One more ink")),
            (self._fewer, "remove", self.tr("One ink less")),
        ):
            button.setIcon(icon(sign, self._look.theme))
            button.setAccessibleName(tip)
            button.setToolTip(tip)
        self.scale = LengthField(self.tr("One repeat of the print"), measure, _SCALES)
        self.turn = QSpinBox()
        self.turn.setRange(0, 359)
        self.turn.setSingleStep(45)
        self.turn.setWrapping(True)
        self.turn.setSuffix("°")
        self.turn.lineEdit().setTextMargins(SPACE, 0, 0, 0)
        self._turn_field = Field(self.tr("Turned from the lengthwise thread"))
        self._turn_field.hold(self.turn)
        self.one_way = CheckField(
            self.tr("One-way: it has an up and a down"),
            self.tr("Strips of a one-way print are never turned end for end"),
        )
        self.price = PriceField(self.tr("Price of a yard"), measure)
        self.width_of_cloth = LengthField(
            self.tr("Usable width, where it differs"), measure, may_be_empty=True
        )
        self.note = TextField(self.tr("Note"))
        self._with_photo = QPushButton(self.tr("Choose a photo…"))
        self._with_photo.setToolTip(
            self.tr("Choose a photo of the cloth; one can be dropped or pasted here too")
        )
        self._paste_photo = QPushButton(self.tr("Paste a photo"))
        self._paste_photo.setToolTip(self.tr("Take the photo on the clipboard"))
        self._without_photo = QPushButton(self.tr("Remove the photo"))
        self._without_photo.setToolTip(self.tr("Back to a color and a print"))
        self._photo_note = note_label()
        self._photo_note.setContentsMargins(0, 0, 0, 0)
        self._photo_note.setText(self.tr("On the wall a photo shows as its average color."))
        self._said = note_label("error")

    def _lay_out(self) -> None:
        body = QWidget()
        body.setProperty("place", "panel")
        body.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(body)
        column.setContentsMargins(SPACE, 0, SPACE, SPACE)
        column.setSpacing(SPACE)
        self._ink_column = QVBoxLayout()
        self._ink_column.setSpacing(SPACE)
        _add(column, self.swatch, self.name, self._kind_field, self.ground)
        column.addLayout(self._ink_column)
        column.addLayout(_row(self._more, self._fewer))
        _add(column, self.scale, self._turn_field, self.one_way)
        _add(
            column,
            self._with_photo,
            self._paste_photo,
            self._without_photo,
            self._photo_note,
            self.price,
            self.width_of_cloth,
            self.note,
        )
        column.addStretch(1)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setWidget(body)
        foot = QWidget()
        foot.setProperty("place", "foot")
        foot.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        buttons = QHBoxLayout(foot)
        buttons.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        buttons.addWidget(self.cancel)
        buttons.addWidget(self.save, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        self._title.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        whole.addWidget(self._title)
        whole.addWidget(self._scroll, 1)
        whole.addWidget(self._said)
        whole.addWidget(foot)

    def _connect(self) -> None:
        for field in (self.name, self.ground, self.scale, self.price, self.width_of_cloth, self.note):
            field.edited.connect(self._follow)
        self.kind.activated.connect(lambda _index: self._kind_chosen())
        self.turn.valueChanged.connect(lambda _degrees: self._follow())
        self.one_way.box.toggled.connect(lambda _on: self._follow())
        self._more.clicked.connect(self._more_inks)
        self._fewer.clicked.connect(self._fewer_inks)
        self._with_photo.clicked.connect(self._choose_photo)
        self._paste_photo.clicked.connect(self.paste)
        self._without_photo.clicked.connect(self.remove_photo)
        self.cancel.clicked.connect(self.give_up)
        self.save.clicked.connect(self.finish)
        self._document.changed.connect(self._document_changed)
        self._look.changed.connect(self._dress)

    def _dress(self) -> None:
        self._more.setIcon(icon("add", self._look.theme))
        self._fewer.setIcon(icon("remove", self._look.theme))


def _row(*widgets: QWidget) -> QHBoxLayout:
    row = QHBoxLayout()
    row.setSpacing(SPACE_TIGHT)
    for widget in widgets:
        row.addWidget(widget)
    row.addStretch(1)
    return row


def _add(column: QVBoxLayout, *widgets: QWidget) -> None:
    for widget in widgets:
        column.addWidget(widget)
