"""Tables that are written in files beside the modules that read them."""

from __future__ import annotations

import tomllib
from os.path import dirname, join
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from importlib.machinery import ModuleSpec


def load_table(module: ModuleSpec | None, name: str) -> dict[str, Any]:
    """Return a table from ``name.toml``.

    Parameters
    ----------
    module : ModuleSpec
        ``__spec__`` of a module that the file lies beside.
    name : str
        Of the file, without its ending.

    Raises
    ------
    OSError
        When there is none.

    Examples
    --------
    >>> from calc.data import facts
    >>> sorted(load_table(facts.__spec__, "pipes"))
    ['diameters', 'metric_names', 'source', 'unit', 'walls']
    """
    loader: Any = module and module.loader
    place = dirname((module and module.origin) or "")  # noqa: PTH120 - for speed, and inside a zip
    return tomllib.loads(loader.get_data(join(place, f"{name}.toml")).decode("utf-8"))  # noqa: PTH118
