"""What a worksheet declares: the fields it asks, the rows it answers, the sentences it says.

One declaration makes the form, the limits, the help in the terminal, the JSON and the test examples.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Literal, NamedTuple, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from calc.draw import Drawing
    from calc.geometry.ends import Section
    from calc.numerics import Spread
    from calc.units import Quantity, System
    from calc.worksheets.core.next_steps import Guide, Next
    from calc.worksheets.core.row_table import SheetText

RowKind = Literal["derived", "measured", "practice", "exact"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One question.

    Parameters
    ----------
    key : str
        Unique in a worksheet; the name of what was read.
    label, hint : str
        Words beside the box, and smaller ones beneath.
    group : str
        Under which heading it stands.
    example : str
        Typed text that is filled in at first.
    absent : str
        Word for leaving it open; empty when it must be answered.
    """

    key: str
    label: str
    hint: str
    group: str
    example: str
    absent: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Field):
    """A quantity typed with or without its unit; bounds in SI.

    Parameters
    ----------
    quantity : Quantity
        Which units it may be typed in.
    low, high : float
        Bounds, included, in SI.
    whole : bool
        Whether it must be a whole number.
    """

    quantity: Quantity
    low: float
    high: float
    whole: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One answer of a choice, with the words a reader sees.

    Parameters
    ----------
    value : str
        As it is typed and read.
    label : str
        Words a reader sees.
    """

    value: str
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Field):
    """One of a few named answers.

    Parameters
    ----------
    options, measured
        Its answers; whether it takes one read from a picture too, as `photo_text` writes it.
    """

    options: tuple[Option, ...]
    measured: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip(Field):
    """A limb-tip section, `round 1/2 in`, `flat 5/8 x 3/8 in` or `pipe 3/4`.

    Parameters
    ----------
    low, high : float
        Bounds of each measure, included. [m]
    """

    low: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lines(Field):
    """Several lines of text as they were typed, pasted or read from a file: the worksheet reads them itself.

    Parameters
    ----------
    most : int
        Lines it may have.
    explicit : callable
        Writes them so that they mean the same in both systems: a bare number is in the system it is given.
    how : tuple of str
        How they are written, told beside the field in a few short sentences.
    """

    most: int
    explicit: Callable[[str, System], str] = lambda text, _system: text
    how: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RowText:
    """What is said of one number wherever it stands: a row of a worksheet's own, or of ``rows.toml``.

    Parameters
    ----------
    key, words, quantity, working, source, symbol, kind : as of a `Row`
    """

    key: str
    words: str
    quantity: Quantity
    working: str
    source: str
    symbol: str = ""
    kind: RowKind = "derived"


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A list that belongs to an answer, like what to buy: templates as in a `Sentence`, or plain words.

    Parameters
    ----------
    key, title, note : str
        Unique in an answer; what stands above; what stands beneath.
    heads : tuple of str
        One for each column.
    cells : tuple of tuple of str
        One tuple a line, as long as `heads`.
    """

    key: str
    title: str
    heads: tuple[str, ...]
    cells: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class File:
    """A file that belongs to an answer, to be saved.

    Parameters
    ----------
    name, media, text : str
        Its name with its ending; its media type; what it holds.
    """

    name: str
    media: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """A named set of typed inputs.

    Parameters
    ----------
    name : str
        Unique in a worksheet.
    words : str
        What it is an example of.
    inputs : mapping of str to str
        By field key; what is left out is taken from the fields' own examples.
    refused : tuple of str
        Fields at which the worksheet must speak up; empty when it must answer.
    """

    name: str
    words: str
    inputs: Mapping[str, str] = field(default_factory=dict)
    refused: tuple[str, ...] = ()


class Row(NamedTuple):
    """One number of the answer with its working.

    Attributes
    ----------
    key, symbol, words : str
        Unique in an answer; its letter in formulas, or nothing; what it is.
    quantity : Quantity
        Which units it is shown in.
    spread : Spread
        Low, value and high, in SI.
    working : str
        The formula with the numbers put in, as a template like that of a `Sentence`.
    source : str
        Key of ``sources.toml``, a derivation, or ``input``.
    kind : RowKind
        How it was come by.
    role : {"result", "step"}
        Results are public, steps explain.
    """

    key: str
    symbol: str
    words: str
    quantity: Quantity
    spread: Spread
    working: str
    source: str
    kind: RowKind = "derived"
    role: Literal["result", "step"] = "result"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """Words of an answer.

    Parameters
    ----------
    text : str
        With ``{row key}``, ``{row key.low}`` or ``{row key.high}`` where numbers go, in the reader's units.
    level : {"answer", "note", "caution"}
        How it is shown.
    lead : str
        Stands before an answer.
    span : str
        The range beside an answer; a template too. The first row whose low or high stands in it is drawn as a bar.
    against : str
        What that row is held against, marked on the bar: a row's key, or a plain number in SI.
    table : str
        Key of the answer's table that says more.
    standing : bool
        True for a caution that is given whatever the numbers are: where there is little room it stands after the
        questions.
    """

    text: str
    level: Literal["answer", "note", "caution"] = "note"
    lead: str = ""
    span: str = ""
    against: str = ""
    table: str = ""
    standing: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """Everything a worksheet says to one set of inputs.

    Parameters
    ----------
    rows, headlines, cautions, leaves_out
        Its numbers; the answer in large figures; what to mind; what the sums do not know of.
    figures, tables, files : callable
        Take the reader's units.
    next : tuple of Next
        What is done next, where that hangs on the answer.
    known : mapping of str to str
        Texts for fields of other worksheets that this answer has found out, by field key, besides the results that are
        called as those fields are.
    answers : mapping of str to str
        Names of the rows that answer fields of another name.
    """

    rows: tuple[Row, ...]
    headlines: tuple[Sentence, ...]
    cautions: tuple[Sentence, ...]
    leaves_out: tuple[str, ...]
    figures: Callable[[System], tuple[Drawing, ...]] = lambda _system: ()
    tables: Callable[[System], tuple[Table, ...]] = lambda _system: ()
    files: Callable[[System], tuple[File, ...]] = lambda _system: ()
    next: tuple[Next, ...] = ()
    known: Mapping[str, str] = field(default_factory=dict)
    answers: Mapping[str, str] = field(default_factory=dict)


Value: TypeAlias = "float | str | Section | None"


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """How a worksheet of many lines is worked out a few at a time, and how one line of it is opened elsewhere.

    Parameters
    ----------
    work : callable
        Takes what was read and does the lines from one up to another; it tells how many there are. What it worked out
        is remembered, so that the answer, asked for afterwards, is quick.
    open : callable
        Takes what is typed, the units of bare numbers and the place of a line among those that are answered, from 0; it
        gives a worksheet's id, its inputs and whose string it is, or None.
    """

    work: Callable[[Any, int, int], int]
    open: Callable[[Mapping[str, str], System, int], tuple[str, dict[str, str], str] | None]


class Inputs:
    """What was read, in SI: a class of a worksheet names its fields with their types.

    Every field of the worksheet is an attribute; tests hold the types against the fields.

    >>> class Reel(Inputs):
    ...     reel_mass: float
    >>> Reel({"reel_mass": 0.25}).reel_mass
    0.25
    """

    def __init__(self, values: Mapping[str, Value]) -> None:
        vars(self).update(values)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worksheet:
    """A whole worksheet.

    Parameters
    ----------
    id, title, purpose : str
        In links and on the command line; above it; beneath that, one sentence.
    groups, folded : tuple of str
        Of the form, in their order; those that nobody has to fill in.
    fields, results
        What it asks; row keys of what it answers, in their order.
    plan : callable
        Takes what was read; answers, or raises DomainError.
    inputs : type of Inputs
        Class of what was read.
    text : SheetText
        What its ``sheet.toml`` says: rows, examples and sentences.
    blames : mapping of str to str
        From a name of the rooms below to the field that is to be marked.
    shared : tuple of mapping of str to str
        Sentences that other worksheets have too; its own go before.
    guides, next
        Where its answer is used; what is done next in the job.
    place : int
        Where it stands in a list of all: low ones first, in the order of the job.
    parts : Parts or None
        None where it is worked out at once.
    """

    id: str
    title: str
    purpose: str
    groups: tuple[str, ...]
    fields: tuple[Field, ...]
    results: tuple[str, ...]
    plan: Callable[[Any], Answer]
    inputs: type[Inputs]
    text: SheetText
    blames: Mapping[str, str] = field(default_factory=dict)
    shared: tuple[Mapping[str, str], ...] = ()
    guides: tuple[Guide, ...] = ()
    next: tuple[Next, ...] = ()
    place: int = 50
    parts: Parts | None = None
    folded: tuple[str, ...] = ()

    @property
    def examples(self) -> tuple[Example, ...]:
        """The usual one first; then the edges, and every way to be refused."""
        return self.text.examples

    @property
    def row_texts(self) -> tuple[RowText, ...]:
        """Rows that no other worksheet shows."""
        return self.text.rows_of(self.fields)

    @property
    def sentences(self) -> Mapping[str, str]:
        """The words for the reasons that `plan` may give."""
        return {key: words for each in (*self.shared, self.text.sentences) for key, words in each.items()}
