"""Texts that break out of whatever does not hold them: of HTML, SVG, CSS, addresses, tables, the line they stand in."""

from __future__ import annotations

from itertools import product

_MARKUP = (
    "<script>ran()</script>",
    "<img src=x onerror=ran()>",
    "<svg/onload=ran()>",
    "</title><script>ran()</script>",
    "</svg><script>ran()</script>",
    "</style><script>ran()</script>",
    "<iframe srcdoc='<script>ran()</script>'>",
    "<a href=javascript:ran()>x</a>",
    "<meta http-equiv=refresh content='0;url=//evil.example'>",
    "<base href=//evil.example/>",
    "<!--",
    "-->",
    "<![CDATA[",
    "]]>",
    "<?xml version='1.0'?>",
    "<!DOCTYPE html [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>",
    "&lt;script&gt;",
    "&#60;script&#62;",
    "&x;",
    "<foreignObject><body onload=ran()>",
    "<use href='//evil.example/a.svg#x'/>",
    "<animate attributeName=href values=javascript:ran() />",
    "<style>@import '//evil.example/a.css'</style>",
    "<p style=",
    "<template><script>ran()</script></template>",
    "<math><mtext></form><form><mglyph><style></math><img src onerror=ran()>",
)
_ADDRESSES = (
    "javascript:ran()",
    "JaVaScRiPt:ran()",
    "java\tscript:ran()",
    "data:text/html,<script>ran()</script>",
    "vbscript:ran()",
    "//evil.example",
    "https://evil.example/",
    "\\\\evil.example\\share",
    "file:///etc/passwd",
    "blob:x",
    "#v3/string?",
    "?a=b&end=",
    "%3Cscript%3Eran()%3C/script%3E",
    "%00",
    "%u003c",
    "../../../etc/passwd",
    "mailto:a@evil.example",
)
_STYLES = (
    "} body{display:none} a{",
    "url(//evil.example)",
    "expression(ran())",
    "\\3c script\\3e",
    "@import '//evil.example';",
)
_SHEETS = (
    "=1+1",
    "+1+1",
    "-1+1",
    "@SUM(A1)",
    "=cmd|' /C calc'!A0",
    '=HYPERLINK("//evil.example")',
    "＝1+1",
    "\t=1+1",
    "\r=1+1",
    " =1+1",
    ";=1+1",
    '"=1+1',
    "'=1+1",
    ",=1+1",
    "\ufeff=1+1",
    "sep=;",
    '""',
    '"',
    "a\r\nb,c",
    "=\x00",
)
_NAMES = (
    "__proto__",
    "constructor",
    "toString",
    "prototype",
    "hasOwnProperty",
    "null",
    "undefined",
    "NaN",
    "true",
    "id",
    "v",
)
_SIGNS = (
    "\u202eabc",
    "\u2066abc\u2069",
    "\u200b",
    "\ufeff",
    "\u2028",
    "\u2029",
    "\x00",
    "\x1b[31m",
    "\x7f",
    "\x85",
    "\ud800",
    "\udfff",
    "e" + "\u0301" * 200,
    "👨\u200d👩\u200d👧\u200d👦",
    "\ufffe",
    "\U000e0041",
    "ﷺ" * 20,
    "İ",
    "ß",
    "x" * 5000,
    "{0}",
    "%s",
    "{turns}",
    "${ran()}",
    "{{ran()}}",
    "`ran()`",
    "'; ran(); '",
    '"; ran(); "',
    "\\",
    "\\u003cscript\\u003e",
    "\n\n",
    "\r\n",
)
_WRAPPED = (
    "{}",
    '"{}',
    "'{}",
    '">{}',
    "'>{}",
    "</text>{}",
    "Anna {}",
    "{}{}",
    "]]>{}",
    "\n{}",
    "&quot;{}",
    "%22{}",
    "{}\x00",
    "={}",
)
_JOINED = ("", " ", '"', ">")


def hostile_texts() -> list[str]:
    """Return some five thousand of them, the same each time."""
    bare = (*_MARKUP, *_ADDRESSES, *_STYLES, *_SHEETS, *_NAMES, *_SIGNS)
    wrapped = [outer.replace("{}", inner) for outer, inner in product(_WRAPPED, bare)]
    pairs = [f"{first}{mark}{second}" for first, mark, second in product(_MARKUP, _JOINED, (*_ADDRESSES, *_SIGNS))]
    return list(dict.fromkeys([*wrapped, *pairs]))


TEXTS = hostile_texts()
EVERY_KIND = TEXTS[: len(_MARKUP) + len(_ADDRESSES) + len(_STYLES) + len(_SHEETS) + len(_NAMES) + len(_SIGNS)]
"""Each of them bare."""
