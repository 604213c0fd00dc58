"""Tables that are written in files beside the modules that read them."""

from __future__ import annotations

import marshal
from os.path import dirname, join
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from importlib.machinery import ModuleSpec


def written(module: ModuleSpec | None, name: str) -> dict[str, Any]:
    """Return a table: from ``name.table`` where a build has read it already, else from ``name.toml``.

    Parameters
    ----------
    module : ModuleSpec
        ``__spec__`` of a module that the file lies beside.
    name : str
        Of the file, without its ending.

    Raises
    ------
    OSError
        When there is neither.

    Examples
    --------
    >>> from calc.data import facts
    >>> sorted(written(facts.__spec__, "pipes"))
    ['diameters', 'metric_names', 'source', 'unit', 'walls']
    """
    loader: Any = module and module.loader
    beside = join(dirname((module and module.origin) or ""), name)  # noqa: PTH118, PTH120 - for speed, and inside a zip
    try:
        return dict(marshal.loads(loader.get_data(f"{beside}.table")))  # noqa: S302 - written by our own build
    except OSError:
        import tomllib  # noqa: PLC0415 - where it is needed at all

        return tomllib.loads(loader.get_data(f"{beside}.toml").decode("utf-8"))
