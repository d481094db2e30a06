"""Topic 9: lightness, difference and contrast against what is printed; sources in check_values.json by id.

The rows of plain color science hold the library we measure by; those with screen colors go through our own.
"""

import pytest
from coloraide import Color

from piecewright.colour.value import Lab, contrast, lab_difference, lab_of, lightness
from tests.outside.published import Row, Topic

TOPIC = Topic("9")

# The two tables of Lab values round the white point to four digits, which moves a and b by about a hundredth.
WHITE_POINT_NOISE = 0.015


def lab_in(color: Color) -> Lab:
    lightness, a, b = color.coords()
    return (lightness, a, b)


def hex_of(levels: list[int]) -> str:
    red, green, blue = levels
    return f"#{red:02x}{green:02x}{blue:02x}"


def luminance(color: str) -> float:
    """WCAG relative luminance, from the contrast with black: (Y + 0.05) / 0.05."""
    return contrast(color, "#000000") * 0.05 - 0.05


@TOPIC.asserts(*TOPIC.ids(lambda row: "ciede2000_pair" in row.inputs))
def test_difference_of_published_pairs(row: Row) -> None:
    first, second = tuple(row.inputs["lab1"]), tuple(row.inputs["lab2"])
    assert lab_difference(first, second) == pytest.approx(row.expected, abs=0.00005)
    assert lab_difference(second, first) == pytest.approx(row.expected, abs=0.00005)


@TOPIC.asserts("I035")
def test_lab_from_xyz_in_daylight(row: Row) -> None:
    measured = lab_in(Color("xyz-d65", row.inputs["xyz_to_lab"]).convert("lab-d65"))
    assert measured == pytest.approx(row.expected, abs=WHITE_POINT_NOISE)


@TOPIC.asserts("I036")
def test_lab_from_xyz_in_print_light(row: Row) -> None:
    measured = lab_in(Color("xyz-d50", row.inputs["xyz_to_lab"]).convert("lab"))
    assert measured == pytest.approx(row.expected, abs=WHITE_POINT_NOISE)


@TOPIC.asserts("I038")
def test_lab_from_xyz_with_the_white_point_given_by_its_chromaticity(row: Row) -> None:
    measured = lab_in(Color("xyz-d50", row.inputs["xyz_to_lab"]).convert("lab"))
    assert measured == pytest.approx(row.expected, abs=0.000001)


@TOPIC.asserts("I039")
def test_xyz_from_lab(row: Row) -> None:
    measured = Color("lab-d65", row.inputs["lab_to_xyz"]).convert("xyz-d65").coords()
    assert measured == pytest.approx(row.expected, abs=0.0001)


@TOPIC.asserts("I045")
def test_middle_gray_reflects_18_percent(row: Row) -> None:
    gray = Color("lab-d65", [row.inputs["Y_for_L*"], 0, 0])
    assert 100 * gray.luminance() == pytest.approx(row.expected, abs=0.05)


@TOPIC.asserts("I046")
def test_middle_gray_on_the_screen(row: Row) -> None:
    level = round(row.expected / 100 * 255)
    assert lightness(hex_of([level] * 3)) == pytest.approx(row.inputs["srgb_level_for_L*"], abs=0.25)


@TOPIC.asserts("I047", "I050")
def test_lab_of_screen_colors(row: Row) -> None:
    color = hex_of(row.inputs["srgb_to_lab"])
    assert lab_of(color) == pytest.approx(row.expected, abs=0.01)
    assert lightness(color) == pytest.approx(row.expected[0], abs=0.01)


@TOPIC.asserts("I051")
def test_luminance_of_the_primaries(row: Row) -> None:
    measured = [luminance(color) for color in ("#ff0000", "#00ff00", "#0000ff")]
    assert measured == pytest.approx(row.expected, abs=0.00005)


@TOPIC.asserts("I053", "I055", "I059")
def test_contrast_of_published_pairs(row: Row) -> None:
    first, second = row.inputs["contrast"]
    assert contrast(first, second) == pytest.approx(row.expected, abs=0.005)
    assert contrast(second, first) == contrast(first, second)


@TOPIC.refutes("I054")
def test_the_gray_of_that_contrast_is_another(row: Row) -> None:
    gray, white = hex_of([round(0.46 * 255)] * 3), row.inputs["contrast"][1]
    # 46 percent is 117.3 of 255 levels: the screen has the level below, a little darker
    assert contrast(gray, white) == pytest.approx(row.recomputed, abs=0.05)
    assert contrast(gray, white) > row.expected + 0.01
    assert contrast("#767676", white) == pytest.approx(row.expected, abs=0.005)


@TOPIC.refutes("I061", "I063")
def test_contrasts_that_were_guessed_too_low(row: Row) -> None:
    first, second = row.inputs["contrast"]
    assert contrast(first, second) == pytest.approx(row.recomputed, abs=0.005)
    assert contrast(first, second) > row.expected + 0.8


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    TOPIC.check_covered({})
