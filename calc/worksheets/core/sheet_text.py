"""What a worksheet says, from the ``sheet.toml`` beside its ``sheet.py``: rows, examples, sentences."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Any

from calc.tables import load_table
from calc.worksheets.core.schema import Example, Number, RowText

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from importlib.machinery import ModuleSpec

    from calc.worksheets.core.schema import Field


class SheetText:
    """The words of one worksheet. The file is read when something in it is first asked for.

    Parameters
    ----------
    module : ModuleSpec
        ``__spec__`` of a module that ``sheet.toml`` lies beside; None: there is nothing to say.

    Notes
    -----
    ``[fields.KEY]`` has what `Number` has, ``[rows.KEY]`` what `RowText` has, ``[examples.NAME]`` what `Example` has, ``[sentences]`` the words for each
    reason a plan may give, and ``leaves_out`` what the answer leaves out.
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
