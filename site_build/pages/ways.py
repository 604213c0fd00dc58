"""Navigation on every page: its title leads home, and a phone has five links at the foot, within a thumb's reach."""

from __future__ import annotations

import re

from site_build.setup.progress import StopError

PLACES = (
    ("Plan", "worksheets/string/"),
    ("Make", "guides/"),
    ("Tune", "worksheets/tune/"),
    ("Notebook", "notebook/"),
    ("Help", "guides/faults/"),
)
"""What stands at the foot of a phone, and where it leads."""
_HOME = re.compile(r'<a href="(?P<root>[^"]*)" title="[^"]*" class="md-header__button md-logo"')
_TITLE = re.compile(r'(<div class="md-header__topic">\s*)<span class="md-ellipsis">(?P<name>[^<]*)</span>')
_ICON = re.compile(r'<div class="md-footer__button md-icon">.*?</div>\s*', re.DOTALL)
_SAID = re.compile(r'(<a href="[^"]*" class="md-footer__link [^"]*") aria-label="[^"]*"')
_EMPTY = re.compile(r"\n\s*\n\s*")
_BETWEEN = re.compile(r"\s*\n\s*(</?(?:div|span|nav|a)\b)")
_FOOTER = re.compile(r'<footer class="md-footer">')


def with_ways(page: str) -> str:
    """Return a page with its ways on.

    Raises
    ------
    StopError
        When the theme's page is not as it was.
    """
    above, rest = page[: page.find("<article")], page[page.find("<article") :]
    page = _EMPTY.sub("\n", above) + rest
    home, title, footer = _HOME.search(page), _TITLE.search(page), _FOOTER.search(page)
    if not (home and title and footer):
        raise StopError(
            "The theme's page has no logo, title or footer where they were: see whether our ways still fit."
        )
    root = home["root"].removesuffix("index.html").rstrip("/") or "."
    linked = f'{title[1]}<a class="md-ellipsis" href="{home["root"]}">{title["name"].strip()}</a>'
    links = "".join(f'<a href="{root}/{to}">{name}</a>' for name, to in PLACES)
    places = f'<nav class="places" aria-label="Places">{links}</nav>'
    foot = _SAID.sub(r"\1", _ICON.sub("", page[footer.start() :]))  # the style draws arrows
    page = page[: footer.start()] + _BETWEEN.sub(r"\1", foot)
    return page.replace(title[0], linked, 1).replace(footer[0], footer[0] + places, 1)
