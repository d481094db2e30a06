"""The design's name, and the quilter's own seam, cloth and habits, which every number takes into account."""

from collections.abc import Callable
from fractions import Fraction

from PySide6.QtWidgets import QPlainTextEdit

from piecewright.edit.registry import EditCall, call
from piecewright.files.beginning import load_beginning, with_beginning
from piecewright.model.beginning import beginning_of
from piecewright.model.design import Design
from piecewright.model.settings import PERFECT_STRIPS, Settings
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.shelf.fields import CheckField, Field, TextField
from piecewright_qt.trade_fields import TradeDrawer

_STRIP = Fraction(5, 2)
_ABOUT_LINES = 4


class NotesField(Field):
    """Text of several lines."""

    def __init__(self, label: str) -> None:
        super().__init__(label)
        self.area = QPlainTextEdit()
        self.area.setTabChangesFocus(True)
        self.area.setFixedHeight(self.area.fontMetrics().lineSpacing() * _ABOUT_LINES + 16)
        self.hold(self.area)
        self.area.textChanged.connect(self.edited)

    def show_value(self, text: str) -> None:
        """Show a text, silently."""
        if text != self.area.toPlainText():
            self.area.blockSignals(True)  # noqa: FBT003 - Qt's own signature
            self.area.setPlainText(text)
            self.area.blockSignals(False)  # noqa: FBT003 - Qt's own signature


class SettingsDrawer(TradeDrawer):
    """Each field is an edit of the design; they are settings of this design, not of the program."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__(document, look, self.tr("This design"))
        look.noted.connect(self._show_liked)

    def build(self) -> None:
        """Whose it is; then seam, cloth, truing, washing and buying, each under its heading."""
        self.settings_shown = {}
        self._build_names()
        with self.fold("seam", self.tr("Your seam"), is_open=True):
            self._build_seam()
        with self.fold("cloth", self.tr("Your cloth"), is_open=True):
            self.add_setting("settings.usable", self.tr("Usable width"))
            self.add_setting("settings.oversize", self.tr("Cut what has bias larger by"))
        with self.fold("truing", self.tr("Truing of strip sets")):
            self.add_setting("settings.trim_first", self.tr("Cut off the first end"))
            self.add_setting("settings.trim_again", self.tr("Cut off again"))
            self.add_setting("settings.trim_every", self.tr("After so many cuts"))
        with self.fold("washing", self.tr("Washing and quilting")):
            self._build_washing()
        with self.fold("buying", self.tr("Buying")):
            self._build_buying()
        with self.fold("bundles", self.tr("Bundles and fat quarters")):
            self._build_bundles()
        with self.fold("bed", self.tr("Country and beds")):
            self.add_setting("settings.country", self.tr("Country"))
            self.add_setting("settings.drop", self.tr("Drop"))
            self.add_setting("settings.tuck", self.tr("Pillow tuck"))
        self._build_liked()

    def show_values(self, design: Design) -> None:
        """Show what the design has."""
        for line, text in ((self.name, design.name), (self.author, design.author)):
            if line.line.text() != text:
                line.show_value(text)
        self.about.show_value(design.about)
        self.show_settings(design)
        self._tell_loss(design.settings)
        self._show_liked()

    def _build_names(self) -> None:
        self.name = self._text(self.tr("Name"), lambda text: call("set-name", name=text))
        self.author = self._text(self.tr("Author"), lambda text: call("set-author", author=text))
        self.about = NotesField(self.tr("About it"))
        self.about.edited.connect(self._set_about)
        self.body.addWidget(self.about)

    def _build_seam(self) -> None:
        self.add_setting("settings.seam", self.tr("Seam allowance"))
        self.add_setting("settings.three_strips", self.tr("Three strips sewn, as measured"))
        self.add_note(
            self.tr(
                "Sew three strips, each cut {strip} wide, press, and measure across: {perfect} if your seam is perfect."
            ).format(strip=self.look.measure.length(_STRIP), perfect=self.look.measure.length(PERFECT_STRIPS))
        )
        self._loss = self.add_note("")

    def _build_washing(self) -> None:
        self.add_setting("settings.shrinkage.cloth", self.tr("Cloth shrinks by"))
        self.add_setting("settings.shrinkage.batting", self.tr("Batting shrinks by"))
        self.add_setting("settings.shrinkage.take_up", self.tr("Quilting takes up"))
        self.add_setting("settings.shrinkage.way", self.tr("Reckoned so"))

    def _build_buying(self) -> None:
        self.add_setting("settings.yardage", self.tr("Round yardage up to this part of a yard"))
        self.add_setting("settings.margin", self.tr("Added before rounding"))
        self.add_setting("settings.lengths", self.tr("Round sizes up to this part of an inch"))
        self.add_setting("settings.currency", self.tr("Currency of prices"))

    def _build_bundles(self) -> None:
        self.add_setting("settings.bundles.quarter_width", self.tr("Width of a fat quarter"))
        self.add_setting("settings.bundles.quarter_length", self.tr("Length of a fat quarter"))
        self.add_setting("settings.bundles.roll", self.tr("Strips of a roll"))
        self.add_setting("settings.bundles.squares", self.tr("Squares of a bundle"))

    def _build_liked(self) -> None:
        """What is not of this design: what new ones begin with, and the hand that cuts."""
        self.add_heading(self.tr("Every design"))
        self.keep = WrapButton(self.tr("Begin new designs so"))
        self.keep.setToolTip(
            self.tr("Keep these settings, this binding, backing and batting for new designs")
        )
        self.keep.clicked.connect(self._keep)
        self.body.addWidget(self.keep)
        self.kept = self.add_note("")
        self.left_handed = CheckField(
            self.tr("Left-handed"), self.tr("The pictures of cutting are mirrored; a block never is")
        )
        self.left_handed.box.clicked.connect(lambda on: self.look.prefer(left_handed=on))
        self.body.addWidget(self.left_handed)
        self.add_note(self.tr("The pictures of cutting are mirrored; a block never is."))

    def _text(self, label: str, make: Callable[[str], EditCall]) -> TextField:
        field = TextField(label)
        field.edited.connect(lambda: self.try_edit(field, lambda: make(field.line.text())))
        self.body.addWidget(field)
        return field

    def _set_about(self) -> None:
        self.try_edit(self.about, lambda: call("set-about", about=self.about.area.toPlainText()))

    def _keep(self) -> None:
        liked = with_beginning(self.look.preferences, beginning_of(self.document.design))
        self.look.note(new_design=liked.new_design)

    def _show_liked(self) -> None:
        """Whether new designs begin as this one is."""
        alike = load_beginning(self.look.preferences)[0] == beginning_of(self.document.design)
        self.keep.setEnabled(not alike)
        self.kept.setText(
            self.tr("New designs begin with these settings, and with this binding, backing and batting.")
            if alike
            else self.tr(
                "New designs would begin with these settings, and with this binding, backing and batting."
            )
        )
        self.left_handed.box.setChecked(self.look.preferences.left_handed)

    def _tell_loss(self, settings: Settings) -> None:
        lost, measure = settings.lost_per_seam, self.look.measure
        if not lost:
            text = self.tr("Your seam takes just what it should.")
        elif lost > 0:
            text = self.tr("Each of your seams takes {lost} more than it should.")
        else:
            text = self.tr("Each of your seams takes {lost} less than it should.")
        self._loss.setText(text.format(lost=measure.length(abs(lost))))
