"""Stages: pure functions whose answers are remembered by the value of their arguments, within bounds."""

from collections import Counter
from collections.abc import Callable
from functools import lru_cache, wraps
from typing import ParamSpec, TypeVar, cast

P = ParamSpec("P")
R = TypeVar("R")

RERUNS: Counter[str] = Counter()
"""How often each stage really ran, by the name of its function; a remembered answer is not counted."""

_FORGETTERS: list[Callable[[], None]] = []


def stage(keep: int) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Remember the last `keep` answers of a pure function of hashable arguments.

    Arguments are told apart as given: by position and by keyword are two.
    """

    def remembering(function: Callable[P, R]) -> Callable[P, R]:
        name = function.__name__

        def counted(*args: P.args, **kwargs: P.kwargs) -> R:
            RERUNS[name] += 1
            return function(*args, **kwargs)

        remembered = lru_cache(maxsize=keep)(counted)
        on_forget(remembered.cache_clear)
        return cast(Callable[P, R], wraps(function)(remembered))

    return remembering


def on_forget(forgetter: Callable[[], None]) -> None:
    """Have `forgetter` called by `forget`: for whatever remembers answers in a way of its own."""
    _FORGETTERS.append(forgetter)


def forget() -> None:
    """Forget every remembered answer; the next ones are worked out from nothing."""
    for forgetter in _FORGETTERS:
        forgetter()
