"""The content-security policy: what a browser may load and run for a page of this site, and nothing else.

Every page has the same one. The theme puts the next page's head into the page that is open, and a second policy there
would hold beside the first. Scripts in a page's text are allowed by their SHA-256, worked out here from the finished
pages, and so are the styles of what is printed. Python's worker has the policy of its own file, see `WORKER`.
"""

from __future__ import annotations

import re
from base64 import b64encode
from hashlib import sha256
from typing import TYPE_CHECKING

from calc.paper import print_styles
from site_build.setup.progress import StopError

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from pathlib import Path

Policy = dict[str, tuple[str, ...]]
SELF, NONE = "'self'", "'none'"
_SCRIPT = re.compile(r"<script(?P<marks>[^>]*)>(?P<text>.*?)</script>", re.DOTALL)
_CHARSET_TAG = '<meta charset="utf-8">'
_REFUSED = re.compile(r"<[a-z][^<>]*\s(style|on[a-z]+)=")
_NEXT = re.compile(r'\s*<link rel="next"[^>]*>')
_META = re.compile(r'\s*<meta http-equiv="Content-Security-Policy"[^>]*>')
WORKER: Policy = {
    "default-src": (NONE,),
    "script-src": (SELF, "blob:", "'wasm-unsafe-eval'"),
    "connect-src": (SELF,),
    "frame-ancestors": (NONE,),
}
"""For hosts that send headers: the policy of Python's worker. It runs a script once it has compared its SHA-256."""


def policy(pages: Iterable[str], styles: Iterable[str] = ()) -> Policy:
    """Return what pages need, by directive.

    Parameters
    ----------
    pages : iterable of str
        HTML of every page.
    styles : iterable of str
        Text of each ``<style>`` that is made later, in a frame or in the page.
    """
    scripts = sorted({hashed(text) for page in pages for text in inline_scripts(page)})
    return {
        "default-src": (NONE,),
        "script-src": (SELF, *scripts),
        "style-src": (SELF, *sorted(map(hashed, styles))),
        "img-src": (SELF, "data:"),  # the theme's icons are data of its style sheet
        "font-src": (SELF,),
        "connect-src": (SELF,),
        "worker-src": (SELF,),
        "manifest-src": (SELF,),
        "base-uri": (NONE,),
        "form-action": (NONE,),
    }


def inline_scripts(page: str) -> list[str]:
    """Return the text of every script of a page that runs and is not in a file."""
    found = _SCRIPT.finditer(page)
    return [each["text"] for each in found if " src=" not in each["marks"] and "application/json" not in each["marks"]]


def hashed(text: str) -> str:
    """Return a script or style as a source of a policy.

    Examples
    --------
    >>> hashed("alert('Hello, world.');")  # the example of Content Security Policy Level 3, 8.3
    "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"
    """
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"


def written(rules: Policy) -> str:
    """Return a policy as a browser reads it."""
    return "; ".join(" ".join([name, *sources]) for name, sources in rules.items())


def with_policy(page: str, rules: Policy) -> str:
    """Return a page with its policy, before anything that it rules; one that was there is replaced."""
    meta = f'\\g<0>\n      <meta http-equiv="Content-Security-Policy" content="{written(rules)}">'
    made, count = re.subn(_CHARSET_TAG, meta, _META.sub("", page), count=1)
    if not count:
        raise StopError("A page does not say its character set, below which its policy belongs.")
    return made


def anywhere(page: str) -> str:
    """Return the page for addresses that lead nowhere so that its script is the same below any folder of a host.

    The service worker puts that folder before every address in the page; a script it would change is one the policy
    refuses. So the script asks the icon, which stands in a folder of the site's root.
    """
    return page.replace('new URL("/",location)', 'new URL("..",document.querySelector("link[rel=icon]").href)')


def unhurried(page: str) -> str:
    """Return the page without what has Firefox fetch the next one unasked, which its policy refuses."""
    return _NEXT.sub("", page)


def install(site: Path) -> None:
    """Give every page of a built site its policy."""
    pages = {path: unhurried(anywhere(path.read_text(encoding="utf-8"))) for path in sorted(site.rglob("*.html"))}
    rules = policy(pages.values(), print_styles())
    for path, page in pages.items():
        path.write_text(with_policy(page, rules), encoding="utf-8")


def faults(pages: Mapping[str, str]) -> Iterator[str]:
    """Say of which pages, by name, the policy is not that of all, and in which something stands that it refuses."""
    rules = policy(pages.values(), print_styles())
    for name, page in pages.items():
        if _META.findall(page) != _META.findall(with_policy(_CHARSET_TAG, rules)):
            yield f"{name}: does not have the policy of the site"
        if _NEXT.search(page):
            yield f"{name}: has Firefox fetch the next page, which its policy refuses"
        yield from (f"{name}: has the attribute {each}, which its policy refuses" for each in _REFUSED.findall(page))
