"""The README's pictures: those that the command takes, each there and on no page of the site."""

from __future__ import annotations

import re

import pytest

from calc.worksheets import catalogue
from site_build.cli import pictures
from site_build.setup.paths import ROOT

pytestmark = pytest.mark.contract


def test_the_readme_shows_what_the_command_takes() -> None:
    shown = re.findall(r'<img src="docs/assets/([\w-]+)\.png"', (ROOT / "README.md").read_text(encoding="utf-8"))
    assert shown == list(pictures.PICTURES)
    assert len(shown) == 4
    for name in shown:
        assert (pictures.FOLDER / f"{name}.png").read_bytes().startswith(b"\x89PNG")
        assert f"  /assets/{name}.png" in (ROOT / "mkdocs.yml").read_text(encoding="utf-8")


def test_the_example_is_told_in_the_fields_of_the_bench_sheet() -> None:
    assert set(pictures.BOW) <= {each.key for each in catalogue()["string"].fields}
