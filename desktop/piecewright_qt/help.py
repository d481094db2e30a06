"""Help in the window: every action with its keys, and what Piecewright is, with the cautions of the trade."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QMessageBox,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
)

from piecewright import __version__
from piecewright_qt.actions.row import translated
from piecewright_qt.actions.table import ACTIONS

if TYPE_CHECKING:
    from piecewright_qt.window import Window


class KeysHelp(QDialog):
    """The table of actions, read off the one table that makes them."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self.setWindowTitle(self.tr("Keys"))
        table = QTableWidget(len(ACTIONS), 3)
        table.setAccessibleName(self.tr("Actions and their keys"))
        table.setHorizontalHeaderLabels([self.tr("Menu"), self.tr("Action"), self.tr("Keys")])
        table.verticalHeader().hide()
        table.setShowGrid(False)
        table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        for number, row in enumerate(ACTIONS):
            keys = ", ".join(
                QKeySequence(one).toString(QKeySequence.SequenceFormat.NativeText) for one in row.keys
            )
            for column, text in enumerate((translated(row.menu), translated(row.text), keys)):
                table.setItem(number, column, QTableWidgetItem(text))
        table.resizeColumnsToContents()
        table.horizontalHeader().setStretchLastSection(True)
        column_box = QVBoxLayout(self)
        column_box.addWidget(table)
        self.resize(560, 640)


def about(window: "Window") -> None:
    """Name, version, and the cautions."""

    def say(text: str) -> str:
        return QCoreApplication.translate("about", text)

    box = QMessageBox(window)
    box.setWindowTitle(say("About Piecewright"))
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(f"Piecewright {__version__}")
    box.setInformativeText(
        "\n\n".join(
            (
                say("Blocks are made, not drawn: every number is one you can cut by."),
                say(
                    "A rotary cutter is a razor blade: close it whenever you put it down and keep it from children. "
                    "Stand the iron on its heel on a firm surface, its cord out of reach, and unplug it after use. "
                    "Keep pins and needles out of your mouth and off the floor."
                ),
                say(
                    "For a cot: keep quilts and other soft bedding out of the sleep space of a baby under a year old, "
                    "sew on nothing that can come off, and follow local rules."
                ),
            )
        )
    )
    box.exec()
