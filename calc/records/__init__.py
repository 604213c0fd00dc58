"""What a notebook keeps of bows, cords, hands and strings made: records, files, and two of them joined."""

from calc.records.club_register import EVERY_S, Line, current_string, register
from calc.records.files import (
    ENDING,
    FORMAT,
    VERSION,
    NotebookError,
    Opened,
    check_head,
    read_notebook,
    read_record,
    read_records,
    record_to_json,
    write_notebook,
)
from calc.records.filling import Prefill, brace_pairs, prefill
from calc.records.json_schema import schema
from calc.records.kinds import (
    KINDS,
    PLURALS,
    Bow,
    Cord,
    DateField,
    Entry,
    Hand,
    ReferenceField,
    String,
    TextField,
    fields_of,
)
from calc.records.notebook import Change, Notebook, extract, merge_change, merge_notebooks
from calc.records.person import TAKEN_OUT, forget_person, initials, people
from calc.records.record import DELETED, Record, delete, edit, merge, restore
from calc.records.settling import AHEAD, HeightReading, Settling, fit_settling, height_readings
from calc.records.spreadsheet import csv_files, csv_of
from calc.records.stamps import format_time
from calc.records.texts import check_record, display_text, parse_day, read_form, si_value

__all__ = [
    "AHEAD",
    "DELETED",
    "ENDING",
    "EVERY_S",
    "FORMAT",
    "KINDS",
    "PLURALS",
    "TAKEN_OUT",
    "VERSION",
    "Bow",
    "Change",
    "Cord",
    "DateField",
    "Entry",
    "Hand",
    "HeightReading",
    "Line",
    "Notebook",
    "NotebookError",
    "Opened",
    "Prefill",
    "Record",
    "ReferenceField",
    "Settling",
    "String",
    "TextField",
    "brace_pairs",
    "check_head",
    "check_record",
    "csv_files",
    "csv_of",
    "current_string",
    "delete",
    "display_text",
    "edit",
    "extract",
    "fields_of",
    "fit_settling",
    "forget_person",
    "format_time",
    "height_readings",
    "initials",
    "merge",
    "merge_change",
    "merge_notebooks",
    "parse_day",
    "people",
    "prefill",
    "read_form",
    "read_notebook",
    "read_record",
    "read_records",
    "record_to_json",
    "register",
    "restore",
    "schema",
    "si_value",
    "write_notebook",
]
