"""The drawers of a window by name, each made when it is first pulled out where the shelf is."""

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QStackedWidget

if TYPE_CHECKING:
    from piecewright_qt.drawer import Drawer


class Drawers:
    """`pushed_in` brings back what was in the place of a drawer that is done."""

    def __init__(self, side: QStackedWidget, pushed_in: Callable[[], object]) -> None:
        self._side = side
        self._pushed_in = pushed_in
        self._known: dict[str, Drawer] = {}

    def show(self, name: str, make: "Callable[[], Drawer]", *, stays: bool = False) -> "Drawer":
        """Pull a drawer out; asked for again it is pushed in, unless it `stays`."""
        drawer = self._known.get(name)
        if drawer is None:
            drawer = self._known[name] = make()
            self._side.addWidget(drawer)
            drawer.done.connect(self._pushed_in)
        self._side.show()
        if self._side.currentWidget() is not drawer:
            drawer.begin()
            self._side.setCurrentWidget(drawer)
            drawer.focus_first()
        elif not stays:
            self._pushed_in()
        return drawer
