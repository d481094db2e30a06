"""All that is open: windows, the start page, preferences, recent designs and what a crash left."""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox, QWidget

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.atomic import write_whole
from piecewright.files.design_file import load_design
from piecewright.files.folders import config_folder, journal_folder, state_folder
from piecewright.files.recent import remember_design
from piecewright.files.recovery import LeftJournal, find_left_journals
from piecewright.files.settings import load_preferences, save_preferences
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.keeping import Keeping
from piecewright_qt.look import Look
from piecewright_qt.samples import empty_design, sample_files
from piecewright_qt.window import Window

if TYPE_CHECKING:
    from piecewright_qt.start_page import StartPage


class Workroom(QObject):
    """Opens, makes and recovers designs, a window each; the start page shows when no window is left."""

    def __init__(self) -> None:
        super().__init__()
        self.look = Look(load_preferences(config_folder()))
        self.look.dress()
        self.look.changed.connect(self._keep_preferences)
        self.windows: list[QWidget] = []
        self._start: StartPage | None = None
        self._quitting = False

    @property
    def start_page(self) -> "StartPage | None":
        """The start page, once it was shown."""
        return self._start

    def file_filter(self) -> str:
        """The kinds of file a design can be kept in."""
        return self.tr("Designs (*.piecewright);;Designs as plain JSON (*.json)")

    def has_something_left(self) -> bool:
        """Whether a crash left changes that were not saved."""
        found = find_left_journals(journal_folder()).journals
        for left in found:
            left.release()
        return bool(found)

    def show_start(self) -> None:
        """The start page: recent designs, samples, a new one, what was not saved."""
        from piecewright_qt.start_page import StartPage

        if self._start is None:
            self._start = StartPage(self)
        self._start.refresh()
        self._start.show()
        self._start.raise_()

    def new_design(self) -> None:
        """An empty design with a few fabrics, in a window of its own."""
        self._open_window(Document(empty_design()), Keeping())

    def choose_and_open(self, parent: QWidget | None) -> None:
        """Ask for a file and open it."""
        chosen, _ = QFileDialog.getOpenFileName(
            parent, self.tr("Open a design"), str(Path.home()), self.file_filter()
        )
        if chosen:
            self.open(Path(chosen), parent)

    def open(self, path: Path, parent: QWidget | None = None) -> bool:
        """Open a design in a window; a sample as a new design. False when it could not be read, and that is said."""
        if path.resolve() in sample_files():
            self.open_sample(path)
            return True
        try:
            keeping, loaded = Keeping.opened(path)
        except FileError as error:
            self.tell(error, parent)
            return False
        window = self._open_window(Document(loaded.design, loaded.pictures), keeping)
        self.remember(path, loaded.design)
        for note in loaded.notes:
            window.notice.say(note.text(self.look.measure))
        return True

    def open_sample(self, path: Path) -> None:
        """A sample opens as a new design: the program's own file is never written."""
        try:
            loaded = load_design(path)
        except FileError as error:
            self.tell(error, None)
            return
        self._open_window(Document(loaded.design, loaded.pictures), Keeping())

    def recover(self, left: LeftJournal) -> None:
        """Open what a crash left, with its changes not yet saved."""
        try:
            recovered = left.recover()
        except FileError as error:
            self.tell(error, None)
            return
        keeping = Keeping(path=recovered.base, digest=recovered.digest)
        if recovered.base is not None and recovered.base_state != "gone":
            keeping.hold()
        document = Document(recovered.design, recovered.pictures)
        window = self._open_window(document, keeping, recovered=True)
        left.settle(recovered)
        for note in recovered.notes:
            window.notice.say(note.text(self.look.measure))

    def remember(self, path: Path, design: Design) -> None:
        """Put a design at the head of the recent ones; a failure here harms nothing."""
        from piecewright_qt.pictures import small_picture

        try:
            remember_design(state_folder(), path, design.name, small_picture(design))
        except PiecewrightError as error:
            self.log(error)

    def write(self, path: Path, data: bytes) -> None:
        """Write a file whole. Raises FileError."""
        write_whole(path, data)

    def forget(self, window: QWidget) -> None:
        """A window closed; after the last one the start page shows again, unless all are to close."""
        self.windows = [one for one in self.windows if one is not window]
        if not self.windows and not self._quitting:
            QCoreApplication.quit()

    def quit(self) -> None:
        """Close every window; one that asks may say no."""
        self._quitting = True
        for window in tuple(self.windows):
            if not window.close():
                self._quitting = False
                return
        QApplication.quit()

    def tell(self, error: PiecewrightError, parent: QWidget | None) -> None:
        """Say what went wrong, once, in words."""
        QMessageBox.warning(parent, self.tr("Piecewright"), error.sentence(self.look.measure))

    def log(self, error: Exception) -> None:
        """Note what needs no answer."""
        from piecewright_qt.faults import log

        log.warning("%s", error)

    def _open_window(self, document: Document, keeping: Keeping, recovered: bool = False) -> Window:
        try:
            keeping.begin_journal(document.design, document.pictures if recovered else None)
        except FileError as error:
            self.log(error)
        document.recorder = keeping.journal
        if recovered:
            document.undo_stack.resetClean()
        window = Window(self, document, keeping)
        self.windows.append(window)
        window.show()
        if self._start is not None:
            self._start.hide()
        return window

    def _keep_preferences(self) -> None:
        try:
            save_preferences(config_folder(), self.look.loaded)
        except FileError as error:
            self.log(error)
