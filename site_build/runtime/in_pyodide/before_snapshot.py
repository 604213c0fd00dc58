"""Brings Python, inside Pyodide at the build, to where a browser goes on from: everything loaded, nothing left over."""

import functools
import gc
import sys
import types

sys.path.insert(0, "/build")

from site_build.runtime.in_pyodide.lines import lineless
from site_build.runtime.in_pyodide.using import warm

warm()

from calc.bridge import handle  # noqa: E402, F401 - asked for by this name

OF_ONE_BOW = (
    "calc.making", "calc.mechanics.estimate", "calc.mechanics.shot", "calc.geometry", "calc.draw", "calc.units.showing",
    "calc.worksheets.club",
)  # fmt: skip
"""Rooms that remember answers, which are nobody's here; the tables of the rooms below them stay."""

for each in gc.get_objects():
    if isinstance(each, functools._lru_cache_wrapper) and each.cache_parameters()["maxsize"] is not None:  # noqa: SLF001
        each.cache_clear()
    elif isinstance(each, types.FunctionType) and each.__code__.co_linetable.strip(b"\xff")[1:]:
        each.__code__ = lineless(each.__code__)  # what Python has built in, and what dataclasses write themselves
warm(1)
for each in gc.get_objects():
    if isinstance(each, functools._lru_cache_wrapper) and each.__module__.startswith(OF_ONE_BOW):  # noqa: SLF001
        each.cache_clear()
sys.path[:] = [each for each in sys.path if each not in {"/build", "/package"}]
for name in [each for each in sys.modules if each.startswith("site_build")]:
    del sys.modules[name]
del OF_ONE_BOW, each, functools, lineless, name, sys, types, warm
gc.collect()
