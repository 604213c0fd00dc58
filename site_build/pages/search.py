"""The theme's search: it begins when somebody opens it, not with every page, and understands everyday words.

What people call things stands in `search-names.toml`, section by section; no page shows it. How a query's words are
weighed stands in `web/search-words.js`, how much headings and names weigh in `mkdocs.yml`.
"""

from __future__ import annotations

import json
import re
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

from site_build.setup.paths import WEB
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

NAMES = Path(__file__).parent / "search-names.toml"
_SCRIPTS, _WORKERS, _SECTIONS = (
    "assets/javascripts/bundle.*.min.js",
    "assets/javascripts/workers/search.*.min.js",
    "search/search_index.json",
)
_QUERY = re.compile(r"\b(\w)=(\w+\(\1\))(?=,!\1\)return\{items:\[\]\})")
_WEIGHED = "self.weighed({0},this.index,this.map.size)||"
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


def weighing(script: str) -> str:
    """Return the theme's search worker with every query weighed before the index is asked.

    >>> weighing('if(e=ce(e),!e)return{items:[]};').splitlines()[-1]
    'if(e=self.weighed(e,this.index,this.map.size)||ce(e),!e)return{items:[]};'

    Raises
    ------
    StopError
        When the place is not found, or several are.
    """
    script, found = _QUERY.subn(lambda place: f"{place[1]}={_WEIGHED.format(place[1])}{place[2]}", script)
    if found != 1:
        raise StopError(f"The theme's search reads a query at {found} places, not at one: see whether our change fits.")
    return (WEB / "search-words.js").read_text(encoding="utf-8") + script


def with_names(index: str, names: Mapping[str, Sequence[str]]) -> str:
    """Return an index whose sections know their everyday names too.

    >>> with_names('{"docs":[{"location":"a/"},{"location":"b/"}]}', {"b/": ["log book", "diary"]})
    '{"docs":[{"location":"a/"},{"location":"b/","names":"log book. diary"}]}'

    Raises
    ------
    StopError
        When a name leads to a section that is not there.
    """
    read = json.loads(index)
    sections = {each["location"]: each for each in read["docs"]}
    if lost := sorted(names.keys() - sections):
        raise StopError(f"{NAMES.name} names what is not in the search: {', '.join(lost)}.")
    for location, known_as in names.items():
        sections[location]["names"] = ". ".join(known_as)
    return json.dumps(read, separators=(",", ":"))


def install(site: Path) -> None:
    """Let the search of a built site begin later, weigh words, and know everyday names.

    Raises
    ------
    StopError
        When the theme has no script there, or it is not as it was; when a name leads nowhere.
    """
    names = tomllib.loads(NAMES.read_text(encoding="utf-8"))
    _change(site, _SCRIPTS, later)
    _change(site, _WORKERS, weighing)
    _change(site, _SECTIONS, lambda index: with_names(index, names))


def _change(site: Path, files: str, changed: Callable[[str], str]) -> None:
    paths = list(site.glob(files))
    if not paths:
        raise StopError(f"The theme's {files} is not where it was: see whether our change of the search still fits.")
    for path in paths:
        path.write_text(changed(path.read_text(encoding="utf-8")), encoding="utf-8")
