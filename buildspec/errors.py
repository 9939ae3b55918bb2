"""The one exception that is the user's: wrong use, or a file that cannot be read (exit code 2)."""

from __future__ import annotations


class UsageError(Exception):
    """Wrong use of the program, said in one line without a traceback."""
