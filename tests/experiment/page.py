"""The page that shows what the experiment found, from the committed figures alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

_IN = 0.0254
_TEXT = Path(__file__).with_suffix(".md")
_HEADS = (
    "what is known", "off, nine times in ten", "range holds the truth", "below it", "above it",
    "middle width of the range", "aim",
)  # fmt: skip


def inches(value_m: float) -> str:
    """Return a length as the table shows it.

    >>> inches(0.0127)
    '0.50 in'
    """
    return f"{value_m / _IN:.2f} in"


def _verdict(row: Mapping[str, Any]) -> str:
    """Say whether a row's aims were kept."""
    missed = (
        [] if row["aim_m"] is None or row["off_m"] <= row["aim_m"] else [f"off by more than {inches(row['aim_m'])}"]
    )
    if not 0.87 <= row["holds"] <= 0.93:
        missed.append("too narrow or beside it" if row["holds"] < 0.87 else "wider than need be")
    return "missed: " + "; ".join(missed) if missed else "kept"


def _carried(found: Mapping[str, Any]) -> str:
    """Return the table of what carries the ranges on the nail, one column for each state of knowledge."""
    known = [each for each in found["carried"][0] if each != "what"]
    lines = [f"| what is not sure | {' | '.join(known)} |", "|---" * (len(known) + 1) + "|"]
    lines += [f"| {each['what']} | {' | '.join(inches(each[one]) for one in known)} |" for each in found["carried"]]
    return "\n".join(lines) + "\n"


def page(found: Mapping[str, Any]) -> str:
    """Return the whole page."""
    lines = [f"| {' | '.join(_HEADS)} |", "|---" * len(_HEADS) + "|"]
    for row in found["rows"]:
        shares = (f"{100 * row[key]:.0f} %" for key in ("holds", "below", "above"))
        cells = (row["known"], inches(row["off_m"]), *shares, inches(row["width_m"]), _verdict(row))
        lines.append(f"| {' | '.join(cells)} |")
    whole = {key: f"{100 * found[key]:.0f}" for key in ("reached", "expected", "warned", "mended", "aim")}
    told = dict(found) | whole | {"held": f"{100 * found['held']:.1f}", "table": "\n".join(lines) + "\n"}
    told |= {key: f"{100 * found[key]:.0f}" for key in ("pull_below", "pull_above")}
    told["pull_holds"] = f"{100 * (1 - found['pull_below'] - found['pull_above']):.0f}"
    told["carried"] = _carried(found)
    told["light_off"] = ", ".join(inches(each) for each in found["light_off_m"])
    told["strength"] = "kept" if found["held"] >= found["aim"] else "missed"
    return _TEXT.read_text(encoding="utf-8").format(**told)
