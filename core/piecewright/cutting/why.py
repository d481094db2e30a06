"""Why a number of the cutting is what it is: its terms, each opening to the number of the materials behind it."""

from collections.abc import Iterator
from fractions import Fraction

from piecewright.cutting.demand import comes_apart, strips_of
from piecewright.cutting.pieces import Piece
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.table import FabricCutting
from piecewright.cutting.telling import takes
from piecewright.model.design import Design
from piecewright.plan.materials import Materials, materials
from piecewright.plan.sets import StripSet
from piecewright.plan.why import Refers, Subject, Term, Why, why
from piecewright.units.sizes import Cut
from piecewright.words.message import message


def piece_why(design: Design, each: FabricCutting, key: str) -> Why:
    """Why so many pieces of a key are cut: each strip set, border, binding or backing that asks for them.

    Raises KeyError for a key that the plan does not cut.
    """
    piece = next((piece for piece in each.plan.job.pieces if piece.key == key), None)
    if piece is None:
        raise KeyError(key)
    size = Cut(piece.width, piece.height)
    said = message("cutting.why-piece", count=piece.count, size=size, name=piece.label)
    terms = tuple(_term(design, subject) for subject in _subjects(materials(design), each.fabric, piece))
    return Why(Subject("cloth", each.fabric), said, _together(terms), terms)


def amount_why(design: Design, each: FabricCutting, rounding: str = "eighth") -> Why:
    """Why a plan takes so much cloth: its strips by their width, each with all that is cut of them."""
    terms = tuple(
        Term(message("cutting.why-strips", count=count, height=height), _of_pieces(design, each, keys))
        for height, count, keys in _strips(each.plan)
    )
    if each.plan.job.sheet.length is None and terms:
        said = message(
            "cutting.why-amount",
            terms=tuple(term.said for term in terms),
            inches=each.plan.amount,
            takes=takes(each.plan, rounding),
        )
    else:
        said = takes(each.plan, rounding)
    return Why(Subject("cloth", each.fabric), said, _together(terms), terms)


def _strips(plan: CuttingPlan) -> Iterator[tuple[Fraction, int, tuple[str, ...]]]:
    """The strips of the cloth that costs: each height, how many, and the keys of what is cut of them."""
    counts: dict[Fraction, int] = {}
    keys: dict[Fraction, dict[str, None]] = {}
    for laid in plan.laid:
        if laid.source is None:
            for strip in laid.strips:
                counts[strip.height] = counts.get(strip.height, 0) + strip.count * laid.count
                cut = (key for cut in strip.cuts for key, _ in cut.pieces)
                keys.setdefault(strip.height, {}).update(dict.fromkeys(cut))
    for height in sorted(counts, reverse=True):
        yield height, counts[height], tuple(keys[height])


def _of_pieces(design: Design, each: FabricCutting, keys: tuple[str, ...]) -> Refers:
    return _together(tuple(term for key in keys for term in piece_why(design, each, key).terms))


def _term(design: Design, subject: Subject) -> Term:
    found = why(design, subject)
    return Term(found.said, found.refers, subject)


def _together(terms: tuple[Term, ...]) -> Refers:
    """All that some terms are about, each once."""
    refers = [term.refers for term in terms]
    return Refers(
        cells=tuple(dict.fromkeys(cell for each in refers for cell in each.cells)),
        blocks=tuple(dict.fromkeys(block for each in refers for block in each.blocks)),
        fabrics=tuple(dict.fromkeys(fabric for each in refers for fabric in each.fabrics)),
        parts=tuple(dict.fromkeys(part for each in refers for part in each.parts)),
    )


def _subjects(made: Materials, fabric: str, piece: Piece) -> Iterator[Subject]:
    """The numbers of the materials that ask for a piece."""
    part = piece.key.split()[0]
    if part == "border":
        for index in range(len(made.borders)):
            if piece.name in (_border_name(index), _border_name(index, "-end")):
                yield Subject("border", index)
    elif part in ("binding", "backing"):
        yield Subject("binding" if part == "binding" else "backing")
    else:
        asking = [found for found in made.sets if _asks_for(found, fabric, piece, part)]
        yield from (Subject("set", found.key) for found in asking)
        if not asking:
            yield Subject("cloth", fabric)


def _border_name(index: int, end: str = "") -> object:
    return message(f"cutting.for-border{end}", number=index + 1)


def _asks_for(found: StripSet, fabric: str, piece: Piece, part: str) -> bool:
    """Whether a piece is a strip of a set, or what one strip is cut up into."""
    if part in ("patch", "part"):
        (lane, *others) = found.lanes
        lengths = {length for kit, _ in found.kits for length in kit.segments}
        alike = (lane.fabric, lane.width) == (fabric, piece.height) and piece.width in lengths
        return not others and comes_apart(found) and alike
    return any(
        (wanted.fabric, wanted.part, wanted.width, wanted.height) == (fabric, part, piece.width, piece.height)
        for wanted in strips_of(found)
    )
