"""Both palettes can be read: text 4.5 to 1, the edges and marks of what can be used 3 to 1.

Ratios and limits: Web Content Accessibility Guidelines 2.2, success criteria 1.4.3 and 1.4.11 (W3C).
"""

import pytest

from piecewright.colour.value import contrast
from piecewright_qt.theme.icons import icon_names, inked
from piecewright_qt.theme.tokens import THEMES, Scale, Theme

TEXT, PARTS = 4.5, 3.0
GROUNDS = ("ground", "surface", "raised")
WORDS = ("text", "text_soft", "warn", "error", "good", "accent")
themes = pytest.mark.parametrize("theme", THEMES.values(), ids=lambda theme: theme.name)


@themes
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("word", WORDS)
def test_words_can_be_read_on_every_ground(theme: Theme, ground: str, word: str) -> None:
    assert contrast(getattr(theme, word), getattr(theme, ground)) >= TEXT


@themes
@pytest.mark.parametrize(
    ("word", "ground"), [("on_accent", "accent"), ("on_accent_soft", "accent_soft"), ("text", "flannel")]
)
def test_words_can_be_read_on_what_is_chosen_and_on_the_wall(theme: Theme, word: str, ground: str) -> None:
    assert contrast(getattr(theme, word), getattr(theme, ground)) >= TEXT


@themes
@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("part", ["outline", "accent"])
def test_edges_of_what_can_be_used_stand_out(theme: Theme, ground: str, part: str) -> None:
    assert contrast(getattr(theme, part), getattr(theme, ground)) >= PARTS


@pytest.mark.parametrize("percent", [75, 100, 150, 200, 250])
def test_targets_never_get_small_and_grow_with_the_text(percent: int) -> None:
    scale = Scale(percent / 100)
    assert scale.target >= 24
    assert scale.target >= scale.body
    assert scale.small < scale.body < scale.lead < scale.title


@pytest.mark.parametrize("name", icon_names())
@pytest.mark.parametrize("sharpness", [1.0, 1.5, 2.0, 3.0])
def test_icons_are_drawn_at_every_sharpness(qapp: object, name: str, sharpness: float) -> None:
    image = inked(name, "#204060", sharpness=sharpness).toImage()
    assert image.width() == image.height() == round(24 * sharpness)
    inks = {image.pixelColor(x, y).alpha() for x in range(image.width()) for y in range(image.height())}
    assert max(inks) > 200
    assert min(inks) == 0
