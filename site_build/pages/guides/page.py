"""A guide: Markdown with blocks in, Markdown with HTML out, both hands in one page."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING, Any

from mkdocs.exceptions import PluginError

from site_build.pages.blocks import Block, BlockError, parts
from site_build.pages.guides.club import kit, times
from site_build.pages.guides.entries import caution_entry, word_entry
from site_build.pages.guides.steps import Writer

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

ROOMS = ("guides/", "reference/")
"""Where pages may have blocks and marks of guides."""
CODE = "reference/code/"
"""Where pages show code, in which braces are no marks."""
FACTS = (("for", "For"), ("time", "Time"), ("tools", "Tools"), ("materials", "Materials"), ("first", "First"))
"""What stands in the front matter of a guide, and how it is headed."""
_CONTROLS = (
    '<form class="pt-reader" aria-label="How this guide is shown" hidden>'
    '<fieldset><legend>Lay</legend><label><input type="radio" name="pt-hand" value="Z" checked> Z</label>'
    '<label><input type="radio" name="pt-hand" value="S"> S</label></fieldset>'
    '<fieldset><legend>Units</legend><label><input type="radio" name="pt-units" value="inch"> in</label>'
    '<label><input type="radio" name="pt-units" value="metric"> mm</label>'
    '<label><input type="radio" name="pt-units" value="" checked> both</label></fieldset></form>\n'
)
_OWN = '<p class="pt-has-own" hidden></p>\n'
"""Whose string the steps below are about; `web/guide/guide.js` writes it."""


def guide_page(markdown: str, meta: Mapping[str, Any], place: str) -> str:
    """Return the Markdown of a page with every block and mark of a guide written out.

    Parameters
    ----------
    markdown : str
        Its source, without front matter.
    meta : mapping
        Its front matter.
    place : str
        Its path below ``docs``. Pages outside ``guides`` and ``reference`` come back as they are.

    Raises
    ------
    PluginError
        With page and line, for a source that cannot be.
    """
    if not place.startswith(ROOMS) or place.startswith(CODE):
        return markdown
    try:
        return _page_text(markdown, meta, place.rpartition("/")[2].removesuffix(".md"))
    except BlockError as wrong:
        raise PluginError(f"{place}:{wrong.line}: {wrong}") from wrong
    except ValueError as wrong:
        raise PluginError(f"{place}: {wrong}") from wrong


def _page_text(markdown: str, meta: Mapping[str, Any], name: str) -> str:
    is_guide = "time" in meta
    writer = Writer(name, explaining=is_guide)
    head = [_head(meta, writer)] if is_guide else []
    body = [_block(part, writer) if isinstance(part, Block) else _prose(part, writer) for part in parts(markdown)]
    return "\n".join([*head, *body, *_tail(writer)])


def _prose(text: str, writer: Writer) -> str:
    """Write out what is between blocks; headings keep their words unlinked."""
    lines = text.split("\n")
    return "\n".join(writer.html.text(line) if line.startswith("#") else writer.text(line) for line in lines)


def _block(block: Block, writer: Writer) -> str:
    write: dict[str, Callable[[], str]] = {
        "step": lambda: writer.step(block),
        "check": lambda: writer.check(block),
        "fault": lambda: writer.fault(block),
        "kit": lambda: kit(block, writer.text),
        "times": lambda: times(block, writer.text),
        "word": lambda: word_entry(block, writer.html),
        "caution": lambda: caution_entry(block, writer.html),
    }
    return write[block.kind]()


def _head(meta: Mapping[str, Any], writer: Writer) -> str:
    lines = [f"# {meta['title']}\n"]
    lines += ['<dl class="pt-facts" markdown="1">']
    for key, title in FACTS:
        told = meta.get(key, [])
        told = [told] if isinstance(told, str) else told
        for number, each in enumerate(told):
            lines += [f"<dt>{title}</dt>"] if number == 0 else []
            lines.append(f'<dd markdown="1">{writer.text(str(each))}</dd>')
    lines += ["</dl>\n", _CONTROLS, _make_along_button(meta, writer.name) if meta.get("making") else "", _OWN]
    return "\n".join(lines)


def _make_along_button(meta: Mapping[str, Any], name: str) -> str:
    return (
        f'<p class="pt-along-start" data-guide="{name}" data-bundles="{meta.get("bundles", 2)}" hidden>'
        '<button type="button" class="pt-go">Make along</button> '
        f"<span>One step a screen, for a phone propped on the bench.</span></p>\n\n"
    )


def _tail(writer: Writer) -> list[str]:
    html = writer.html
    meanings = writer.words.meanings(html)
    lines = []
    if meanings:
        lines += ["\n## Words in this guide\n", '<dl class="pt-words" markdown="1">']
        for word, means in meanings:
            lines.append(f'<dt id="word-{word.key}">{escape(word.word)}</dt>')
            lines.append(f'<dd markdown="1">{means} [In the list of words](../reference/words.md#{word.key})</dd>')
        lines.append("</dl>\n")
    if html.sources:
        lines += ["\n## Where the numbers come from\n", '<dl class="pt-origins">']
        for mark, words in html.origins():
            lines.append(f'<dt id="from-{mark}">{mark}</dt>\n<dd>{escape(words[:1].upper() + words[1:])}</dd>')
        lines.append("</dl>\n")
    return lines
