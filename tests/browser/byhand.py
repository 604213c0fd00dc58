"""A string worked out by hand, for the scenarios: in inches and pounds, with one line of school geometry a step.

Every number is from outside the project or a usual value of the trade, and named so: fibre strength, stiffness and
density from Textile Technology's table of fibres (Table 1) and Morton and Hearle (Table 5.1); steps of half an inch
from Pope (1923); the rest is common practice, no published source.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, sin, sqrt, tan
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable

POUND_N, INCH_M = 4.4482216, 0.0254
LAY, LOOP_LAY, SPLICE_LAY = radians(11.65), radians(21.8), radians(18.9)
"""Body half-way in length between a loose lay of 4 degrees and a tight one of 16: cos = (cos 4 + cos 16) / 2. One turn
of a loop's bundles lies along 2.5, of a splice's along about 3 cord diameters (common practice)."""
BEDDING = 0.010
"""A fresh lay closes up by a hundredth (common practice, 0.3 to 2 %)."""
BRACED = 1.5
"""Pull of the braced string over the draw weight (common practice, 1.1 to 2.1)."""
THROAT_IN, TAIL_IN, STEP_IN = 0.25, 8.0, 0.5
PACKED = 0.70
"""How much of a waxed, rolled bundle is fibre (common practice, 0.6 to 0.8)."""


@dataclass(frozen=True)
class Cord:
    """One strand: N and N/tex from the tables, tex and g/cm3."""

    tex: float
    strength: float
    stiffness: float
    density: float


POLYESTER = Cord(tex=167, strength=0.80, stiffness=10.0, density=1.38)
POLYPROPYLENE = Cord(tex=2000, strength=0.60, stiffness=3.5, density=0.91)


@dataclass(frozen=True)
class Bow:
    """A straight bow whose limbs bend like part of a circle."""

    nock_in: float
    handle_in: float
    brace_in: float

    @property
    def string_in(self) -> float:
        """Return the string. A limb is an arc of length l: it rises by H = l (1 - cos a) / a; chord l sin a / a."""
        limb = (self.nock_in - self.handle_in) / 2
        rise, turned = self.brace_in / limb, 0.0
        for _ in range(60):  # a / 2 - a^3 / 24 + a^5 / 720 = H / l, each guess put in again
            turned = 2 * (rise + turned**3 / 24 - turned**5 / 720)
        return self.handle_in + 2 * limb * sin(turned) / turned


def strength_lbf(cord: Cord, strands: int) -> float:
    """Return what straight strands hold together."""
    return strands * cord.tex * cord.strength / POUND_N


def stretch(cord: Cord, pull_lbf: float, strands: int) -> float:
    """Return the share by which straight strands grow under a pull."""
    return pull_lbf * POUND_N / (strands * cord.tex * cord.stiffness)


def bundle_in(cord: Cord, strands: int) -> float:
    """Return the thickness of a round bundle: its fibre, over how much of the circle is fibre."""
    area_m2 = strands * cord.tex * 1e-6 / (cord.density * 1000 * PACKED)
    return sqrt(4 * area_m2 / pi) / INCH_M


def nocked(tip_in: float) -> Callable[[float], float]:
    """Return a plied loop with legs 60 degrees apart: two tangents and 240 degrees of arc, less where the legs meet."""

    def plied_in(cord_in: float) -> float:
        middle = (tip_in + cord_in) / 2
        return middle * (2 / tan(radians(30)) + radians(240)) - 2 * (cord_in / 2) / sin(radians(30))

    return plied_in


def slides(tip_in: float, thicker_in: float = 5.0 / 32.0) -> Callable[[float], float]:
    """Return a plied loop that passes a limb with a twentieth of ease, less a cord's thickness at the throat.

    A limb is 5/32 in thicker where the loop rests, 3 in below a round tip; a pipe is not.
    """

    def plied_in(cord_in: float) -> float:
        return pi * (tip_in + thicker_in) * 1.05 + pi * cord_in - cord_in

    return plied_in


@dataclass(frozen=True)
class String:
    """A string of two bundles."""

    bow: Bow
    cord: Cord
    strands: int
    draw_lbf: float
    loops: tuple[Callable[[float], float], Callable[[float], float]]

    @property
    def free_in(self) -> float:
        """Return the body between the splices, freshly plied: slack, not yet bedded in, less throats and splices."""
        strain = stretch(self.cord, BRACED * self.draw_lbf, self.strands)
        slack = (self.bow.string_in - 2 * THROAT_IN) / (1 + strain) / (1 + BEDDING)
        return slack - 2 * TAIL_IN * cos(SPLICE_LAY)

    @property
    def turns(self) -> float:
        """Return turns of the body: two bundles' middles go round a circle as wide as one bundle."""
        return self.free_in * tan(LAY) / (pi * bundle_in(self.cord, self.strands // 2))

    @property
    def cut_in(self) -> float:
        """Return every strand's cut: flat body and loops, two tails, less the steps of the strand ends."""
        cord_in = 2 * bundle_in(self.cord, self.strands // 2)
        body = self.free_in / cos(LAY) + 2 * TAIL_IN
        loops = sum(plied(cord_in) for plied in self.loops) / cos(LOOP_LAY)
        return body + loops + 2 * TAIL_IN - STEP_IN * (self.strands // 2 - 1)

    @property
    def unsure_in(self) -> float:
        """Return how far off this sum may be: half of the stretch guessed, and an eighth of an inch at each throat."""
        return self.bow.string_in * stretch(self.cord, BRACED * self.draw_lbf, self.strands) / 2 + 2 / 8


def turns_to_shorten(cord_in: float, bundle_width_in: float, turns: float, by_in: float) -> float:
    """Return the turns that make a body shorter: bundle squared = cord squared + (turns x pi x width) squared."""
    round_in = pi * bundle_width_in
    squared = cord_in**2 + (turns * round_in) ** 2
    return sqrt(squared - (cord_in - by_in) ** 2) / round_in
