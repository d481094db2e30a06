"""How an edit says no: what can not be done, why, and what to do instead."""

from typing import NoReturn

from piecewright.errors import EditError
from piecewright.words.message import Arg, Message, message


def refuse(code: str, hint: Message | None = None, **args: Arg) -> NoReturn:
    """Raise an EditError with the sentence "edit.<code>"."""
    raise EditError(message(f"edit.{code}", **args), hint)
