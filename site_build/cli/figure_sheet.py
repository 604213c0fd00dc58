"""A page with every figure of the guides on it, both hands, three themes and print, for whoever looks them over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc.draw import escaped, stylesheet, svg
from calc.draw.figures import FIGURES, figure

if TYPE_CHECKING:
    from pathlib import Path

    from calc.geometry.lay import Hand

HANDS: tuple[Hand, ...] = ("Z", "S")
THEMES = {
    "paper": ("#faf6ec", "#20242c", "#4a4f58", "#8c2b1a", "#2b4a78", "#b4690e", "#3f6b4f"),
    "night": ("#15181d", "#efe8d8", "#b9b5a8", "#f2a48c", "#8fb4ea", "#f0b45a", "#8cc7a1"),
    "sun": ("#fff", "#000", "#000", "#000", "#000", "#000", "#000"),
}
_VARIABLES = ("--ground", "--ink", "--quiet", "--accent", "--bundle-a", "--bundle-b", "--bundle-c")
_STYLE = """
body{font-family:sans-serif;margin:0 8px;color:#20242c;background:#faf6ec}
section{border-top:1px solid #888;padding:8px 0;break-inside:avoid}
h2{font-size:16px;margin:0}p{font-size:13px;margin:2px 0 6px}
.row{display:flex;flex-wrap:wrap;gap:8px}
figure{margin:0;width:min(360px,100%);background:var(--ground);color:var(--ink)}
figure.small{width:320px}figure.grey{filter:grayscale(1)}
"""


def page() -> str:
    """Return the page: for each figure its words, then Z and S on paper, Z by night, in sun and in grey at 320 px."""
    themes = "".join(
        f".{name}{{{';'.join(f'{key}:{value}' for key, value in zip(_VARIABLES, colours, strict=True))}}}\n"
        for name, colours in THEMES.items()
    )
    head = (
        '<!doctype html><html lang="en"><meta charset="utf-8"><title>Figures of the guides</title>'
        f'<meta name="viewport" content="width=device-width"><style>{_STYLE}{themes}{stylesheet()}</style>'
    )
    return head + "".join(_section(name) for name in FIGURES) + "</html>\n"


def _section(name: str) -> str:
    drawn = {hand: figure(name, hand=hand, ident=f"{name}-{hand}") for hand in HANDS}
    views = [(hand, "paper") for hand in HANDS] + [("Z", "night"), ("S", "sun"), ("Z", "paper grey small")]
    figures = "".join(
        f'<figure class="{look}">{svg(drawn["Z" if hand == "Z" else "S"], prefix=f"{name}-{at}")}</figure>'
        for at, (hand, look) in enumerate(views)
    )
    words, size = drawn["Z"].desc, len(svg(drawn["Z"], prefix=name).encode())
    title = f"{name}: {drawn['Z'].title}"
    return (
        f'<section id="{name}"><h2>{escaped(title)}</h2>'
        f'<p>{escaped(words)} ({size / 1000:.0f} kB)</p><div class="row">{figures}</div></section>\n'
    )


def write(path: Path) -> int:
    """Write the page; return how many figures stand on it.

    Parameters
    ----------
    path : Path
        The file to write; its folder is made when it is not there.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(page(), encoding="utf-8")
    return len(FIGURES)
