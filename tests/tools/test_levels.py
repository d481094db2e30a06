"""The engine stands without a screen: every module of it imports where Qt can not be found."""

import subprocess
import sys

_IMPORT_ALL = """
import importlib, importlib.abc, pkgutil, sys
class NoQt(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {"PySide6", "shiboken6", "piecewright_qt"}:
            raise ImportError(name + " is blocked")
        return None
sys.meta_path.insert(0, NoQt())
import piecewright
names = [module.name for module in pkgutil.walk_packages(piecewright.__path__, "piecewright.")]
for name in names:
    importlib.import_module(name)
print(len(names))
"""


def test_every_core_module_imports_with_qt_blocked() -> None:
    done = subprocess.run([sys.executable, "-c", _IMPORT_ALL], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert int(done.stdout) > 10
