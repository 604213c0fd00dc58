"""What is taped to each set of strands before an afternoon."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calc import units
from calc.worksheets.club.made import ClubInputs, Made, made
from calc.worksheets.core import read_inputs

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.units import System
    from calc.worksheets.core import Worksheet


@dataclass(frozen=True, slots=True)
class SetLabel:
    """What is written on the strands of one string.

    Attributes
    ----------
    name : str
        For which bow, and which of its strings where it gets more than one.
    strands : str
        How many of which colour, and how long.
    bundles : str
        How they are divided.
    bow : str
        Its nock to nock and draw weight, to tell two bows of one name apart.
    """

    name: str
    strands: str
    bundles: str
    bow: str


def set_labels(worksheet: Worksheet, typed: Mapping[str, str], system: System) -> tuple[SetLabel, ...]:
    """Return a label for every string of a club list, in the order of the list.

    Parameters
    ----------
    worksheet : Worksheet
        The club list.
    typed : mapping of str to str
        Text for every field.
    system : {"inch", "metric"}
        Units of bare numbers and of the labels.

    Returns
    -------
    tuple of SetLabel
        None for lines that cannot be used; nothing for a form that cannot be read.

    Raises
    ------
    DomainError
        As `calc.worksheets.club.lines.read_bows`.
    """
    values, problems = read_inputs(worksheet, typed, system)
    lines = [] if problems else [each for each in made(ClubInputs(values)) if isinstance(each, Made)]
    return tuple(_label(each, at, system) for each in lines for at in range(1, each.wanted.strings + 1))


def _label(line: Made, at: int, system: System) -> SetLabel:
    want, listed = line.wanted, line.listed
    bundles, each = want.order.bundles, listed.strands // want.order.bundles
    colours: Counter[str] = Counter()
    for bundle in range(bundles):
        colours[want.colours[bundle % len(want.colours)] if want.colours else "strands"] += each
    counted = " + ".join(f"{count} {colour}" for colour, count in colours.items())
    return SetLabel(
        name=want.name + (f", {at} of {want.strings}" if want.strings > 1 else ""),
        strands=f"{counted}, each {units.show(listed.cuts.cut_m, 'length', system)}",
        bundles=f"{bundles} bundles of {each}",
        bow=f"{units.show(want.order.bow.nock_to_nock_m, 'length', system)} nock to nock, "
        f"{units.show(want.order.draw_weight_n, 'force', system)}",
    )
