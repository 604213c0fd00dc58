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
from calc.data.tables import packing_ratios, peak_ratios, pipe_diameters, table_sources

__all__ = [
    "CREEP_K",
    "CREEP_SHARE",
    "UNITS",
    "Class",
    "Fact",
    "Fibre",
    "Kind",
    "Source",
    "Verdict",
    "fibre",
    "fibres",
    "packing_ratios",
    "peak_ratios",
    "pipe_diameters",
    "practice",
    "practices",
    "source",
    "sources",
    "table_sources",
]
