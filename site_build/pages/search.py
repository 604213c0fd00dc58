"""The theme's search, which brings its index and starts its worker when somebody opens it, not with every page."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from pathlib import Path

_SCRIPTS = "assets/javascripts/bundle.*.min.js"
_INDEX = re.compile(r'location\.protocol!=="file:"(?=\),[\w$]+\("search"\)\))')
_WORKER = re.compile(r"(?<==)new Worker(?=\(\w+\)\)\{)")
_INDEX_LATER = '!"at once"'
_WORKER_LATER = (
    "(address=>{let worker,heard=new EventTarget;heard.postMessage=told=>{if(!worker){worker=new Worker(address);"
    'worker.addEventListener("message",({data})=>heard.dispatchEvent(new MessageEvent("message",{data})))}'
    "worker.postMessage(told)};return heard})"
)
_INLINE = ("a", "abbr", "b", "code", "em", "i", "small", "span", "strong", "sub", "sup", "tspan")
_ENDS = re.compile(rf"(?:</(?!(?:{'|'.join(_INLINE)})>)[a-z][a-z0-9]*>|<br>)(?=\S)")
_UNSEEN = re.compile(r'(<[a-z][^<>]* hidden)(?:="")?(?=[ >])|(<noscript|<template)\b')


def readable(html: str) -> str:
    """Return a page for a search that reads words as they follow: parted where the eye parts them, without the unseen.

    >>> readable('<dt>A hidden end</dt><dd><b>1</b>2<i class="a" hidden="">?</i></dd>')
    '<dt>A hidden end</dt> <dd><b>1</b>2<i class="a" hidden data-search-exclude>?</i></dd>'
    """
    parted = _ENDS.sub(r"\g<0> ", html)
    return _UNSEEN.sub(lambda found: f"{found[1] or found[2]} data-search-exclude", parted)


def later(script: str) -> str:
    """Return the theme's script with a search that begins when it is opened.

    >>> script = later('L($(location.protocol!=="file:"),Je("search"));function Mn(e,t=new Worker(e)){}')
    >>> script[:28], script[-20:]
    ('L($(!"at once"),Je("search")', 'return heard})(e)){}')

    Raises
    ------
    StopError
        When one of the two places is not found, or several are.
    """
    for place, now in ((_INDEX, _INDEX_LATER), (_WORKER, _WORKER_LATER)):
        script = place.sub(now, script)
        found = script.count(now)
        if found != 1:
            raise StopError(
                f"The theme's search begins at {found} places, not at one: see whether our change still fits."
            )
    return script


def install(site: Path) -> None:
    """Let the search of a built site begin later.

    Raises
    ------
    StopError
        When the theme has no script there, or it is not as it was.
    """
    scripts = list(site.glob(_SCRIPTS))
    if not scripts:
        raise StopError("The theme's script is not where it was: see whether our change of the search still fits.")
    for path in scripts:
        path.write_text(later(path.read_text(encoding="utf-8")), encoding="utf-8")
