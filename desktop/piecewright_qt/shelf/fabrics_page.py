"""The page of fabrics: swatches at one scale, to drag onto patches or to use on what is selected."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QMimeData, QModelIndex, QPoint, QSize, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDrag,
    QDragEnterEvent,
    QDragMoveEvent,
    QDropEvent,
    QGuiApplication,
    QIcon,
    QPixmap,
    QShowEvent,
)
from PySide6.QtWidgets import QMenu

from piecewright.edit.ids import new_ids
from piecewright.edit.registry import EditCall, call
from piecewright.errors import FileError
from piecewright.model.fabric import Fabric
from piecewright.model.naming import free_name
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.shelf.card_list import CardAction
from piecewright_qt.shelf.cards import FabricCard, fabric_cards, recolorings
from piecewright_qt.shelf.dragging import drag_with
from piecewright_qt.shelf.fabric_chooser import FabricChooser
from piecewright_qt.shelf.fabric_words import ONE_WAY, VALUES, fabric_line, print_name, say
from piecewright_qt.shelf.page import Page
from piecewright_qt.shelf.photos import Photo, carries_photo, photo_from_mime, photo_in
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.searching import read_query
from piecewright_qt.shelf.swatch_delegate import SwatchDelegate
from piecewright_qt.wall.mime import fabric_mime
from piecewright_qt.wall.selection import Selection

_DRAGGED = QSize(52, 40)
_MENU_SWATCH = QSize(32, 24)


class FabricsPage(Page[FabricCard]):
    """The fabrics of the design.

    `wanted(fabric, photo)` asks for the editor: on a fabric or None, for a new one, with a photo or None.
    """

    wanted = Signal(object, object)

    def __init__(self, document: Document, look: Look, selection: Selection, pictures: Pictures) -> None:
        super().__init__(document, look)
        self.photo_of = partial(photo_in, document.pictures)
        self._pictures = pictures
        self._selection = selection
        self._values: dict[str, str] = {}
        self._valued: tuple[str, ...] | None = None
        view = self.list
        view.lay_out_as_grid()
        view.setItemDelegate(SwatchDelegate(view, look, pictures, self.photo_of, self._value))
        view.setAccessibleName(self.tr("Fabrics of the design"))
        view.drag_of = self._drag
        view.taken.connect(self.use)
        view.actions_of_card = (
            CardAction(self.tr("Use on the selected blocks"), "Return", self.use),
            CardAction(self.tr("Change the fabric…"), "F2", self.edit),
            CardAction(self.tr("Duplicate"), "D", self.duplicate),
            CardAction(self.tr("Replace everywhere by…"), "E", self.replace, apart=True),
            CardAction(self.tr("Swap everywhere with…"), "S", self.swap),
            CardAction(self.tr("Remove from the design"), "Del", self.remove, apart=True),
        )
        self.setAcceptDrops(True)
        view.setAcceptDrops(False)
        view.may_paste = self._may_paste
        view.paste = self.paste
        self.search.setPlaceholderText(self.tr("Name or print"))
        self.search.setAccessibleName(self.tr("Search the fabrics"))
        self.search.setToolTip(self.tr("Search by name or print (Ctrl+F)"))
        self.add.setText(self.tr("Add a fabric"))
        self.add.setToolTip(self.tr("Add a fabric (Ins); a photo can be dropped or pasted here"))
        self.refresh()

    def all_cards(self) -> list[FabricCard]:
        """Every fabric, in the design's order."""
        return fabric_cards(self.document.design)

    def finds(self, card: FabricCard, text: str) -> bool:
        """By name, print or note."""
        printed = card.fabric.print
        told = [print_name(printed.kind if printed is not None else None)]
        told += [say(ONE_WAY)] if printed is not None and printed.one_way else []
        return read_query(text).finds(" ".join((card.words, *told)).casefold())

    def empty_words(self) -> str:
        """Where a first fabric comes from."""
        return self.tr(
            "No fabrics yet. Add a solid or a print, or drop a photo of your cloth here; "
            "then drag it onto the patches of a block."
        )

    def spoken(self, card: FabricCard) -> str:
        """Name, print and value."""
        line = fabric_line(card.fabric, self.look.measure)
        return ", ".join(part for part in (card.fabric.name, line, self._value(card)) if part)

    def hint(self, card: FabricCard) -> str:
        """All of the name, the print and the note."""
        line = fabric_line(card.fabric, self.look.measure)
        return "\n".join(part for part in (card.fabric.name, line, card.fabric.note) if part)

    # What can be done with a fabric ------------------------------------------------------------------------------

    def add_one(self) -> None:
        """Ask for the editor on a new fabric."""
        self.wanted.emit(None, None)

    def edit(self) -> None:
        """Ask for the editor on the chosen fabric."""
        if self.chosen is not None:
            self.wanted.emit(self.chosen.fabric, None)

    def use(self) -> None:
        """Recolor the selected blocks; ask which of their fabrics to recolor where there are several."""
        card = self.chosen
        if card is None:
            return
        cells = self._selection.cells
        choices = recolorings(self.document.design, cells, card.id)
        if len(choices) > 1:
            self.letters_menu(choices).popup(self.list.viewport().mapToGlobal(self._below_chosen()))
        else:
            fallback = call("recolor-letter", cells=cells, letter="A", fabric=card.id)
            self.perform(choices[0][2] if choices else fallback)

    def letters_menu(self, choices: list[tuple[str, str | None, EditCall]]) -> QMenu:
        """The letters of the selected blocks with the fabrics they show at present."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.setAccessibleName(self.tr("In the place of"))
        menu.addAction(self.tr("In the place of")).setEnabled(False)
        fabrics = self.document.design.shelf.fabrics
        for letter, present, edit in choices:
            fabric = fabrics[present] if present is not None else None
            name = fabric.name if fabric is not None else self.tr("no fabric yet")
            action = menu.addAction(f"{letter}  {name}", partial(self.perform, edit))
            if fabric is not None:
                action.setIcon(QIcon(self._swatch(fabric, _MENU_SWATCH)))
        return menu

    def duplicate(self) -> None:
        """Add a copy of the chosen fabric."""
        card = self.chosen
        if card is None:
            return
        fabric, before = card.fabric, self.document.design
        fields = {
            name: getattr(fabric, name) for name in ("color", "print", "picture", "price", "width", "note")
        }
        name = free_name(fabric.name, {one.name for one in before.fabrics})
        if self.perform(call("add-fabric", name=name, **fields)):
            self.choose(new_ids(before, self.document.design)[-1])

    def replace(self) -> None:
        """Let another fabric take the place of the chosen one everywhere."""
        card = self.chosen
        if card is not None:
            title = self.tr("Replace “{name}” everywhere by").format(name=card.fabric.name)
            self._choose_other(card, title, self.tr("Replace"), partial(_replacing, card.id))

    def swap(self) -> None:
        """Let the chosen fabric and another change places everywhere."""
        card = self.chosen
        if card is not None:
            title = self.tr("Swap “{name}” everywhere with").format(name=card.fabric.name)
            self._choose_other(card, title, self.tr("Swap"), partial(_swapping, card.id))

    def remove(self) -> None:
        """Take the chosen fabric out of the design; while something uses it, say what."""
        if self.chosen is not None:
            self.perform(call("remove-fabric", fabric=self.chosen.id))

    # Photos -----------------------------------------------------------------------------------------------------

    def paste(self) -> None:
        """Ask for the editor on a new fabric that shows the photo on the clipboard."""
        self._bring(QGuiApplication.clipboard().mimeData())

    def _may_paste(self) -> bool:
        return carries_photo(QGuiApplication.clipboard().mimeData())

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A photo may be dropped anywhere on the page."""
        if carries_photo(event.mimeData()):
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:  # noqa: N802 - Qt's name
        """Anywhere."""
        if carries_photo(event.mimeData()):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Ask for the editor on a new fabric that shows the photo."""
        event.acceptProposedAction()
        self._bring(event.mimeData())

    def _bring(self, mime: QMimeData) -> None:
        self.say("")
        try:
            photo: Photo | None = photo_from_mime(mime)
        except FileError as error:
            self.say(words(error, self.look.measure))
            return
        if photo is not None:
            self.wanted.emit(None, photo)

    # Showing ----------------------------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the design; values are measured when the page is seen and the window has time."""
        super().refresh()
        if self.isVisible() and self._colors() != self._valued:
            QTimer.singleShot(0, self, self._measure_values)

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """Seen now: measure what came while it was not."""
        super().showEvent(event)
        self.refresh()

    def _colors(self) -> tuple[str, ...]:
        return tuple(fabric.color for fabric in self.document.design.fabrics)

    def _measure_values(self) -> None:
        """Which fabrics are light, medium and dark beside each other: the library that measures loads slowly."""
        from piecewright.colour.value import values_by_terciles

        fabrics = self.document.design.fabrics
        self._valued = self._colors()
        found = values_by_terciles(self._valued)
        self._values = {fabric.id: value for fabric, value in zip(fabrics, found, strict=True)}
        self.model.refresh()

    def _value(self, card: FabricCard) -> str:
        value = self._values.get(card.id)
        return say(VALUES[value]) if value is not None else ""

    def _choose_other(
        self, card: FabricCard, title: str, verb: str, edit_for: Callable[[str], EditCall]
    ) -> None:
        if len(self.document.design.fabrics) < 2:
            self.say(self.tr("There is no other fabric yet. Add one first."))
            return
        shown = self._pictures, self.photo_of
        FabricChooser(self.document, self.look, shown, card.id, edit_for, (title, verb), self).open()

    def _below_chosen(self) -> QPoint:
        return self.list.visualRect(self.list.currentIndex()).bottomLeft()

    def _swatch(self, fabric: Fabric, size: QSize) -> QPixmap:
        return self._pictures.swatch(fabric, self.photo_of(fabric), size, self.devicePixelRatioF())

    def _drag(self, index: QModelIndex) -> QDrag | None:
        card = self.model.card(index)
        if card is None:
            return None
        return drag_with(self.list, fabric_mime(card.id), self._swatch(card.fabric, _DRAGGED))


def _replacing(fabric: str, to: str) -> EditCall:
    return call("replace-fabric", fabric=fabric, to=to)


def _swapping(fabric: str, other: str) -> EditCall:
    return call("swap-fabrics", first=fabric, second=other)
