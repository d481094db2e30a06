"""The style sheet over Fusion: one look for every control, written from the tokens."""

from functools import cache
from importlib.resources import files
from pathlib import Path
from string import Template

from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_TIGHT, Scale, Theme

_SHEET = Template("""
* { font-size: ${body}px; }
QWidget { color: $text; }
QMainWindow, QDialog { background: $ground; }
QToolTip { background: $text; color: $surface; border: none; padding: ${tight}px ${space}px; }

[place="panel"] { background: $surface; }
[place="bar"] { background: $surface; border-bottom: 1px solid $line; }
[place="flannel"] { background: $flannel; }
[place="notice"] { background: $raised; border-bottom: 2px solid $warn; }
[place="foot"] { background: $surface; border-top: 1px solid $line; }
[place="card"] { background: $raised; border: 1px solid $line; border-radius: ${radius}px; }
[type="title"] { font-size: ${title}px; font-weight: 600; }
[type="lead"] { font-size: ${lead}px; font-weight: 600; }
[type="small"] { font-size: ${small}px; color: $text_soft; }
[type="soft"] { color: $text_soft; }
[type="strong"] { font-weight: 600; }
[tone="warn"] { color: $warn; }
[tone="error"] { color: $error; }
[tone="good"] { color: $good; }

QPushButton, QToolButton {
  background: transparent; border: 1px solid transparent; border-radius: ${radius}px;
  padding: ${tight}px ${space}px; min-height: ${inner}px; min-width: ${inner}px;
}
QPushButton { background: $raised; border-color: $outline; }
QPushButton:hover, QToolButton:hover { background: $accent_soft; color: $on_accent_soft; }
QPushButton:pressed, QToolButton:pressed { background: $accent; color: $on_accent; }
QPushButton:checked, QToolButton:checked { background: $accent_soft; color: $on_accent_soft; border-color: $accent; }
QPushButton[weight="main"] { background: $accent; color: $on_accent; border-color: $accent; font-weight: 600; }
QPushButton[weight="main"]:hover { background: $on_accent_soft; color: $accent_soft; }
QPushButton[weight="fold"] {
  background: transparent; border-color: transparent; border-radius: 0; text-align: left; font-weight: 600;
}
QPushButton[weight="fold"]:hover { background: $accent_soft; }
QPushButton:disabled { color: $outline; border-color: $line; background: transparent; }
QToolButton:disabled { color: $outline; border-color: transparent; background: transparent; }
QCheckBox, QRadioButton { border: 2px solid transparent; padding: 1px; }
QPushButton:focus, QToolButton:focus, QLineEdit:focus, QComboBox:focus, QSpinBox:focus, QDoubleSpinBox:focus,
QPlainTextEdit:focus, QSlider:focus, QCheckBox:focus, QRadioButton:focus, QListView:focus, QTreeView:focus,
QTableView:focus { border: 2px solid $accent; border-radius: ${radius}px; }
QToolButton::menu-indicator { image: none; }
QLineEdit QToolButton { min-height: 0; min-width: 0; padding: 0; border: none; }

QLineEdit, QComboBox, QSpinBox, QDoubleSpinBox, QPlainTextEdit {
  background: $raised; border: 1px solid $outline; border-radius: ${radius}px;
  padding: ${tight}px ${space}px; min-height: ${inner}px;
  selection-background-color: $accent; selection-color: $on_accent;
}
QLineEdit:disabled, QComboBox:disabled { color: $outline; border-color: $line; }
QComboBox::drop-down {
  subcontrol-origin: padding; subcontrol-position: center right; border: none; width: 24px;
}
QComboBox::down-arrow { image: url("$controls/down.svg"); width: 14px; height: 14px; }
QSpinBox::up-button, QDoubleSpinBox::up-button {
  subcontrol-origin: border; subcontrol-position: top right; border: none; width: 24px;
}
QSpinBox::down-button, QDoubleSpinBox::down-button {
  subcontrol-origin: border; subcontrol-position: bottom right; border: none; width: 24px;
}
QSpinBox::up-arrow, QDoubleSpinBox::up-arrow { image: url("$controls/up.svg"); width: 12px; height: 12px; }
QSpinBox::down-arrow, QDoubleSpinBox::down-arrow { image: url("$controls/down.svg"); width: 12px; height: 12px; }

QCheckBox::indicator, QListView::indicator {
  width: 18px; height: 18px; background: $raised; border: 1px solid $outline; border-radius: 4px;
}
QCheckBox::indicator:hover, QListView::indicator:hover { border-color: $accent; }
QCheckBox::indicator:checked, QListView::indicator:checked {
  background: $accent; border-color: $accent; image: url("$controls/check-$name.svg");
}

QListView, QTreeView, QTableView, QScrollArea { background: $surface; border: none; }
QListView::item, QTreeView::item { padding: ${tight}px; border-radius: ${radius}px; min-height: ${inner}px; }
QListView::item:selected, QTreeView::item:selected { background: $accent_soft; color: $on_accent_soft; }
QHeaderView::section { background: $surface; color: $text_soft; border: none; padding: ${tight}px; }

QMenuBar { background: $surface; }
QMenuBar::item { padding: ${tight}px ${space}px; background: transparent; border-radius: ${radius}px; }
QMenuBar::item:selected { background: $accent_soft; color: $on_accent_soft; }
QMenu { background: $raised; border: 1px solid $line; padding: ${tight}px; }
QMenu::item { padding: ${tight}px 24px; border-radius: ${radius}px; min-height: ${inner}px; }
QMenu::item:selected { background: $accent_soft; color: $on_accent_soft; }
QMenu::item:disabled { color: $outline; }
QMenu::separator { height: 1px; background: $line; margin: ${tight}px ${space}px; }

QSplitter::handle { background: $line; }
QSplitter::handle:hover { background: $accent; }
QScrollBar:vertical { background: transparent; width: 12px; margin: 0; }
QScrollBar:horizontal { background: transparent; height: 12px; margin: 0; }
QScrollBar::handle { background: $outline; border-radius: 4px; margin: 2px; min-height: 28px; min-width: 28px; }
QScrollBar::add-line, QScrollBar::sub-line { width: 0; height: 0; }
QScrollBar::add-page, QScrollBar::sub-page { background: transparent; }

QSlider::groove:horizontal { height: 4px; background: $outline; border-radius: 2px; }
QSlider::sub-page:horizontal { background: $accent; border-radius: 2px; }
QSlider::handle:horizontal {
  background: $raised; border: 2px solid $accent; width: 20px; height: 20px; margin: -10px 0; border-radius: 12px;
}
QTabBar::tab { padding: ${space}px; border: none; border-bottom: 3px solid transparent; color: $text_soft; }
QTabBar::tab:selected { color: $text; border-bottom-color: $accent; font-weight: 600; }
QTabBar::tab:focus { color: $accent; }
QProgressBar { border: 1px solid $outline; border-radius: ${radius}px; text-align: center; background: $raised; }
QProgressBar::chunk { background: $accent; border-radius: ${radius}px; }
""")


def style_sheet(theme: Theme, scale: Scale) -> str:
    """The whole sheet for a theme at a text scale. Widgets choose by the properties place, type, tone and weight."""
    values: dict[str, object] = {name: getattr(theme, name) for name in Theme.__slots__}
    values |= {
        "small": scale.small,
        "body": scale.body,
        "lead": scale.lead,
        "title": scale.title,
        "inner": scale.target - 2 * SPACE_TIGHT - 2,
        "tight": SPACE_TIGHT,
        "space": SPACE,
        "radius": RADIUS,
        "controls": _controls(),
    }
    return _SHEET.substitute(values)


@cache
def _controls() -> str:
    """The folder of the small arrows: gray, 3:1 on the fields of both themes, for a style sheet can not ink them."""
    return Path(str(files("piecewright_data"))).joinpath("controls").as_posix()
