"""All that is open: windows, the start page, preferences, recent designs and what a crash left.

The engine is read in where it is first needed, which is after the first paint.
"""

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QObject, QStandardPaths
from PySide6.QtWidgets import QApplication, QWidget

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.atomic import write_whole
from piecewright.files.folders import config_folder, journal_folder, state_folder
from piecewright.files.settings import load_preferences, save_preferences
from piecewright_qt.asking import ask_what_to_open, tell
from piecewright_qt.faults import log
from piecewright_qt.first_paint import AfterFirstPaint
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.window import Window

if TYPE_CHECKING:
    from piecewright.files.design_file import Loaded
    from piecewright.files.recovery import LeftJournal
    from piecewright.model.design import Design
    from piecewright_qt.document import Document
    from piecewright_qt.keeping import Keeping
    from piecewright_qt.start_page import StartPage


class Workroom(QObject):
    """Opens, makes and recovers designs, a window each; the start page shows when there is none."""

    def __init__(self) -> None:
        super().__init__()
        self.look = Look(load_preferences(config_folder()))
        self.look.dress()
        self.look.noted.connect(self._keep_preferences)
        self.runner = Runner(self)
        self.windows: list[Window] = []
        self.start_page: StartPage | None = None
        self._folder: Path | None = None
        self._staying = False

    # Starting and ending ----------------------------------------------------------------------------------------

    def begin(self, path: Path | None) -> None:
        """Show an empty window at once; once it is seen, open the design asked for, or the start page without one."""
        if path is None:
            self.show_start()
            return
        window = Window(self)
        self.windows.append(window)
        window.show()
        AfterFirstPaint(window, lambda: self._open_first(path, window))

    def quit(self) -> None:
        """Close every window; one that asks may say no."""
        self._staying = True
        for window in tuple(self.windows):
            if not window.close():
                self._staying = False
                return
        self._end()

    def forget(self, window: Window) -> None:
        """A window closed; with the last one, and no start page in sight, the program ends."""
        self.windows = [one for one in self.windows if one is not window]
        window.deleteLater()
        self.end_if_idle()

    def end_if_idle(self) -> None:
        """End the program where nothing is to be seen of it any more."""
        page = self.start_page
        if not self.windows and not self._staying and (page is None or not page.isVisible()):
            self._end()

    def _end(self) -> None:
        self.runner.finish()
        QCoreApplication.quit()

    # The start page -----------------------------------------------------------------------------------------------

    def show_start(self) -> None:
        """The start page: recent designs, samples, a new one, what was not saved."""
        from piecewright_qt.start_page import StartPage

        if self.start_page is None:
            self.start_page = StartPage(self)
        page = self.start_page
        if page.isVisible():
            page.fill()
        else:
            AfterFirstPaint(page, page.fill)
        page.show()
        page.raise_()
        page.activateWindow()

    def has_something_left(self) -> bool:
        """Whether a crash left changes that were not saved."""
        from piecewright_qt.opening import what_was_left

        found = what_was_left(journal_folder())
        for left in found.journals:
            left.release()
        return bool(found.journals or found.notes)

    # Designs --------------------------------------------------------------------------------------------------------

    def file_filters(self) -> tuple[str, ...]:
        """The kinds of file a design can be kept in."""
        return (self.tr("Designs (*.piecewright)"), self.tr("Designs as plain JSON (*.json)"))

    def last_folder(self) -> Path:
        """Where the user last opened or saved; else the folder for documents."""
        documents = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.DocumentsLocation)
        for folder in (self._folder, Path(documents)):
            if folder is not None and folder.is_dir():
                return folder
        return Path.home()

    def new_design(self) -> None:
        """An empty design with a few fabrics and the user's own settings, in a window of its own."""
        from piecewright.files.beginning import load_beginning
        from piecewright_qt.document import Document
        from piecewright_qt.keeping import Keeping
        from piecewright_qt.samples import empty_design

        beginning, notes = load_beginning(self.look.preferences)
        window = self._hang(Document(beginning.of(empty_design())), Keeping())
        for note in notes:
            window.notice.say(note.text(self.look.measure))

    def choose_and_open(self, parent: QWidget | None) -> None:
        """Ask for a file and open it."""
        filters = self.file_filters()
        both = self.tr("Designs (*.piecewright *.json)")
        chosen = ask_what_to_open(parent, self.tr("Open a design"), self.last_folder(), (both, *filters))
        if chosen is not None:
            self.open(chosen, parent)

    def open(self, path: Path, parent: QWidget | None = None, into: Window | None = None) -> bool:
        """Open a design in a window; a sample as a new design. False when it could not be read, and that is said.

        A file that is open already is brought to the front instead: one design, one window.
        """
        from piecewright_qt.samples import sample_files

        there = self._window_of(path)
        if there is not None:
            there.raise_()
            there.activateWindow()
            there.notice.say(self.tr("This design is open already: here it is."), about="front")
            return True
        return self._read_and_hang(path, path.resolve() in sample_files(), parent, into)

    def open_sample(self, path: Path) -> bool:
        """A sample opens as a new design: the program's own file is never written."""
        return self._read_and_hang(path, True, None, None)  # noqa: FBT003 - a private helper

    def open_again(self, window: Window) -> None:
        """Open what is in the file by now, in the place of a window; it may ask to keep its changes, and stay."""
        path = window.keeping.path
        self._staying = True
        closed = window.close()
        self._staying = False
        if closed and path is not None and not self.open(path):
            self.end_if_idle()

    def recover(self, left: "LeftJournal") -> None:
        """Open what a crash left, with its changes not yet saved."""
        from piecewright_qt.document import Document
        from piecewright_qt.keeping import Keeping

        try:
            recovered = left.recover()
        except FileError as error:
            self.tell(error, self.start_page)
            return
        self._make_way(recovered.base)
        keeping = Keeping(path=recovered.base, digest=recovered.digest)
        if recovered.base_state != "gone":
            keeping.hold()
        window = self._hang(
            Document(recovered.design, recovered.pictures, recovered.drafts), keeping, recovered=True
        )
        if keeping.journal is not None:
            left.settle(recovered)
        else:
            left.release()
        for note in recovered.notes:
            window.notice.say(note.text(self.look.measure))

    def remember(self, path: Path, design: "Design") -> None:
        """Put a design at the head of the recent ones, with a picture drawn meanwhile; a failure here harms nothing."""
        from piecewright_qt.opening import remember

        self._folder = path.parent
        self.runner.run(
            ("remember", path), lambda _job: remember(state_folder(), path, design), _log_if_failed
        )

    def write(self, path: Path, data: bytes) -> None:
        """Write a file whole. Raises FileError."""
        write_whole(path, data)
        self._folder = path.parent

    def tell(self, error: PiecewrightError, parent: QWidget | None) -> None:
        """Say what went wrong, once, in words."""
        tell(parent, self.tr("Piecewright"), error.sentence(self.look.measure))

    def tell_fault(self, text: str) -> None:
        """Say in the window in front, or in a box where there is none, that something went wrong inside."""
        said = QCoreApplication.translate(
            "faults",
            "Something went wrong inside Piecewright. Your design is as it was, and its changes are in the journal; it "
            "is wise to save now. What happened is written down in the log: {what}",
        ).format(what=text)
        active = QApplication.activeWindow()
        for window in self.windows:
            if window.is_filled and (window is active or len(self.windows) == 1):
                window.notice.say(said, (self.tr("Save"), window.save), about="fault")
                return
        tell(active, self.tr("Piecewright"), said)

    # How it is done -----------------------------------------------------------------------------------------------

    def _open_first(self, path: Path, window: Window) -> None:
        if not self.open(path, window, window):
            self._drop(window)
            self.show_start()
        else:
            self.runner.run("left", lambda _job: self.has_something_left(), self._offer_left)

    def _offer_left(self, something: bool) -> None:
        if something:
            self.show_start()

    def _read_and_hang(
        self, path: Path, is_sample: bool, parent: QWidget | None, into: Window | None
    ) -> bool:
        from piecewright_qt.document import Document
        from piecewright_qt.keeping import Keeping

        try:
            keeping, loaded = Keeping.of_sample(path) if is_sample else Keeping.opened(path)
        except FileError as error:
            self.tell(error, parent)
            return False
        window = self._hang(Document(loaded.design, loaded.pictures), keeping, into)
        if not is_sample:
            self.remember(path, loaded.design)
        self._tell_notes(window, loaded)
        return True

    def _tell_notes(self, window: Window, loaded: "Loaded") -> None:
        """What the quilter should hear of the file; that it is from a newer program is told with the way on."""
        for note in loaded.notes:
            if note.code != "files.newer-read-only":
                window.notice.say(note.text(self.look.measure))

    def _hang(
        self,
        document: "Document",
        keeping: "Keeping",
        into: Window | None = None,
        recovered: bool = False,
    ) -> Window:
        """Open a design in a window; what was recovered counts as changed."""
        fault: FileError | None = None
        try:
            pictures = document.pictures if recovered else {}
            keeping.begin_journal(document.design, pictures=pictures, unsaved=recovered)
        except FileError as error:
            fault = error
        if recovered:
            document.undo_stack.resetClean()
        window = into if into is not None else Window(self)
        window.fill(document, keeping)
        if into is None:
            self.windows.append(window)
            window.show()
        if fault is not None:
            document.record_failed.emit(fault)
        if self.start_page is not None:
            self.start_page.step_back()
        window.activateWindow()
        return window

    def _window_of(self, path: Path) -> Window | None:
        wanted = path.resolve()
        for window in self.windows:
            kept = window.keeping.path if window.is_filled else None
            if kept is not None and kept.resolve() == wanted:
                return window
        return None

    def _make_way(self, path: Path | None) -> None:
        """Close a window on the same file that has nothing to lose, for what was not saved to take its place."""
        there = self._window_of(path) if path is not None else None
        if there is not None and not there.document.is_changed:
            self._staying = True
            there.close()
            self._staying = False

    def _drop(self, window: Window) -> None:
        self._staying = True
        window.close()
        self._staying = False

    def _keep_preferences(self) -> None:
        try:
            save_preferences(config_folder(), self.look.loaded)
        except FileError as error:
            log.warning("%s", error)


def _log_if_failed(error: Exception | None) -> None:
    if error is not None:
        log.warning("%s", error)
