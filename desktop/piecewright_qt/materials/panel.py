"""The Materials panel: the quilt's size, what the last edit or the drag costs, and the list that follows every edit."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QListView, QPushButton, QVBoxLayout, QWidget

from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.listing import MaterialsDelegate, MaterialsModel
from piecewright_qt.materials.rows import rows
from piecewright_qt.replan import Replan
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

_MOST_SAID = 3


class MaterialsPanel(QWidget):
    """Live numbers; each says cut, unfinished or finished, and its reason when asked."""

    resize_asked = Signal()

    def __init__(self, document: Document, replan: Replan, look: Look) -> None:
        super().__init__()
        self._document = document
        self._replan = replan
        self._look = look
        self.colors: dict[str, str] = {}
        self.model = MaterialsModel()
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setAccessibleName(self.tr("Materials"))
        self._build()
        replan.planned.connect(self.refresh)
        look.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the materials as they are now, or as the preview would make them."""
        materials, measure = self._replan.shown, self._look.measure
        self.colors.clear()
        self.colors.update({fabric.id: fabric.color for fabric in self._document.shown.fabrics})
        self._size.setText(message("plan.size", size=materials.size.finished).text(measure))
        self._top.setText(
            self.tr("{size}, the sewn top").format(
                size=message("plan.size", size=materials.size.unfinished).text(measure)
            )
        )
        self._tell_changes()
        self.model.show(rows(materials, self._replan.changes, measure))
        self._resize.setIcon(icon("resize", self._look.theme))

    def _build(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        head = QVBoxLayout()
        head.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE)
        head.setSpacing(2)
        row = QHBoxLayout()
        title = QLabel(self.tr("Materials"))
        title.setProperty("type", "soft")
        self._resize = QPushButton(self.tr("Resize"))
        self._resize.setToolTip(self.tr("Resize the quilt and watch the materials (Ctrl+R)"))
        self._resize.clicked.connect(self.resize_asked)
        row.addWidget(title, 1)
        row.addWidget(self._resize)
        head.addLayout(row)
        self._size = QLabel()
        self._size.setProperty("type", "title")
        self._size.setWordWrap(True)
        self._top = QLabel()
        self._top.setProperty("type", "small")
        self._top.setWordWrap(True)
        head.addWidget(self._size)
        head.addWidget(self._top)
        self._changes = QLabel()
        self._changes.setWordWrap(True)
        self._changes.setTextFormat(Qt.TextFormat.PlainText)
        self._changes.setAccessibleName(self.tr("What changed"))
        self._changes.setContentsMargins(0, SPACE, 0, 0)
        head.addWidget(self._changes)
        column.addLayout(head)
        column.addWidget(self._make_list(), 1)

    def _make_list(self) -> QListView:
        self.list = QListView()
        self.list.setModel(self.model)
        self.list.setItemDelegate(MaterialsDelegate(self._look, self.colors))
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setAccessibleName(self.tr("Materials, line by line"))
        return self.list

    def _tell_changes(self) -> None:
        changes, measure = self._replan.changes, self._look.measure
        if not changes:
            self._changes.setText(self.tr("Nothing to cut or buy changed with the last step."))
            self._changes.setProperty("type", "small")
        else:
            head = (
                self.tr("Here this would change:")
                if self._replan.is_preview
                else self.tr("The last step changed:")
            )
            said = [change.said.text(measure) for change in changes[:_MOST_SAID]]
            more = len(changes) - _MOST_SAID
            tail = [self.tr("and {n} more, marked below").format(n=more)] if more > 0 else []
            self._changes.setText("\n".join([head, *said, *tail]))
            self._changes.setProperty("type", "body")
        self._changes.style().unpolish(self._changes)
        self._changes.style().polish(self._changes)
