"""What a test run prints at its end, beside what passed and failed."""

from __future__ import annotations

import pytest
from hypothesis import settings

settings.register_profile("same twice", derandomize=True, database=None)
settings.load_profile("same twice")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """The seed of the properties and how many random fabrics each tried, as the tests themselves counted them."""
    for report in terminalreporter.stats.get("", []):  # ends of tests: a count is complete only there
        counted = dict(getattr(report, "user_properties", ()))
        if report.when == "teardown" and "random_fabrics" in counted:
            name = report.nodeid.rpartition("::")[2].removeprefix("test_").replace("_", " ")
            terminalreporter.write_line(f"seed {counted['seed']}, {counted['random_fabrics']} random fabrics: {name}")
