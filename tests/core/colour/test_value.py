"""Color measures keep order and symmetry; published figures are checked with the other outside values."""

import os
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.colour.value import contrast, difference, lab_of, lightness, values_by_terciles

colors = st.integers(0, 0xFFFFFF).map(lambda n: f"#{n:06x}")
grays = st.integers(0, 255).map(lambda n: f"#{n:02x}{n:02x}{n:02x}")


def test_black_and_white_are_the_ends() -> None:
    assert lightness("#000000") == pytest.approx(0, abs=1e-6)
    assert lightness("#ffffff") == pytest.approx(100, abs=1e-6)
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21, abs=1e-6)


@given(colors)
def test_lightness_lies_between_black_and_white(color: str) -> None:
    assert -1e-6 <= lightness(color) <= 100 + 1e-6
    assert lab_of(color)[0] == lightness(color)
    assert lightness(color) == lightness(color.upper())


@given(st.integers(0, 254))
def test_a_lighter_gray_is_lighter(level: int) -> None:
    darker, lighter = (f"#{n:02x}{n:02x}{n:02x}" for n in (level, level + 1))
    assert lightness(darker) < lightness(lighter)


@given(colors, colors)
def test_difference_and_contrast_do_not_mind_the_order(first: str, second: str) -> None:
    assert difference(first, second) == pytest.approx(difference(second, first), abs=1e-9)
    assert difference(first, second) >= 0
    assert difference(first, first) == 0
    assert contrast(first, second) == contrast(second, first)
    assert 1 <= contrast(first, second) <= 21 + 1e-9


@given(st.lists(colors, max_size=12))
def test_values_follow_lightness(many: list[str]) -> None:
    order = {"dark": 0, "medium": 1, "light": 2}
    values = values_by_terciles(many)
    assert len(values) == len(many)
    ranked = sorted(zip(map(lightness, many), values, strict=True))
    ranks = [order[value] for _, value in ranked]
    assert ranks == sorted(ranks)
    assert len({(color, value) for color, value in zip(many, values, strict=True)}) == len(set(many))


@given(st.lists(grays, min_size=1, max_size=12, unique=True))
def test_unlike_colors_part_into_thirds(many: list[str]) -> None:
    values = values_by_terciles(many)
    counts = [values.count(value) for value in ("dark", "medium", "light")]
    assert counts[0] == counts[2]
    assert max(counts) - min(counts) <= 1 or len(many) == 1


def test_few_colors() -> None:
    assert values_by_terciles([]) == ()
    assert values_by_terciles(["#123456"]) == ("medium",)
    assert values_by_terciles(["#ffffff", "#000000"]) == ("light", "dark")
    assert values_by_terciles(["#777777", "#ffffff", "#000000"]) == ("medium", "light", "dark")
    assert values_by_terciles(["#333333", "#333333", "#cccccc"]) == ("dark", "dark", "light")
    assert values_by_terciles(["#333333", "#cccccc", "#cccccc"]) == ("dark", "light", "light")
    assert values_by_terciles(["#777777"] * 4) == ("medium",) * 4


@pytest.mark.parametrize("text", ["", "red", "#fff", "#12345g", "#1234567", "rgb(0,0,0)", "#123456\n"])
def test_only_hex_colors_are_measured(text: str) -> None:
    with pytest.raises(ValueError, match="#rrggbb"):
        lightness(text)


def test_the_color_library_is_not_loaded_before_it_is_used() -> None:
    code = "import sys, piecewright.colour.value; sys.exit('coloraide' in sys.modules)"
    environment = os.environ | {"PYTHONPATH": os.pathsep.join(sys.path)}
    assert subprocess.run([sys.executable, "-c", code], env=environment, check=False).returncode == 0
