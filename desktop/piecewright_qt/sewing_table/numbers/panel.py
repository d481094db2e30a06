"""The panel at the table's edge: what can be asked of the block in hand, folded until it is asked."""

from functools import partial

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.bias import BiasSection
from piecewright_qt.sewing_table.numbers.matters import FreeLengths, MattersSection
from piecewright_qt.sewing_table.numbers.my_seam import MySeamSection
from piecewright_qt.sewing_table.numbers.pressing import PressingSection
from piecewright_qt.sewing_table.numbers.reckoner import Reckoner
from piecewright_qt.sewing_table.numbers.section import Section
from piecewright_qt.sewing_table.numbers.sizes import SizesSection
from piecewright_qt.sewing_table.numbers.stretch import StretchSection
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE


class NumbersPanel(QScrollArea):
    """`overlay_asked` names what is to lie over the block's picture, "" for nothing."""

    overlay_asked = Signal(str)

    def __init__(self, bench: Bench, look: Look, free: FreeLengths, runner: Runner | None = None) -> None:
        super().__init__()
        self._bench = bench
        reckoner = Reckoner(runner, self)
        common = (bench, look, reckoner)
        self.sizes = SizesSection("sizes", self.tr("Sizes it can finish at"), *common)
        self.matters = MattersSection("matters", self.tr("Which numbers matter"), *common, free=free)
        self.my_seam = MySeamSection("my-seam", self.tr("My seam"), *common)
        self.pressing = PressingSection("pressing", self.tr("Pressing plan"), *common)
        self.bias = BiasSection("bias", self.tr("Bias and thread"), *common)
        self.stretch = StretchSection("stretch", self.tr("Stretch and lump"), *common)
        self._waiting = QTimer(self, interval=0, singleShot=True)
        self._waiting.timeout.connect(self.refresh)
        self._lay_out()
        self.setAccessibleName(self.tr("Numbers of the block"))
        for signal in (bench.changed, bench.document.changed, look.changed):
            signal.connect(self._waiting.start)
        self.pressing.overlay_asked.connect(lambda on: self._ask("pressing" if on else ""))
        self.stretch.overlay_asked.connect(lambda on: self._ask("stretch" if on else ""))

    @property
    def sections(self) -> tuple[Section, ...]:
        """All of them, from top to bottom."""
        return self.sizes, self.matters, self.my_seam, self.pressing, self.bias, self.stretch

    @property
    def is_behind(self) -> bool:
        """Whether an open section is still being worked out."""
        return self._waiting.isActive() or any(section.is_behind for section in self.sections)

    def refresh(self) -> None:
        """Bring every open section up to date, where the panel is seen."""
        if not self.isVisible():
            return
        for section in self.sections:
            section.refresh()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """What changed meanwhile is made up for."""
        super().showEvent(event)
        self._waiting.start()

    def drop_overlay(self) -> None:
        """Nothing lies over the block's picture any more."""
        self._ask("")

    def _come_to(self, section: Section, is_open: bool) -> None:
        """Bring the head of what was unfolded to the top, where it does not fit below; once it is laid out."""
        if is_open:
            QTimer.singleShot(0, section, lambda: self._scroll_to(section))

    def _scroll_to(self, section: Section) -> None:
        bar = self.verticalScrollBar()
        if section.y() + section.height() > bar.value() + self.viewport().height():
            bar.setValue(section.y())

    def _ask(self, overlay: str) -> None:
        for section in (self.pressing, self.stretch):
            switch = getattr(section, "switch", None)
            if switch is not None and switch.box.isChecked() != (section.name == overlay):
                switch.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
                switch.box.setChecked(section.name == overlay)
                switch.box.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        self.overlay_asked.emit(overlay)

    def _lay_out(self) -> None:
        page = QWidget()
        page.setProperty("place", "panel")
        page.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(page)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        column.setSpacing(SPACE_TIGHT)
        title = QLabel(self.tr("Numbers"))
        title.setProperty("type", "soft")
        title.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, 0)
        column.addWidget(title)
        for section in self.sections:
            column.addWidget(section)
            section.opened.connect(partial(self._come_to, section))
        column.addStretch(1)
        self.setWidget(page)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
