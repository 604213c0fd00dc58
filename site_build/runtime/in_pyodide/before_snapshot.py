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
from calc.making.shot import whole_shot  # noqa: E402

for each in gc.get_objects():
    if isinstance(each, functools._lru_cache_wrapper) and each.cache_parameters()["maxsize"] is not None:  # noqa: SLF001
        each.cache_clear()
    elif isinstance(each, types.FunctionType) and each.__code__.co_linetable.strip(b"\xff")[1:]:
        each.__code__ = lineless(each.__code__)  # what Python has built in, and what dataclasses write themselves
warm(1)
whole_shot._shot.cache_clear()  # noqa: SLF001 - of bows that are nobody's, and larger than all else that is remembered
sys.path[:] = [each for each in sys.path if each not in {"/build", "/package"}]
for name in [each for each in sys.modules if each.startswith("site_build")]:
    del sys.modules[name]
del each, functools, lineless, name, sys, types, warm, whole_shot
gc.collect()
