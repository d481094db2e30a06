"""Where the program keeps what is not a design.

By the XDG base directory specification, and its like elsewhere.
"""

import os
import sys
from collections.abc import Mapping
from pathlib import Path
from urllib.parse import quote_from_bytes, unquote_to_bytes

_NAME = "piecewright"


def state_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """For what may be lost without harm to a design but should last: recent designs, journals of edits."""
    return _folder(environment, "XDG_STATE_HOME", ".local/state", "LOCALAPPDATA")


def config_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """For the user's preferences."""
    return _folder(environment, "XDG_CONFIG_HOME", ".config", "APPDATA")


def recipes_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """For the recipes that the user keeps on a shelf of their own, across designs."""
    return config_folder(environment) / "recipes"


def journal_folder(environment: Mapping[str, str] = os.environ) -> Path:
    """For the journals of edits."""
    return state_folder(environment) / "journals"


def make_folder(folder: Path) -> None:
    """Make a folder that only its user may read, as the specification asks.

    One that is there is left as it is.
    """
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)


def path_as_text(path: Path) -> str:
    """A path as text for JSON, even where its bytes are not UTF-8; `path_from_text` gives it back."""
    return quote_from_bytes(os.fsencode(path.absolute()), safe="/\\: ")


def path_from_text(text: str) -> Path:
    """The path that `path_as_text` wrote."""
    return Path(os.fsdecode(unquote_to_bytes(text)))


def _folder(environment: Mapping[str, str], variable: str, below_home: str, on_windows: str) -> Path:
    """The variable counts only if it is absolute (the specification says to ignore it otherwise)."""
    home = Path(environment.get("HOME") or Path.home())
    if sys.platform == "win32":
        return Path(environment.get(on_windows) or home) / _NAME
    stated = Path(environment.get(variable, ""))
    if stated.is_absolute():
        return stated / _NAME
    return home / ("Library/Application Support" if sys.platform == "darwin" else below_home) / _NAME
