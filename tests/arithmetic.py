"""Works out an expression of plain arithmetic, name by name, and nothing else that Python can do."""

from __future__ import annotations

import ast
import operator
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

_SIGNS: dict[type[ast.AST], Any] = {
    ast.Add: operator.add,
    ast.Sub: operator.sub,
    ast.Mult: operator.mul,
    ast.Div: operator.truediv,
    ast.Pow: operator.pow,
}


def work_out(expression: str, known: Mapping[str, Any]) -> float:
    """Return the value of an expression in which names stand for numbers, or for functions that are called.

    Raises
    ------
    KeyError
        For a name that is not known.
    ValueError
        For what is not arithmetic.
    """
    return float(_value(ast.parse(expression, mode="eval").body, known))


def _value(node: ast.expr, known: Mapping[str, Any]) -> Any:  # noqa: ANN401 - functions take what is no number as well
    match node:
        case ast.Constant(value=int() | float() as number):
            return number
        case ast.Name(id=name):
            return known[name]
        case ast.UnaryOp(op=ast.USub(), operand=of):
            return -_value(of, known)
        case ast.BinOp(left=left, op=sign, right=right) if type(sign) in _SIGNS:
            return _SIGNS[type(sign)](_value(left, known), _value(right, known))
        case ast.Call(func=ast.Name(id=name), args=given, keywords=[]):
            return known[name](*(_value(each, known) for each in given))
    message = f"{ast.unparse(node)} is not arithmetic"
    raise ValueError(message)
