"""Materials as JSON and as a list: complete, exact, in any measure, and in step with the plan."""

import json
from fractions import Fraction
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.plan.materials import Materials, materials, sets_in_order
from piecewright.plan.report import materials_report
from piecewright.plan.text import WIDEST, materials_text
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from tests.core.plan.samples import BOLT, letters, rails
from tests.core.strategies import designs

MEASURES = st.sampled_from((Measure(), Measure(fraction=8), Measure("cm", comma=True), Measure("mm")))


def throw() -> Design:
    red = {"binding": Binding("f4"), "backing": Backing("f5")}
    found = rails(110, BOLT, borders=(Border("f4", Fraction(3)),), **red)
    priced = found.fabrics[3].changed(name="red", price=Fraction(12))
    return found.changed(fabrics=(*found.fabrics[:3], priced, *found.fabrics[4:]))


@given(designs())
def test_the_report_is_json_and_every_length_in_it_is_exact_text_and_decimal(found: Design) -> None:
    report = materials_report(materials(found))
    assert json.loads(json.dumps(report)) == report
    assert report["materials"] == 1
    lengths = list(_lengths(report))
    assert lengths
    for length in lengths:
        assert float(parse_length(length["text"], allow_negative=True)) == length["inches"]


def _lengths(part: object) -> list[dict[str, Any]]:
    if isinstance(part, dict):
        own = [part] if part.keys() == {"text", "inches"} else []
        return own + [length for inner in part.values() for length in _lengths(inner)]
    if isinstance(part, list):
        return [length for inner in part for length in _lengths(inner)]
    return []


def test_the_report_of_a_throw_tells_what_to_cut_and_buy() -> None:
    report = materials_report(materials(throw()))
    (sets,) = report["sets"]
    assert [strip["cut_width"]["text"] for strip in sets["strips"]] == ["2 1/2"] * 3
    assert (sets["sets"], sets["blocks"], sets["blocks_per_set"]) == (19, 110, 6)
    assert [(cut["sets"], cut["segments"][0]["count"]) for cut in sets["cuts"]] == [(18, 6), (1, 2)]
    assert report["size"]["unfinished"]["word"] == "unfinished"
    assert report["size"]["unfinished"]["width"] == {"text": "66 1/2", "inches": 66.5}
    red = next(cloth for cloth in report["cloth"] if cloth["name"] == "red")
    assert [(use["part"], use["count"], use["size"]["text"]) for use in red["uses"]] == [
        ("border 1", 7, "3 1/2"),
        ("binding", 8, "2 1/2"),
    ]
    assert red["cloth"]["text"] == "44 1/2"
    assert red["buy_yards"] == {"text": "1 1/4", "yards": 1.25}
    assert red["cost"] == report["cost"] == 15.0


@given(designs(), MEASURES)
def test_the_list_is_clean_text_in_any_measure(found: Design, measure: Measure) -> None:
    made = materials(found)
    text = materials_text(made, measure)
    assert text.endswith("\n")
    assert not text.endswith("\n\n")
    for line in text.splitlines():
        assert line.isprintable()
        assert line == line.rstrip()
    for cloth in made.cloth:
        assert measure.yards(cloth.yardage) in text


def test_the_list_of_a_throw_reads_as_one_cuts() -> None:
    lines = materials_text(materials(throw())).splitlines()
    assert lines[0] == "Sample: materials for Wall"
    assert "  red      1 1/4 yd  7 x 3 1/2 in cut       for border 1" in lines
    assert "                     8 x 2 1/2 in cut       for the binding" in lines
    assert "  19 sets, 6 blocks to a set  Cloth 1 2 1/2, Cloth 2 2 1/2, Cloth 3 2 1/2" in lines
    assert "                              18 cut into 6 x 6 1/2 in; 2 1/4 in to spare" in lines
    assert "    sides           2 of 66 1/2 x 3 1/2 in cut" in lines
    assert "  quilt                               66 x 72 in finished" in lines
    assert all(len(line) <= WIDEST for line in lines if line.startswith("    "))


def test_sets_are_told_in_the_order_of_the_fabrics_not_of_their_ids() -> None:
    found = rails(2)
    tenth = tuple(fabric.changed(id=f"f{n}") for n, fabric in zip((9, 10, 11), found.fabrics, strict=False))
    blocks = tuple(
        found.blocks[0].changed(id=f"b{n + 40}", fabrics=letters(A=f"f{n}", B="f9", C="f9")) for n in (10, 9)
    )
    row = found.quilt.rows[0]
    laid = tuple(
        placement.changed(block=block.id) for placement, block in zip(row.placements, blocks, strict=True)
    )
    wall = found.quilt.changed(rows=(row.changed(placements=laid),))
    made = materials(found.changed(fabrics=tenth, blocks=blocks, arrangements=(wall,)))
    told = [[strip["fabric"] for strip in sets["strips"]] for sets in materials_report(made)["sets"]]
    assert told == [["f9", "f9", "f9"], ["f10", "f9", "f9"]]
    assert [alike.lanes[0].fabric for alike in sets_in_order(made)] == ["f9", "f10"]


def test_what_is_tight_and_what_is_wrong_stands_in_the_list() -> None:
    narrow = BOLT.changed(usable=Fraction(40))
    assert "only 1/4 in to spare!" in materials_text(materials(rails(12, narrow)))
    short = materials_text(materials(rails(12, BOLT.changed(usable=Fraction(6)))))
    assert "Error: Block 30: 6 1/2 from 6 usable: no block." in short


def test_every_part_has_its_sum() -> None:
    made: Materials = materials(throw())
    sums = [made.size.why, made.binding.why, made.backing.why, made.batting.why]
    sums += [batch.why for batch in made.batches] + [alike.why for alike in made.sets]
    sums += [cloth.why for cloth in made.cloth] + [border.why for border in made.borders]
    texts = [str(why) for why in sums]
    assert "278 in round the quilt / 39 1/2 in from each strip" in texts[1]
    assert texts[2] == (
        "149 in = 2 panels of 74 1/2 in, seams across, for 74 1/2 x 80 1/2 in cut: 2 x 42 usable - 1 in seams"
        " = 83 in; up the quilt it would be 2 panels and 161 in and with a strip pieced to 1 panel"
        " up the quilt 147 1/2 in."
    )
    assert texts[3].endswith("the full package of 81 x 96 in holds it.")
    assert all(text.endswith(".") for text in texts)
