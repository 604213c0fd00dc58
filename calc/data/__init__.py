"""Facts with their provenance: fibres, pipes, packing, the trade's constants, sources."""

from calc.data.facts import UNITS, Fact, FactKind, Source, practice, practices, source, sources
from calc.data.fibre_table import CREEP_K, CREEP_SHARE, Class, Fibre, Verdict, fibre, fibres
from calc.data.reference import FactRow, SourceRow, fibre_rows, figure, practice_rows, rule_rows, source_rows
from calc.data.tables import (
    Limbs,
    PeakRow,
    Rope,
    packing_ratios,
    peak_rows,
    pipe_diameters,
    pipe_walls,
    ropes,
    table_sources,
)
from calc.data.trade_rules import Rule, rule, rules

__all__ = [
    "CREEP_K",
    "CREEP_SHARE",
    "UNITS",
    "Class",
    "Fact",
    "FactKind",
    "FactRow",
    "Fibre",
    "Limbs",
    "PeakRow",
    "Rope",
    "Rule",
    "Source",
    "SourceRow",
    "Verdict",
    "fibre",
    "fibre_rows",
    "fibres",
    "figure",
    "packing_ratios",
    "peak_rows",
    "pipe_diameters",
    "pipe_walls",
    "practice",
    "practice_rows",
    "practices",
    "ropes",
    "rule",
    "rule_rows",
    "rules",
    "source",
    "source_rows",
    "sources",
    "table_sources",
]
