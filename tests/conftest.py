"""Shared by all tests: in CI a skipped test is a failed run, so that a missing tool is noticed."""

from __future__ import annotations

import os

import pytest


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    for report in terminalreporter.getreports("skipped"):
        terminalreporter.write_line(f"skipped: {report.nodeid}")


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    reporter = session.config.pluginmanager.get_plugin("terminalreporter")
    if (
        os.environ.get("CI") == "true"
        and reporter is not None
        and reporter.getreports("skipped")
        and exitstatus == 0
    ):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED
