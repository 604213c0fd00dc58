"""Which figures of guides can be drawn again with the reader's own numbers."""

from __future__ import annotations

import re

import pytest

from calc.own_figures import places
from site_build.guide_figures import picture
from site_build.guide_texts import DOCS, load

pytestmark = pytest.mark.exact
_OWN = re.compile(r"\{own (\w+)")


def test_a_figure_says_which_numbers_it_shows() -> None:
    assert 'data-figure="strands-cut" data-shows="cut_length strands">' in picture("strands-cut", "p")
    assert "data-shows" not in picture("two-bundle-ply", "p")


@pytest.mark.parametrize("guide", ["two-bundle", "endless", "brace", "serve", "settle"])
def test_some_step_tells_a_number_that_its_figure_shows(guide: str) -> None:
    found = []
    for step in load(DOCS / "guides" / f"{guide}.md").of("step"):
        told = {
            *step.maybe("own").split(),
            *_OWN.findall(" ".join(step.maybe(each) for each in ("do", "looks", "note"))),
        }
        if step.maybe("figure") and told & places(step.one("figure")).keys():
            found.append(step.key)
    assert found
