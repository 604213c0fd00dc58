"""The string's length against the pull on it, as a chart."""

from __future__ import annotations

from typing import TYPE_CHECKING

from calc import units
from calc.draw.charts import Axis, Marker, Series, line_chart

if TYPE_CHECKING:
    from calc.draw import Drawing
    from calc.making.tuning import Nailed
    from calc.units import System

_PLACES = 24
_BEYOND = 1.15


def chart(done: Nailed, system: System) -> Drawing:
    """Return length from peg to peg against pull, with what was read and where the bow will have it.

    Parameters
    ----------
    done : Nailed
        As worked out.
    system : {"inch", "metric"}
        The reader's units.
    """
    reads, pull_n = done.hung.reads, done.pull_n.value
    most_n = _BEYOND * max(pull_n, *(each.weight_n for each in reads))

    def at(load_n: float, length_m: float) -> tuple[float, float]:
        return units.number_in(load_n, "force", system), units.number_in(length_m, "length", system)

    loads = [most_n * k / _PLACES for k in range(_PLACES + 1)]
    points = tuple(at(each, done.length_under(each)) for each in loads)
    texts = tuple(
        (units.show(each, "force", system), units.show(done.length_under(each), "length", system)) for each in loads
    )
    lengths = [each[1] for each in points] + [at(0.0, each.length_m)[1] for each in reads]
    there = done.length_under(pull_n)
    shown = [
        (units.show(each.weight_n, "force", system), units.show(each.length_m, "length", system)) for each in reads
    ]
    said = "; ".join(f"{length} under {weight}" for weight, length in shown)
    return line_chart(
        [Series("", points, texts=texts)],
        Axis(f"pull on the string, {units.unit_label('force', system)}", 0.0, points[-1][0]),
        Axis(f"peg to peg, {units.unit_label('length', system)}", min(lengths), max(lengths)),
        key="stretch",
        title="Length against pull",
        desc=f"Read: {said}. Under {units.show(pull_n, 'force', system)}, the pull of the braced bow, it is "
        f"{units.show(there, 'length', system)} long.",
        markers=[
            *(Marker("read", at(each.weight_n, each.length_m)) for each in reads),
            Marker("on the bow", at(pull_n, there)),
        ],
    )
