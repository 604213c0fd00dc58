"""What holds for every test: small matrices solved on one thread, quicker and always alike; the same random inputs.

With ``--long`` the runs over random inputs take as many as their tests name; without it they stop at a share of them.
"""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

for _name in ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS"):
    os.environ.setdefault(_name, "1")

settings.register_profile("steady", derandomize=True)  # the same inputs in every run
settings.load_profile("steady")

SHARE = 10
"""A long run goes over so many times the inputs of a usual one."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add the option that `python3 -m site_build test --long` hands on."""
    parser.addoption("--long", action="store_true", help="runs over random inputs at their full length")


@pytest.fixture(scope="session")
def share(pytestconfig: pytest.Config) -> int:
    """Return by how much the inputs of a long run are divided."""
    return 1 if pytestconfig.getoption("long") else SHARE
