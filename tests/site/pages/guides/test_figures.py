"""Figures of guides as pages carry them: one hand, both units, and which can be drawn with the reader's own numbers."""

from __future__ import annotations

import json
import re
from xml.etree import ElementTree as ET

import pytest

from calc.draw import svg
from calc.draw.figures import figure
from calc.own_figures import number_places
from site_build.pages.guides.figures import drawings, picture, place, with_figures
from site_build.pages.guides.texts import load
from site_build.setup.paths import DOCS

pytestmark = pytest.mark.exact
_OWN = re.compile(r"\{own (\w+)")


def test_a_figure_says_which_numbers_it_shows() -> None:
    assert 'data-figure="strands-cut" data-shows="cut_length strands" ' in picture("strands-cut", "p")
    assert "data-shows" not in picture("two-bundle-ply", "p")


@pytest.mark.parametrize("guide", ["two-bundle", "endless", "brace", "serve", "settle"])
def test_some_step_tells_a_number_that_its_figure_shows(guide: str) -> None:
    found = []
    for step in load(DOCS / "guides" / f"{guide}.md").of("step"):
        told = {
            *step.maybe("own").split(),
            *_OWN.findall(" ".join(step.maybe(each) for each in ("do", "looks", "note"))),
        }
        if step.maybe("figure") and told & number_places(step.one("figure")).keys():
            found.append(step.key)
    assert found


def test_a_page_carries_one_hand_still_and_the_files_beside_it_the_rest() -> None:
    places_of = "".join(
        place(name, f"s{at}") for at, name in enumerate(("two-bundle-ply", "strands-cut", "twist-look"))
    )
    page, files = with_figures(places_of, "some"), drawings(places_of, "some")
    assert "d-f0" not in page
    assert (page.count("<svg"), page.count("></svg>")) == (5, 2)
    assert sorted(files) == ["some-S-moving.js", "some-S.js", "some-Z-moving.js"]
    held = {name: json.loads(text.partition(" = ")[2].removesuffix(";\n")) for name, text in files.items()}
    assert {name: sorted(each) for name, each in held.items()} == {
        "some-S.js": ["s0", "s2"], "some-S-moving.js": ["s0"], "some-Z-moving.js": ["s0"],
    }  # fmt: skip
    for hand in ("Z", "S"):
        whole = svg(figure("two-bundle-ply", hand=hand), prefix=f"s0{hand}").replace("drawing", "drawing d-still", 1)
        assert held[f"some-{hand}-moving.js"]["s0"] == whole
    view = svg(figure("two-bundle-ply", hand="S"), prefix="p").partition('viewBox="')[2].partition('"')[0]
    assert f'hidden><svg viewBox="{view}" aria-hidden="true"></svg></div>' in page, "the room that it will take"


@pytest.mark.parametrize("name", ["two-bundle-loop-plied", "length-on-nails", "strands-staggered"])
def test_a_drawing_shows_in_each_of_the_units_what_it_showed_alone(name: str) -> None:
    """With one of the units left out, the words are those of the drawing in the other, in their places."""
    both = picture(name, "p").partition("</desc>")[2]
    for units, other in (("inch", "metric"), ("metric", "inch")):
        alone = svg(figure(name, numbers={"system": units}), prefix="p")
        shown = ET.fromstring(f"<svg>{both.partition('</svg>')[0]}</svg>")  # noqa: S314 - our own text
        for parent in list(shown.iter()):
            for each in list(parent):
                if each.get("data-units") == other:
                    parent.remove(each)
        assert [each.text for each in shown.iter("text")] == re.findall(r"<text [^>]*>([^<]*)</text>", alone)
        assert [each.get("d") for each in shown.iter("path")] == re.findall(r'<path [^>]*?d="([^"]*)"', alone)
