"""Random recipes that can be sewn, stacks and slants included, each with the size that simple sums say it must have."""

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from hypothesis import strategies as st

from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from tests.core.making.building import (
    Plain,
    cut,
    lay,
    press,
    sew,
    shuffle,
    sliced,
    square,
    turn,
)
from tests.core.making.second_moves import SECOND_MOVES
from tests.core.making.work import EIGHTH, LEAST, SEAM, Work, change_some


@dataclass(frozen=True)
class Sewable:
    """A recipe as plain steps, the names of its blocks, its stack, and the unfinished size of a block."""

    steps: tuple[Plain, ...]
    block: tuple[str, ...]
    stack: int
    width: Fraction | float
    height: Fraction | float
    slanted: bool

    def recipe(self, scale: int = 1) -> Recipe:
        """The recipe, every length and the seam times `scale`."""
        steps = [_scaled(step, scale) for step in self.steps]
        seam = str(SEAM * scale)
        return Recipe.from_plain(
            {
                "recipe": 1,
                "name": "Random",
                "seam": seam,
                "stack": self.stack,
                "steps": steps,
                "block": list(self.block),
            }
        )

    @property
    def given(self) -> Given:
        """What it is made with."""
        return Given(usable=Fraction(42))


LENGTHS = {"width", "length", "every", "trim", "step", "beside"}


def _scaled(value: object, scale: int, key: str = "") -> object:
    if key == "sizes" and isinstance(value, dict):
        return {name: _times(str(size), scale) for name, size in value.items()}
    if key in ("use", "fabrics"):
        return value
    if isinstance(value, dict):
        return {name: _scaled(part, scale, name) for name, part in value.items()}
    if key in ("from", "to") and isinstance(value, list):
        return [value[0], _times(value[1], scale)]
    if key == "widths" and isinstance(value, list):
        return [_times(part, scale) for part in value]
    if isinstance(value, list):
        return [_scaled(part, scale) for part in value]
    if (key in LENGTHS or key == "height") and value != "fit":
        return _times(str(value), scale)
    return value


def _times(length: str, scale: int) -> str:
    return f"({length}) * {scale}" if scale != 1 else length


def _lay_set(work: Work) -> None:
    """Two to four strips sewn along their length."""
    widths = work.draw(st.lists(st.sampled_from(["1 1/2", "2", "2 1/2", "3 3/8"]), min_size=2, max_size=4))
    length = work.eighths(Fraction(16), Fraction(36))
    grain = work.draw(st.sampled_from(["crosswise", "crosswise", "lengthwise", "bias"]))
    names = []
    for width in widths:
        name = work.name("strip")
        fabric = work.draw(st.sampled_from("ABCD"))
        work.steps.append(lay(name, fabric, width, str(length), grain=grain))
        names.append(name)
    made = work.name("set")
    work.steps.append(sew(made, names, "down"))
    height = sum((_exact(width) for width in widths), start=Fraction(0)) - 2 * SEAM * (len(widths) - 1)
    work.patches = len(widths)
    work.took(made, length, height)


def _exact(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), start=Fraction(0))


def _cut_and_sew(work: Work) -> None:
    """Cut in parts, perhaps turn or shuffle every second one, and sew them across or down."""
    most = min(5, int(work.width / LEAST) - 1, 48 // max(work.patches, 1))
    if most < 2:
        return
    count = work.draw(st.integers(2, most))
    trim = work.draw(st.sampled_from([Fraction(0), Fraction(1, 2)]))
    every = (work.width - trim) / count
    every -= every % EIGHTH
    if every < LEAST:
        return
    part = work.name("part")
    keys = {"trim": str(trim)} if trim else {}
    work.steps.append(cut(part, work.piece, "across", every=str(every), count=count, **keys))
    part = change_some(work, part)
    axis = work.draw(st.sampled_from(["across", "down"]))
    made = work.name("sewn")
    work.steps.append(sew(made, [f"{part}.*"], axis))
    if work.draw(st.booleans()):
        ways = {"across": ["left", "right", "open", "out"], "down": ["up", "down", "open", "in"]}
        work.steps.append(press(made, work.draw(st.sampled_from(ways[axis]))))
    work.patches *= count
    if axis == "across":
        work.took(made, every * count - 2 * SEAM * (count - 1), work.height)
    else:
        work.took(made, every, work.height * count - 2 * SEAM * (count - 1))


def _slice_and_sew(work: Work) -> None:
    """Slice at a slant, exchange the second parts in a stack, sew with points matched, and square up."""
    level = work.draw(st.booleans())
    along, beside = (work.height, work.width) if level else (work.width, work.height)
    if along < 5 or beside < 3:
        return
    start, end = (work.eighths(Fraction(2), along - 2) for _ in range(2))
    part, joined, made = work.name("half"), work.name("joined"), work.name("squared")
    sides = ("left", "right") if level else ("top", "bottom")
    work.steps.append(sliced(part, work.piece, (sides[0], str(start)), (sides[1], str(end))))
    second = f"{part}.2"
    if work.stack > 1:
        second = work.name("swapped")
        work.steps.append(shuffle(second, f"{part}.2", work.draw(st.integers(1, work.stack - 1))))
    axis = "down" if level else "across"
    work.steps.append(sew(joined, [f"{part}.1", second], axis, match="points"))
    slant = float((end - start) / beside)
    left = float(along) - 2 * float(SEAM) * sqrt(1 + slant * slant)
    kept = Fraction(int((left + 1e-9) / float(EIGHTH))) * EIGHTH
    over = beside % EIGHTH
    if work.draw(st.booleans()):
        work.steps.append(square(made, joined, "fit", "fit", step="1/8"))
        beside -= over
    else:
        beside -= work.draw(st.sampled_from([Fraction(0), Fraction(1, 2)]))
        size = (beside, kept) if level else (kept, beside)
        keys = {"from": work.draw(st.sampled_from(["centre", "top left", "bottom right"]))}
        work.steps.append(square(made, joined, str(size[0]), str(size[1]), **keys))
    work.slanted = work.slanted or start != end
    work.patches *= 2
    work.took(made, *((beside, kept) if level else (kept, beside)))


def _stairs(work: Work) -> None:
    """Cut in parts, sew each a step further along the seam, and trim the ends even."""
    count = 3
    every, step = work.width / count, Fraction(1, 2)
    every -= every % EIGHTH
    height = work.height - step * (count - 1)
    if every < LEAST or height < 2 or work.patches > 16:
        return
    part, stairs, made = work.name("part"), work.name("stairs"), work.name("trimmed")
    work.steps.append(cut(part, work.piece, "across", every=str(every), count=count))
    work.steps.append(sew(stairs, [f"{part}.*"], "across", align="start", step=str(step)))
    width = every * count - 2 * SEAM * (count - 1)
    keys = {"from": "centre"}
    work.steps.append(square(made, stairs, str(width), str(height), **keys))
    work.patches *= count
    work.took(made, width, height)


def _turn(work: Work) -> None:
    made = work.name("turned")
    by = work.draw(st.sampled_from([90, 270]))
    work.steps.append(turn(made, work.piece, by))
    work.took(made, work.height, work.width)


def _frame(work: Work) -> None:
    """Sew a strip along one side."""
    name, made = work.name("frame"), work.name("framed")
    axis = work.draw(st.sampled_from(["down", "across"]))
    along = work.width if axis == "down" else work.height
    work.steps.append(lay(name, "E", "2", str(along)))
    strip = name
    if axis == "across":
        strip = work.name("upright")
        work.steps.append(turn(strip, name, 90))
    pieces = work.draw(st.sampled_from([[work.piece, strip], [strip, work.piece]]))
    work.steps.append(sew(made, pieces, axis))
    work.patches += 1
    more = 2 - 2 * SEAM
    work.took(
        made, work.width + (more if axis == "across" else 0), work.height + (more if axis == "down" else 0)
    )


def _square(work: Work) -> None:
    """Square up a little smaller, from the middle or a corner."""
    made = work.name("squared")
    width, height = work.width - work.width % EIGHTH - EIGHTH, work.height - work.height % EIGHTH - EIGHTH
    if width < 2 or height < 2:
        return
    start = work.draw(st.sampled_from(["centre", "top left", "top right", "bottom left", "bottom right"]))
    work.steps.append(square(made, work.piece, str(width), str(height), **{"from": start}))
    work.took(made, width, height)


_MOVES = (_cut_and_sew, _cut_and_sew, _slice_and_sew, _stairs, _turn, _frame, _square, *SECOND_MOVES)


@st.composite
def sewable_recipes(draw: st.DrawFn) -> Sewable:
    """A strip set worked on in up to five ways, ending as one block or cut into several."""
    work = Work(draw, draw(st.integers(1, 4)))
    _lay_set(work)
    for _ in range(draw(st.integers(1, 5))):
        draw(st.sampled_from(_MOVES))(work)
    blocks = [work.piece]
    if draw(st.booleans()) and work.width > 6:
        part = work.name("block")
        width = work.width / 2 - work.width / 2 % EIGHTH
        work.steps.append(cut(part, work.piece, "across", every=str(width), count=2))
        blocks = [f"{part}.*"]
        work.width = width
    return Sewable(tuple(work.steps), tuple(blocks), work.stack, work.width, work.height, work.slanted)
