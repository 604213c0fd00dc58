"""The entries of the two reference pages that guides draw on: words and cautions."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from site_build.pages.blocks import Block
    from site_build.pages.guides.marks import Html


def word_entry(block: Block, html: Html) -> str:
    """Return one word of the trade with its meaning."""
    also = f' <span class="pt-also">also: {escape(block.maybe("also"))}</span>' if block.maybe("also") else ""
    means = html.text(block.one("means"))
    head = f'<dt id="{block.key}">{escape(block.one("word"))}{also}</dt>'
    return f'<dl class="pt-words" markdown="1">\n{head}\n<dd markdown="1">{means}</dd>\n</dl>\n'


def caution_entry(block: Block, html: Html) -> str:
    """Return one caution with its reason."""
    return (
        f'<section class="pt-caution-entry" markdown="1">\n<h2 id="{block.key}">{escape(block.one("title"))}</h2>\n'
        f'<p class="pt-caution" markdown="1">{html.text(block.one("text"))}</p>\n'
        f'<p markdown="1">{html.text(block.one("why"))}</p>\n</section>\n'
    )
