"""Charts: what stands in them, where, and what a page script can read."""

from __future__ import annotations

import json
import re
from html import unescape
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calc.draw import svg
from calc.draw.charts import Axis, Band, Limit, Marker, MeasuredPoint, Ribbon, Scatter, Series, line_chart

if TYPE_CHECKING:
    from collections.abc import Callable

    from calc.draw import Dash, Drawing

pytestmark = pytest.mark.exact
X, Y = Axis("turns", 0.0, 60.0), Axis("brace height, in", 3.0, 11.0)
LINE = Series("brace's height & <more>", ((0.0, 5.0), (30.0, 6.5), (60.0, 8.0)), "a", mark="dot")


def held(drawing: Drawing) -> dict[str, Any]:
    found = re.search(r"data-readout='([^']*)'", svg(drawing, prefix="p"))
    assert found
    answer: dict[str, Any] = json.loads(unescape(found[1]))
    return answer


def chart(*series: Series, limits: tuple[Limit, ...] = (), clouds: tuple[Scatter, ...] = ()) -> Drawing:
    return line_chart(series, X, Y, key="k", title="t", desc="d", limits=limits, clouds=clouds)


def test_a_full_chart_is_sound(sound: Callable[[Drawing], str]) -> None:
    drawing = line_chart(
        [LINE, Series("b", ((0.0, 4.0), (60.0, 11.0)), "b", dash=True), Series("", ((5.0, 9.0),), dash="dots")],
        X,
        Y,
        key="full",
        title="t",
        desc="d",
        bands=[Band("tuning window", 20.0, 38.0), Band("fits", 6.0, 7.0, "y")],
        ribbons=[Ribbon("spread", ((0.0, 4.5), (60.0, 7.5)), ((0.0, 5.5), (60.0, 8.5)))],
        limits=[Limit("lay jams", 52.0), Limit("too high", 10.2, "y")],
        clouds=[Scatter("measured", (MeasuredPoint((10.0, 7.0), (9.0, 11.0), (6.5, 7.5)),))],
        markers=[Marker("now", (30.0, 6.5))],
    )
    text = sound(drawing)
    for words in ("tuning window", "lay jams", "too high", "measured", "spread", "now"):
        assert f">{words}<" in text


def test_the_readout_stands_where_the_line_is_drawn() -> None:
    drawing = chart(LINE)
    entries = held(drawing)["series"][0]["points"]
    drawn = re.search(r'series-0"[^>]*><path [^>]*d="M([^"]*)"', svg(drawing, prefix="p"))
    assert drawn
    points = [tuple(float(each) for each in pair.split()) for pair in drawn[1].split("L")]
    for (x, y, *_), (x2, y2) in zip(entries, points, strict=True):
        assert (x, y) == pytest.approx((x2, y2), abs=0.06)


def test_the_readout_says_the_texts_it_is_given_and_plain_numbers_else() -> None:
    said = Series("s", ((0.0, 5.0), (60.0, 8.0)), texts=(("0 turns", "5 in"), ("60 turns", "8 in")))
    first, second = (one["points"] for one in held(chart(said, LINE))["series"])
    assert [each[2:] for each in first] == [["0 turns", "5 in"], ["60 turns", "8 in"]]
    assert second[1][2:] == ["30.0", "6.50"]


def test_texts_must_match_their_points() -> None:
    with pytest.raises(ValueError, match="Series: got 1 texts"):
        Series("s", ((0.0, 5.0), (60.0, 8.0)), texts=(("0", "5"),))


def test_a_limit_stands_at_its_value_and_not_beyond_the_axis() -> None:
    text = svg(chart(LINE, limits=(Limit("jam", 30.0), Limit("far", 90.0))), prefix="p")
    found = re.search(r'limit-0"[^>]*><path [^>]*d="M([\d.]+) [-\d.]+L([\d.]+) ', text)
    field = held(chart(LINE, limits=(Limit("jam", 30.0),)))["field"]
    assert found
    assert (
        float(found[1]) == float(found[2]) == pytest.approx((float(str(field[0])) + float(str(field[2]))) / 2, abs=0.1)
    )
    assert "far" not in text


def test_bars_reach_from_low_to_high() -> None:
    cloud = Scatter("m", (MeasuredPoint((30.0, 7.0), None, (5.0, 9.0)),))
    text = svg(chart(LINE, clouds=(cloud,)), prefix="p")
    found = re.search(r'cloud-0"[^>]*><path [^>]*d="M[\d.]+ ([\d.]+)L[\d.]+ ([\d.]+)"', text)
    assert found
    assert float(found[1]) - float(found[2]) == pytest.approx(190.0 * 4.0 / 8.0, abs=0.02)


@pytest.mark.parametrize(("dash", "name"), [(True, "d-dash"), ("dots", "d-dots"), ("long", "d-long")])
def test_every_broken_line_has_its_own_class(dash: Dash, name: str) -> None:
    assert name in svg(chart(Series("s", ((0.0, 4.0), (60.0, 5.0)), dash=dash)), prefix="p")


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.tuples(st.floats(0.0, 60.0), st.floats(-50.0, 50.0)), min_size=1, max_size=8),
    st.sampled_from(["", "dot", "ring", "square", "cross"]),
)
def test_any_line_stays_inside(points: list[tuple[float, float]], mark: str) -> None:
    drawing = chart(Series("name of it", tuple(sorted(points)), mark=mark))  # type: ignore[arg-type]
    frame = drawing.frame
    assert all(frame.holds(each.box()) for each in drawing.shapes)
