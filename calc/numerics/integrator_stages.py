"""The twelve stages of a step of the eighth order, written out: most of the time of a shot is spent here."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from collections.abc import Callable

State: TypeAlias = list[float]

_ROWS: tuple[tuple[float, ...], ...] = (
    (0.05260015195876773,),
    (
        0.0197250569845379,
        0.0591751709536137,
    ),
    (
        0.02958758547680685,
        0.08876275643042054,
    ),
    (
        0.2413651341592667,
        -0.8845494793282861,
        0.924834003261792,
    ),
    (
        0.037037037037037035,
        0.17082860872947386,
        0.12546768756682242,
    ),
    (
        0.037109375,
        0.17025221101954405,
        0.06021653898045596,
        -0.017578125,
    ),
    (
        0.03709200011850479,
        0.17038392571223998,
        0.10726203044637328,
        -0.015319437748624402,
        0.008273789163814023,
    ),
    (
        0.6241109587160757,
        -3.3608926294469414,
        -0.868219346841726,
        27.59209969944671,
        20.154067550477894,
        -43.48988418106996,
    ),
    (
        0.47766253643826434,
        -2.4881146199716677,
        -0.590290826836843,
        21.230051448181193,
        15.279233632882423,
        -33.28821096898486,
        -0.020331201708508627,
    ),
    (
        -0.9371424300859873,
        5.186372428844064,
        1.0914373489967295,
        -8.149787010746927,
        -18.52006565999696,
        22.739487099350505,
        2.4936055526796523,
        -3.0467644718982196,
    ),
    (
        2.273310147516538,
        -10.53449546673725,
        -2.0008720582248625,
        -17.9589318631188,
        27.94888452941996,
        -2.8589982771350235,
        -8.87285693353063,
        12.360567175794303,
        0.6433927460157636,
    ),
)
LAST = (
    0.054293734116568765,
    4.450312892752409,
    1.8915178993145003,
    -5.801203960010585,
    0.3111643669578199,
    -0.1521609496625161,
    0.20136540080403034,
    0.04471061572777259,
)
FIVE = (
    0.01312004499419488,
    -1.2251564463762044,
    -0.4957589496572502,
    1.6643771824549864,
    -0.35032884874997366,
    0.3341791187130175,
    0.08192320648511571,
    -0.022355307863886294,
)
THREE = (
    -0.18980075407240762,
    4.450312892752409,
    1.8915178993145003,
    -5.801203960010585,
    -0.4226823213237919,
    -0.1521609496625161,
    0.20136540080403034,
    0.02265179219836082,
)
"""Weights of stages 1 and 6 to 12: of the end of the step, and of its misfit to rules of fifth and third order."""


def stage_rates(
    rates: Callable[[State], State], start: State, k1: State, step_s: float
) -> tuple[State, State, State, State, State, State, State, State]:
    """Return the rates at the start and at stages 6 to 12 of a step.

    Parameters
    ----------
    rates : callable
        Gives the rates of a state.
    start, k1 : list of float
        Where the step begins, and the rates there.
    step_s : float
        How long it is. [s]

    Notes
    -----
    Source: the pair of eighth order of J. R. Dormand and P. J. Prince with the errors of fifth and third order of
    E. Hairer (``hairer1993``), held against the figures of a general library in the tests.
    """
    c1 = step_s * _ROWS[0][0]
    k2 = rates([y + c1 * a for y, a in zip(start, k1, strict=True)])
    c1, c2 = (step_s * each for each in _ROWS[1])
    k3 = rates([y + c1 * a + c2 * b for y, a, b in zip(start, k1, k2, strict=True)])
    c1, c3 = (step_s * each for each in _ROWS[2])
    k4 = rates([y + c1 * a + c3 * b for y, a, b in zip(start, k1, k3, strict=True)])
    c1, c3, c4 = (step_s * each for each in _ROWS[3])
    k5 = rates([y + c1 * a + c3 * b + c4 * c for y, a, b, c in zip(start, k1, k3, k4, strict=True)])
    c1, c4, c5 = (step_s * each for each in _ROWS[4])
    k6 = rates([y + c1 * a + c4 * b + c5 * c for y, a, b, c in zip(start, k1, k4, k5, strict=True)])
    c1, c4, c5, c6 = (step_s * each for each in _ROWS[5])
    k7 = rates([y + c1 * a + c4 * b + c5 * c + c6 * d for y, a, b, c, d in zip(start, k1, k4, k5, k6, strict=True)])
    c1, c4, c5, c6, c7 = (step_s * each for each in _ROWS[6])
    k8 = rates(
        [
            y + c1 * a + c4 * b + c5 * c + c6 * d + c7 * e
            for y, a, b, c, d, e in zip(start, k1, k4, k5, k6, k7, strict=True)
        ]
    )
    c1, c4, c5, c6, c7, c8 = (step_s * each for each in _ROWS[7])
    k9 = rates(
        [
            y + c1 * a + c4 * b + c5 * c + c6 * d + c7 * e + c8 * f
            for y, a, b, c, d, e, f in zip(start, k1, k4, k5, k6, k7, k8, strict=True)
        ]
    )
    c1, c4, c5, c6, c7, c8, c9 = (step_s * each for each in _ROWS[8])
    k10 = rates(
        [
            y + c1 * a + c4 * b + c5 * c + c6 * d + c7 * e + c8 * f + c9 * g
            for y, a, b, c, d, e, f, g in zip(start, k1, k4, k5, k6, k7, k8, k9, strict=True)
        ]
    )
    c1, c4, c5, c6, c7, c8, c9, c10 = (step_s * each for each in _ROWS[9])
    k11 = rates(
        [
            y + c1 * a + c4 * b + c5 * c + c6 * d + c7 * e + c8 * f + c9 * g + c10 * h
            for y, a, b, c, d, e, f, g, h in zip(start, k1, k4, k5, k6, k7, k8, k9, k10, strict=True)
        ]
    )
    c1, c4, c5, c6, c7, c8, c9, c10, c11 = (step_s * each for each in _ROWS[10])
    k12 = rates(
        [
            y + c1 * a + c4 * b + c5 * c + c6 * d + c7 * e + c8 * f + c9 * g + c10 * h + c11 * i
            for y, a, b, c, d, e, f, g, h, i in zip(start, k1, k4, k5, k6, k7, k8, k9, k10, k11, strict=True)
        ]
    )
    return k1, k6, k7, k8, k9, k10, k11, k12
