"""A string made as a sheet says by a hand that is not quite even, and what it does on a nail and on its bow."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from tests.experiment.cords import (
    Fibres,
    Piece,
    by_lay,
    by_turns,
    crept,
    fibre_path,
    over_all,
    splice_stretch,
    stretch,
    throat,
)
from tests.experiment.limbs import Limbs, between, drawn

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from tests.experiment.truths import Truths

    Array = NDArray[np.float64]


@dataclass(frozen=True, kw_only=True)
class Told:
    """What the sheet tells the maker, one entry a bow: lengths to mark off flat, turns, strands."""

    loop_upper_m: Array
    loop_lower_m: Array
    body_raw_m: Array
    turns: Array
    counter: Array
    strands: Array
    tail_m: Array


@dataclass(frozen=True, kw_only=True)
class Made:
    """Strings as they came out of the hand; `hung`: under which weight they hung last, and how long [N], [s]."""

    true: Truths
    told: Told
    strands: Array
    bundle_m: Array
    fibres: Fibres
    upper_m: Array
    lower_m: Array
    thick_m: Array
    splice: Piece
    body: Piece
    body_raw_m: Array
    counter: Array
    hung: tuple[Array, float] | None = None

    @property
    def each_kg_m(self) -> Array:
        """Weight of one bundle by its length."""
        return self.true.yarn_kg_m * self.strands / self.true.bundles

    def reach_of(self, end: str) -> Array:
        """Return how far the throat of one loop stands from its nock [m]."""
        true = self.true
        loop, tip = (self.upper_m, true.upper_m) if end == "upper" else (self.lower_m, true.lower_m)
        return throat(loop, tip, self.thick_m) - (1.0 - true.seat) * tip / 2.0

    def over_pegs(self, peg_m: float) -> Array:
        """Return how far the far sides of two pegs stand from the throats of the loops on them, both together [m]."""
        peg = np.full_like(self.upper_m, peg_m)
        return sum(throat(each, peg, self.thick_m) for each in (self.upper_m, self.lower_m)) + peg

    def long(self, load_n: Array, reach_m: Array, bedded: Array, time_s: Array) -> Array:
        """Return a string under a pull, from end to end [m]: its lay bedded in, its fibres stretched and crept."""
        true = self.true
        along_n = np.maximum(load_n, 0.0)
        body = stretch(self.fibres, self.body, along_n, self.each_kg_m, true.bundles)
        ends = splice_stretch(self.fibres, self.splice, along_n, self.each_kg_m, true.bundles, held=true.held)
        share = along_n / (self.strands * true.yarn_kg_m * true.strength)
        creep = crept(true.decade, true.power, share, time_s, true.creep_start_s)
        body_m = self.body.cord_m * (1.0 + bedded) * (1.0 + body + creep)
        return body_m + 2.0 * self.splice.cord_m * (1.0 + bedded) * (1.0 + ends + creep) + reach_m

    def on_bow_m(self, load_n: Array) -> Array:
        """Return a string on its bow, nock to nock, once it has settled there [m]."""
        true = self.true
        reach_m = self.reach_of("upper") + self.reach_of("lower")
        return self.long(load_n, reach_m, true.bedding, self._counted_s(load_n))

    def _counted_s(self, load_n: Array) -> Array:
        """Return for how long under the bow's own pull a string creeps as far as it has after an hour there [s].

        What crept under the weight goes on from where it was (strain hardening). Without a nail: two hours.
        """
        true = self.true
        if self.hung is None:
            return 2.0 * true.settle_s
        weight_n, time_s = self.hung
        strong_n = self.strands * true.yarn_kg_m * true.strength
        stood, rate = (
            crept(true.decade, true.power, np.maximum(each, 0.0) / strong_n, long_s, true.creep_start_s)
            for each, long_s in ((weight_n, np.full_like(weight_n, time_s)), (load_n, 9.0 * true.creep_start_s))
        )
        decades = np.minimum(stood / np.maximum(rate, 1e-12), 12.0)
        return true.creep_start_s * (10.0**decades - 1.0) + true.settle_s

    def turned(self, more: Array) -> Made:
        """Return the string with turns put in at its ends; a share of them goes into the splices."""
        body, splice = self.body, self.splice
        soft = 2.0 * splice.cord_m / self.true.stiffer
        into_splices = more * soft / (soft + body.cord_m)
        raw_splice = splice.cord_m / np.cos(splice.lay_rad) * fibre_path(splice.surface)
        each = by_turns(
            raw_splice, self.bundle_m * np.sqrt(2.0), self.true.bundles, splice.turns + into_splices / 2.0,
            _counter(splice, self.bundle_m * np.sqrt(2.0)),
        )  # fmt: skip
        now = by_turns(
            self.body_raw_m, self.bundle_m, self.true.bundles, body.turns + more - into_splices, self.counter
        )
        return replace(self, body=now, splice=each)


def _counter(piece: Piece, bundle_m: Array) -> Array:
    axis_m = piece.cord_m / np.cos(piece.lay_rad)
    return piece.surface * axis_m / (np.pi * bundle_m) + piece.turns * np.cos(piece.lay_rad)


def make(true: Truths, told: Told, off: Array) -> Made:
    """Make strings as the sheet tells; `off` is how far each of six marks and counts strays, a row each."""
    rolled = np.sqrt(told.strands / true.bundles)
    bundle_m = true.bundle_each * rolled
    loops = [
        by_lay(each + off[k], bundle_m, true.bundles, true.loop_lay, true.twist_in_ends)
        for k, each in enumerate((told.loop_upper_m, told.loop_lower_m))
    ]
    splice = by_lay(told.tail_m, bundle_m * np.sqrt(2.0), true.bundles, true.splice_lay, true.twist_in_ends)
    raw_m = told.body_raw_m + off[2] - 2.0 * told.tail_m
    counter = told.counter * (1.0 + true.counter_off)
    body = by_turns(raw_m, bundle_m, true.bundles, told.turns + off[3], counter)
    return Made(
        true=true,
        told=told,
        strands=told.strands,
        bundle_m=bundle_m,
        fibres=Fibres(true.stiffness, true.strength, true.break_strain, true.knee),
        upper_m=loops[0].cord_m,
        lower_m=loops[1].cord_m,
        thick_m=over_all(bundle_m, true.bundles, true.loop_lay),
        splice=splice,
        body=body,
        body_raw_m=raw_m,
        counter=counter,
    )


@dataclass(frozen=True)
class Bows:
    """The bows of the truths, and how stiff they are."""

    limbs: Limbs
    stiff_n: Array

    @classmethod
    def of(cls, true: Truths) -> Bows:
        """Return bows that pull as hard as is true at full draw."""
        limbs = Limbs(
            limb_m=(true.nock_to_nock_m - true.handle_length_m) / 2.0,
            half_handle_m=true.handle_length_m / 2.0,
            taper=true.taper,
            set_m=true.set_m,
            proud_m=true.proud_m,
        )
        full = drawn(limbs, true.brace_m, true.draw_m)
        return cls(limbs, true.weight_n / full.force)

    def braced(self, made: Made) -> tuple[Array, Array]:
        """Return the brace height that settled strings give, 0 for one too long, and the pull in them [m], [N]."""
        rows = self.limbs.braced
        load_n = rows.load * self.stiff_n
        over_m = np.array([rows.string_m[k] - made.on_bow_m(load_n[k]) for k in range(len(load_n))])
        found = between(over_m, rows.height_m, np.zeros_like(self.stiff_n))
        found = np.where(over_m[0] < 0.0, 0.0, found)
        return found, rows.at(found, load_n)
