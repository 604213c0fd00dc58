"""Our numbers against numbers printed elsewhere."""

from __future__ import annotations

import tomllib
from math import degrees
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from calc.data import source
from calc.geometry import jam, pipe
from calc.mechanics import assembly_efficiency
from calc.spread import Spread
from calc.units import read

if TYPE_CHECKING:
    from collections.abc import Callable

ROWS = tomllib.loads(Path(__file__).with_name("rows.toml").read_text(encoding="utf-8"))["row"]
CALLS: dict[str, Callable[..., float | Spread]] = {
    "pitch_deg": lambda bundles: 90.0 - degrees(jam(bundles).lay_rad),
    "rope_percent": lambda bundles: 100.0 * (1.0 - jam(bundles).take_up),
    "pipe_in": lambda nominal: pipe(nominal) / 0.0254,
    "tex_of": lambda text: read("yarn", text, "linear_density", low=0.0, high=1.0) * 1e6,
    "efficiency": assembly_efficiency,
}


@pytest.mark.published
@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_row(row: dict[str, Any]) -> None:
    assert source(row["source"]).words
    found = CALLS[row["call"]](*row["inputs"])
    expected = float(row["expected"])
    half = 0.5 * 10.0 ** -len(row["expected"].partition(".")[2])
    if row.get("band") == "spread":
        assert isinstance(found, Spread)
        assert found.low <= expected <= found.high
        return
    assert isinstance(found, float)
    assert abs(found - expected) <= half * (1.0 + 1e-9)
