"""Ways to work on a piece past a slant: corners, pairs face to face, leaning cuts, turns, seams along cuts."""

from fractions import Fraction
from math import cos, radians, sin, sqrt, tan

from hypothesis import strategies as st

from tests.core.making.building import (
    Plain,
    cut,
    face,
    finish,
    lay,
    leveled,
    line,
    looped,
    opened,
    sew,
    sliced,
    square,
    turn,
    unpicked,
    use,
)
from tests.core.making.building import corner as cornered
from tests.core.making.work import EIGHTH, SEAM, Work, change_some


def corner(work: Work) -> None:
    """Sew a square, plain or of two strips, over a corner and fold it open; the size stays."""
    most = min(work.width, work.height)
    if most < 3:
        return
    side = work.eighths(Fraction(2), min(most, Fraction(6)) - EIGHTH)
    square, made = square_of(work, side), work.name("cornered")
    at = work.draw(st.sampled_from(["top left", "top right", "bottom left", "bottom right"]))
    work.steps.append(cornered(made, work.piece, square, at))
    work.slanted = True
    work.patches += 2
    work.took(made, work.width, work.height)


def face_at_an_edge(work: Work) -> None:
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


def two_halves(work: Work) -> None:
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


def lean_and_trim(work: Work) -> None:
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


def resew(work: Work) -> None:
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
    part = change_some(work, part)
    work.steps += [
        sew(sewn, [f"{part}.*"], "across", edge="cut"),
        square(made, sewn, str(width), str(height)),
    ]
    work.slanted = True
    work.patches *= count
    work.took(made, width, height)


def log(work: Work) -> None:
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


def sew_on_corner(work: Work) -> None:
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


def tilt(work: Work) -> None:
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


def slope(work: Work) -> None:
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


def square_of(work: Work, side: Fraction) -> str:
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


def use_rails(work: Work) -> None:
    """Sew two rails, made by a recipe of their own as long as the piece is wide, below or above it."""
    made = work.name("used")
    rails = work.name("rails")
    inside: Plain = {
        "recipe": 1,
        "name": "Rails",
        "sizes": {"long": ["8"], "w": ["2"]},
        "steps": [
            lay("a", "A", "w", "long"),
            lay("b", "B", "w", "long", grain="lengthwise"),
            sew("set", ["a", "b"], "down"),
            lay("spare", "A", "w", "w"),
        ],
        "block": ["set"],
    }
    width = work.draw(st.sampled_from(["1 1/2", "2 1/4"]))
    sizes = {"long": str(work.width), "w": width}
    letters = work.draw(st.sampled_from([{}, {"A": "K"}, {"A": "B", "B": "A"}]))
    work.steps.append(use(rails, inside, sizes=sizes, fabrics=letters))
    work.steps.append(sew(made, work.draw(st.permutations([work.piece, rails])), "down"))
    work.patches += 2
    more = 2 * sum((Fraction(part) for part in width.split()), start=Fraction(0)) - 4 * SEAM
    work.took(made, work.width, work.height + more)


def joined_band(work: Work) -> None:
    """Sew on a band cut from a strip longer than the cloth, joined end to end; its start lies beyond a seam."""
    strip, band, made = work.name("strip"), work.name("band"), work.name("banded")
    how = work.draw(st.sampled_from(["diagonal", "straight"]))
    total = work.eighths(Fraction(44), Fraction(90))
    skip = work.eighths(Fraction(0), total - work.width)
    work.steps += [
        lay(strip, "L", "2 1/2", str(total), join=how),
        cut(band, strip, "across", every=str(work.width), count=1, trim=str(skip)),
        sew(made, work.draw(st.permutations([work.piece, f"{band}.1"])), "down"),
    ]
    work.slanted = work.slanted or how == "diagonal"
    work.patches += 2
    work.took(made, work.width, work.height + Fraction(5, 2) - 2 * SEAM)


def color_wave(work: Work) -> None:
    """Strips sewn into a tube, cut into rings, each opened at another seam, sewn beside each other."""
    strips = [work.name("strip") for _ in range(work.draw(st.integers(2, 4)))]
    count = work.draw(st.integers(2, 3))
    length = work.eighths(Fraction(6), Fraction(12))
    every = length / count - length / count % EIGHTH
    for strip in strips:
        work.steps.append(lay(strip, work.draw(st.sampled_from("MN")), "2", str(length)))
    whole, tube, ring, wave = (work.name(word) for word in ("set", "tube", "ring", "wave"))
    rows = [work.name("row") for _ in range(count)]
    work.steps += [
        sew(whole, strips, "down"),
        looped(tube, whole, "down"),
        cut(ring, tube, "across", every=str(every), count=count),
        *(
            unpicked(row, f"{ring}.{number}", work.draw(st.integers(1, len(strips))))
            for number, row in enumerate(rows, start=1)
        ),
        sew(wave, rows, "across"),
    ]
    work.patches = count * len(strips)
    work.took(wave, every * count - 2 * SEAM * (count - 1), (2 - 2 * SEAM) * len(strips) + 2 * SEAM)


def spiral(work: Work) -> None:
    """Four strips sewn round, the first seam left open at one end and finished last."""
    forward, start = work.draw(st.sampled_from([1, -1])), work.draw(st.integers(0, 3))
    widths = [work.draw(st.sampled_from([Fraction(3, 2), Fraction(2)])) for _ in range(4)]
    sides = ("top", "right", "bottom", "left")
    middle, piece = (work.width, work.height), work.piece
    for index in range(4):
        side = (start + forward * index) % 4
        length = middle[side % 2] + widths[(side - forward) % 4] - 2 * SEAM
        strip, around = work.name("strip"), work.name("around")
        work.steps.append(lay(strip, work.draw(st.sampled_from("RS")), str(widths[side]), str(length)))
        if side % 2:
            upright = work.name("upright")
            work.steps.append(turn(upright, strip, work.draw(st.sampled_from([90, 270]))))
            strip = upright
        pair = [strip, piece] if sides[side] in ("top", "left") else [piece, strip]
        open_end = {"leave": [sides[(side - forward) % 4], str(middle[side % 2] / 2)]}
        axis = "across" if side % 2 else "down"
        work.steps.append(sew(around, pair, axis, **(open_end if index == 0 else {})))
        piece = around
    made = work.name("spiral")
    work.steps.append(finish(made, piece))
    work.patches += 4
    work.took(
        made,
        work.width + widths[1] + widths[3] - 4 * SEAM,
        work.height + widths[0] + widths[2] - 4 * SEAM,
    )


SECOND_MOVES = (
    corner,
    face_at_an_edge,
    two_halves,
    lean_and_trim,
    tilt,
    slope,
    resew,
    log,
    sew_on_corner,
    use_rails,
    joined_band,
    color_wave,
    spiral,
)
