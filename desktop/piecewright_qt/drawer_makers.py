"""The drawers that are pulled out where the shelf is, by name; each is read in when it is first asked for."""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from piecewright_qt.drawer import Drawer
    from piecewright_qt.window import Window


def _setting(window: "Window") -> "Drawer":
    from piecewright_qt.setting.drawer import SettingDrawer

    drawer = SettingDrawer(window.document, window.look, window.wall.selection, window.workroom.runner)
    drawer.sewing_asked.connect(window.open_sewing_plan)
    return drawer


def _around(window: "Window") -> "Drawer":
    from piecewright_qt.around import AroundDrawer

    return AroundDrawer(window.document, window.look)


def _arrange(window: "Window") -> "Drawer":
    from piecewright_qt.arranging.drawer import ArrangeDrawer

    return ArrangeDrawer(window.document, window.look, window.wall.selection, window.workroom.runner)


def _shape(window: "Window") -> "Drawer":
    from piecewright_qt.shaping.drawer import ShapeDrawer

    return ShapeDrawer(window.document, window.look)


def _values(window: "Window") -> "Drawer":
    from piecewright_qt.values.drawer import ValuesDrawer

    return ValuesDrawer(window.document, window.look, window.wall)


def _history(window: "Window") -> "Drawer":
    from piecewright_qt.history import HistoryDrawer

    return HistoryDrawer(window.document, window.look)


def _settings(window: "Window") -> "Drawer":
    from piecewright_qt.design_settings import SettingsDrawer

    return SettingsDrawer(window.document, window.look)


DRAWERS: Mapping[str, Callable[["Window"], "Drawer"]] = MappingProxyType(
    {
        "setting": _setting,
        "around": _around,
        "arrange": _arrange,
        "shape": _shape,
        "values": _values,
        "history": _history,
        "settings": _settings,
        "recipes": lambda window: window.recipes.drawer(),
    }
)
"""What makes each: the setting of the quilt; borders, binding, backing; arranging; the shape to cover; values;
history; settings; the user's own recipes."""
AT_THE_WALL = frozenset(("setting", "arrange", "shape", "values"))
"""Those whose work is seen on the wall."""
