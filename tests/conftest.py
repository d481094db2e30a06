"""What every test shares: off-screen by default, the same random examples in every run."""

import os

from hypothesis import HealthCheck, settings

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

settings.register_profile(
    "piecewright",
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
    print_blob=False,
)
settings.register_profile(
    "search", parent=settings.get_profile("piecewright"), derandomize=False, max_examples=2000
)
settings.load_profile(os.environ.get("PIECEWRIGHT_EXAMPLES", "piecewright"))
