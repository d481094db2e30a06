"""The cutting lists of all fabrics as rich text for paper: headings, boxes to tick by pen, what is worth keeping."""

from html import escape

from piecewright.cutting.table import DesignCutting
from piecewright.cutting.table_text import remarks
from piecewright.units.measure import Measure
from piecewright.words.message import message
from piecewright_qt.cutting_table.cuts_list import cut_lines
from piecewright_qt.cutting_table.saying import capital
from piecewright_qt.theme.tokens import LIGHT

_BOX = "\N{WHITE SQUARE}"


def list_html(table: DesignCutting, measure: Measure, size: str) -> str:
    """The lists, type of a `size` such as "11pt"; always dark on light."""
    title = escape(message("cutting.title", name=table.materials.name).text(measure))
    body = [f'<p style="font-weight: 600; font-size: x-large;">{title}</p>']
    for each in table.fabrics:
        name = escape(capital(each.name.text(measure)))
        body.append(f'<p style="font-weight: 600; font-size: large; margin-top: 18px;">{name}</p>')
        told = " ".join(one.text(measure) for one in remarks(each, table.rounding))
        body.append(f'<p style="color: {LIGHT.text_soft};">{escape(told)}</p>')
        for line in cut_lines(table, each, measure):
            text = escape(line.text)
            if line.is_heading:
                body.append(f'<p style="font-weight: 600; margin-top: 8px; margin-bottom: 0;">{text}</p>')
            else:
                body.append(f'<p style="margin: 2px 0 2px 12px;">{_BOX}&nbsp; {text}</p>')
    style = f"font-family: Inter; font-size: {size}; color: {LIGHT.text};"
    return f'<html><body style="{style}">{"".join(body)}</body></html>'
