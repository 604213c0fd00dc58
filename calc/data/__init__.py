"""Facts with their provenance: fibres, pipes, packing, the trade's constants, sources."""

from calc.data.facts import (
    UNITS,
    Fact,
    Kind,
    Source,
    practice,
    practices,
    source,
    sources,
)
from calc.data.fibre_table import (
    CREEP_K,
    CREEP_SHARE,
    Class,
    Fibre,
    Verdict,
    fibre,
    fibres,
)
from calc.data.rules import Rule, rule, rules
from calc.data.tables import (
    Rope,
    packing_ratios,
    peak_ratios,
    pipe_diameters,
    ropes,
    table_sources,
)

__all__ = [
    "CREEP_K",
    "CREEP_SHARE",
    "UNITS",
    "Class",
    "Fact",
    "Fibre",
    "Kind",
    "Rope",
    "Rule",
    "Source",
    "Verdict",
    "fibre",
    "fibres",
    "packing_ratios",
    "peak_ratios",
    "pipe_diameters",
    "practice",
    "practices",
    "ropes",
    "rule",
    "rules",
    "source",
    "sources",
    "table_sources",
]
