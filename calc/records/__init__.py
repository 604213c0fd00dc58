"""What a notebook keeps of bows, cords, hands and strings made: records, files, and two of them joined."""

from calc.records.brace_trend import AHEAD, HeightReading, HeightTrend, fit_settling, height_readings
from calc.records.club_register import EVERY_S, RegisterLine, current_string, register
from calc.records.comparing import compare
from calc.records.files import (
    ENDING,
    FORMAT,
    ID,
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
from calc.records.filling import TAUGHT, Prefill, brace_pairs, called, prefill
from calc.records.json_schema import schema
from calc.records.kinds import KINDS, PLURALS, BowRecord, CordRecord, EntryRecord, HandRecord, StringRecord, fields_of
from calc.records.notebook import Change, Notebook, extract, merge_change, merge_notebooks
from calc.records.person import TAKEN_OUT, forget_person, initials, people
from calc.records.questions import DateField, ReferenceField, TextField
from calc.records.record import DELETED, Record, delete, edit, merge, restore
from calc.records.spreadsheet import csv_files, csv_of
from calc.records.stamps import DEVICE, format_time, is_time
from calc.records.texts import check_record, display_text, parse_day, read_form, si_value

__all__ = [
    "AHEAD",
    "DELETED",
    "DEVICE",
    "ENDING",
    "EVERY_S",
    "FORMAT",
    "ID",
    "KINDS",
    "PLURALS",
    "TAKEN_OUT",
    "TAUGHT",
    "VERSION",
    "BowRecord",
    "Change",
    "CordRecord",
    "DateField",
    "EntryRecord",
    "HandRecord",
    "HeightReading",
    "HeightTrend",
    "Notebook",
    "NotebookError",
    "Opened",
    "Prefill",
    "Record",
    "ReferenceField",
    "RegisterLine",
    "StringRecord",
    "TextField",
    "brace_pairs",
    "called",
    "check_head",
    "check_record",
    "compare",
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
    "is_time",
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
