"""The page with every figure on it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pytest

from calc.draw.figures import FIGURES
from site_build.cli import figure_sheet

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact


def test_the_contact_sheet_shows_every_figure_in_both_hands_and_repeats_no_id(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    few = dict(list(FIGURES.items())[::12])
    monkeypatch.setattr(figure_sheet, "FIGURES", few)
    path = tmp_path / "made" / "contact.html"
    assert figure_sheet.write(path) == len(few)
    text = path.read_text(encoding="utf-8")
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(set(ids)) == len(ids)
    assert set(few) <= set(ids)
    assert text.count("<svg ") == 5 * len(few)
    for theme in figure_sheet.THEMES:
        assert f'class="{theme}' in text
