"""Small sets of equations: elimination, and Newton's method on top of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

from calc.numerics.roots import NoRootError

if TYPE_CHECKING:
    from collections.abc import Callable

Residual: TypeAlias = tuple[list[float], list[list[float]]]
_ROUNDS = 40
_LONGEST = 0.5
_CLOSED = 1e-12


def solve_linear(rows: list[list[float]], right: list[float]) -> list[float]:
    """Return the solution of linear equations, by elimination with the largest pivot of each column.

    Parameters
    ----------
    rows : list of list of float
        Coefficients, a row for each equation; overwritten.
    right : list of float
        Right-hand sides; overwritten.

    Examples
    --------
    >>> solve_linear([[0.0, 2.0], [4.0, 0.0]], [2.0, 4.0])
    [1.0, 1.0]
    """
    count = len(right)
    for i in range(count):
        best = max(range(i, count), key=lambda k: abs(rows[k][i]))
        rows[i], rows[best], right[i], right[best] = rows[best], rows[i], right[best], right[i]
        head = rows[i]
        for k in range(i + 1, count):
            row = rows[k]
            factor = row[i] / head[i]
            if factor:
                for j in range(i + 1, count):
                    row[j] -= factor * head[j]
                right[k] -= factor * right[i]
    for i in reversed(range(count)):
        row = rows[i]
        right[i] = (right[i] - sum(row[j] * right[j] for j in range(i + 1, count))) / row[i]
    return right


def find_roots(equations: Callable[[list[float]], Residual], start: list[float]) -> list[float]:
    """Return where the residuals of a set of equations vanish.

    Parameters
    ----------
    equations : callable
        Takes the unknowns, gives residuals and their slopes, row by row.
    start : list of float
        Where to start; no step moves an unknown by more than 0.5.

    Raises
    ------
    NoRootError
        When it does not close.

    Examples
    --------
    >>> find_roots(lambda x: ([x[0] ** 2 - 4.0], [[2.0 * x[0]]]), [3.0])
    [2.0]
    """
    at = list(start)
    for _ in range(_ROUNDS):
        wrong, slopes = equations(at)
        try:
            step = solve_linear(slopes, wrong)
        except ZeroDivisionError:
            break
        largest = max(map(abs, step))
        share = min(1.0, _LONGEST / largest) if largest else 1.0
        at = [value - share * each for value, each in zip(at, step, strict=True)]
        if largest < _CLOSED:
            return at
    msg = f"find_roots: still moving by {largest}" if at != start else "find_roots: no slope"
    raise NoRootError(msg)
