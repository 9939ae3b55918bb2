"""What is shown now: the one thing that changes while a preview runs, written by the builder, read by requests."""

from __future__ import annotations

from threading import Condition

from buildspec.preview.building import Showing


class Board:
    """Holds what is shown and wakes those who wait for something else."""

    def __init__(self, first: Showing) -> None:
        self._changed = Condition()
        self._showing = first
        self._over = False

    def now(self) -> Showing:
        with self._changed:
            return self._showing

    def show(self, showing: Showing) -> None:
        with self._changed:
            self._showing = showing
            self._changed.notify_all()

    def end(self) -> None:
        """Nothing more will be shown: nobody needs to wait."""
        with self._changed:
            self._over = True
            self._changed.notify_all()

    def other_than(self, mark: str, *, within_s: float) -> Showing | None:
        """What is shown as soon as it has another mark, or after `within_s`; None when it is over."""
        with self._changed:
            self._changed.wait_for(lambda: self._over or self._showing.mark != mark, within_s)
            return None if self._over else self._showing
