"""What every test of the window shares: nothing of the user's own is read or written."""

from pathlib import Path

import pytest


@pytest.fixture(autouse=True)
def own_folders(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Folders of the test's own for state and preferences, and for recipes kept."""
    home = tmp_path_factory.mktemp("home")
    monkeypatch.setenv("XDG_STATE_HOME", str(home / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(home / "config"))
    return home
