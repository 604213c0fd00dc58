"""Classes and fall-back colours of drawings: one table for the writer and for the page's style sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from calc.draw.shapes import Dash, Fill, Ink

PAPER: dict[Ink, str] = {
    "ink": "#20242C",
    "quiet": "#4A4F58",
    "accent": "#8C2B1A",
    "a": "#2B4A78",
    "b": "#B4690E",
    "c": "#3F6B4F",
    "ground": "#FAF6EC",
}
"""What a drawing looks like where no style sheet reaches it."""
VARIABLES: dict[Ink, str] = {
    "ink": "--ink",
    "quiet": "--quiet",
    "accent": "--accent",
    "a": "--bundle-a",
    "b": "--bundle-b",
    "c": "--bundle-c",
    "ground": "--ground",
}
"""Custom properties that a page defines."""
DASHES: dict[Dash, tuple[str, str]] = {True: ("d-dash", "5 4"), "dots": ("d-dots", ".1 5"), "long": ("d-long", "13 5")}
"""Class and pattern of every broken line."""
WEIGHTS = (1.0, 2.0, 4.0)
FRAMES = (2, 3, 4)
"""How many pictures a motion may have."""
SLOT_S = 1.1
"""How long each is shown [s]."""
TINT = "0.09"
HATCHED: tuple[Fill, ...] = ("b", "c")
"""Fills that are patterns."""


def stylesheet() -> str:
    """Return the rules that let a page's colours reach every drawing on it.

    Examples
    --------
    >>> stylesheet().splitlines()[2]
    '.d-line-ink{stroke:var(--ink,#20242C)}'
    """
    rules = [
        ".drawing{display:block;width:100%;height:auto;font-family:inherit;font-variant-numeric:tabular-nums}",
        ".drawing text{stroke:none}",
    ]
    for ink, name in VARIABLES.items():
        colour = f"var({name},{PAPER[ink]})"
        rules.append(f".d-line-{ink}{{stroke:{colour}}}")
        rules.append(f".d-fill-{ink}{{fill:{colour}}}")
    rules += [
        f".d-tint{{fill:var(--ink,{PAPER['ink']});fill-opacity:{TINT}}}",
        *(f".d-w{weight:.0f}{{stroke-width:{weight:.0f}}}" for weight in WEIGHTS),
        *(f".{name}{{stroke-dasharray:{pattern}}}" for name, pattern in DASHES.values()),
        ".d-bold{font-weight:700}",
        f".drawing .d-backed{{stroke:var(--ground,{PAPER['ground']});stroke-width:4;paint-order:stroke}}",
    ]
    return "\n".join([*rules, *_motion()]) + "\n"


def _motion() -> list[str]:
    """Return the rules that show the frames of a drawing by turns, the last one twice as long.

    Nothing moves in print, for a reader who asked for less motion, or under the class ``d-still`` on the drawing;
    ``d-paused`` holds whatever is shown. Where nothing moves the last frame stands alone.
    """
    moving = "@media screen and (prefers-reduced-motion:no-preference)"
    rules = []
    for count in FRAMES:
        slots = count + 1
        for name, held in ((f"d-show-{count}", 1), (f"d-hold-{count}", 2)):
            rules.append(
                f"@keyframes {name}{{0%{{visibility:visible}}{100 * held / slots:g}%,100%{{visibility:hidden}}}}"
            )
        for index in range(count):
            name = f"d-hold-{count}" if index == count - 1 else f"d-show-{count}"
            rules.append(
                f"{moving}{{.drawing:not(.d-still) .d-of{count}.d-f{index}"
                f"{{animation:{name} {slots * SLOT_S:g}s {(index - slots) * SLOT_S:g}s infinite step-end}}}}"
            )
    return [*rules, ".drawing.d-paused .d-frame.d-frame.d-frame{animation-play-state:paused}"]
