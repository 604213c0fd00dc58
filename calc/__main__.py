"""The worksheets in a terminal: ``python3 -m calc``, or ``plied-true`` once the package is installed."""

from __future__ import annotations

import json
import sys
from argparse import RawDescriptionHelpFormatter
from pathlib import Path
from typing import TYPE_CHECKING, Any

from calc import console, notebook_command, paper, units
from calc.notebook_club import club_list
from calc.records import NotebookError, called
from calc.worksheets import catalogue, one
from calc.worksheets.core import Answer, Choice, Lines, Number, ask, by_key, fill, range_words, show_row, usual
from calc.worksheets.string.taught import ask_taught

if TYPE_CHECKING:
    from argparse import Namespace
    from collections.abc import Sequence

    from calc.records import Prefill
    from calc.units import System
    from calc.worksheets.core import Field, Worksheet

BAD_INPUT = 2


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the terminal's worksheets; return the exit code (2 for a bad input, with the sentences on stderr)."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    if not given or given[0] in {"-h", "--help"}:
        print(_listing())
        return 0
    if given[0] == "notebook":
        return notebook_command.command(given[1:], _program())
    try:
        worksheet = one(given[0])
    except KeyError:
        print(f"There is no worksheet {given[0]}. The worksheets are: {', '.join(catalogue())}", file=sys.stderr)
        return BAD_INPUT
    options = _parser(worksheet).parse_args(given[1:])
    try:
        typed = _typed(worksheet, options.inputs)
        kept = _kept(worksheet, options, typed)
    except (_BadInputError, NotebookError) as error:
        print(error, file=sys.stderr)
        return BAD_INPUT
    told = typed | {key: each.text for key, each in kept.items()}
    if options.card is not None:
        return paper.write(worksheet, told, options)
    code = _run(worksheet, told, options, kept)
    if kept and not code and not options.json:
        print("\n".join(_from_notebook(kept)))
    return code


class _BadInputError(ValueError):
    """Raised for what was typed; its text is a sentence."""


def _typed(worksheet: Worksheet, pairs: Sequence[str]) -> dict[str, str]:
    unpaired = [pair for pair in pairs if "=" not in pair]
    if unpaired:
        raise _BadInputError(f"Write each input as name=value, like bundles=2; got {unpaired[0]}")
    typed = dict(pair.split("=", 1) for pair in pairs)
    try:
        return typed | {
            each.key: _from_file(typed[each.key]) for each in worksheet.fields if _names_a_file(each, typed)
        }
    except (OSError, UnicodeError) as error:
        raise _BadInputError(f"This file cannot be read as text: {error}") from error


def _kept(worksheet: Worksheet, options: Namespace, typed: dict[str, str]) -> dict[str, Prefill]:
    """Return what a notebook tells of the bow, the cord and the hand that were named; what is typed goes before it."""
    names = {kind: told for kind in notebook_command.CHOSEN if (told := getattr(options, kind))}
    if not options.notebook:
        if names:
            raise _BadInputError("Say with --notebook which file that is from.")
        return {}
    kept = notebook_command.fill(options.notebook, names, worksheet)
    if worksheet.id == "club" and "bows" not in typed:
        typed["bows"] = club_list(notebook_command.load([options.notebook])[0])
    return {key: each for key, each in kept.items() if key not in typed}


def _from_notebook(kept: dict[str, Prefill]) -> list[str]:
    lines = (f"  {key} = {each.text} ({called(each.record)})" for key, each in kept.items())
    return ["", "From the notebook", *lines]


def _names_a_file(each: Field, typed: dict[str, str]) -> bool:
    return isinstance(each, Lines) and typed.get(each.key, "").startswith("@")


def _from_file(text: str) -> str:
    return Path(text[1:]).read_text(encoding="utf-8-sig")


def _listing() -> str:
    lines = [f"  {each.id:<12}{each.title}: {each.purpose}" for each in catalogue().values()]
    return "\n".join(
        [
            "Worksheets:",
            *lines,
            "",
            f"{_program()} notebook FILE  lists what a notebook has",
            f"{_program()} WORKSHEET --help  tells what one asks and answers",
        ]
    )


def _program() -> str:
    """Return what the person typed to start this: the installed command or the module."""
    return "plied-true" if Path(sys.argv[0]).stem == "plied-true" else "python3 -m calc"


def _parser(worksheet: Worksheet) -> console.Parser:
    asked = "\n".join(_help(each) for each in worksheet.fields)
    answered = "\n".join(f"  {key}" for key in worksheet.results)
    parser = console.Parser(
        prog=f"{_program()} {worksheet.id}",
        description=f"{worksheet.title}. {worksheet.purpose}",
        epilog=f"asks (what is left out is taken as shown):\n{asked}\n\nanswers (SI in --json):\n{answered}",
        formatter_class=RawDescriptionHelpFormatter,
    )
    parser.add_argument("inputs", nargs="*", metavar="name=value", help='like nock_to_nock="62 1/2 in"')
    parser.add_argument("--units", choices=("inch", "metric"), default="inch", help="for bare numbers and answers")
    parser.add_argument("--save", metavar="FOLDER", type=Path, help="write the lists of the answer there as CSV")
    parser.add_argument("--notebook", metavar="FILE", type=Path, help="fill in what a notebook has of these:")
    for kind in notebook_command.CHOSEN:
        parser.add_argument(f"--{kind}", metavar="NAME", default="", help=f"a {kind} of that notebook")
    if worksheet.id in paper.CARD_SHEETS:
        paper.add_options(parser, worksheet)
    else:
        parser.set_defaults(card=None)
    parser.add_argument("--json", action="store_true", help="print the results in SI as JSON")
    return parser


def _help(each: Field) -> str:
    first, *more = each.example.splitlines() or [""]
    taken = f'"{first}"' + (f" and {len(more)} more lines" if more else "")
    if isinstance(each, Choice):
        kind = " | ".join(option.value for option in each.options)
    elif isinstance(each, Number):
        kind = f"{units.show(each.low, each.quantity, 'inch')} to {units.show(each.high, each.quantity, 'inch')}"
    elif isinstance(each, Lines):
        kind = f"up to {each.most} lines, or @ and the name of a file"
    else:
        kind = "round SIZE | flat WIDTH x THICKNESS | pipe NOMINAL"
    if each.absent:
        kind += f' | "{each.absent}"'
    return f"  {each.key:<18}{each.label} ({kind}); {taken}\n{'':<20}{each.hint}"


def _run(worksheet: Worksheet, typed: dict[str, str], options: Namespace, kept: dict[str, Prefill]) -> int:
    system, save = options.units, options.save
    inputs = usual(worksheet, typed)
    told = {key: (each.record.text("made_on"), called(each.record)) for key, each in kept.items()}
    answer = ask_taught(inputs, told, system) if worksheet.id == "string" else ask(worksheet, inputs, system)
    if not isinstance(answer, Answer):
        for each in answer:
            print(f"{each.field}: {each.text}", file=sys.stderr)
        return BAD_INPUT
    if save is not None:
        save.mkdir(parents=True, exist_ok=True)
        for file in answer.files(system):
            (save / file.name).write_text(file.text, encoding="utf-8", newline="")
    assumed = {each.key: each.example for each in worksheet.fields if each.key not in typed}
    if options.json:
        print(json.dumps(_si(worksheet, answer, assumed, system), indent=2, ensure_ascii=False))
    else:
        print(_text(worksheet, answer, assumed, system))
    return 0


def _si(worksheet: Worksheet, answer: Answer, assumed: dict[str, str], system: System) -> dict[str, Any]:
    rows = by_key(answer.rows)
    return {
        "worksheet": worksheet.id,
        "results": {
            key: {
                "value": rows[key].spread.value,
                "unit": units.si_unit(rows[key].quantity),
                "low": rows[key].spread.low,
                "high": rows[key].spread.high,
            }
            for key in worksheet.results
        },
        "cautions": [fill(each.text, rows, system) for each in answer.cautions],
        "assumed": assumed,
    }


def _text(worksheet: Worksheet, answer: Answer, assumed: dict[str, str], system: System) -> str:
    rows = by_key(answer.rows)
    lines = [worksheet.title, ""]
    for each in answer.headlines:
        span = fill(each.span, rows, system)
        lines.append(f"  {each.lead}: {fill(each.text, rows, system)}" + (f"  ({span})" if span else ""))
    lines += ["", "Working"]
    for row in answer.rows:
        shown = show_row(row, system)
        span = range_words(row, system)
        lines.append(f"  {row.words}: {shown}" + (f"  ({span})" if span else ""))
        lines.append(f"      {row.symbol} = {fill(row.working, rows, system)}  [{row.source}]")
    for table in answer.tables(system):
        lines += ["", table.title, "  " + " | ".join(table.heads)]
        lines += ["  " + " | ".join(fill(cell, rows, system) for cell in line) for line in table.cells]
        lines += [f"  {fill(table.note, rows, system)}"] if table.note else []
    lines += [
        "",
        *(f"{each.level.capitalize()}: {fill(each.text, rows, system)}" for each in answer.cautions),
    ]
    lines += ["", "What this leaves out", *(f"  {each}" for each in answer.leaves_out)]
    if assumed:
        taken = (f"  {key} = {value}".replace("\n", "\n    ") for key, value in assumed.items())
        lines += ["", "Not given, so taken as", *taken]
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(console.run(main))
