"""The page of speeds, from the committed figures alone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from site_build.bench.lighthouse import CATEGORIES, rows

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

OURS, STOCK = "this site", "stock Pyodide"
WORDS = {
    "first visit": "First visit, nothing kept",
    "later visit": "Later visit, browser's own cache",
    "kept on the device": "Later visit, kept on the device",
    "no signal": "No signal",
}
AIMS = {
    ("whole machine", "first visit"): 0.33,
    ("whole machine", "later visit"): 0.22,
    ("whole machine", "kept on the device"): 0.22,
    ("whole machine", "no signal"): 0.22,
    ("half a core", "first visit"): 0.36,
    ("half a core", "later visit"): 0.28,
    ("half a core", "kept on the device"): 0.28,
    ("half a core", "no signal"): 0.28,
    ("9 Mbit/s link", "first visit"): 0.72,
}
BYTES_AIM, PAGE_AIM_KB, SUM_AIM_MS, SLOW_SUM_AIM_MS = 1.0, 180, 20, 150
SLOW = ("shot", "club")
HEAD = """# How fast, and how large

<!-- written by `python3 -m site_build bench` from speed.json: change it there -->

What a reader waits for, measured in one run on {date}: Chromium {browser}, {machine}; median of {rounds} rounds, with
the least and the most in brackets. Milliseconds from opening a page to its first worked-out answer. Each round starts
fresh browsers: one in which sites may not keep themselves, for the first visit and the one after it, and one for the
others. A browser has been open for {read} seconds before its first visit, and an answer stays on the screen as long
before the next. Only ratios from one run say anything: another machine gives other milliseconds.{load}

*This site* is the whole page *Plan a string* working out a bow of 61 in. *Stock Pyodide* is an empty page that asks the
same sum of the same package with Pyodide as published. *MicroPython* and *plain JavaScript* work out one short formula:
they are floors, not the same sum.
"""


def page(found: Mapping[str, Any]) -> str:
    """Return the page as Markdown; what is not measured yet is left out."""
    parts = [HEAD.format(**{"load": "", "read": "five", **found})]
    for setting, times in found["times"].items():
        if times:
            parts += [f"## {setting[0].upper()}{setting[1:]}\n", _times(setting, times)]
    for key, title, shown in (
        ("bytes", "Bytes", _bytes),
        ("lighthouse", "Lighthouse", _lighthouse),
        ("sums", "Working out again", _sums),
        ("native", "The sums themselves, in this machine's own Python", _native),
    ):
        if key in found:
            parts += [f"## {title}\n", shown(found[key])]
    return "\n".join(parts)


def table(head: Iterable[str], rows: Iterable[Iterable[str]]) -> str:
    """Return a Markdown table.

    >>> print(table(["a", "b"], [["1", "2"]]))
    | a | b |
    |---|---|
    | 1 | 2 |
    <BLANKLINE>
    """
    named = list(head)
    written = [f"| {' | '.join(line)} |" for line in (named, *rows)]
    return "\n".join([written[0], "|" + "---|" * len(named), *written[1:], ""])


def _said(each: Mapping[str, float]) -> str:
    return f"{each['median']:.0f} ({each['least']:.0f} to {each['most']:.0f})"


def _kept(held: bool) -> str:  # noqa: FBT001 - its only question
    return "kept" if held else "missed"


def _aim(value: float, aim: float | None) -> str:
    return "" if aim is None else f"{aim:.2f}: {_kept(value <= aim)}"


def _times(setting: str, times: Mapping[str, Any]) -> str:
    rows = []
    for visit in times[OURS]:
        others = [_said(each[visit]) for each in times.values()]
        ratio = times[OURS][visit]["median"] / times[STOCK][visit]["median"] if STOCK in times else None
        aim = AIMS.get((setting, visit))
        told = ["", ""] if ratio is None else [f"**{ratio:.2f}**", _aim(ratio, aim)]
        rows.append([WORDS[visit], *others, *told])
    return table(["", *times, f"{OURS} / stock", "aim"], rows)


def _kb(size: float) -> str:
    return f"{size / 1000:,.0f} kB"


def _bytes(sizes: Mapping[str, Any]) -> str:
    names = {
        OURS: "What Python needs, this site with its package",
        STOCK: "What Python needs, stock Pyodide without a package",
        "search": "The search and its index, when it is opened",
        "update": "An update after one word changed in a guide: that page, the list of files, the search index",
    }
    rows = [[words, *map(_kb, sizes[name])] for name, words in names.items()]
    heaviest = max(sizes["pages"], key=lambda key: sizes["pages"][key][2])
    rows.append([f"Heaviest worksheet page before Python (`{heaviest}`)", *map(_kb, sizes["pages"][heaviest])])
    ratio = sizes[OURS][2] / sizes[STOCK][2]
    largest = sizes["pages"][heaviest][2] / 1000
    told = (
        f"This site's Python with its package / stock: **{ratio:.2f}** by brotli (aim {_aim(ratio, BYTES_AIM)}), "
        f"{sizes[OURS][1] / sizes[STOCK][1]:.2f} by gzip. A page before Python: {largest:.0f} kB "
        f"(aim {PAGE_AIM_KB} kB: {_kept(largest <= PAGE_AIM_KB)}), without the search.\n"
    )
    return table(["", "on the disk", "gzip", "brotli"], rows) + "\n" + told


def _sums(sums: Mapping[str, Mapping[str, float]]) -> str:
    rows = []
    for key, each in sums.items():
        aim = SLOW_SUM_AIM_MS if key in SLOW else SUM_AIM_MS
        told = [f"{each[name]:.1f}" for name in ("first", "p50", "p95", "most")]
        rows.append([f"`{key}`", *told, str(each["count"]), f"{aim}: {_kept(each['p95'] <= aim)}"])
    words = (
        "Milliseconds from asking to the answer in the browser, over each worksheet's own examples. First each is "
        "asked once, straight after the start, `string` last. When that answer has been read for a while, "
        "all others follow, worksheet after worksheet: the middle one, the one that 95 of 100 "
        "stay below, and the longest.\n\n"
    )
    return words + table(["worksheet", "at the start", "p50", "p95", "longest", "sums", "aim for p95"], rows)


def _lighthouse(found: Mapping[str, Mapping[str, float]]) -> str:
    words = (
        "What Lighthouse 12.2.3 gives these pages on its phone, through gzip: the median of three runs, out of 100. "
        "The aims are 95 for performance and 100 for the others.\n\n"
    )
    return words + table(["page", *(name.replace("seo", "SEO") for name in CATEGORIES), "aim"], rows(found))


def _native(native: Mapping[str, Mapping[str, float]]) -> str:
    rows = [[name, *(f"{each[key]:.3f}" for key in ("median", "least", "most"))] for name, each in native.items()]
    return table(["milliseconds", "median", "least", "most"], rows)
