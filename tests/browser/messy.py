"""What people type when they do not think of a program: seeded, of every kind."""

from __future__ import annotations

import json
from random import Random
from typing import TYPE_CHECKING

from calc import bridge, share
from calc.bridge import convert_field
from calc.worksheets import catalogue
from calc.worksheets.core import usual
from calc.worksheets.core.schema import Choice, Lines, Number

if TYPE_CHECKING:
    from calc.worksheets.core.schema import Field, Worksheet

GAPS = (",", ".", " ", "\u00a0", "\u202f", "\u2009", "'", "\u2019", "_", "\u066c", "\u060c", "\uff0c")
POINTS = (".", ",", "\u066b", "\u00b7", "\uff0e")
SIGNS = ("", "", "", "-", "+", "\u2212", "\u00b1", "~", "\u2248", "\u2013", "--")
UNITS = (
    *("mm", "cm", "m", "in", "inch", "inches", "ft", "yd", '"', "\u2033", "'", "\u2032", "ft 6 in", "fathom"),
    *("lb", "lbs", "#", "N", "kg", "kp", "oz", "g", "gr", "grain", "mg", "lbf", "kgf", "t"),
    *("tex", "dtex", "den", "Nm", "yd/lb", "m/kg", "g/km", "mg/m", "°C", "°F", "K", "degrees", "°", "rad", "%"),
    *("h", "min", "d", "days", "weeks", "years", "turns", "/m", "per inch", "strands", "fistmele", "finger", "N/mm"),
)
DIGITS = (0x0660, 0x06F0, 0x0966, 0x09E6, 0x0E50, 0xFF10, 0x1D7CE)
FRACTIONS = ("½", "¼", "¾", "⅛", "⅜", "⅝", "⅞", "⅓", "1/2", "3/16", "7\u204464", "5 / 8", "1/0", "0/1", "22/7")
ODD = (
    *(
        "",
        " ",
        "?",
        "about 62",
        "62-64",
        "62..64",
        "62 to 64",
        "sixty",
        "nan",
        "inf",
        "-inf",
        "1e308",
        "1e-320",
        "0x1F",
    ),
    *("9" * 400, "0." + "0" * 300 + "1", "1" + "0" * 60 + " mm", "1,", ",1", "1..2", "1,2,3", "1.2.3", "x" * 5000),
    *(
        "<b>1</b>",
        "{turns}",
        "\ud83c\udff9",
        "\0",
        "\u202e62",
        "\ufeff62 in",
        "= 1+1",
        "1; DROP",
        "\\",
        "%41",
        "\t62\n",
    ),
)
SEPARATORS = (";", ",", "\t", "|", " ; ", ", ", ":", "  ")
ENDS = ("\n", "\r\n", "\r", "\n\n", "\u2028")


def number(random: Random) -> str:
    """Return a number as somebody might type it, with or without a unit."""
    whole = str(random.randint(0, 10 ** random.choice((1, 2, 3, 4, 5, 7))))
    if random.random() < 0.5:
        gap = random.choice(GAPS)
        parts = [whole[max(0, at - 3) : at] for at in range(len(whole), 0, -3)]
        whole = gap.join(reversed(parts))
    rest = random.choice((lambda: "", lambda: random.choice(POINTS) + str(random.randint(0, 999)),
                          lambda: " " + random.choice(FRACTIONS), lambda: "-" + random.choice(FRACTIONS),
                          lambda: f"e{random.randint(-9, 9)}"))()  # fmt: skip
    text = random.choice(SIGNS) + whole + rest
    if random.random() < 0.15:
        zero = random.choice(DIGITS)
        text = "".join(chr(zero + int(each)) if each in "0123456789" else each for each in text)
    unit = random.choice(UNITS) if random.random() < 0.7 else ""
    return text + random.choice(("", " ", "\u00a0", "  ")) + unit


def text(random: Random) -> str:
    """Return anything that may stand in a field for a number."""
    kind = random.random()
    if kind < 0.7:
        return number(random)
    if kind < 0.8:
        return f"{random.choice(('round', 'flat', 'pipe', 'oval', 'cone', 'advise', 'green'))} {number(random)}"
    if kind < 0.9:
        return f"{number(random)} {random.choice(('x', '×', 'by', '+', '/', 'and', 'm per'))} {number(random)}"
    return random.choice(ODD)


def sound(random: Random, field: Number, example: str) -> str:
    """Return the usual text in either units, in digits, separators and spaces of some other habit."""
    said = convert_field(field, example, random.choice(("inch", "metric")))
    figure, _, unit = said.partition(" ")
    if random.random() < 0.3 and figure.isdigit():
        figure = f"{int(figure) * random.choice((1, 1, 2)):,}".replace(",", random.choice(GAPS))
    figure = figure.replace(".", random.choice(POINTS))
    if random.random() < 0.2:
        zero = random.choice(DIGITS)
        figure = "".join(chr(zero + int(each)) if each in "0123456789" else each for each in figure)
    return random.choice(("", " ", "\t")) + figure + random.choice(("", " ", "\u00a0", "\u202f")) + unit


def lines(random: Random, usual_text: str) -> str:
    """Return a list as some program saved it, or as somebody typed it; shorter than the example."""
    given = usual_text.splitlines()[: random.randint(0, 4)]
    separator, end = random.choice(SEPARATORS), random.choice(ENDS)
    rows = [separator.join(cell.strip() for cell in line.split(";")) for line in given]
    for _ in range(random.randint(0, 3)):
        cells = [text(random) for _ in range(random.randint(1, 7))]
        quoted = [f'"{cell}"' if random.random() < 0.3 else cell for cell in cells]
        rows.insert(random.randint(0, len(rows)), separator.join(quoted))
    return random.choice(("", "", "\ufeff", "sep=;\n")) + end.join(rows)


def typed(random: Random, field: Field, example: str) -> str:
    """Return something messy for a field."""
    if isinstance(field, Lines):
        return lines(random, example)
    if isinstance(field, Choice):
        return random.choice((*(each.value for each in field.options), "none of these", ""))
    if isinstance(field, Number) and random.random() < 0.7:
        return sound(random, field, example)
    return text(random)


def asks(seed: int, count: int) -> list[str]:
    """Return asks as the bridge takes them: most for an answer, some for other units, a link, what a link holds."""
    random = Random(seed)  # noqa: S311 - the same inputs every time
    sheets = list(catalogue().values())
    return [json.dumps({"v": 1, "id": at + 1, **_ask(random, random.choice(sheets))}) for at in range(count)]


def _ask(random: Random, sheet: Worksheet) -> dict[str, object]:
    inputs = dict(usual(sheet, random.choice(sheet.examples).inputs))
    if any(isinstance(each, Lines) for each in sheet.fields):
        inputs = dict(usual(sheet))
    for field in random.sample(sheet.fields, random.choice((1, 1, 2, 3))):
        inputs[field.key] = typed(random, field, inputs[field.key])
    system = random.choice(("inch", "metric"))
    kind = random.random()
    if kind < 0.1:
        return {"convert": sheet.id, "to": system, "inputs": inputs}
    if kind < 0.2:
        return {"share": sheet.id, "system": system, "inputs": inputs}
    if kind < 0.3:
        return {"open": _link(random, sheet, inputs), "system": system}
    return {"worksheet": sheet.id, "system": system, "inputs": inputs}


def _link(random: Random, sheet: Worksheet, inputs: dict[str, str]) -> str:
    """Return a link as it was made, cut short, with a field that this version does not know, or with a wrong letter."""
    made = json.loads(bridge.handle(json.dumps({"share": sheet.id, "system": "inch", "inputs": inputs})))
    link = str(made.get("fragment", f"v1/{sheet.id}?nock=1"))
    at = random.randrange(len(link))
    head = link.partition("?")[0]
    pairs = [("hum", "7")]
    unknown = f"{head}?hum=7&end={share._check(head, pairs)}"  # noqa: SLF001 - as a later version may write it
    return random.choice(
        (link, link[:at], link[:at] + "~" + link[at:], unknown, link.replace("v1", "v9", 1), "v1/none?a=1&end=x")
    )
