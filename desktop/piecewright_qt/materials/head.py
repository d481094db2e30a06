"""The head of the Materials panel: the quilt's size, its totals in one sentence, what the last change cost."""

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from piecewright.plan.materials import Materials
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.look import Look
from piecewright_qt.materials.row_painter import BAR
from piecewright_qt.materials.rows import Comparison, Row
from piecewright_qt.materials.typesetting import Type, kept_whole
from piecewright_qt.replan import Replan
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_HAIR, SPACE_TIGHT, SPACE_WIDE

CLOTH = "heading:cloth"
_DOT = " · "
_UNBROKEN = "\N{NO-BREAK SPACE}"
_LONGEST = "−88 sets · −888 strips · −88 7/8 yd"
"""About as long as the cost of a change becomes."""


class MaterialsHead(QWidget):
    """Always in sight, and of one height while edits and previews come and go."""

    resize_asked = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.size_label = _label("title")
        self.top_label = _label("small")
        self.real_label = _label("small")
        self.real_label.hide()
        self.totals = _label("")
        self.totals.setAccessibleName(self.tr("Totals"))
        self.cost = CostLine(look)
        self.resize_button = QPushButton(self.tr("Resize"))
        self.resize_button.setToolTip(self.tr("Resize the quilt and watch the materials (Ctrl+R)"))
        self.resize_button.setAccessibleName(self.tr("Resize the quilt"))
        self.resize_button.clicked.connect(self.resize_asked)
        self._lay_out()

    def show_plan(self, replan: Replan, comparison: Comparison, measure: Measure) -> None:
        """Show the plan in view, and what it takes more or less than the one before."""
        plan = replan.shown
        self._show_size(kept_whole(message("plan.size", size=plan.size.finished).text(measure)))
        top = kept_whole(message("plan.size", size=plan.size.unfinished).text(measure))
        _set(self.top_label, self.tr("{size}, the sewn top").format(size=top))
        self._show_real(plan, measure)
        _set(self.totals, totals_text(plan, comparison.rows))
        self.cost.say(*self._cost(replan, comparison, measure))

    def dress(self) -> None:
        """Follow the theme and the size of type."""
        side = round(1.2 * self._look.scale.body)
        self.resize_button.setIcon(icon("resize", self._look.theme))
        self.resize_button.setIconSize(QSize(side, side))
        self.cost.dress()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """The size stays on one line where it can."""
        super().resizeEvent(event)
        self._show_size(self.size_label.text())

    def _show_real(self, plan: Materials, measure: Measure) -> None:
        """What the top really measures, where the quilter's seam is not perfect: beside the nominal, never instead."""
        real = plan.real
        _set(self.real_label, "" if real is None else kept_whole(real.sentence.text(measure)))
        self.real_label.setVisible(real is not None)

    def _show_size(self, text: str) -> None:
        """As a title, or smaller where that would take two lines."""
        font = QFont(self.size_label.font())
        font.setPixelSize(self._look.scale.title)
        font.setWeight(font.Weight.DemiBold)
        fits = QFontMetrics(font).horizontalAdvance(text) <= self.width() - 2 * SPACE_WIDE
        kind = "title" if fits else "lead"
        _set(self.size_label, text)
        if self.size_label.property("type") != kind:
            self.size_label.setProperty("type", kind)
            self.size_label.style().unpolish(self.size_label)
            self.size_label.style().polish(self.size_label)

    def _cost(self, replan: Replan, comparison: Comparison, measure: Measure) -> tuple[str, str]:
        """What was counted, and by how much the totals are others."""
        if replan.before is None:
            settings = replan.shown.settings
            terms = self.tr("From {usable} usable width, with {seam} seams")
            return terms.format(
                usable=measure.length(settings.usable), seam=measure.length(settings.seam)
            ), ""
        count = comparison.count
        if replan.is_preview:
            many = self.tr("This would change {n} lines")
            said = self.tr("This would change 1 line") if count == 1 else many.format(n=count)
            none = self.tr("This would change nothing here")
        else:
            many = self.tr("The last step changed {n} lines")
            said = self.tr("The last step changed 1 line") if count == 1 else many.format(n=count)
            none = self.tr("The last step changed nothing here")
        if not comparison.marks:
            return none, ""
        return said if count else none, cost_text(replan.before, replan.shown, comparison)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        column.setSpacing(0)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, 0)
        place = _label("soft")
        place.setText(self.tr("Materials"))
        row.addWidget(place, 1)
        row.addWidget(self.resize_button)
        column.addLayout(row)
        for label, above in (
            (self.size_label, 0),
            (self.top_label, SPACE_HAIR),
            (self.real_label, SPACE_HAIR),
            (self.totals, SPACE),
        ):
            label.setContentsMargins(SPACE_WIDE, above, SPACE_WIDE, 0)
            column.addWidget(label)
        column.addSpacing(SPACE)
        column.addWidget(self.cost)


class CostLine(QWidget):
    """How many lines changed and what the change costs, with a bar beside it; its room is always kept free."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.caption = self.text = ""
        self._faces = Type(look.scale)
        self._most = 1

    def say(self, caption: str, text: str) -> None:
        """Show a caption and, under it, the cost."""
        if (caption, text) != (self.caption, self.text):
            self.caption, self.text = caption, text
            said = f"{caption}: {text}" if text else caption
            self.setAccessibleName(said)
            self.setToolTip(said)
            self.update()

    def dress(self) -> None:
        """Follow the theme and the size of type."""
        self._faces = Type(self._look.scale)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Where the longest cost would not fit on a line, two are kept free."""
        super().resizeEvent(event)
        self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802, ARG002 - Qt's name
        """Paint caption and cost."""
        theme, faces = self._look.theme, self._faces
        painter = QPainter(self)
        room = float(self.width() - 2 * SPACE_WIDE)
        y = faces.metrics["small"].ascent()
        painter.setFont(faces.fonts["small"])
        painter.setPen(QColor(theme.text_soft))
        for line in faces.lines(self.caption, "small", room, 1 if self.text else 2):
            painter.drawText(QPointF(SPACE_WIDE, y), line)
            y += faces.line("small")
        y += faces.metrics["strong"].ascent() - faces.metrics["small"].ascent()
        if self.text:
            lines = faces.lines(self.text, "strong", room, self._most)
            high = faces.line("small") + len(lines) * faces.line("strong")
            painter.fillRect(QRectF(0, 0, BAR, high), QColor(theme.accent))
            costs = any(sign in self.text for sign in "+−")
            painter.setFont(faces.fonts["strong" if costs else "body"])
            painter.setPen(QColor(theme.accent if costs else theme.text))
            for line in lines:
                painter.drawText(QPointF(SPACE_WIDE, y), line)
                y += faces.line("strong")
        painter.end()

    def _fit(self) -> None:
        faces = self._faces
        self._most = 1 if faces.width(_LONGEST, "strong") <= self.width() - 2 * SPACE_WIDE else 2
        self.setFixedHeight(round(faces.line("small") + self._most * faces.line("strong")) + SPACE_TIGHT)
        self.update()


def totals_text(plan: Materials, rows: tuple[Row, ...]) -> str:
    """The totals of a plan: blocks, sets to sew, strips to cut, cloth to buy; lines break between them."""
    cloth = next((row.value for row in rows if row.key == CLOTH), "")
    parts = (
        _counted(plan.block_count, _say("1 block"), _say("{n} blocks")),
        _counted(plan.set_count, _say("1 set to sew"), _say("{n} sets to sew")),
        _counted(plan.strip_count, _say("1 strip to cut"), _say("{n} strips to cut")),
        _say("{length} to buy").format(length=cloth),
    )
    return f"{_UNBROKEN}· ".join(part.replace(" ", _UNBROKEN) for part in parts)


def cost_text(before: Materials, after: Materials, comparison: Comparison) -> str:
    """What there is more or less to sew, cut and buy, such as "+1 set · +2 strips · +1/8 yd"."""
    counts = (
        (after.set_count - before.set_count, _say("{by} set"), _say("{by} sets")),
        (after.strip_count - before.strip_count, _say("{by} strip"), _say("{by} strips")),
    )
    parts = [_signed(by, one, many) for by, one, many in counts if by]
    cloth = comparison.marks.get(CLOTH)
    if cloth is not None:
        parts.append(cloth.delta)
    return _DOT.join(parts) or _say("the totals stay the same")


def _counted(count: int, one: str, many: str) -> str:
    return one if count == 1 else many.format(n=count)


def _signed(by: int, one: str, many: str) -> str:
    return (one if abs(by) == 1 else many).format(by=f"{'+' if by > 0 else '−'}{abs(by)}")


def _label(kind: str) -> QLabel:
    label = QLabel()
    label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label


def _set(label: QLabel, text: str) -> None:
    """Change a label only where its words change: it would lay itself out anew."""
    if label.text() != text:
        label.setText(text)


def _say(text: str) -> str:
    return QCoreApplication.translate("materials", text)
