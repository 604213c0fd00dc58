"""The content-security policy: all that pages need, nothing else, and the same in every page."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from calc import bridge
from calc.draw.cards import PAPERS
from calc.paper import FORMS, print_styles
from calc.worksheets import catalogue
from calc.worksheets.core import usual
from site_build.pages import policy
from site_build.setup.paths import ROOT, WEB

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
PAGE = """<!doctype html>
<html><head>
<meta charset="utf-8">
<script>one()</script>{more}
<script src="own.js"></script><script id="__config" type="application/json">{{"base": "."}}</script>
</head></html>
"""
HOSTING = (ROOT / "docs" / "reference" / "code" / "hosting.md").read_text(encoding="utf-8")
WRITERS = {
    "guide/drawings.js": 2,
    "guide/own-figures.js": 1,
    "notebook/range-view.js": 1,
    "offline/offline.js": 1,
    "worksheet/fill.js": 2,
    "worksheet/paper.js": 2,
}
"""Where our scripts write HTML from text, and how often: one more is looked at by hand before it stands here."""


def told(page: str) -> dict[str, list[str]]:
    """Return the policy of a page, as a browser reads it."""
    (text,) = re.findall(r'<meta http-equiv="Content-Security-Policy" content="([^"]*)">', page)
    return {name: sources for name, *sources in (each.split() for each in text.split(";"))}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    (tmp_path / "inner").mkdir()
    (tmp_path / "index.html").write_text(PAGE.format(more=""), encoding="utf-8")
    (tmp_path / "inner" / "index.html").write_text(PAGE.format(more="\n<script data-early>two()</script>"), "utf-8")
    return tmp_path


def test_every_page_has_one_policy_the_same_before_anything_that_runs(site: Path) -> None:
    for _ in range(2):  # a site that is finished once more has it once
        policy.install(site)
        pages = [path.read_text(encoding="utf-8") for path in site.rglob("*.html")]
        first, second = map(told, pages)
        assert first == second
        assert all(page.index("Content-Security-Policy") < page.index("<script") for page in pages)
        assert all(page.index('<meta charset="utf-8">') < page.index("Content-Security-Policy") for page in pages)


def test_just_the_scripts_that_stand_in_pages_are_allowed(site: Path) -> None:
    policy.install(site)
    rules = told((site / "index.html").read_text(encoding="utf-8"))
    assert sorted(rules["script-src"]) == sorted(["'self'", policy.hashed("one()"), policy.hashed("two()")])
    everything = " ".join(source for sources in rules.values() for source in sources)
    assert "unsafe" not in everything
    assert "*" not in everything
    assert "http" not in everything
    assert rules["default-src"] == ["'none'"]


def test_no_script_inside_a_page_has_an_address_that_the_service_worker_changes(site: Path) -> None:
    (site / "404.html").write_text(PAGE.format(more='<script>scope=new URL("/",location)</script>'), encoding="utf-8")
    policy.install(site)
    (script,) = [each for each in policy.inline_scripts((site / "404.html").read_text("utf-8")) if "scope" in each]
    assert '"/' not in script


def test_no_page_has_firefox_fetch_the_next_one_which_the_policy_refuses(site: Path) -> None:
    asks = PAGE.format(more='<link rel="prev" href="a/"><link rel="next" href="b/">')
    (site / "index.html").write_text(asks, encoding="utf-8")
    policy.install(site)
    page = (site / "index.html").read_text("utf-8")
    assert 'rel="next"' not in page
    assert 'rel="prev"' in page
    assert [each for each in policy.faults({"asks": asks, "page": page}) if "Firefox" in each] == [
        "asks: has Firefox fetch the next page, which its policy refuses"
    ]


def test_a_page_that_does_not_tell_its_character_set_is_refused() -> None:
    with pytest.raises(Exception, match="character set"):
        policy.with_policy("<html></html>", policy.policy([]))


def test_all_that_is_printed_has_styles_that_the_policy_names_and_none_else() -> None:
    styles = set()
    inputs, bows = usual(catalogue()["string"]), usual(catalogue()["club"])
    for paper in PAPERS:
        for form in (*FORMS, "pack"):
            ask = {"card": "string", "system": "inch", "paper": paper, "form": form, "inputs": bows}
            reply = json.loads(bridge.handle(json.dumps({**ask, "strings": [{"inputs": inputs, "name": "Anna"}]})))
            styles.update(re.findall(r"<style>(.*?)</style>", reply["html"], re.DOTALL))
            assert not re.search(r"<[^>]*\s(style|on[a-z]+)=", reply["html"])
            assert "<script" not in reply["html"]
    assert styles == set(print_styles())


def test_our_scripts_write_html_from_text_in_few_places() -> None:
    ways = re.compile(r"\.innerHTML = |\.srcdoc = |insertAdjacentHTML|outerHTML|document\.write|DOMParser|FromHTML")
    found = {path.relative_to(WEB).as_posix(): len(ways.findall(path.read_text("utf-8"))) for path in WEB.rglob("*.js")}
    assert {name: count for name, count in found.items() if count} == WRITERS


def test_no_script_of_ours_makes_code_of_text() -> None:
    """But for the folder to carry, which has neither modules nor a policy, since it has no server."""
    ways = re.compile(r"\beval\(|new Function\(|setTimeout\(['\"`]|javascript:")
    assert [path.name for path in WEB.rglob("*.js") if ways.search(path.read_text(encoding="utf-8"))] == []


def _examples() -> dict[str, str]:
    return dict(re.findall(r"```(\w+)\n(.*?)```", HOSTING, re.DOTALL))


def test_the_examples_for_hosts_say_the_same() -> None:
    """Each header of the nginx example stands in the others, and the worker's policy is that of the build."""
    examples = _examples()
    assert examples.keys() == {"nginx", "caddy", "headers", "yaml"}
    values = re.findall(r'(?:add_header [\w-]+|default|~\S+) "([^"]+)"', examples["nginx"])
    assert len(values) >= 7
    for value in values:
        assert f'"{value}"' in examples["caddy"], value
        assert f": {value}\n" in examples["headers"], value
    assert policy.written(policy.WORKER) in values


def test_the_workflow_for_publishing_runs_what_this_project_has() -> None:
    runs = re.findall(r"- run: python3 -m site_build (\w+)", _examples()["yaml"])
    assert runs == ["test", "build"]
