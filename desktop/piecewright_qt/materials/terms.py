"""The terms of a number's sum as rows below it: each a link to its blocks on the wall, some open in turn."""

from collections.abc import Iterable

from piecewright.model.design import Design
from piecewright.plan.why import Term, why
from piecewright.units.measure import Measure
from piecewright_qt.materials.rows import Row


def terms_of(design: Design, row: Row, measure: Measure) -> tuple[Row, ...]:
    """The terms of the number that a row tells; none for one that does not open, or is not there any more."""
    if row.subject is None:
        return ()
    try:
        found = why(design, row.subject)
    except KeyError:
        return ()
    return term_rows(row, found.terms, measure)


def term_rows(row: Row, terms: Iterable[Term], measure: Measure) -> tuple[Row, ...]:
    """Terms as rows below the row whose number they explain; a term never opens to the sum it stands in."""
    return tuple(
        Row(
            ("term", row.key, place),
            row.section,
            "term",
            term.said.text(measure),
            subject=None if term.opens == row.subject else term.opens,
            refers=term.refers,
            level=row.level + 1,
        )
        for place, term in enumerate(terms)
    )
