"""Typed text to values, field by field, with every fault collected."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Literal

from calc import units
from calc.data import practice
from calc.errors import DomainError, Problem
from calc.mechanics.bow import SHAPES
from calc.mechanics.estimate import BowEstimate, ForceRead, StringRead
from calc.numerics import Spread
from calc.units.reading import understand
from calc.worksheets.core.schema import Choice, Inputs, Lines, Number, Tip
from calc.worksheets.core.tips import parts_of, read_tip

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.mechanics.bow import LimbShape
    from calc.units import System
    from calc.worksheets.core.schema import Field, Value, Worksheet

MEASURED = r"^photo -?\d\.\d\d \d\.\d\d$"
"""How the bend out of a picture stands in a record: `photo_text`."""
_PHOTO = re.compile(r"photo\s*:?\s*([-−]?\d(?:\.\d{1,4})?)\s*(?:±|\+-|\s)\s*(\d(?:\.\d{1,4})?)")
_MOST_BEND, _NEARER = 2.5, 0.5
"""No bend beyond the first is told, with its spread; one beyond the second is nearer to limbs that are not even. [-]"""
LONGEST = 200
"""A field with more characters cannot be read."""
_DEGREES = re.compile(r"°(?![CF])")
_PLAIN = str.maketrans({"−": "-", "°": "", "μ": "u", "·": "", "%": "pct", "×": "x"})
_LETTERS = "abcdefghijklmnopqrstuvwxyz"
_LOOSE = re.compile(r"(?<=\d) (?=[a-zA-Z])|(?<=[a-zA-Z]) (?=\d)| ?/ (?=\d)| (?=/)")
BOW_BLAMES = {
    "brace_m": "brace_height",
    "contact_m": "tip_contact",
    "draw_m": "draw_length",
    "draw_weight_n": "draw_weight",
    "handle_length_m": "handle_length",
    "handle_proud_m": "handle_proud",
    "nock_to_nock_m": "nock_to_nock",
    "string_follow_m": "string_follow",
    "thread_gap_m": "thread_gap",
}
"""Fields that stand for what `bow_of` and the rooms below blame of a bow."""


class LimbInputs(Inputs):
    """What sheets read of the limbs and the draw, in SI; what a sheet does not ask for is not known."""

    handle_length: float | None
    limb_shape: str
    draw_weight: float | None = None
    draw_length: float | None = None
    draw_from: Literal["grip", "dealer"] = "grip"


class BowInputs(LimbInputs):
    """What sheets read of a bow and what was measured on it, in SI; what a sheet does not ask for is not known."""

    nock_to_nock: float
    handle_proud: float | None = None
    string_follow: float | None = None
    thread_gap: float | None = None
    tip_contact: float | None = None
    weighed_force: float | None = None
    weighed_draw: float | None = None
    measured_string: float | None = None
    measured_brace: float | None = None
    measured_string_2: float | None = None
    measured_brace_2: float | None = None


def read_inputs(
    worksheet: Worksheet, inputs: Mapping[str, str], system: System
) -> tuple[dict[str, Value], tuple[Problem, ...]]:
    """Read every field of a worksheet.

    Parameters
    ----------
    worksheet : Worksheet
        The declaration.
    inputs : mapping of str to str
        What was typed, by field key; a key that is left out counts as empty.
    system : {"inch", "metric"}
        What a bare number means.

    Returns
    -------
    values : dict
        SI values of the fields that could be read; None for one left open.
    problems : tuple of Problem
        One for each field that could not, and one for each key the worksheet does not have.
    """
    values: dict[str, Value] = {}
    problems = [
        Problem(field=key, code="choice", reason="unknown_field")
        for key in inputs
        if key not in {each.key for each in worksheet.fields}
    ]
    for each in worksheet.fields:
        try:
            values[each.key] = read_field(each, inputs.get(each.key, ""), system)
        except DomainError as error:
            problems.append(error.problem)
    return values, tuple(problems)


def read_field(each: Field, text: str, system: System) -> Value:
    """Read one field.

    Parameters
    ----------
    each : Field
        The question.
    text : str
        As typed.
    system : System
        What a bare number means.

    Returns
    -------
    float, str, Section or None
        SI value, option, limb-tip section, or None for a field left open.

    Raises
    ------
    DomainError
        With the field's key: ``missing`` for an empty text, ``number`` for one that is too long, ``max`` with reason
        ``lines`` for too many lines, ``choice`` for an answer that is not offered, and all that `calc.units.read` and
        `read_tip` raise.
    """
    typed = text.strip()
    if each.absent and typed.casefold() in {"", each.absent.casefold(), "not known", "?"}:
        return None
    if not typed:
        raise DomainError(Problem(field=each.key, code="missing"))
    if isinstance(each, Lines):
        return _read_lines(each, text, system)
    if len(typed) > LONGEST:
        raise DomainError(Problem(field=each.key, code="number"))
    if isinstance(each, Number):
        return units.read(each.key, typed, each.quantity, low=each.low, high=each.high, system=system, whole=each.whole)
    if isinstance(each, Choice):
        return _read_choice(each, typed)
    assert isinstance(each, Tip)
    return read_tip(each, typed, system)


def _read_lines(each: Lines, text: str, system: System) -> str:
    if len(text.splitlines()) > each.most or len(text) > each.most * LONGEST:
        raise DomainError(Problem(field=each.key, code="max", limit=each.most, reason="lines"))
    return each.explicit(text, system)


def _read_choice(each: Choice, typed: str) -> str:
    by_word = {option.label.casefold(): option.value for option in each.options}
    by_word |= {option.value.casefold(): option.value for option in each.options}  # one's label may be another's value
    if typed.casefold() in by_word:
        return by_word[typed.casefold()]
    if each.measured and (found := _PHOTO.fullmatch(typed.casefold())):
        bend = _around(found)
        if max(-bend.low, bend.high) <= _MOST_BEND:
            return photo_text(bend)
    raise DomainError(Problem(field=each.key, code="choice"))


def bow_of(values: BowInputs, *, braced_m: float | None = None) -> BowEstimate:
    """Return the bow that was told.

    Parameters
    ----------
    values : BowInputs
        As read.
    braced_m : float, optional
        As braced where draw weight and forces were told. [m]

    Raises
    ------
    DomainError
        As `BowEstimate`.
    """
    return BowEstimate(
        nock_to_nock_m=values.nock_to_nock,
        handle_length_m=values.handle_length,
        shape=shape_of(values.limb_shape),
        bend=bend_of(values.limb_shape),
        handle_proud_m=values.handle_proud,
        string_follow_m=values.string_follow,
        thread_gap_m=values.thread_gap,
        contact_m=values.tip_contact or 0.0,
        draw_m=full_draw(values),
        draw_weight_n=values.draw_weight,
        braced_m=braced_m,
    )


def forces_of(values: BowInputs) -> tuple[ForceRead, ...]:
    """Return the force that was weighed.

    Parameters
    ----------
    values : BowInputs
        As read.

    Raises
    ------
    DomainError
        ``missing`` with reason ``half_weighed`` for a force without its draw, or a draw without its force.
    """
    force_n, at_m = values.weighed_force, values.weighed_draw
    if (force_n is None) != (at_m is None):
        lacking = f"weighed_{'force' if force_n is None else 'draw'}"
        raise DomainError(Problem(field=lacking, code="missing", reason="half_weighed"))
    if force_n is None or at_m is None:
        return ()
    return (ForceRead(at_m, force_n, practice("force_reading").spread.high),)


def strings_of(values: BowInputs) -> tuple[StringRead, ...]:
    """Return the strings that were measured on the bow.

    Parameters
    ----------
    values : BowInputs
        As read.

    Raises
    ------
    DomainError
        ``missing`` with reason ``half_pair`` for a string without its brace height, or the other way about, and
        ``no_first`` for a second string without a first.
    """
    found: list[StringRead] = []
    pairs = {
        "": (values.measured_string, values.measured_brace),
        "_2": (values.measured_string_2, values.measured_brace_2),
    }
    for mark, (string_m, brace_m) in pairs.items():
        if (string_m is None) != (brace_m is None):
            lacking = f"measured_{'string' if string_m is None else 'brace'}{mark}"
            raise DomainError(Problem(field=lacking, code="missing", reason="half_pair"))
        if string_m is not None and brace_m is not None:
            if mark and not found:
                raise DomainError(Problem(field="measured_string", code="missing", reason="no_first"))
            found.append(StringRead(string_m, brace_m))
    return tuple(found)


def full_draw(values: LimbInputs) -> float | None:
    """Return the full draw from where brace height is measured, a dealer's brought to it; None: not told [m].

    Parameters
    ----------
    values : LimbInputs
        As read.
    """
    if values.draw_length is None or values.draw_from != "dealer":
        return values.draw_length
    return values.draw_length - practice("draw_dealers").spread.value


def shape_of(told: str) -> LimbShape | None:
    """Return how the limbs bend; None: not known. Of a bend read from a picture, the nearest of the shapes.

    Parameters
    ----------
    told : str
        The option that was chosen, or what `photo_text` wrote.
    """
    bend = bend_of(told)
    if bend is not None:
        return "uniform" if bend.value > _NEARER else "tapered" if bend.value < -_NEARER else "arc"
    return next((shape for shape in SHAPES if shape == told), None)


def bend_of(told: str) -> Spread | None:
    """Return the limbs' bend as it was read from a picture; None where it was told in words [-].

    Parameters
    ----------
    told : str
        The option that was chosen, or what `photo_text` wrote.
    """
    found = _PHOTO.fullmatch(told)
    return _around(found) if found else None


def _around(found: re.Match[str]) -> Spread:
    value, off = float(found[1].replace("−", "-")), float(found[2])
    return Spread(value - off, value, value + off)


def photo_text(bend: Spread) -> str:
    """Return the limbs' bend as a picture showed it, as it stands in the field that asks how limbs bend.

    Parameters
    ----------
    bend : Spread
        0 for an even bend, -1 for tapered limbs, 1 for limbs alike all along. [-]

    Examples
    --------
    >>> photo_text(Spread(-0.1, 0.25, 0.6))
    'photo 0.25 0.35'
    """
    return f"photo {bend.value + 0.0:.2f} {(bend.high - bend.low) / 2.0:.2f}"


def spell(each: Field, typed: str, system: System, *, tight: bool = False) -> str:
    """Write typed text so that it reads the same in both systems.

    Parameters
    ----------
    each : Field
        Whose text it is.
    typed : str
        As typed; a bare number is in `system`.
    system : {"inch", "metric"}
        The writer's units.
    tight : bool
        True for plain characters without spaces where none are needed.

    Returns
    -------
    str
        Text that `read_field` reads to the same value in either system. What cannot be
        read comes back as it was, no longer than one character past what may be typed.

    Examples
    --------
    >>> from calc.worksheets.core.fields import NOCK_TO_NOCK, TIP_UPPER
    >>> spell(NOCK_TO_NOCK, "1,575", "metric"), spell(NOCK_TO_NOCK, "5' 2½", "inch", tight=True)
    ('1575 mm', '5ft2 1/2in')
    >>> spell(TIP_UPPER, "16 x 9.5", "metric"), spell(TIP_UPPER, "1/2 in", "metric", tight=True)
    ('flat 16 mm x 9.5 mm', 'round:1/2in')
    """
    if isinstance(each, Lines):
        return each.explicit(typed, system)
    kept = typed.strip()[: LONGEST + 1]
    if len(kept) > LONGEST:
        return kept
    try:
        if isinstance(each, Choice):
            return str(read_field(each, kept, system))
        written = [*_spellings(each, kept, system, tight=tight), kept]
    except DomainError as error:
        return _bare(each, kept, system) if error.problem.code == "ambiguous" else kept
    return next(text for text in written if text == kept or _same(each, kept, text, system))


def _spellings(each: Field, typed: str, system: System, *, tight: bool) -> list[str]:
    """Return ways to write a text, the most wanted first."""
    if isinstance(each, Number):
        words = understand(
            each.key, typed, each.quantity, low=each.low, high=each.high, system=system, whole=each.whole
        )
        return [_tight(words.words), words.words] if tight else [words.words]
    assert isinstance(each, Tip)
    kind, sizes = parts_of(each, typed)
    if kind != "pipe":
        sizes = [
            understand(each.key, size, "length", low=each.low, high=each.high, system=system).words for size in sizes
        ]
    loose = f"{kind} {' x '.join(sizes)}"
    if not tight:
        return [loose]
    short = [_tight(size) for size in sizes]
    once = [*(size.rstrip(_LETTERS) for size in short[:-1]), short[-1]]
    return [f"{kind}:{'x'.join(once)}", f"{kind}:{'x'.join(short)}", loose]


def _tight(words: str) -> str:
    return _LOOSE.sub(lambda found: found[0].strip(), _DEGREES.sub("deg", words).translate(_PLAIN))


def _same(each: Field, typed: str, text: str, system: System) -> bool:
    """Tell whether a text reads in both systems as what was typed reads in its own, or is wrong in the same way."""
    wanted = _meaning(each, typed, system)
    return all(_meaning(each, text, reader) == wanted for reader in ("inch", "metric"))


def _meaning(each: Field, text: str, system: System) -> object:
    try:
        return read_field(each, text, system)
    except DomainError as error:
        return error.problem.code


def _bare(each: Field, typed: str, system: System) -> str:
    """Give a number with two readings its unit, so that it has the same two for everybody."""
    label = units.unit_label(each.quantity, system) if isinstance(each, Number) else ""
    text = f"{typed} {label}".strip()
    return text if label and _same(each, typed, text, system) else typed
