"""A braced string that was plucked: its pull by its note, the bow's draw weight by that, and what changed since."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import log2, pi, sqrt
from typing import TYPE_CHECKING

from calc.data import fibre as fibre_of
from calc.data import practice
from calc.errors import require
from calc.geometry.lay import lay, middle_lay
from calc.making.string import serve
from calc.mechanics.estimate import pulls
from calc.mechanics.fibre import elastic_stretch, mean_line, note_tension, string_note
from calc.numerics import Spread, beside

if TYPE_CHECKING:
    from collections.abc import Mapping

    from calc.data import Fibre
    from calc.mechanics.estimate import BowEstimate, BowState, Seen

_NAMES = ("C", "C sharp", "D", "D sharp", "E", "F", "F sharp", "G", "G sharp", "A", "A sharp", "B")
_A4_HZ, _A4 = 440.0, 57
"""The note that instruments are tuned to (ISO 16), and its place counted in semitones from C0."""
_RISE = 0.01
"""A pluck may raise the pull by this share of it. [-]"""


@dataclass(frozen=True, slots=True)
class HeardBefore:
    """An earlier note of the same string on the same bow.

    Parameters
    ----------
    note_hz, brace_m : float, > 0
        The note; the brace height then. [Hz], [m]
    """

    note_hz: float
    brace_m: float

    def __post_init__(self) -> None:
        require("then_hz", self.note_hz, low=0.0, open_=True)
        require("then_m", self.brace_m, low=0.0, open_=True)


@dataclass(frozen=True, kw_only=True)
class Sounding:
    """A string that was plucked on its bow.

    Parameters
    ----------
    bow : BowEstimate
        With its draw weight and full draw.
    brace_m, note_hz : float, > 0
        As it was braced, and what was heard. [m], [Hz]
    string_m : float or None, > 0
        Nock to nock along the braced string; None: as the bow's measures have it. [m]
    fibre : Fibre
        Of its strands.
    flat_kg_m : Spread
        All its strands side by side, with their wax, not twisted and not stretched. [kg/m]
    bundles : int
        2 or 3.
    cord_m, thread_m, served_m : float, > 0
        Thickness of the cord and of the serving thread; length of the serving. [m]
    before : HeardBefore or None

    Raises
    ------
    DomainError
        ``min`` or ``number``; as `serve`.
    """

    bow: BowEstimate
    brace_m: float
    note_hz: float
    string_m: float | None
    fibre: Fibre
    flat_kg_m: Spread
    bundles: int
    cord_m: float
    thread_m: float
    served_m: float
    before: HeardBefore | None = None

    def __post_init__(self) -> None:
        for name in ("brace_m", "note_hz"):
            require(name, getattr(self, name), low=0.0, open_=True)
        if self.string_m is not None:
            require("string_m", self.string_m, low=self.served_m, open_=True)
        assert self.serving_kg_m > 0.0

    @property
    def serving_kg_m(self) -> float:
        """What the serving weighs for each metre of string that it covers [kg/m]."""
        return serving_line(self.cord_m, self.thread_m, self.served_m)

    @cached_property
    def causes(self) -> dict[str, Spread]:
        """What is uncertain beside the bow, by cause."""
        loosest, tightest = (practice(name).spread.value for name in ("lay_loosest", "lay_tightest"))
        return {
            "flat": self.flat_kg_m,
            "lay": Spread(loosest, middle_lay(loosest, tightest), tightest),
            "thread": practice("thickness_reading").spread,
            "read": practice("note_reading").spread,
            "give": practice("note_give").spread,
            "string": Spread.exactly(0.0) if self.string_m is None else practice("tape_reading").spread,
        }

    @property
    def strain(self) -> Spread:
        """Stretch of the braced string [-]."""
        drawn = self.bow.drawn(brace_m=self.brace_m).centre
        return elastic_stretch(self.fibre, self.flat_kg_m.value, drawn.brace_n, self.causes["lay"].value)

    def found(self) -> dict[str, Spread]:
        """Return what the note tells.

        Returns
        -------
        dict of str to Spread
            ``tension``, the string's pull by its note, and ``model``, what limbs of the draw weight told give it [N];
            ``weight``, the draw weight that goes with the note [N]; ``wanted``, the note of limbs of the draw weight
            told [Hz]; ``line``, what the string weighs for each metre between the nocks, as if even [kg/m]; ``length``
            [m].

        Raises
        ------
        DomainError
            As `static_tension`.

        Notes
        -----
        Source: `note_tension`, and the same limbs on their string (`pulls`; ``derived:note``, ``derived:statics``).
        The nocks give way a little: ``note_give`` in the constants. Leaves out a pluck so wide that it stretches the
        string.
        """
        seen: Seen = {}
        strain = self.strain.value

        def of(at: Mapping[str, float]) -> dict[str, float]:
            state = self.bow.state(at)
            length_m = state.string_m(self.brace_m) if self.string_m is None else self.string_m + at["string"]
            line = self._line(at, length_m, strain)
            tension = note_tension(self.note_hz * (1.0 + at["read"]) / (1.0 + at["give"]), length_m, line)
            brace_n = self._brace_n(state, self.brace_m, seen)
            return {
                "tension": tension,
                "model": brace_n,
                "weight": state.weight_n * tension / brace_n,
                "wanted": string_note(brace_n, length_m, line) * (1.0 + at["give"]),
                "line": line,
                "length": length_m,
            }

        return beside(self.bow.moves, self.causes).spreads(of)

    def since(self) -> dict[str, Spread]:
        """Return what has changed since the earlier note; nothing without one.

        Returns
        -------
        dict of str to Spread
            ``grown``, how much longer the string is [m]; ``limbs``, by how much the limbs are stronger [-].

        Raises
        ------
        DomainError
            As `static_tension`.

        Notes
        -----
        Source: the pull of a string of the same weight goes with its length and the square of its note; the limbs' own
        share of that is what their brace heights leave (`pulls`; ``derived:note``, ``derived:statics``). What raises
        one note raises the other: only the readings are uncertain.
        """
        before = self.before
        if before is None:
            return {}
        seen: Seen = {}
        tape, read = practice("tape_reading").spread, practice("note_reading").spread
        causes = {"now": tape, "then": tape, "read": read, "read_then": read}

        def of(at: Mapping[str, float]) -> dict[str, float]:
            state = self.bow.state(at)
            now_m, then_m = self.brace_m + at["now"], before.brace_m + at["then"]
            length_m, then_long_m = state.string_m(now_m), state.string_m(then_m)
            notes = self.note_hz * (1.0 + at["read"]) / (before.note_hz * (1.0 + at["read_then"]))
            pull = notes**2 * length_m / then_long_m
            limbs = pull * self._brace_n(state, then_m, seen) / self._brace_n(state, now_m, seen) - 1.0
            return {"grown": length_m - then_long_m, "limbs": limbs}

        return beside(self.bow.moves, causes).spreads(of)

    def _line(self, at: Mapping[str, float], length_m: float, strain: float) -> float:
        taken = lay(1.0, self.bundles, at["lay"]).take_up
        serving = self.serving_kg_m * (1.0 + at["thread"])
        return mean_line(at["flat"] / (1.0 - taken) / (1.0 + strain), length_m, serving, self.served_m)

    def _brace_n(self, state: BowState, brace_m: float, seen: Seen) -> float:
        """Return the braced string's pull at a brace height, of limbs of the draw weight told [N]."""
        assert self.bow.draw_m is not None
        told = (self.bow.reference_m, self.bow.draw_m)
        made = pulls(state, brace_m, self.bow.draw_m, () if brace_m == told[0] else (told,), seen)
        seen.update(made.seen)
        return state.weight_n * made.brace / (made.forces[0] if made.forces else 1.0)

    @property
    def pluck_m(self) -> float:
        """How far the middle may be pulled aside: further, and the pluck itself raises the pull by a hundredth [m].

        Notes
        -----
        Source: half a wave is longer than the straight string by the square of (its height x pi / length) / 4;
        over a swing half of that on average (``derived:note``).
        """
        length_m = self.string_m or self.bow.middle.string_m(self.brace_m)
        return 2.0 * length_m / pi * sqrt(2.0 * _RISE * self.strain.low)


def serving_line(cord_m: float, thread_m: float, served_m: float) -> float:
    """Return what a serving weighs for each metre of string that it covers [kg/m].

    Parameters
    ----------
    cord_m, thread_m, served_m : float, > 0
        As for `serve`. [m]

    Raises
    ------
    DomainError
        As `serve`.

    Notes
    -----
    Source: the thread in the coil (`serve`), of nylon as it packs in yarn (``derived:packing``).
    """
    nylon = fibre_of("nylon")
    solid = pi / 4.0 * thread_m**2 * nylon.density_kg_m3.value * nylon.packing.value
    return solid * serve(cord_m, thread_m, served_m).thread_m / served_m


def note_name(note_hz: float) -> str:
    """Return the nearest note by name, as a tuner shows it.

    Parameters
    ----------
    note_hz : float, > 0
        [Hz]

    Raises
    ------
    DomainError
        ``min`` or ``number``.

    Notes
    -----
    Source: twelve even steps to the octave from A4 = 440 Hz (``derived:note``).

    Examples
    --------
    >>> note_name(440.0), note_name(110.0), note_name(97.9), note_name(104.0)
    ('A4', 'A2', 'G2', 'G sharp 2')
    """
    require("note_hz", note_hz, low=0.0, open_=True)
    place = round(12.0 * log2(note_hz / _A4_HZ)) + _A4
    name, octave = _NAMES[place % 12], place // 12
    return f"{name}{' ' if ' ' in name or octave < 0 else ''}{octave}"
