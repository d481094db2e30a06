"""Sees when another program changes, moves or removes the file of an open design."""

from pathlib import Path

from PySide6.QtCore import QFileSystemWatcher, QObject, QTimer, Signal

_CALM = 300
"""Milliseconds without news before the file is looked at: saving it whole takes several steps."""


class FileWatch(QObject):
    """`stirred` follows anything that happens to the file; armed anew each time, for a whole save replaces it."""

    stirred = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._path: Path | None = None
        self._watcher = QFileSystemWatcher(self)
        self._calm = QTimer(self)
        self._calm.setSingleShot(True)
        self._calm.setInterval(_CALM)
        self._calm.timeout.connect(self._tell)
        self._watcher.fileChanged.connect(self._wait)
        self._watcher.directoryChanged.connect(self._wait)

    def watch(self, path: Path | None) -> None:
        """Watch this file and its folder, and nothing else."""
        self._path = path
        self._calm.stop()
        self._arm()

    def _wait(self, _place: str) -> None:
        self._calm.start()

    def _tell(self) -> None:
        self._arm()
        self.stirred.emit()

    def _arm(self) -> None:
        watched = self._watcher.files() + self._watcher.directories()
        if watched:
            self._watcher.removePaths(watched)
        if self._path is not None:
            places = (self._path, self._path.parent)
            present = [str(place) for place in places if place.exists()]
            if present:
                self._watcher.addPaths(present)
