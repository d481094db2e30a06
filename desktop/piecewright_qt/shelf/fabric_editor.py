"""One fabric, made or changed in the shelf's own place; the wall shows it as it will be."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QGuiApplication, QKeyEvent
from PySide6.QtWidgets import (
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.ids import new_ids
from piecewright.edit.registry import EditCall, call
from piecewright.errors import DesignError, FileError
from piecewright.model.fabric import Fabric
from piecewright.model.naming import free_name
from piecewright.render.cloth import stand_in
from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.shelf.fabric_form import FabricForm
from piecewright_qt.shelf.fabric_words import fabric_line
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.photos import (
    PICTURE_ENDINGS,
    Photo,
    carries_photo,
    photo_from_file,
    photo_from_mime,
)
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE

_NEW = "f0"
"""The id of a fabric that the design has not yet."""
_FIELDS = ("name", "color", "print", "picture", "price", "width", "note", "forms")


class FabricEditor(QWidget):
    """`done(id)` follows a saved fabric, with its id, and a given-up one, with ""."""

    done = Signal(str)

    def __init__(self, document: Document, look: Look, pictures: Pictures) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self._before: Fabric | None = None
        self._photo: Photo | None = None
        self._open = False
        self.form = FabricForm(look, pictures)
        self.cancel = QPushButton(self.tr("Cancel"))
        self.cancel.setToolTip(self.tr("Leave everything as it was (Esc)"))
        self.save = QPushButton(self.tr("Add the fabric"))
        self.save.setProperty("weight", "main")
        self.save.setToolTip(self.tr("Save the fabric (Enter)"))
        self.setAcceptDrops(True)
        self._lay_out()
        self._connect()

    def open(self, fabric: Fabric | None, photo: Photo | None = None) -> None:
        """Begin with a fabric of the design, or a new one, or a new one that shows a photo."""
        self._open = True
        self._before = fabric
        self._photo = None
        self._title.setText(self.tr("Change the fabric") if fabric is not None else self.tr("New fabric"))
        self.save.setText(self.tr("Save") if fabric is not None else self.tr("Add the fabric"))
        self.form.fill(fabric if fabric is not None else self._first())
        self._follow()
        if photo is not None:
            self.take_photo(photo)
        self._scroll.verticalScrollBar().setValue(0)
        self.form.name.line.setFocus()
        self.form.name.line.selectAll()

    def take_photo(self, photo: Photo) -> None:
        """Show a photo in place of a print; its average color becomes the fabric's."""
        self._photo = photo
        self.form.show_photo(photo.name, photo.color)

    def remove_photo(self) -> None:
        """Back to a color and a print that the program draws."""
        self._photo = None
        self.form.show_photo(None)

    def finish(self) -> None:
        """Save as one step; where something is wrong, stay and say so."""
        fabric = self._fabric()
        if fabric is None:
            return
        before = self._document.design
        if self._photo is not None and fabric.picture == self._photo.name:
            self._document.add_picture(self._photo.name, self._photo.data)
        done = self._document.perform(self._edit(fabric))
        if self._before is not None:
            self._close(fabric.id)
        elif done:
            self._close(new_ids(before, self._document.design)[-1])

    def give_up(self) -> None:
        """Leave everything as it was."""
        self._close("")

    def paste(self) -> None:
        """Take the photo on the clipboard."""
        self._take(lambda: photo_from_mime(QGuiApplication.clipboard().mimeData()))

    # Qt's own calls ---------------------------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A photo may be dropped anywhere here."""
        if carries_photo(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Take the photo."""
        event.acceptProposedAction()
        mime = event.mimeData()
        self._take(lambda: photo_from_mime(mime))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape gives up, Enter saves."""
        if event.key() == Qt.Key.Key_Escape:
            self.give_up()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.finish()
        else:
            super().keyPressEvent(event)

    # Making -----------------------------------------------------------------------------------------------------

    def _first(self) -> Fabric:
        """A new fabric with a color that the design has not had yet."""
        fabrics = self._document.design.fabrics
        used = {fabric.color for fabric in fabrics}
        colors = (stand_in("A", layer).color for layer in range(len(fabrics), len(fabrics) + 12))
        color = next((color for color in colors if color not in used), stand_in("A").color)
        return Fabric(_NEW, free_name(self.tr("New fabric"), {fabric.name for fabric in fabrics}), color)

    def _fabric(self) -> Fabric | None:
        """The fabric as the fields say; None while they say what can not be."""
        if self.form.faulty:
            return None
        try:
            fabric = self.form.read(self._before.id if self._before is not None else _NEW)
        except DesignError as error:
            self._say(words(error, self._look.measure))
            return None
        self._say("")
        return fabric

    def _edit(self, fabric: Fabric) -> EditCall:
        if self._before is not None:
            return call("change-fabric", fabric=fabric)
        return call("add-fabric", **{name: getattr(fabric, name) for name in _FIELDS})

    def _photo_data(self, picture: str | None) -> bytes | None:
        if self._photo is not None and self._photo.name == picture:
            return self._photo.data
        return None if picture is None else self._document.pictures.get(picture)

    # Following --------------------------------------------------------------------------------------------------

    def _follow(self) -> None:
        """Show what the fields say: here, and where the fabric is used already, on the wall."""
        fabric = self._fabric()
        self.save.setEnabled(fabric is not None)
        if fabric is None:
            return
        line = fabric_line(fabric, self._look.measure)
        self.form.swatch.show_cloth(fabric, self._photo_data(fabric.picture), f"{fabric.name}, {line}")
        if self._before is not None:
            self._document.preview(self._edit(fabric))

    def _document_changed(self, _before: object, _after: object) -> None:
        """The fabric may be gone, or another, by undo."""
        if not self._open or self._before is None:
            return
        found = self._document.design.shelf.fabrics.get(self._before.id)
        if found is None:
            self.give_up()
        elif found != self._before:
            self.open(found)

    def _choose_photo(self) -> None:
        kinds = self.tr("Pictures ({endings})").format(endings=" ".join(PICTURE_ENDINGS))
        title = self.tr("A photo of the cloth")
        chosen, _ = QFileDialog.getOpenFileName(self, title, str(Path.home()), kinds)
        if chosen:
            self._take(lambda: photo_from_file(Path(chosen)))

    def _take(self, read: Callable[[], Photo | None]) -> None:
        try:
            photo = read()
        except FileError as error:
            self._say(words(error, self._look.measure))
            return
        if photo is not None:
            self.take_photo(photo)
        else:
            missing = message("shelf.no-photo-there"), message("shelf.copy-photo-first")
            self._say(" ".join(part.text(self._look.measure) for part in missing))

    def _say(self, text: str) -> None:
        self._said.setText(text)
        self._said.setVisible(bool(text))

    def _close(self, saved: str) -> None:
        self._open = False
        self._document.drop_preview()
        self.done.emit(saved)

    # Arranging --------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        self._title = QLabel()
        self._title.setProperty("type", "lead")
        self._title.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        self._said = note_label("error")
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setFrameShape(QFrame.Shape.NoFrame)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setWidget(self.form)
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
        whole.addWidget(self._title)
        whole.addWidget(self._scroll, 1)
        whole.addWidget(self._said)
        whole.addWidget(foot)

    def _connect(self) -> None:
        self.form.edited.connect(self._follow)
        self.form.with_photo.clicked.connect(self._choose_photo)
        self.form.paste_photo.clicked.connect(self.paste)
        self.form.without_photo.clicked.connect(self.remove_photo)
        self.cancel.clicked.connect(self.give_up)
        self.save.clicked.connect(self.finish)
        self._document.changed.connect(self._document_changed)
