"""Where the bow misses measurements, told on pages: a table of all of them, a plot, and those that miss."""

from __future__ import annotations

import re
from dataclasses import replace
from html import escape
from typing import TYPE_CHECKING, Any

from calc.data import source
from calc.draw import svg
from calc.draw.charts import Axis, Band, Marker, Series, line_chart
from calc.numerics import Spread
from site_build.pages.reference.tables import table
from tests.published.rows import Check, checks

if TYPE_CHECKING:
    from site_build.pages.reference.citations import Citing

_LINE = re.compile(r"^::: misses bow$", re.MULTILINE)


def with_misses(markdown: str) -> str:
    """Put table and plot where a page says ``::: misses bow``."""
    return _LINE.sub(lambda _: _block(checks()), markdown)


def _block(all_checks: tuple[Check, ...]) -> str:
    head = "| No. | What | Measured | Ours | Result |\n|---|---|---|---|---|\n"
    lines = "".join(_line(at, each) for at, each in enumerate(all_checks, start=1))
    notes = "".join(_note(at, each) for at, each in enumerate(all_checks, start=1))
    drawn = svg(plot(all_checks), prefix="bow-misses")
    return f"<figure>{drawn}</figure>\n\n{head}{lines}\n{notes}"


def _line(at: int, check: Check) -> str:
    unit = "" if check.unit == "1" else f" {check.unit}"
    verdict = "meets" if check.meets else "**misses**"
    return f"| {at} | {check.words} | {figures(check.measured)}{unit} | {figures(check.ours)}{unit} | {verdict} |\n"


def figures(spread: Spread) -> str:
    """Return a range as a table prints it."""
    digits = 3 if spread.high < 1.0 else 2 if spread.high < 3.0 else 1
    if spread.low == spread.high:
        return f"{spread.value:.{digits + 1}f}"
    return f"{spread.value:.{digits}f} ({spread.low:.{digits}f} to {spread.high:.{digits}f})"


def _note(at: int, check: Check) -> str:
    taken = f" Taken: {check.assumed}." if check.assumed != "as above" else " Taken: as above."
    why = "" if not check.miss else f" {check.miss}" if check.miss != "as above" else " Why it misses: as above."
    return f"{at}. {source(check.source).words}: {check.place}.{taken.replace('..', '.')}{why}\n"


def plot(all_checks: tuple[Check, ...]) -> Any:  # noqa: ANN401 - a drawing, handed to its writer
    """Draw ours / measured, each with its range, about the line where both are the same."""
    shares = [share(each) for each in all_checks]
    ends = Axis("Check, by its number in the table", 0.0, len(shares) + 1.0, _numbers(len(shares)))
    low = min(0.5, *(each.low for each in shares)) - 0.02
    high = max(1.5, *(each.high for each in shares)) + 0.02
    lines = [Series("", ((0.0, 1.0), (len(shares) + 1.0, 1.0)), "quiet", dash=True)]
    lines += [
        Series("", ((at, each.low), (at, max(each.high, each.low + 1e-3))), "accent" if check.miss else "ink")
        for at, (each, check) in enumerate(zip(shares, all_checks, strict=True), start=1)
    ]
    return line_chart(
        lines,
        ends,
        Axis("Ours / measured", low, high),
        key="bow-misses",
        title="Ours / measured, for every check of the bow",
        desc="; ".join(
            f"{at}: {each.low:.2f} to {each.high:.2f}, {'meets' if check.meets else 'misses'}"
            for at, (each, check) in enumerate(zip(shares, all_checks, strict=True), start=1)
        ),
        bands=(Band("within 5 %", 0.95, 1.05, along="y"),),
        markers=[Marker(str(at), (at, each.value)) for at, each in enumerate(shares, start=1)],
        height=260.0,
    )


def _numbers(count: int) -> tuple[tuple[float, str], ...]:
    return tuple((float(at), str(at)) for at in range(1, count + 1, 2))


def share(check: Check) -> Spread:
    """Return ours / measured, with both ranges in it."""
    low, high = check.ours.low / check.measured.high, check.ours.high / check.measured.low
    return replace(Spread.exactly(1.0), low=low, value=check.ours.value / check.measured.value, high=high)


def misses(citing: Citing) -> str:
    """Return the measurements that ours does not meet, and by how much."""
    found = checks()
    rows = [
        (
            f"{escape(each.words).replace(' x ', ' × ')} {citing.number(each.source)}",
            figures(each.measured),
            figures(each.ours),
            _apart(share(each)),
        )
        for each in found
        if not each.meets
    ]
    return (
        f"{len(found)} measurements are held against these formulas; {len(found) - len(rows)} meet, {len(rows)} miss. "
        "Those that miss:\n\n" + table(("What", "Measured", "Ours", "Ours is off by"), rows)
    )


def _apart(ratio: Spread) -> str:
    """Say how far a range of ours / measured stays away from 1."""
    if ratio.high < 1.0:
        return f"{100 * (1.0 - ratio.high):.0f} to {100 * (1.0 - ratio.low):.0f} % low"
    return f"{100 * (ratio.low - 1.0):.0f} to {100 * (ratio.high - 1.0):.0f} % high"
