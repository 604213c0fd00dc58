"""The pages made of the guides: words explained, links that lead somewhere, no mark left over."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest
from markdown import Markdown  # type: ignore[import-untyped]

from calc.draw import svg
from calc.draw.figures import figure
from calc.worksheets import catalogue
from site_build.pages.guides.page import guide_page
from site_build.pages.guides.texts import EXTENSIONS, html, load, pages
from site_build.pages.guides.words import words
from site_build.setup.paths import DOCS

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
PAGES = pages()
GUIDES = [page for page in PAGES if page.parent.name == "guides" and page.stem != "index"]


@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_a_word_is_explained_where_it_is_first_used(path: Path) -> None:
    page = html(path)
    before_end = page.split('id="words-in-this-guide"')[0]
    seen = re.sub(r'<(dl|p) class="pt-(numbers|has-own)".*?</\1>', "", before_end, flags=re.DOTALL)
    figures = re.sub(r"<[^>]*>", "\0", "".join(re.findall(r"<svg.*?</svg>", before_end, flags=re.DOTALL)))
    seen = re.sub(r"<svg.*?</svg>", "\0", seen, flags=re.DOTALL)
    seen = re.sub(r"<(a|h\d|strong|summary)\b[^>]*>.*?</\1>", "\0", seen, flags=re.DOTALL)
    seen = re.sub(r"<[^>]*>", "\0", seen)
    forms = sorted(((form, word) for word in words() for form in word.forms), key=lambda each: -len(each[0]))
    for form, word in forms:
        pattern = re.compile(rf"\b{re.escape(form)}\b", re.IGNORECASE)
        if pattern.search(seen):
            assert f'href="#word-{word.key}"' in before_end, word.word
        if pattern.search(seen) or pattern.search(figures):
            assert f'id="word-{word.key}"' in page, word.word
        seen, figures = pattern.sub("\0", seen), pattern.sub("\0", figures)


class Anchors(HTMLParser):
    """Collects ids and links of a page."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Note its id and where it leads."""
        self.ids += [value for name, value in attrs if name == "id" and value]
        self.links += [value for name, value in attrs if tag == "a" and name == "href" and value]


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_every_link_leads_somewhere_and_ids_are_single(page: Path) -> None:
    found = Anchors(html(page))
    assert len(set(found.ids)) == len(found.ids)
    for link in found.links:
        target, _, anchor = link.partition("#")
        goal = (page.parent / target).resolve() if target else page
        assert goal.exists(), link
        if anchor and goal in PAGES:
            assert anchor in Anchors(html(goal)).ids, link


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_no_mark_is_left_as_it_was_typed(page: Path) -> None:
    made = re.sub(r"<[^>]*>", " ", html(page))
    assert not re.search(r"[{}]|\*\*|\]\(|:::", made)
    assert "markdown=" not in html(page)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_no_heading_is_skipped(page: Path) -> None:
    levels = [int(level) for level in re.findall(r"<h(\d)", html(page))]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(deeper <= level + 1 for level, deeper in pairwise(levels))


def test_worksheets_lead_to_steps_that_are_there() -> None:
    for worksheet in catalogue().values():
        for guide in worksheet.guides:
            assert guide.step in Anchors(html(DOCS / "guides" / f"{guide.page}.md")).ids, (worksheet.id, guide)


@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_a_caution_is_read_before_the_hand_does_it(path: Path) -> None:
    for step in html(path).split('class="pt-step"')[1:]:
        done, *cautions = step.index('class="pt-do'), *(each.start() for each in re.finditer("pt-caution", step))
        assert all(caution < done for caution in cautions)


@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_a_figure_shows_as_many_bundles_as_the_guide_makes(path: Path) -> None:
    """A drawing that shows A and B plied shows C beside them in a guide for three, and no C in one for two."""
    meta = load(path).meta
    drawn = re.findall(r'<div class="pt-figure" data-figure="([\w-]+)".*?</svg>', html(path), flags=re.DOTALL)
    for name in drawn if meta.get("making") else ():
        painted = set(re.findall(r'data-role="([abc])-', svg(figure(name), prefix="p")))
        if len(painted) > 1:
            assert sorted(painted) == ["a", "b", "c"][: meta.get("bundles", 2)], name


@pytest.mark.parametrize("path", GUIDES, ids=lambda path: path.stem)
def test_the_list_of_steps_names_each_step_once(path: Path) -> None:
    """A step of one strand a bundle has a title of its own in the page, which the list at the side leaves out."""
    loaded = load(path)
    writer = Markdown(extensions=list(EXTENSIONS))
    page = writer.convert(guide_page(loaded.body, loaded.meta, f"guides/{path.name}"))
    titles = re.findall(r'<h3 [^>]*\bid="([\w-]+)"[^>]*>.*?<span class="pt-many">(.*?)</span>', page)
    waiting, listed = list(writer.toc_tokens), {}
    for each in waiting:
        listed[each["id"]] = each["name"]
        waiting += each["children"]
    for key, usual in titles:
        assert listed[key].split(" ", 1)[1] == re.sub(r"<[^>]+>", "", usual)
