"""A string on its bow: bracing, tuning, settling."""

from calc.making.tuning.bracing import STEP_M, Braced, brace_for, free_body, string_for, turned
from calc.making.tuning.copying import LABEL_N, LABEL_PIN_M, LABEL_SHORTER_M, OldLoop, OldString
from calc.making.tuning.hung import Hung, HungBefore, HungRead
from calc.making.tuning.nail import Nailed, predict_brace, with_strings
from calc.making.tuning.settling import (
    HEAVY_SHARE,
    SETTLING_TIMES_S,
    NewString,
    OnBow,
    Settled,
    heaviest_n,
    pull_on_bow,
    settle_new_string,
)
from calc.making.tuning.sounding import HeardBefore, Sounding, note_name, serving_line
from calc.making.tuning.stringer import Stringer, pocket
from calc.making.tuning.sweeping import Try, sweep
from calc.making.tuning.tillering import Tillering
from calc.making.tuning.tuning import BraceReading, Tuned, Tuning, tune
from calc.making.tuning.wetting import soaks, wet_change

__all__ = [
    "HEAVY_SHARE",
    "LABEL_N",
    "LABEL_PIN_M",
    "LABEL_SHORTER_M",
    "SETTLING_TIMES_S",
    "STEP_M",
    "BraceReading",
    "Braced",
    "HeardBefore",
    "Hung",
    "HungBefore",
    "HungRead",
    "Nailed",
    "NewString",
    "OldLoop",
    "OldString",
    "OnBow",
    "Settled",
    "Sounding",
    "Stringer",
    "Tillering",
    "Try",
    "Tuned",
    "Tuning",
    "brace_for",
    "free_body",
    "heaviest_n",
    "note_name",
    "pocket",
    "predict_brace",
    "pull_on_bow",
    "serving_line",
    "settle_new_string",
    "soaks",
    "string_for",
    "sweep",
    "tune",
    "turned",
    "wet_change",
    "with_strings",
]
