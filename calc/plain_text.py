"""An answer as plain text that stays tidy in a message on a phone."""

from __future__ import annotations

import re
from textwrap import wrap
from typing import TYPE_CHECKING

from calc.worksheets.core import by_key, fill

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Answer, Worksheet

COLUMNS = 40
"""Characters in a line of a message on a phone held upright."""
_SPLIT = re.compile(r"(?<=\d) (?=\d+/|[a-zA-Z°%×]{1,4}\b)")


def whole_measures(text: str) -> str:
    r"""Keep each number and its unit on one line.

    Parameters
    ----------
    text : str
        Words with numbers in them.

    Returns
    -------
    str
        The same words, with spaces in measures that do not break.

    Examples
    --------
    >>> whole_measures("cut 81 1/2 in").count("\u00a0")
    2
    """
    return _SPLIT.sub("\u00a0", text)


def lines_of_text(text: str) -> list[str]:
    """Break a sentence into lines of at most `COLUMNS` characters; a measure stays whole.

    Parameters
    ----------
    text : str
        One sentence or more.

    Returns
    -------
    list of str
        At least one line, which may be empty.
    """
    return [each.replace("\u00a0", " ") for each in wrap(whole_measures(text), COLUMNS, subsequent_indent="  ")] or [""]


def answer_text(
    worksheet: Worksheet, answer: Answer, inputs: Mapping[str, str], system: System, *, name: str = "", link: str = ""
) -> str:
    """Return an answer as text to paste into a message.

    Parameters
    ----------
    worksheet : Worksheet
        Which was asked.
    answer : Answer
        What it said.
    inputs : mapping of str to str
        What was typed; what is as usual is left out.
    system : {"inch", "metric"}
        The reader's units.
    name : str
        Whose string it is.
    link : str
        Leads to the same answer; stands whole in the last line.
    """
    rows = by_key(answer.rows)
    usual = {each.key: each for each in worksheet.fields}
    parts = [f"{worksheet.title}{': ' * bool(name)}{name}", ""]
    for each in answer.headlines:
        span = fill(each.span, rows, system)
        parts.append(f"{each.lead}: {fill(each.text, rows, system)}{f' ({span})' * bool(span)}")
    told = [
        f"- {usual[key].label}: {text}"
        for key, text in inputs.items()
        if key in usual and text != usual[key].example and "\n" not in text
    ]
    parts += ["", "For these measures:", *told] if told else []
    warned = [fill(each.text, rows, system) for each in answer.cautions if each.level == "caution"]
    parts += ["", *warned] if warned else []
    lines = [line for part in parts for line in lines_of_text(part)]
    return "\n".join([*lines, *([link] if link else [])]) + "\n"
