"""What comes of the block in hand: sizes, where the cloth goes as one bar, bias, and what to mind."""

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from piecewright.making.facts import Facts, Ledger
from piecewright.words.message import message
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.finish_field import FinishField
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE


class ClothBar(QWidget):
    """One bar: seen, hidden in seams, trimmed off; told apart by pattern and by the words beside it."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._ledger: Ledger | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_ledger(self, ledger: Ledger | None) -> None:
        """Show where this cloth goes."""
        self._ledger = ledger
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Slim."""
        return QSize(240, self._look.scale.lead)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The three shares, left to right."""
        painter = QPainter(self)
        theme, ledger = self._look.theme, self._ledger
        if ledger is not None and ledger.laid:
            left, whole = 0.0, float(ledger.laid)
            shares = (
                (ledger.seen, QBrush(QColor(theme.accent))),
                (ledger.allowance, QBrush(QColor(theme.accent), Qt.BrushStyle.BDiagPattern)),
                (ledger.waste, QBrush(QColor(theme.outline), Qt.BrushStyle.DiagCrossPattern)),
            )
            for share, brush in shares:
                width = float(share) / whole * (self.width() - 1)
                painter.setPen(QColor(theme.outline))
                painter.setBrush(brush)
                painter.drawRect(QRectF(left, 1, width, self.height() - 3))
                left += width
        painter.end()


class FactsFoot(QWidget):
    """Sizes at the left, cloth in the middle, what to mind at the right."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self.setProperty("place", "foot")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE_WIDE, SPACE, SPACE_WIDE, SPACE)
        row.setSpacing(SPACE_WIDE * 2)
        self._sizes, self._cloth, self._mind = (QLabel() for _ in range(3))
        self._sizes.setProperty("type", "lead")
        for label in (self._cloth, self._mind):
            label.setProperty("type", "small")
        self._bar = ClothBar(look)
        middle = QVBoxLayout()
        middle.addWidget(self._bar)
        middle.addWidget(self._cloth)
        middle.addStretch(1)
        for label in (self._sizes, self._cloth, self._mind):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
        for label in (self._sizes, self._cloth, self._mind):
            label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.wish = FinishField(bench, look)
        left = QVBoxLayout()
        left.addWidget(self._sizes)
        left.addWidget(self.wish)
        left.addStretch(1)
        row.addLayout(left, 3)
        row.addLayout(middle, 3)
        row.addWidget(self._mind, 2)
        bench.changed.connect(self.refresh)
        look.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show what comes out now."""
        facts = self._bench.facts
        measure = self._look.measure
        if facts is None:
            fault = self._bench.fault
            self._sizes.setText(self.tr("No block yet"))
            self._cloth.setText("" if fault is None else words(fault, measure))
            self._mind.setText("")
            self._bar.show_ledger(None)
            return
        said = message(
            "making.text-blocks", count=facts.blocks, finished=facts.finished, unfinished=facts.unfinished
        )
        self._sizes.setText(said.text(measure))
        ledger = facts.ledger
        shares = {name: getattr(ledger, name) for name in ("laid", "seen", "allowance", "waste")}
        self._cloth.setText(message("making.text-cloth", **shares).text(measure))
        self._bar.show_ledger(ledger)
        self._mind.setText("\n".join(self._to_mind(facts)))

    def _to_mind(self, facts: Facts) -> list[str]:
        measure = self._look.measure
        outer = [edge for kind in facts.kinds[:1] for edge in kind.bias_edges if edge.outer]
        inner = [edge for kind in facts.kinds[:1] for edge in kind.bias_edges if not edge.outer]
        said = [warning.message.text(measure) for warning in facts.warnings]
        if outer:
            said.append(
                self.tr("{n} outer edges off the thread: starch, handle gently, stay-stitch").format(
                    n=len(outer)
                )
            )
        if inner:
            said.append(
                self.tr("{n} inner edges off the thread: pin, do not press sideways").format(n=len(inner))
            )
        return said or [self.tr("All edges run with the thread.")]
