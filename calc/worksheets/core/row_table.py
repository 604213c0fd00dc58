"""The name, working and source of each number: ``rows.toml``, and the ``sheet.toml`` of each worksheet."""

from __future__ import annotations

from dataclasses import replace
from functools import cache, cached_property
from typing import TYPE_CHECKING, Any, Literal

from calc.numerics import Spread
from calc.tables import load_table
from calc.units import INCH
from calc.worksheets.core.schema import Example, Number, Row, RowText, Sentence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from importlib.machinery import ModuleSpec

    from calc.worksheets.core.schema import Field

_TWO_YARDS_M = 72 * INCH


@cache
def table() -> dict[str, RowText]:
    """Return the rows that several worksheets share, by key."""
    return {key: RowText(key=key, **told) for key, told in load_table(__spec__, "rows").items()}


def rows(
    results: Iterable[str], numbers: Mapping[str, Spread | float], own: tuple[RowText, ...] = ()
) -> tuple[Row, ...]:
    """Return rows: first the public results in their order, then every other number as a step.

    Parameters
    ----------
    results : iterable of str
        Keys of the worksheet's public results.
    numbers : mapping of str to Spread or float
        In SI, by row key.
    own : tuple of RowText
        Rows the worksheet declares itself; they stand before a shared one of the same key.

    Raises
    ------
    KeyError
        For a key that is not declared: a fault of the worksheet, found by its tests.
    """
    public = tuple(results)
    known = table() | {each.key: each for each in own}
    steps = [key for key in known if key in numbers and key not in public]
    undeclared = set(numbers) - set(known)
    if undeclared:
        raise KeyError(*sorted(undeclared))
    return tuple(_row(known[key], numbers[key], "result" if key in public else "step") for key in (*public, *steps))


def by_the_yard(own: tuple[RowText, ...], key: str, number: Spread | float) -> tuple[RowText, ...]:
    """Return the rows with one told as a distance, in yards or metres, where it is longer than two yards.

    Parameters
    ----------
    own : tuple of RowText
        Rows of a worksheet.
    key : str
        The one that may be long.
    number : Spread or float
        How long it is. [m]

    Examples
    --------
    >>> thread = RowText(key="thread", symbol="", words="Thread", quantity="length", working="", source="input")
    >>> [by_the_yard((thread,), "thread", long_m)[0].quantity for long_m in (1.8, 1.9)]
    ['length', 'distance']
    """
    long_m = number.value if isinstance(number, Spread) else number
    if long_m <= _TWO_YARDS_M:
        return own
    return tuple(replace(each, quantity="distance") if each.key == key else each for each in own)


def _row(told: RowText, number: Spread | float, role: Literal["result", "step"]) -> Row:
    return Row(
        key=told.key,
        symbol=told.symbol,
        words=told.words,
        quantity=told.quantity,
        spread=number if isinstance(number, Spread) else Spread.exactly(number),
        working=told.working,
        source=told.source,
        kind=told.kind,
        role=role,
    )


class SheetText:
    """The words of one worksheet. The file is read when something in it is first asked for.

    Parameters
    ----------
    module : ModuleSpec
        ``__spec__`` of a module that ``sheet.toml`` lies beside; None: there is nothing to say.

    Notes
    -----
    ``[fields.KEY]`` has what `Number` has, ``[rows.KEY]`` what `RowText` has, ``[examples.NAME]`` what `Example` has,
    ``[cautions.KEY]`` what `Sentence` has, ``[sentences]`` the words for each reason a plan may give, and
    ``leaves_out`` what the answer leaves out.
    """

    def __init__(self, module: ModuleSpec | None) -> None:
        self._module = module
        self._rows: dict[str, tuple[RowText, ...]] = {}

    @cached_property
    def _table(self) -> dict[str, Any]:
        return load_table(self._module, "sheet") if self._module else {}

    def number(self, key: str) -> Number:
        """Return a field that only this worksheet asks, from ``[fields.KEY]``.

        Raises
        ------
        KeyError
            For one that is not there.
        """
        return Number(key=key, **self._table["fields"][key])

    def rows_of(self, fields: Iterable[Field], table: str = "rows") -> tuple[RowText, ...]:
        """Return the rows of a table; what one leaves unsaid follows from the field of the same key.

        Parameters
        ----------
        fields : iterable of Field
            Those of the worksheet.
        table : str
            Its name in the file.

        Raises
        ------
        TypeError
            For a row that lacks something and has no field.
        """
        if table not in self._rows:
            asked = {each.key: _as_typed(each) for each in fields}
            found = self._table.get(table, {})
            self._rows[table] = tuple(RowText(key=key, **(asked.get(key, {}) | said)) for key, said in found.items())
        return self._rows[table]

    @cached_property
    def examples(self) -> tuple[Example, ...]:
        """The usual one first; then the edges, and every way to be refused."""
        return tuple(_example(name, **said) for name, said in self._table.get("examples", {}).items())

    def caution(self, key: str) -> Sentence:
        """Return a caution or a note whose words never change, from ``[cautions.KEY]``.

        Raises
        ------
        KeyError
            For one that is not there.
        """
        return Sentence(**self._table["cautions"][key])

    @cached_property
    def sentences(self) -> Mapping[str, str]:
        """The words for the reasons a plan may give."""
        found: dict[str, str] = self._table.get("sentences", {})
        return found

    @cached_property
    def leaves_out(self) -> tuple[str, ...]:
        """What the answer leaves out."""
        return tuple(self._table.get("leaves_out", ()))


def _example(
    name: str, words: str, inputs: Mapping[str, str] | None = None, refused: Iterable[str] = (), times: int = 1
) -> Example:
    """Return an example; `times` repeats the text of each input, for one that is too long to be written out."""
    typed = {key: text * times for key, text in (inputs or {}).items()}
    return Example(name=name, words=words, inputs=typed, refused=tuple(refused))


def _as_typed(field: Field) -> dict[str, str]:
    """Return what a row says of a number that was only typed."""
    said = {"symbol": "", "words": field.label, "working": "as typed", "source": "input"}
    return said | ({"quantity": field.quantity} if isinstance(field, Number) else {})
