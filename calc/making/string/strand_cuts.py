"""From raw lengths to cut strands: stagger, marks along the bundle, cord to cut."""

from __future__ import annotations

from dataclasses import dataclass

from calc.errors import DomainError, Problem, require
from calc.geometry.ends import stagger


@dataclass(frozen=True, slots=True)
class Cuts:
    """How the strands of one string are cut and marked.

    Attributes
    ----------
    cut_m : float
        Every strand's length. [m]
    step_m : float
        Each strand of a bundle lies this far behind the last. [m]
    shortest_tail_m : float
        What the shortest strand end still reaches beyond its loop mark. [m]
    marks_m : tuple of float
        Ends of tail, loop, body, loop and tail from the first strand end. [m]
    cord_m : float
        All strands together. [m]
    """

    cut_m: float
    step_m: float
    shortest_tail_m: float
    marks_m: tuple[float, ...]
    cord_m: float


def cuts(
    *,
    tail_m: float,
    loop_upper_m: float,
    body_m: float,
    loop_lower_m: float,
    strands: int,
    bundles: int,
    least_tail_m: float,
    wanted_step_m: float,
) -> Cuts:
    """Return the cut of strands that are all alike and lie staggered, so that both tails taper.

    Parameters
    ----------
    tail_m : float, > 0
        Longest strand end beyond each loop mark. [m]
    loop_upper_m, body_m, loop_lower_m : float, > 0
        Raw lengths between the marks. [m]
    strands, bundles : int
        In the whole string; how they are shared.
    least_tail_m : float, > 0
        Shortest strand end that may be left beyond a mark. [m]
    wanted_step_m : float, > 0
        Step from strand to strand where the tail is long enough for it. [m]

    Returns
    -------
    Cuts
        One end's longest strand is the other end's shortest, so every strand is shorter than the whole
        bundle by the taper.

    Raises
    ------
    DomainError
        ``pair`` with reason ``tail_short`` when the tail is shorter than the least that holds,
        ``tails_long`` when the two tails would meet on the body.

    Examples
    --------
    Two strands a bundle, half an inch apart, in inches for once:

    >>> cuts(tail_m=8, loop_upper_m=4, body_m=42, loop_lower_m=4, strands=4, bundles=2,
    ...      least_tail_m=2, wanted_step_m=0.5).cut_m
    65.5
    """
    for name, value in (("loop_upper_m", loop_upper_m), ("body_m", body_m), ("loop_lower_m", loop_lower_m)):
        require(name, value, low=0.0, open_=True)
    if tail_m < least_tail_m:
        raise DomainError(Problem(field="tail_m", code="min", limit=least_tail_m, reason="tail_short"))
    if 2.0 * tail_m >= body_m:
        raise DomainError(Problem(field="tail_m", code="pair", other="nock_to_nock_m", reason="tails_long"))
    each = strands // bundles
    step_m = stagger(each, tail_m, least_tail_m, wanted_step_m)
    taper_m = (each - 1) * step_m
    marks, reached = [], 0.0
    for zone_m in (tail_m, loop_upper_m, body_m, loop_lower_m, tail_m):
        reached += zone_m
        marks.append(reached)
    cut_m = reached - taper_m
    return Cuts(cut_m, step_m, tail_m - taper_m, tuple(marks), strands * cut_m)
