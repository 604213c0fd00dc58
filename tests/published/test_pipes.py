"""The weight of a pipe limb against printed weights of pipe, and the walls against an open engineering library."""

from __future__ import annotations

from importlib import import_module

import pytest

from calc.data import pipe_diameters, pipe_walls
from calc.mechanics.shot import pipe_limb_mass
from calc.numerics import Spread

FOOT, POUND = 0.3048, 0.45359237
WEIGHTS = {
    "40": {"1/2": 0.161, "3/4": 0.214, "1": 0.315, "1 1/4": 0.426, "1 1/2": 0.509, "2": 0.682},
    "80": {"1/2": 0.202, "3/4": 0.273, "1": 0.402, "1 1/4": 0.554, "1 1/2": 0.673, "2": 0.932},
}
"""Nominal weight of PVC pipe in pounds for a foot, as a channel-flow page prints it (read there)."""


@pytest.mark.published
@pytest.mark.parametrize("schedule", ["40", "80"])
def test_a_foot_of_pipe_weighs_what_tables_print(schedule: str) -> None:
    """To the last digit printed, and the 0.02 that sellers print beside a specific gravity of 1.40."""
    for size, pounds in WEIGHTS[schedule].items():
        foot = pipe_limb_mass(pipe_diameters()[size], Spread.exactly(FOOT), schedule)
        assert abs(foot.value / POUND - pounds) < 0.0005 + pounds * 0.02 / 1.40, size


@pytest.mark.transcribed
def test_walls_are_those_of_an_open_library() -> None:
    """The library of fluids 1.3 carries the table of ASTM D1785; its walls and ours are one."""
    piping = import_module("fluids.piping")
    sizes = {"1/8": 0.125, "1/4": 0.25, "3/8": 0.375, "1/2": 0.5, "3/4": 0.75, "1": 1.0, "1 1/4": 1.25, "1 1/2": 1.5,
             "2": 2.0}  # fmt: skip
    for schedule, walls in pipe_walls().items():
        for size, nominal in sizes.items():
            _, _, across_m, wall_m = piping.nearest_pipe(NPS=nominal, schedule=f"{schedule}D1785")
            assert pipe_diameters()[size] == pytest.approx(across_m, rel=1e-3)
            assert walls[pipe_diameters()[size]] == pytest.approx(wall_m, rel=1e-3)
