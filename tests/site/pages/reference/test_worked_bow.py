"""The bow worked through on the reference page: every number computed, every miss shown."""

from __future__ import annotations

import re
from dataclasses import replace
from math import sqrt

import pytest

from calc.mechanics.bow import SHAPES, brace_after, brace_per_length, string_length
from calc.numerics import Spread
from calc.units import INCH
from site_build.pages.reference import measured, worked_bow
from site_build.pages.reference.citations import Citing
from site_build.pages.reference.worked_bow import BOW, BRACE_M, DRAW_M, DRAW_N, OFF_M, short_rule
from tests.published.rows import checks

pytestmark = pytest.mark.exact
_KEPT = '<span class="pt-kept">'


def cells(html: str) -> list[list[str]]:
    """Return the texts of a table's body, row by row."""
    rows = re.findall(r"<tr>(.*?)</tr>", html.partition("<tbody>")[2])
    return [[each.replace(_KEPT, "") for each in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row)] for row in rows]


def inches(text: str) -> float:
    return float(text.partition(" in")[0])


def test_the_hinge_s_string_is_the_closed_form() -> None:
    """A stiff limb on a hinge: the handle and twice 1/4 of the limb, and the long side of a right triangle."""
    hinge = next(row for row in cells(worked_bow.strings(Citing())) if "handle" in row[0])
    limb_m = (BOW.nock_to_nock_m - BOW.handle_length_m) / 2.0
    string_m = BOW.handle_length_m + 2.0 * (limb_m / 4.0 + sqrt((0.75 * limb_m) ** 2 - BRACE_M**2))
    assert inches(hinge[1]) == pytest.approx(string_m / INCH, abs=0.0051)
    off_m = string_m + OFF_M
    lifted_m = sqrt((0.75 * limb_m) ** 2 - ((off_m - BOW.handle_length_m) / 2.0 - limb_m / 4.0) ** 2) - BRACE_M
    assert inches(hinge[2]) == pytest.approx(lifted_m / INCH, abs=0.0051)


def test_the_short_rules_are_what_a_low_brace_comes_to() -> None:
    """An arc and a hinge fall short by 2/3 of across^2, as series; the two others by a tenth more or less."""
    near = {"arc": 2e-4, "hinged": 2e-4, "tapered": 0.1, "uniform": 0.1}
    for shape in SHAPES:
        bow = replace(BOW, shape=shape)
        low_m = 0.01 * bow.limb_m
        fall_m = bow.nock_to_nock_m - string_length(bow, low_m)
        assert fall_m == pytest.approx(bow.nock_to_nock_m - short_rule(bow, low_m), rel=near[shape])
        assert brace_per_length(bow, low_m) == pytest.approx(-3.0 * bow.limb_m / (8.0 * low_m), rel=near[shape])
    last = cells(worked_bow.strings(Citing()))[-1]
    assert inches(last[1]) == pytest.approx(short_rule(BOW, BRACE_M) / INCH, abs=0.0051)
    step_m = 1e-6
    slope = (short_rule(BOW, BRACE_M + step_m) - short_rule(BOW, BRACE_M - step_m)) / (2.0 * step_m)
    assert inches(last[2]) == pytest.approx(OFF_M / slope / INCH, abs=0.0051)


def test_a_rise_in_the_table_is_that_of_the_shorter_string() -> None:
    for row, shape in zip(cells(worked_bow.strings(Citing())), SHAPES, strict=False):
        rise_m = brace_after(replace(BOW, shape=shape), BRACE_M, OFF_M) - BRACE_M
        assert inches(row[2]) == pytest.approx(rise_m / INCH, abs=0.0051)


def test_the_pulls_are_those_of_statics() -> None:
    """At full draw the pull is half the draw weight / sine of the string's angle, by the string's own triangle."""
    rows = cells(worked_bow.pulls(Citing()))
    assert len(rows) == len(SHAPES)
    for row, shape in zip(rows, SHAPES, strict=True):
        braced, drawn, least, stored = map(float, row[1:])
        half_m = string_length(replace(BOW, shape=shape), BRACE_M) / 2.0
        assert least <= min(braced, drawn)
        assert 0.0 < 1.0 / (2.0 * drawn) < DRAW_M / half_m
        assert (DRAW_M - BRACE_M) / DRAW_M / 2.0 < stored < (DRAW_M - BRACE_M) / DRAW_M
        assert drawn == pytest.approx(worked_bow.tension(shape).draw_n / DRAW_N, abs=0.0051)


def test_heavier_limbs_are_slower_and_no_arrow_is_worse() -> None:
    rows = cells(worked_bow.one_shot(Citing()))
    speeds = [float(row[1].partition(" ")[0]) for row in rows]
    assert speeds == sorted(speeds, reverse=True)
    assert all(float(row[4]) >= float(row[3]) > 1.0 for row in rows)


def test_every_miss_is_shown_and_nothing_else(monkeypatch: pytest.MonkeyPatch) -> None:
    missed = [each for each in checks() if not each.meets]
    rows = cells(measured.misses(Citing()))
    assert [row[0].partition(" <a")[0] for row in rows] == [
        each.words.replace(" x ", " × ").replace("'", "&#x27;") for each in missed
    ]
    assert all(row[3].endswith(("low", "high")) for row in rows)
    one = replace(missed[0], measured=Spread(1.0, 1.0, 1.0), ours=Spread(1.25, 1.3, 1.5))
    other = replace(missed[0], ours=missed[0].measured)
    monkeypatch.setattr(measured, "checks", lambda: (one, other))
    said = measured.misses(Citing())
    assert "2 measurements are held against these formulas; 1 meet, 1 miss" in said
    assert cells(said)[0][3] == "25 to 50 % high"
