"""Saving, and all that can come between a design and its file: said in words, and nothing is lost or overwritten."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from piecewright.errors import FileError, PiecewrightError
from piecewright_qt.asking import ENDING, Answer, ask, ask_where_to_save
from piecewright_qt.document import Document
from piecewright_qt.keeping import Keeping
from piecewright_qt.messages import words
from piecewright_qt.watching import FileWatch

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_SYNC_AFTER = 400
"""Milliseconds after a change; the disk then has it within a second of its making."""
_NOT_IN_NAMES = re.compile(r'[\x00-\x1f/\\:*?"<>|]+')
_FILE, _JOURNAL = "file", "journal"


class Saving(QObject):
    """Keeps one window's design: its file, its journal, and what is told about both."""

    def __init__(self, window: "Window", document: Document, keeping: Keeping) -> None:
        super().__init__(window)
        self._window = window
        self._document = document
        self.keeping = keeping
        self._syncing = False
        self._watch = FileWatch(self)
        self._watch.stirred.connect(self.look_at_the_file)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(_SYNC_AFTER)
        self._timer.timeout.connect(self.sync)
        document.changed.connect(self._sync_soon)
        document.recorder = keeping.journal
        document.record_failed.connect(self._say_record_failed)
        document.note_drafts_again()
        self._follow_the_file()

    # What the window asks for -----------------------------------------------------------------------------------

    def save(self) -> bool:
        """Save to the design's file; ask for a name where it has none or the file is not ours. True when saved."""
        keeping = self.keeping
        if keeping.path is None or not keeping.still_ours() or keeping.read_only:
            return self.save_as()
        if keeping.state() == "changed":
            return self._save_over()
        return self._save_to(None)

    def save_as(self) -> bool:
        """Save under a name the user chooses. True when saved."""
        chosen = ask_where_to_save(
            self._window, self.tr("Save the design"), self._suggested(), self._window.workroom.file_filters()
        )
        return chosen is not None and self._save_to(chosen)

    def may_close(self) -> bool:
        """Whether the design is saved, or its changes are given up at the user's word."""
        if not self._document.is_changed:
            return True
        answer = ask(
            self._window,
            self.tr("Keep the changes?"),
            self.tr("“{name}” has changes that are not saved.").format(name=self._document.design.name),
            "",
            (
                Answer("save", self.tr("Save"), "main"),
                Answer("discard", self.tr("Discard"), "away"),
                Answer("cancel", self.tr("Cancel"), "back"),
            ),
        )
        return answer == "discard" or (answer == "save" and self.save())

    def end(self) -> None:
        """The window closes: let go of the file, and end the journal."""
        self._timer.stop()
        self._watch.watch(None)
        self._document.recorder = None
        self.keeping.release()

    def sync(self) -> None:
        """Have the disk confirm the journal, away from the window's thread: the disk may take its time."""
        if self._syncing:
            self._sync_soon()
        else:
            self._syncing = True
            self._window.workroom.runner.run(
                (_JOURNAL, id(self)), lambda _job: self.keeping.sync(), self._synced
            )

    def look_at_the_file(self) -> None:
        """Say how the file stands, if there is anything to say."""
        notice, keeping = self._window.notice, self.keeping
        path, state = keeping.path, keeping.state()
        save_as = (self.tr("Save as…"), self.save_as)
        if path is None or state in ("none", "same"):
            notice.clear(_FILE)
        elif state == "gone":
            text = self.tr(
                "“{file}” is no longer in its folder, or can not be read. The design is still here: save it to put it "
                "back there, or save it elsewhere."
            )
            notice.say(text.format(file=path.name), save_as, about=_FILE)
        else:
            text = self.tr(
                "Another program changed “{file}” since it was opened here. Nothing is overwritten unasked."
            )
            again = (
                self.tr("Open what is there now"),
                lambda: self._window.workroom.open_again(self._window),
            )
            notice.say(text.format(file=path.name), again, save_as, about=_FILE)

    # How it is done -----------------------------------------------------------------------------------------------

    def _save_to(self, path: Path | None) -> bool:
        document, window = self._document, self._window
        try:
            saved = self.keeping.save(document.design, document.pictures, path)
        except FileError as error:
            return self._not_saved(error)
        document.undo_stack.setClean()
        self._begin_journal()
        self._follow_the_file()
        window.workroom.remember(saved, document.design)
        window.show_status(self.tr("Saved: {name}").format(name=saved.name))
        window.refresh()
        return True

    def _begin_journal(self) -> None:
        """A journal for what comes now; undo may lead back to before, so it knows the steps that led here."""
        document = self._document
        shown = {fabric.picture for fabric in document.design.fabrics}
        kept = {name: data for name, data in document.pictures.items() if name not in shown}
        try:
            unsaved = document.first != document.design
            journal = self.keeping.begin_journal(
                document.first, document.history, pictures=kept, unsaved=unsaved
            )
            journal.return_to(document.design)
        except FileError as error:
            self._say_record_failed(error)
        document.recorder = self.keeping.journal
        document.note_drafts_again()

    def _not_saved(self, error: FileError) -> bool:
        answer = ask(
            self._window,
            self.tr("Not saved"),
            self.tr("The design could not be saved. It is still here, with all its changes."),
            error.sentence(self._window.look.measure),
            (
                Answer("elsewhere", self.tr("Save a copy elsewhere…"), "main"),
                Answer("on", self.tr("Go on without saving"), "back"),
            ),
        )
        return answer == "elsewhere" and self.save_as()

    def _save_over(self) -> bool:
        answer = ask(
            self._window,
            self.tr("The file was changed elsewhere"),
            self.tr("Another program changed this file since it was opened here."),
            self.tr("Saving would put your design in the place of what is there now."),
            (
                Answer("copy", self.tr("Save a copy…"), "main"),
                Answer("over", self.tr("Overwrite it"), "away"),
                Answer("cancel", self.tr("Cancel"), "back"),
            ),
        )
        if answer == "over":
            self.keeping.overwrite_knowingly()
            return self._save_to(None)
        return answer == "copy" and self.save_as()

    def _follow_the_file(self) -> None:
        """Watch it, and tell at once where it is not ours to write."""
        keeping, notice = self.keeping, self._window.notice
        self._watch.watch(keeping.path)
        self.look_at_the_file()
        save_as = (self.tr("Save as…"), self.save_as)
        notice.clear("hold")
        if keeping.held_by is not None:
            who = keeping.held_by.user or self.tr("another window")
            text = self.tr(
                "This design is open in another window ({who}). What you change here can be saved under another name."
            )
            alone = (self.tr("Nobody has it open"), self._take_over)
            notice.say(text.format(who=who), save_as, alone, about="hold")
        elif keeping.newer:
            text = self.tr(
                "A newer Piecewright made this file, and it stays as it is. Save under another name to keep changes."
            )
            notice.say(text, save_as, about="hold")
        elif keeping.protected:
            text = self.tr("This file may only be read. Save under another name to keep changes.")
            notice.say(text, save_as, about="hold")

    def _take_over(self) -> None:
        """The user knows that the other window is gone; should it be there still, it is told before it saves."""
        self.keeping.hold(by_force=True)
        self._follow_the_file()

    def _suggested(self) -> Path:
        if self.keeping.path is not None:
            return self.keeping.path
        name = _NOT_IN_NAMES.sub("-", self._document.design.name).strip(" .-") or self.tr("Quilt")
        return self._window.workroom.last_folder() / f"{name[:80]}{ENDING}"

    def _sync_soon(self) -> None:
        if not self._timer.isActive():
            self._timer.start()

    def _synced(self, error: FileError | None) -> None:
        self._syncing = False
        if error is None:
            return
        self._say_record_failed(error)

    def _say_record_failed(self, error: PiecewrightError) -> None:
        self._window.notice.say(
            words(error, self._window.look.measure), (self.tr("Save as…"), self.save_as), about=_JOURNAL
        )
