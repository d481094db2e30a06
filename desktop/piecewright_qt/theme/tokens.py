"""Colors, type and spacing of the window: our own two palettes, one type scale, one spacing scale."""

from dataclasses import dataclass
from typing import Literal

ThemeName = Literal["light", "dark"]


@dataclass(frozen=True, slots=True)
class Theme:
    """Named colors as #rrggbb. Text on any ground reaches 4.5:1, outlines and marks 3:1 (a test measures both)."""

    name: ThemeName
    ground: str  # the window behind everything
    surface: str  # panels and bars
    raised: str  # cards, fields, menus
    flannel: str  # the wall the blocks hang on
    flannel_line: str  # its quiet grid
    line: str  # hairlines between areas: decoration only
    outline: str  # edges of things one can use
    text: str
    text_soft: str
    accent: str
    on_accent: str
    accent_soft: str  # selection and hover grounds
    on_accent_soft: str
    warn: str
    error: str
    good: str


LIGHT = Theme(
    name="light",
    ground="#f3f0ea",
    surface="#faf8f4",
    raised="#ffffff",
    flannel="#e4e0d8",
    flannel_line="#d2ccc1",
    line="#ddd7cc",
    outline="#857e72",
    text="#22201d",
    text_soft="#5a544b",
    accent="#27566d",
    on_accent="#ffffff",
    accent_soft="#d8e6ec",
    on_accent_soft="#173745",
    warn="#7d4400",
    error="#9c2328",
    good="#2a6337",
)

DARK = Theme(
    name="dark",
    ground="#1c1e1f",
    surface="#242728",
    raised="#2f3334",
    flannel="#3a3e3f",
    flannel_line="#4a4f50",
    line="#383c3d",
    outline="#8d9496",
    text="#eeebe5",
    text_soft="#bcb6ac",
    accent="#93c5db",
    on_accent="#0e232d",
    accent_soft="#2b4857",
    on_accent_soft="#e3f1f7",
    warn="#ecb873",
    error="#f4a29c",
    good="#98cfa5",
)

THEMES: dict[ThemeName, Theme] = {"light": LIGHT, "dark": DARK}


@dataclass(frozen=True, slots=True)
class Scale:
    """Sizes in device-independent pixels at a text scale of 1; `text` enlarges type and what must hold it."""

    text: float = 1.0

    @property
    def small(self) -> int:
        """Captions and units."""
        return round(12 * self.text)

    @property
    def body(self) -> int:
        """Reading text, buttons, fields."""
        return round(13.5 * self.text)

    @property
    def lead(self) -> int:
        """Headings inside a panel and the numbers that matter."""
        return round(16 * self.text)

    @property
    def title(self) -> int:
        """The name of a place, the start page."""
        return round(22 * self.text)

    @property
    def target(self) -> int:
        """Least width and height of anything to press."""
        return max(28, round(28 * self.text))


SPACE_HAIR, SPACE_TIGHT, SPACE, SPACE_WIDE, SPACE_PAGE = 2, 4, 8, 16, 24
RADIUS = 6
