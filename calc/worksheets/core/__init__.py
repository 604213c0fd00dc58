"""What every worksheet is made of: fields, rows, words, reading and evaluating."""

from calc.worksheets.core.cords import verdict
from calc.worksheets.core.evaluate import Complaint, ask, blame, usual, work_ahead
from calc.worksheets.core.next_steps import Guide
from calc.worksheets.core.outcome_data import outcome
from calc.worksheets.core.read import LONGEST, read_field, read_inputs, spell
from calc.worksheets.core.row_table import SheetText, by_the_yard, rows, table
from calc.worksheets.core.schema import (
    Answer,
    Choice,
    Example,
    Field,
    File,
    Inputs,
    Lines,
    Number,
    Option,
    Parts,
    Row,
    RowText,
    Sentence,
    Table,
    Tip,
    Value,
    Worksheet,
)
from calc.worksheets.core.sensitivity import mattering
from calc.worksheets.core.table_text import TableLine, TableText, harmless, lines_of, read_table, write_line
from calc.worksheets.core.tips import convert_tip, parts_of
from calc.worksheets.core.words import by_key, fill, range_words, sentence, show_row, shown

__all__ = [
    "LONGEST",
    "Answer",
    "Choice",
    "Complaint",
    "Example",
    "Field",
    "File",
    "Guide",
    "Inputs",
    "Lines",
    "Number",
    "Option",
    "Parts",
    "Row",
    "RowText",
    "Sentence",
    "SheetText",
    "Table",
    "TableLine",
    "TableText",
    "Tip",
    "Value",
    "Worksheet",
    "ask",
    "blame",
    "by_key",
    "by_the_yard",
    "convert_tip",
    "fill",
    "harmless",
    "lines_of",
    "mattering",
    "outcome",
    "parts_of",
    "range_words",
    "read_field",
    "read_inputs",
    "read_table",
    "rows",
    "sentence",
    "show_row",
    "shown",
    "spell",
    "table",
    "usual",
    "verdict",
    "work_ahead",
    "write_line",
]
