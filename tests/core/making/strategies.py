"""Random recipes that can be sewn, stacks and slants included, each with the size that simple sums say it must have."""

from dataclasses import dataclass, field
from fractions import Fraction
from math import cos, radians, sin, sqrt, tan

from hypothesis import strategies as st

from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from tests.core.making.building import (
    Plain,
    corner,
    cut,
    face,
    lay,
    leveled,
    line,
    opened,
    press,
    sew,
    shuffle,
    sliced,
    square,
    turn,
)

SEAM = Fraction(1, 4)
LEAST = Fraction(1)
EIGHTH = Fraction(1, 8)


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


@dataclass
class _Work:
    """What lies on the table while a recipe is made up: the piece in work and its size by plain sums."""

    draw: st.DrawFn
    stack: int
    steps: list[Plain] = field(default_factory=list)
    piece: str = ""
    width: Fraction = Fraction(0)
    height: Fraction = Fraction(0)
    count: int = 0
    slanted: bool = False
    patches: int = 0

    def name(self, word: str) -> str:
        self.count += 1
        return f"{word}{self.count}"

    def eighths(self, least: Fraction, most: Fraction) -> Fraction:
        """A length in eighths of an inch between two others."""
        return EIGHTH * self.draw(
            st.integers(int(least / EIGHTH) + 1, max(int(most / EIGHTH), int(least / EIGHTH) + 1))
        )

    def took(self, piece: str, width: Fraction, height: Fraction) -> None:
        self.piece, self.width, self.height = piece, width, height


def _lay_set(work: _Work) -> None:
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


def _cut_and_sew(work: _Work) -> None:
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
    part = _change_some(work, part)
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


def _change_some(work: _Work, part: str) -> str:
    """Turn or shuffle some of the parts, or leave them."""
    which = work.draw(st.sampled_from(["odd", "even", [1], [2]]))
    change = work.draw(st.sampled_from(["turn", "turn layers", "shuffle", "nothing"]))
    made = work.name("changed")
    if change == "turn":
        work.steps.append(turn(made, f"{part}.*", 180, which=which))
    elif change == "turn layers" and work.stack > 1:
        layers = work.draw(
            st.lists(st.integers(0, work.stack - 1), min_size=1, max_size=work.stack, unique=True)
        )
        work.steps.append(turn(made, f"{part}.*", 180, which=which, layers=layers))
    elif change == "shuffle" and work.stack > 1:
        by = work.draw(st.integers(1, work.stack - 1))
        work.steps.append(shuffle(made, f"{part}.*", by, which=which))
    else:
        return part
    return made


def _slice_and_sew(work: _Work) -> None:
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


def _stairs(work: _Work) -> None:
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


def _turn(work: _Work) -> None:
    made = work.name("turned")
    by = work.draw(st.sampled_from([90, 270]))
    work.steps.append(turn(made, work.piece, by))
    work.took(made, work.height, work.width)


def _frame(work: _Work) -> None:
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


def _square(work: _Work) -> None:
    """Square up a little smaller, from the middle or a corner."""
    made = work.name("squared")
    width, height = work.width - work.width % EIGHTH - EIGHTH, work.height - work.height % EIGHTH - EIGHTH
    if width < 2 or height < 2:
        return
    start = work.draw(st.sampled_from(["centre", "top left", "top right", "bottom left", "bottom right"]))
    work.steps.append(square(made, work.piece, str(width), str(height), **{"from": start}))
    work.took(made, width, height)


def _corner(work: _Work) -> None:
    """Sew a square, plain or of two strips, over a corner and fold it open; the size stays."""
    most = min(work.width, work.height)
    if most < 3:
        return
    side = work.eighths(Fraction(2), min(most, Fraction(6)) - EIGHTH)
    square, made = _square_of(work, side), work.name("cornered")
    at = work.draw(st.sampled_from(["top left", "top right", "bottom left", "bottom right"]))
    work.steps.append(corner(made, work.piece, square, at))
    work.slanted = True
    work.patches += 2
    work.took(made, work.width, work.height)


def _face_at_an_edge(work: _Work) -> None:
    """Lay a piece as large face down, sew along the top or the bottom, open."""
    if work.height > 12 or work.patches > 24:
        return
    other, pair, made = work.name("other"), work.name("pair"), work.name("opened")
    at = work.draw(st.sampled_from([SEAM, work.height - SEAM]))
    work.steps.append(lay(other, "H", str(work.height), str(work.width)))
    one, two = work.draw(st.permutations([work.piece, other]))
    work.steps.append(face(pair, one, two, line(("left", str(at)), ("right", str(at)))))
    work.steps.append(opened(made, pair))
    work.patches += 1
    work.took(made, work.width, 2 * work.height - 2 * SEAM)


def _two_halves(work: _Work) -> None:
    """Two squares right sides together, sewn on both sides of a diagonal, cut on it, opened, squared, sewn again."""
    side = min(work.width, work.height, Fraction(8))
    side -= side % EIGHTH
    if side < 3 or work.patches > 12:
        return
    names = [work.name(word) for word in ("trimmed", "other", "pair", "half", "unit", "squared", "sewn")]
    trimmed, other, pair, half, unit, squared, sewn = names
    across, ends = str(side), work.draw(st.sampled_from([("0", str(side)), (str(side), "0")]))
    start, end = ("top", ends[0]), ("bottom", ends[1])
    kept = Fraction(int((float(side) - float(SEAM) * sqrt(2) + 1e-9) / float(EIGHTH))) * EIGHTH
    work.steps += [
        square(trimmed, work.piece, across, across),
        lay(other, "H", across, across, grain=work.draw(st.sampled_from(["crosswise", "bias"]))),
        face(pair, trimmed, other, line(start, end, beside=str(SEAM))),
        sliced(half, pair, start, end),
        opened(unit, f"{half}.*"),
        square(squared, f"{unit}.*", str(kept), str(kept)),
        sew(sewn, work.draw(st.permutations([f"{squared}.1", f"{squared}.2"])), "across"),
    ]
    work.slanted = True
    work.patches = 2 * (work.patches + 1)
    work.took(sewn, 2 * kept - 2 * SEAM, kept)


def _lean(work: _Work) -> None:
    """One or two leaning segments, and the middle of one trimmed to a rectangle that its parallelogram holds."""
    angle = work.draw(st.sampled_from([-45, -30, -22.5, 10, 30, 45]))
    lean = tan(radians(abs(angle)))
    room = (float(work.width) - float(work.height) * lean) * cos(radians(angle))
    if room < 3:
        return
    count = work.draw(st.integers(1, 2))
    every = Fraction(int((room / count - 1e-9) / float(EIGHTH))) * EIGHTH
    height = work.height - work.height % EIGHTH
    least = 2.0
    while height > 2 and float(every) / cos(radians(angle)) - float(height) * lean < least:
        height -= EIGHTH
    wide = float(every) / cos(radians(angle)) - float(height) * lean
    if wide < least:
        return
    width = Fraction(int((wide - 1e-6) / float(EIGHTH))) * EIGHTH
    part, made = work.name("leaning"), work.name("middle")
    work.steps.append(cut(part, work.piece, "across", every=str(every), count=count, angle=angle))
    work.steps.append(square(made, f"{part}.{count}", str(width), str(height)))
    work.slanted = True
    work.took(made, width, height)


def _resew(work: _Work) -> None:
    """Leaning segments, some end for end or from another layer, sewn again along their cuts; the middle trimmed."""
    angle = work.draw(st.sampled_from([-40, -20, 15, 30]))
    cosine, lean = cos(radians(angle)), tan(radians(abs(angle)))
    room = (float(work.width) - float(work.height) * lean) * cosine
    count = work.draw(st.integers(2, 3))
    every = Fraction(int((room / count - 1e-9) / float(EIGHTH))) * EIGHTH
    if every < 2 or work.patches > 12:
        return
    height = min(work.height, Fraction(4))
    height -= height % EIGHTH
    wide = (float(every) * count - 2 * float(SEAM) * (count - 1)) / cosine - float(height) * lean
    width = Fraction(int((wide - 1e-6) / float(EIGHTH))) * EIGHTH
    if width < 2:
        return
    part, sewn, made = work.name("leaning"), work.name("sewn"), work.name("middle")
    work.steps.append(cut(part, work.piece, "across", every=str(every), count=count, angle=angle))
    part = _change_some(work, part)
    work.steps += [
        sew(sewn, [f"{part}.*"], "across", edge="cut"),
        square(made, sewn, str(width), str(height)),
    ]
    work.slanted = True
    work.patches *= count
    work.took(made, width, height)


def _log(work: _Work) -> None:
    """Sew on a strip that is too long and trim it even."""
    name, upright, made = work.name("log"), work.name("upright"), work.name("flush")
    axis = work.draw(st.sampled_from(["down", "across"]))
    along = work.width if axis == "down" else work.height
    work.steps.append(lay(name, "I", "2", str(along + work.eighths(Fraction(0), Fraction(3)))))
    strip = name
    if axis == "across":
        work.steps.append(turn(upright, name, 90))
        strip = upright
    align = work.draw(st.sampled_from(["start", "centre", "end"]))
    work.steps.append(sew(made, [work.piece, strip], axis, align=align, flush=True))
    work.patches += 1
    more = 2 - 2 * SEAM
    work.took(
        made, work.width + (more if axis == "across" else 0), work.height + (more if axis == "down" else 0)
    )


def _sew_on_corner(work: _Work) -> None:
    """Slice a corner off, sew a wide strip along the cut, trim it flush, and trim a rectangle that it covers."""
    if work.width < 6 or work.height < 5:
        return
    down, across = (work.eighths(Fraction(2), Fraction(3)) for _ in range(2))
    part, strip, made, squared = (work.name(word) for word in ("part", "strip", "sewn", "squared"))
    size = work.width - work.width % EIGHTH - EIGHTH, work.height - work.height % EIGHTH - EIGHTH
    work.steps += [
        sliced(part, work.piece, ("left", str(down)), ("top", str(across))),
        lay(strip, "J", "4", "12"),
        sew(made, [f"{part}.2", strip], "down", edge="cut", align="centre", flush=True),
        square(squared, made, str(size[0]), str(size[1])),
    ]
    work.slanted = True
    work.patches += 1
    work.took(squared, *size)


def _tilt(work: _Work) -> None:
    """Turn by some degrees and trim the middle to a rectangle that lies inside whatever way the piece was turned."""
    angle = work.draw(st.sampled_from([5, 12.5, 30, 45, 155, 340]))
    cosine, sine = abs(cos(radians(angle))), abs(sin(radians(angle)))
    height = min(work.width, work.height) / 2
    height -= height % EIGHTH
    wide = min(
        (float(work.width) - float(height) * sine) / cosine,
        (float(work.height) - float(height) * cosine) / sine,
    )
    width = Fraction(int((wide - 1e-6) / float(EIGHTH))) * EIGHTH
    if height < 2 or width < 2:
        return
    tilted, made = work.name("tilted"), work.name("middle")
    work.steps += [turn(tilted, work.piece, angle), square(made, tilted, str(width), str(height))]
    work.slanted = True
    work.took(made, width, height)


def _slope(work: _Work) -> None:
    """Slice near the top at a slant, bring the slant level there, trim the middle of the piece."""
    if work.width < 6 or work.height < 5:
        return
    start, end = (work.eighths(Fraction(0), Fraction(3, 2)) for _ in range(2))
    part, level, made = work.name("part"), work.name("level"), work.name("middle")
    slope = float((end - start) / work.width)
    lean = abs(slope) / sqrt(1 + slope * slope)
    width, height = work.width * Fraction(1, 2), work.height * Fraction(1, 4)
    width, height = width - width % EIGHTH, height - height % EIGHTH
    work.steps += [
        sliced(part, work.piece, ("left", str(start)), ("right", str(end))),
        leveled(level, f"{part}.2", "top"),
    ]
    if float(width) * lean + float(height) > float(work.height) / 2 or width < 2 or height < 1:
        del work.steps[-2:]
        return
    work.steps.append(square(made, level, str(width), str(height)))
    work.slanted = work.slanted or start != end
    work.took(made, width, height)


def _square_of(work: _Work, side: Fraction) -> str:
    """Lay a square of one fabric or two."""
    square = work.name("square")
    if work.draw(st.booleans()):
        work.steps.append(lay(square, work.draw(st.sampled_from("FG")), str(side), str(side)))
        return square
    upper, lower = work.name("upper"), work.name("lower")
    half = side / 2 + SEAM
    work.steps += [lay(upper, "F", str(half), str(side)), lay(lower, "G", str(half), str(side), grain="bias")]
    work.steps.append(sew(square, [upper, lower], "down"))
    return square


_MOVES = (
    _cut_and_sew,
    _cut_and_sew,
    _slice_and_sew,
    _stairs,
    _turn,
    _frame,
    _square,
    _corner,
    _face_at_an_edge,
    _two_halves,
    _lean,
    _tilt,
    _slope,
    _resew,
    _log,
    _sew_on_corner,
)


@st.composite
def sewable_recipes(draw: st.DrawFn) -> Sewable:
    """A strip set worked on in up to five ways, ending as one block or cut into several."""
    work = _Work(draw, draw(st.integers(1, 4)))
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
