"""The ways of arranging, as they are offered: words, and what each may be asked besides."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QCoreApplication

from piecewright.arrange.arranging import Layout, Scatter, Wish
from piecewright.arrange.targets import Bands, Checker, FromCenter, Rings, Shape, Toward
from piecewright.edit.registry import Cell

Besides = Literal["direction", "width", "other", "nothing"]
"""What a way is asked besides: where the light is to lie, how many cells wide, light and dark exchanged."""


@dataclass(frozen=True)
class Asked:
    """What the fields beside a way say; `shape` is what is selected on the wall."""

    degrees: int = 90
    width: int = 1
    other: bool = False
    shape: tuple[Cell, ...] = ()


@dataclass(frozen=True)
class Way:
    """One way: its name, what it is asked besides, and the wish that it makes. `seeded`: chance has a say in it."""

    name: str
    besides: Besides
    wish: Callable[[Asked], Wish]
    seeded: bool = True
    of_selection: bool = True


def say(text: str) -> str:
    """A text of the drawer in the user's language."""
    return QCoreApplication.translate("arranging", text)


def ways() -> tuple[Way, ...]:
    """All of them, in the order they are offered."""
    return (
        Way(say("Scatter"), "nothing", lambda _: Scatter()),
        Way(say("Dark to light, across"), "direction", lambda asked: Toward(asked.degrees)),
        Way(say("Dark in the center, light at the edge"), "other", lambda asked: FromCenter(asked.other)),
        Way(say("Rings of light and dark"), "width", lambda asked: Rings(asked.width)),
        Way(say("Diagonal bands"), "width", lambda asked: Bands(45, asked.width)),
        Way(say("Checker of light and dark"), "nothing", lambda _: Checker()),
        Way(
            say("The selected shape lighter"),
            "other",
            lambda asked: Shape(asked.shape, asked.other),
            of_selection=False,
        ),
        Way(say("Barn raising"), "other", lambda asked: Layout("barn raising", asked.other), seeded=False),
        Way(
            say("Straight furrow"),
            "other",
            lambda asked: Layout("straight furrow", asked.other),
            seeded=False,
        ),
        Way(
            say("Streak of lightning"),
            "other",
            lambda asked: Layout("streak of lightning", asked.other),
            seeded=False,
        ),
        Way(say("Basket weave"), "other", lambda asked: Layout("basket weave", asked.other), seeded=False),
        Way(
            say("Every second one upside down"),
            "other",
            lambda asked: Layout("alternate turns", asked.other),
            seeded=False,
        ),
    )


def directions() -> list[tuple[object, str]]:
    """Where the light may be asked to lie: degrees clockwise from the right-hand side."""
    return [
        (90, say("Light at the bottom")),
        (270, say("Light at the top")),
        (0, say("Light at the right")),
        (180, say("Light at the left")),
        (45, say("Light at the bottom right")),
        (135, say("Light at the bottom left")),
        (315, say("Light at the top right")),
        (225, say("Light at the top left")),
    ]
