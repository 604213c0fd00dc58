"""The blocks of a guide as HTML inside Markdown: a step, a check, a caution, a fault."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from difflib import get_close_matches
from html import escape
from typing import TYPE_CHECKING

from calc.draw.figures import FIGURES
from site_build.pages.blocks import BlockError
from site_build.pages.guides.cautions import cautions
from site_build.pages.guides.figures import labels, place
from site_build.pages.guides.marks import Html
from site_build.pages.guides.own_numbers import numbers
from site_build.pages.guides.words import FirstUse

if TYPE_CHECKING:
    from site_build.pages.blocks import Block

_SENTENCE = re.compile(r"(?<=[.!?])\s+(?=[A-Z{*\[])")
_TAG = re.compile(r"<[^>]+>")
_CAUTION_KEY = re.compile(r"[a-z]+(-[a-z]+)*")
ARROW = " -> "


@dataclass
class Writer:
    """Writes one page; remembers the words and sources it met and the number of the last step.

    `explaining` is false on pages that do not explain the words they use.
    """

    name: str = ""
    html: Html = field(default_factory=Html)
    words: FirstUse = field(default_factory=FirstUse)
    number: int = 0
    explaining: bool = True

    def text(self, text: str) -> str:
        """Return Markdown with marks written out and first words linked."""
        return self.html.text(text, self.words if self.explaining else str)

    def step(self, block: Block) -> str:
        """Return one numbered step.

        `count: KEY` counts turns for each bundle up to that own number, `count: KEY | 1` those of the whole string;
        `count: unknown` only keeps the bundles alike. `single: skip` leaves the step out for a string of one strand a
        bundle, `single: TITLE -> what to do -> how it looks right` gives it words of its own there.
        """
        self.number += 1
        count, _, counters = (part.strip() for part in block.maybe("count").partition("|"))
        alone = block.maybe("single")
        one_strand = "skip" if alone == "skip" else "own" if alone else ""
        data = {"step": block.key, "count": count, "counters": counters, "single": one_strand}
        known = "".join(f' data-{name}="{escape(value)}"' for name, value in data.items() if value)
        first, *rest = _SENTENCE.split(block.one("do"), maxsplit=1)
        more = f" {self.text(rest[0])}" if rest else ""
        usual, others = self.html.text(block.one("title")), self._alone(block) if one_strand == "own" else ("", "")
        named = f'<span class="pt-many">{usual}</span>{others[0]}' if others[0] else usual
        title = f'<span class="pt-number">{self.number}</span> {named}'
        many = " pt-many" if others[0] else ""
        listed = f' data-toc-label="{self.number} {escape(_TAG.sub("", usual))}"' if others[0] else ""
        lines = [
            f'<section class="pt-step"{known} markdown="1">',
            f'<h3 id="{block.key}"{listed}>{title}</h3>',
            self._picture(block, f"s{self.number}"),
            *(self.caution(each, block) for each in block.many("caution")),  # before the hand does it
            others[1],
            f'<p class="pt-do{many}" markdown="1"><span class="pt-say">{self.text(first)}</span>{more}</p>',
            numbers(block.maybe("own")),
            f'<dl class="pt-signs{many}" markdown="1">',
            "<dt>Looks right</dt>",
            f'<dd markdown="1">{self.text(block.one("looks"))}</dd>',
            *(line for wrong in block.many("wrong") for line in self._wrong(block, wrong)),
            "</dl>",
            self._timer(block),
            f'<p class="pt-note" markdown="1">{self.text(block.one("note"))}</p>' if block.maybe("note") else "",
            "</section>",
        ]
        return "\n".join(line for line in lines if line) + "\n"

    def _alone(self, block: Block) -> tuple[str, str]:
        """Return title and words of a step for a string of one strand a bundle; hidden for any other."""
        told = [part.strip() for part in block.one("single").split(ARROW)]
        if len(told) != 3:
            raise BlockError(block.line, f"single: of step {block.key} is skip, or title -> what to do -> how it looks")
        title, action, looks = told
        lines = (
            f'<p class="pt-do pt-single" markdown="1">{self.text(action)}</p>',
            '<dl class="pt-signs pt-single" markdown="1">',
            f'<dt>Looks right</dt>\n<dd markdown="1">{self.text(looks)}</dd>',
            "</dl>",
        )
        return f'<span class="pt-single">{self.html.text(title)}</span>', "\n".join(lines)

    def _picture(self, block: Block, prefix: str) -> str:
        name = block.maybe("figure")
        if name and name not in FIGURES:
            near = get_close_matches(name, FIGURES, n=1, cutoff=0.0)
            raise BlockError(block.line, f"there is no figure {name}; did you mean {near[0]}?")
        self.words.note(labels(name))
        return place(name, prefix)

    def _wrong(self, block: Block, wrong: str) -> tuple[str, ...]:
        mistake, arrow, cure = wrong.partition(ARROW)
        if not arrow:
            raise BlockError(block.line, f"wrong: of step {block.key} has no cure: write mistake -> cure")
        return (
            "<dt>Goes wrong</dt>",
            f'<dd markdown="1">{self.text(mistake)}<br><b class="pt-cure">Cure:</b> {self.text(cure)}</dd>',
        )

    def caution(self, text: str, block: Block) -> str:
        """Return one caution: a text, or the key of one on the page of cautions."""
        if not _CAUTION_KEY.fullmatch(text):
            return f'<p class="pt-caution" markdown="1">**Caution.** {self.text(text)}</p>'
        if text not in cautions():
            raise BlockError(block.line, f"there is no caution {text}; known are {', '.join(sorted(cautions()))}")
        told = f"{self.text(cautions()[text].text)} [More about this caution](../reference/cautions.md#{text})"
        return f'<p class="pt-caution" markdown="1">**Caution.** {told}</p>'

    def _timer(self, block: Block) -> str:
        """Return the place of a timer: `timer: 1 h | the hanging weight`."""
        if not block.maybe("timer"):
            return ""
        length, _, what = (part.strip() for part in block.maybe("timer").partition("|"))
        number, _, unit = length.partition(" ")
        minutes = float(number) * {"h": 60.0, "min": 1.0}[unit]
        data = f'data-key="{self.name}/{block.key}" data-minutes="{minutes:g}" data-what="{escape(what)}"'
        room = f'<span></span><button type="button">Start {length}: {escape(what)}</button>'  # as large as what comes
        return f'<div class="pt-timer" {data} hidden>{room}</div>'

    def check(self, block: Block) -> str:
        """Return the check at the end."""
        points = "\n".join(f"- {self.text(point)}" for point in block.many("point"))
        return f'<div class="pt-check" markdown="1">\n\n{points}\n\n</div>\n'

    def fault(self, block: Block) -> str:
        """Return one fault: what is seen, the test, and each outcome with cause and cure."""
        lines = [
            '<section class="pt-fault" markdown="1">',
            f'<h3 id="{block.key}">{self.html.text(block.one("see"))}</h3>',
            self._picture(block, f"f-{block.key}"),
            f'<p markdown="1">**Test.** {self.text(block.one("test"))}</p>',
            *(self._case(block, case) for case in block.many("case")),
            "</section>",
        ]
        return "\n".join(line for line in lines if line) + "\n"

    def _case(self, block: Block, case: str) -> str:
        told = case.split(ARROW)
        if len(told) != 4:
            raise BlockError(
                block.line, f"a case of {block.key} is: what the test shows -> cause -> cure -> where next"
            )
        self.words.note(told[0])
        cause, cure, then = (self.text(each) for each in told[1:])
        return (
            f'<details class="pt-case" markdown="1">\n<summary>{self.html.text(told[0])}</summary>\n'
            f'<p markdown="1">**Cause.** {cause}</p>\n<p markdown="1">**Cure.** {cure}</p>\n'
            f'<p markdown="1">**Then.** {then}</p>\n</details>'
        )
