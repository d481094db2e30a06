"""Questions that stop the work until they are answered: where to save, what to open, this or that."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

ENDING = ".piecewright"
_ROLES = {
    "main": QMessageBox.ButtonRole.AcceptRole,
    "other": QMessageBox.ButtonRole.ActionRole,
    "away": QMessageBox.ButtonRole.DestructiveRole,
    "back": QMessageBox.ButtonRole.RejectRole,
}


@dataclass(frozen=True)
class Answer:
    """One answer: its name, its words, and what it is: the main one, another, one that gives something up, or back."""

    name: str
    words: str
    kind: str = "other"


def ask(parent: QWidget | None, title: str, text: str, more: str, answers: Sequence[Answer]) -> str:
    """The name of the answer chosen; that of the last one, which leaves all as it is, when the box is closed."""
    box = QMessageBox(parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setWindowTitle(title)
    box.setText(text)
    box.setInformativeText(more)
    buttons = {}
    for answer in answers:
        button = box.addButton(answer.words, _ROLES[answer.kind])
        button.setAutoDefault(answer.kind != "away")
        if answer.kind == "main":
            button.setProperty("weight", "main")
            box.setDefaultButton(button)
        if answer is answers[-1]:
            box.setEscapeButton(button)
        buttons[answer.name] = button
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    return next((name for name, button in buttons.items() if button is clicked), answers[-1].name)


def tell(parent: QWidget | None, title: str, text: str, more: str = "") -> None:
    """Say something that can not be said in place."""
    box = QMessageBox(parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setWindowTitle(title)
    box.setText(text)
    box.setInformativeText(more)
    box.exec()
    box.deleteLater()


def ask_where_to_save(
    parent: QWidget, title: str, suggested: Path, filters: Sequence[str], ending: str = ENDING
) -> Path | None:
    """A file to write, its ending made sure before the dialog asks about one that is there already; None: none."""
    dialog = QFileDialog(parent, title, str(suggested.parent), ";;".join(filters))
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setFileMode(QFileDialog.FileMode.AnyFile)
    dialog.setDefaultSuffix(ending.removeprefix("."))
    dialog.selectFile(suggested.name)
    return _chosen(dialog)


def ask_what_to_open(parent: QWidget | None, title: str, folder: Path, filters: Sequence[str]) -> Path | None:
    """A file that is there; None: none."""
    dialog = QFileDialog(parent, title, str(folder), ";;".join(filters))
    dialog.setFileMode(QFileDialog.FileMode.ExistingFile)
    return _chosen(dialog)


def _chosen(dialog: QFileDialog) -> Path | None:
    done = dialog.exec()
    chosen = dialog.selectedFiles()
    dialog.deleteLater()
    return Path(chosen[0]) if done and chosen else None
