"""What comes of the block in hand: sizes, where the cloth goes as one bar, and what to mind."""

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from piecewright.making.facts import Facts, Ledger
from piecewright.words.message import message
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.finish_field import FinishField
from piecewright_qt.sewing_table.numbers.matters import FreeLengths
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE, Theme

_SHARES = ("seen", "allowance", "waste")


def share_brush(share: str, theme: Theme) -> QBrush:
    """The pattern of a share of the cloth."""
    return {
        "seen": QBrush(QColor(theme.accent)),
        "allowance": QBrush(QColor(theme.accent), Qt.BrushStyle.BDiagPattern),
        "waste": QBrush(QColor(theme.outline), Qt.BrushStyle.DiagCrossPattern),
    }[share]


class ClothBar(QWidget):
    """One bar: seen, hidden in seams, trimmed off; told apart by pattern and by the legend under it."""

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
            for share in _SHARES:
                width = float(getattr(ledger, share)) / whole * (self.width() - 1)
                painter.setPen(QColor(theme.outline))
                painter.setBrush(share_brush(share, theme))
                painter.drawRect(QRectF(left, 1, width, self.height() - 3))
                left += width
        painter.end()


class ShareChip(QWidget):
    """The pattern of one share, beside its word and its numbers."""

    def __init__(self, share: str, look: Look) -> None:
        super().__init__()
        self._share, self._look = share, look
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as its word."""
        side = self._look.scale.small
        return QSize(round(1.6 * side), side)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """A piece of the bar."""
        painter = QPainter(self)
        painter.setPen(QColor(self._look.theme.outline))
        painter.setBrush(share_brush(self._share, self._look.theme))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()


@dataclass(frozen=True, slots=True)
class _Share:
    chip: ShareChip
    words: QLabel


class FactsFoot(QWidget):
    """Sizes at the left, cloth in the middle, what to mind at the right."""

    def __init__(self, bench: Bench, look: Look, free: FreeLengths) -> None:
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
        for label in (self._sizes, self._cloth, self._mind):
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.wish = FinishField(bench, look, free)
        left = QVBoxLayout()
        left.setSpacing(SPACE)
        left.addWidget(self._sizes)
        left.addWidget(self.wish)
        left.addStretch(1)
        row.addLayout(left, 3)
        row.addLayout(self._middle(), 3)
        row.addWidget(self._mind, 2)
        bench.changed.connect(self.refresh)
        look.changed.connect(self.refresh)
        self.refresh()

    def _middle(self) -> QVBoxLayout:
        """The bar, its legend, and what it is the whole of; in their place why there is no block."""
        self._bar = ClothBar(self._look)
        middle = QVBoxLayout()
        middle.setSpacing(SPACE_TIGHT)
        middle.addWidget(self._bar)
        self.shares: dict[str, _Share] = {}
        for share in _SHARES:
            words_of = QLabel()
            words_of.setProperty("type", "small")
            words_of.setWordWrap(True)
            words_of.setTextFormat(Qt.TextFormat.PlainText)
            self.shares[share] = _Share(ShareChip(share, self._look), words_of)
            line = QHBoxLayout()
            line.setSpacing(SPACE)
            line.addWidget(self.shares[share].chip)
            line.addWidget(words_of, 1)
            middle.addLayout(line)
        middle.addWidget(self._cloth)
        middle.addStretch(1)
        return middle

    def refresh(self) -> None:
        """Show what comes out now."""
        facts, measure = self._bench.facts, self._look.measure
        self._bar.show_ledger(None if facts is None else facts.ledger)
        for share in self.shares.values():
            share.chip.setVisible(facts is not None)
            share.words.setVisible(facts is not None)
        if facts is None:
            fault = self._bench.fault
            self._sizes.setText(self.tr("No block yet"))
            self._cloth.setText("" if fault is None else words(fault, measure))
            self._mind.setText("")
            return
        said = message(
            "making.text-blocks", count=facts.blocks, finished=facts.finished, unfinished=facts.unfinished
        )
        self._sizes.setText(said.text(measure))
        self._show_cloth(facts.ledger)
        self._mind.setText("\n".join(self._to_mind(facts)))

    def _show_cloth(self, ledger: Ledger) -> None:
        measure = self._look.measure
        names = {
            "seen": self.tr("Seen"),
            "allowance": self.tr("In seams"),
            "waste": self.tr("Trimmed off"),
        }
        for share, name in names.items():
            area = getattr(ledger, share)
            part = measure.percent(float(area) / float(ledger.laid)) if ledger.laid else ""
            self.shares[share].words.setText(f"{name}: {part}, {measure.area(area)}")
        whole = self.tr("of {area} laid for each layer").format(area=measure.area(ledger.laid))
        self._cloth.setText(whole)
        self._bar.setAccessibleName(self.tr("Where the cloth goes"))
        self._bar.setAccessibleDescription(
            "; ".join(share.words.text() for share in self.shares.values()) + f"; {whole}"
        )

    def _to_mind(self, facts: Facts) -> list[str]:
        measure = self._look.measure
        outer = [edge for kind in facts.kinds[:1] for edge in kind.bias_edges if edge.outer]
        inner = [edge for kind in facts.kinds[:1] for edge in kind.bias_edges if not edge.outer]
        said = [warning.message.text(measure) for warning in facts.warnings]
        for side, edges in (("outer", outer), ("inner", inner)):
            if edges:
                said.append(message(f"sewing.mind-{side}", count=len(edges)).text(measure))
        return said or [self.tr("All edges run with the thread.")]
