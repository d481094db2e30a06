"""Quilts made a second time, by hands that read only what is printed: strips from the materials, steps from the page.

The check is against the placements in the design file: enough cloth is bought, the strips give the sets, the
sets give the segments, and the segments, sewn as the sentences say, are exactly the blocks of the quilt.
"""

import json
import re
from collections import Counter, defaultdict
from collections.abc import Sequence
from fractions import Fraction
from functools import partial
from importlib.resources import files
from pathlib import Path
from typing import Any

import pytest

from piecewright.commands.table import main
from piecewright.files.design_file import load_design
from tests.outside.cutter import Cloth, Cutter, Point, Polygon, Side, area, clipped, number, rectangle

SAMPLES = sorted((Path(str(files("piecewright_data"))) / "examples").glob("*.piecewright"))
Patch = tuple[str, Polygon]


def printed(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What a command prints."""
    assert main(list(words)) == 0
    return capsys.readouterr().out


def exact(length: dict[str, Any]) -> Fraction:
    """A printed length."""
    return number(length["text"])


class Bolts:
    """Strips cut from the yards bought, sewn into sets and cut into segments, as the materials say."""

    def __init__(self, materials: dict[str, Any]) -> None:
        self.seam = exact(materials["settings"]["seam"])
        self.settings = materials["settings"]
        self.left = {cloth["fabric"]: exact(cloth["buy"]) for cloth in materials["cloth"]}
        self.supply: dict[tuple[tuple[str, ...], Fraction], list[Cloth]] = defaultdict(list)
        for sewn in materials["sets"]:
            self._sew(sewn)

    def take(self, fabrics: Sequence[str], length: Fraction) -> Cloth:
        """The next segment; a set turned end for end serves the other way round."""
        wanted = self.supply[tuple(fabrics), length]
        if wanted:
            return wanted.pop()
        turned = self.supply[tuple(reversed(fabrics)), length]
        assert turned, f"no segment left of {length} in from {fabrics}"
        return turned.pop().quarter_turned().quarter_turned()

    def cut_from_bolt(self, fabric: str, size: Fraction, count: int) -> None:
        """Strips or panels off the bolt: never more than was bought."""
        self.left[fabric] -= size * count
        assert self.left[fabric] >= 0, f"too little of {fabric} was bought"

    def _sew(self, sewn: dict[str, Any]) -> None:
        for strip in sewn["strips"]:
            self.cut_from_bolt(strip["fabric"], exact(strip["cut_width"]), sewn["sets"])
        assert sum(cuts["sets"] for cuts in sewn["cuts"]) == sewn["sets"]
        for cuts in sewn["cuts"]:
            for _ in range(cuts["sets"]):
                self._cut(sewn, cuts)

    def _cut(self, sewn: dict[str, Any], cuts: dict[str, Any]) -> None:
        """One set into segments, trued as at the table: off the first end, and again after some cuts."""
        lengths = [exact(part["length"]) for part in cuts["segments"] for _ in range(part["count"])]
        at, usable = exact(self.settings["trim_first"]), exact(sewn["usable"])
        for done, length in enumerate(lengths):
            if done and done % self.settings["trim_every"] == 0:
                at += exact(self.settings["trim_again"])
            at += length
            segment = self._segment(sewn["strips"], length)
            self.supply[tuple(strip["fabric"] for strip in sewn["strips"]), length].append(segment)
        assert at <= usable, "a set gives more than its length"
        assert usable - at == exact(cuts["to_spare"])

    def _segment(self, strips: Sequence[dict[str, Any]], length: Fraction) -> Cloth:
        """What a cut across the sewn set gives."""
        edges = [Fraction(0)]
        for strip in strips:
            edges.append(edges[-1] + exact(strip["cut_width"]) - 2 * self.seam)
        height = edges[-1] + 2 * self.seam
        lines = [Fraction(0), *(edge + self.seam for edge in edges[1:-1]), height]
        patches = tuple(
            (strip["fabric"], tuple((x, y + top) for x, y in rectangle(length, bottom - top)))
            for strip, top, bottom in zip(strips, lines, lines[1:], strict=False)
        )
        return Cloth(rectangle(length, height), patches)


def finished(block: Cloth, seam: Fraction) -> list[Patch]:
    """The patches as seen in the quilt: one allowance gone all round, the top left at 0, 0."""
    _, _, wide, high = block.box()
    inner = block
    for side in (
        lambda point: point[0] - seam,
        lambda point: wide - seam - point[0],
        lambda point: point[1] - seam,
        lambda point: high - seam - point[1],
    ):
        inner = inner.kept(side)
    return list(inner.moved(-seam, -seam).patches)


def alike(made: list[Patch], expected: list[Patch]) -> bool:
    """Whether two blocks show the same cloth everywhere: each patch overlaps its like by its whole area."""
    if Counter(fabric for fabric, _ in made) != Counter(fabric for fabric, _ in expected):
        return False
    return all(
        any(fabric == other and abs(common(shape, form) - area(form)) < 1e-6 for fabric, shape in made)
        for other, form in expected
    )


def common(first: Polygon, second: Polygon) -> Any:
    """The area two convex clockwise polygons share."""
    for start, stop in zip(second, (*second[1:], second[0]), strict=True):
        first = clipped(first, inside(start, stop))
        if len(first) < 3:
            return 0
    return area(first)


def inside(start: Point, stop: Point) -> Side:
    """The inner side of an edge of a clockwise polygon (y runs down)."""
    (ax, ay), (bx, by) = start, stop
    return lambda point: (bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)


def sentences(page: str) -> list[str]:
    """The numbered steps of a printed page."""
    return re.findall(r"^  \d+\. (.+)$", page, re.MULTILINE)


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_a_quilt_sewn_again_from_the_printed_page_is_the_quilt(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    materials = json.loads(printed(capsys, "materials", str(path), "--json"))
    bolts = Bolts(materials)
    design = load_design(path).design
    made: list[tuple[str, list[Patch]]] = []
    for batch in materials["batches"]:
        recipe = tmp_path / "block.recipe.json"
        block = design.shelf.blocks[batch["block"]]
        recipe.write_text(json.dumps(design.shelf.recipes[block.recipe].plain), encoding="utf-8")
        sizes = [word for name, size in block.sizes.items() for word in ("--set", f"{name}={size}")]
        steps = sentences(printed(capsys, "block", str(recipe), *sizes))
        for _ in range(batch["batches"]):
            cutter = Cutter(partial(_fabric, batch), bolts.take, bolts.seam)
            pile = cutter.follow(steps)
            blocks = pile if isinstance(pile, tuple) else [cloth for part in pile for cloth in part]
            made += [(batch["block"], finished(cloth, bolts.seam)) for cloth in blocks]
    _check_the_wall(design, materials, made)
    for part in materials["parts"]:
        _cut_the_parts(part, bolts)
    assert not any(bolts.supply.values()), "segments were cut that no block needs"
    _check_round_and_behind(materials, bolts)


def _fabric(batch: dict[str, Any], letter: str, layer: int) -> str:
    ids = batch["fabrics"][letter]
    return ids[layer % len(ids)]  # type: ignore[no-any-return]


def _patches(batch: dict[str, Any], kind: dict[str, Any], layer: int) -> list[Patch]:
    """The patches that the engine shows for a block of a layer."""
    stack = max(len(kind["layers"]), 1)
    return [
        (
            _fabric(batch, patch["fabric"], (layer + patch["layer"]) % stack),
            tuple((x, y) for x, y in patch["points"]),
        )
        for patch in kind["patches"]
    ]


def _check_the_wall(design: Any, materials: dict[str, Any], made: list[tuple[str, list[Patch]]]) -> None:
    """Every block on the wall is among the blocks made, each used once."""
    from piecewright.edit.facts_of import facts_of

    left = list(made)
    for row in design.quilt.rows:
        for placement in row.placements:
            fabrics = {letter: list(ids) for letter, ids in design.letters(placement).items()}
            kind = facts_of(design, placement.block).kinds[placement.kind]
            plain = {
                "layers": kind.layers,
                "patches": [{"fabric": p.fabric, "layer": p.layer, "points": p.points} for p in kind.patches],
            }
            wanted = _patches({"fabrics": fabrics}, plain, placement.layer)
            match = next((one for one in left if one[0] == placement.block and alike(one[1], wanted)), None)
            assert match is not None, (
                f"no {placement.block} was made for column {placement.column}, row {row.row}"
            )
            left.remove(match)
    assert len(left) == sum(batch["over"] for batch in materials["batches"])


def _cut_the_parts(part: dict[str, Any], bolts: Bolts) -> None:
    """Sashes, cornerstones and squares for triangles: each from a strip as wide as its shorter side."""
    size = part["cut"]["size"]
    short, long = sorted((exact(size["width"]), exact(size["height"])))
    for _ in range(part["cut"]["count"]):
        piece = bolts.take((part["fabric"],), long)
        assert area(piece.outline) == short * long
    assert part["cut"]["count"] * part["cut"]["yields"] >= part["count"]
    seen = sorted(part["finished"].values())
    if part["cut"]["yields"] == 1:
        assert [short - 2 * bolts.seam, long - 2 * bolts.seam] == seen
    else:  # half of the square's side, or a quarter of it on the whole side, holds what is seen
        assert long >= seen[-1] + 3 * bolts.seam


def _check_round_and_behind(materials: dict[str, Any], bolts: Bolts) -> None:
    """Borders and binding out of their strips, backing out of its panels, all out of the cloth bought."""
    usable = exact(materials["settings"]["usable"])
    for border in materials["borders"]:
        bolts.cut_from_bolt(border["fabric"], exact(border["cut_width"]), border["strips"])
        lengths = [exact(border[pair]["size"]["width"]) for pair in ("sides", "ends") for _ in range(2)]
        joined = usable * border["strips"] - (border["strips"] - 1) * 2 * bolts.seam
        assert sum(lengths) <= joined
    binding = materials["binding"]
    bolts.cut_from_bolt(binding["fabric"], exact(binding["cut_width"]), binding["strips"])
    assert binding["strips"] * (usable - exact(binding["cut_width"])) >= exact(binding["around"])
    backing = materials["backing"]
    bolts.cut_from_bolt(backing["fabric"], exact(backing["length"]), backing["panels"])
