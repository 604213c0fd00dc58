"""Change `calc` one spot at a time and see whether a test notices: ``python3 -m site_build.checks.mutating PATH ...``.

A path is a folder or a file of `calc`; one core does it all. Tests are collected once. A process is forked for each
change, takes the changed function's code, and runs the tests that call the function, the quickest first, for so many
seconds; the first that fails ends it. Which tests call what is found out by one run of each test and kept in a file, as
results are: a run that was stopped goes on where it was. Say ``--see`` for what came of it.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import copy
import functools
import importlib
import io
import json
import os
import resource
import select
import signal
import sys
import time
from collections import Counter, defaultdict
from math import ceil
from pathlib import Path
from types import CodeType, FrameType, FunctionType
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    import pytest

ROOT = Path(__file__).parents[2]
KEPT = ROOT / ".cache" / "mutating"
TESTS = ("tests/calc", "tests/published")
LEFT_OUT = ("tests/calc/worksheets/test_many.py", "tests/calc/draw", "tests/calc/test_docstrings.py")
SECONDS = 6.0
"""So long the tests of one change may have taken without it."""
_BINARY: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Div,
    ast.Pow: ast.Mult, ast.Mod: ast.FloorDiv,
}  # fmt: skip
_EDGE: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt,
}  # fmt: skip
_OTHER: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.GtE, ast.LtE: ast.Gt, ast.Gt: ast.LtE, ast.GtE: ast.Lt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.Is: ast.IsNot, ast.IsNot: ast.Is, ast.In: ast.NotIn, ast.NotIn: ast.In,
}  # fmt: skip


class Mutation:
    """One change: where it is, what it does, and the function that has it."""

    def __init__(self, file: str, function: str, at: tuple[int, str], words: str, tree: ast.Module) -> None:
        self.file, self.function, self.words, self.tree = file, function, words, tree
        self.line, self.columns = at

    @property
    def key(self) -> str:
        """What tells it from every other change."""
        return f"{self.file}:{self.line}:{self.columns} {self.function}: {self.words}"


def _swaps(  # noqa: C901, PLR0912 - a list of what can be changed, one line or two each
    node: ast.AST,
) -> Iterator[tuple[str, Callable[[Any], None]]]:
    """Yield in words what can be changed about a node, and what changes a copy of it."""
    match node:
        case ast.BinOp(op=op) | ast.AugAssign(op=op) if type(op) in _BINARY:
            to = _BINARY[type(op)]
            yield f"{type(op).__name__} to {to.__name__}", lambda it: setattr(it, "op", to())
        case ast.Compare(ops=ops):
            for at, was in enumerate(ops):
                for other in filter(None, (each.get(type(was)) for each in (_EDGE, _OTHER))):
                    words = f"{type(was).__name__} to {other.__name__}" + f", comparison {at + 1}" * (len(ops) > 1)
                    yield words, functools.partial(_compared, at=at, other=other)
        case ast.BoolOp(op=ast.And()):
            yield "And to Or", lambda it: setattr(it, "op", ast.Or())
        case ast.BoolOp():
            yield "Or to And", lambda it: setattr(it, "op", ast.And())
        case ast.UnaryOp(op=ast.USub()):
            yield "minus left out", lambda it: setattr(it, "op", ast.UAdd())
        case ast.UnaryOp(op=ast.Not()):
            yield "not left out", lambda it: setattr(it, "operand", ast.UnaryOp(ast.Not(), it.operand))
        case ast.IfExp():
            yield "the other branch", lambda it: setattr(it, "test", ast.UnaryOp(ast.Not(), it.test))
        case ast.Constant(value=bool() as value):
            yield f"{value} to {not value}", lambda it: setattr(it, "value", not value)
        case ast.Constant(value=int() | float() as number):
            yield f"{number} to {number + 1}", lambda it: setattr(it, "value", number + 1)
        case ast.Constant(value=str() as text) if text:
            yield f"{text!r} to another text", lambda it: setattr(it, "value", f"{text}_")
        case ast.Return(value=ast.AST()):
            yield "nothing returned", lambda it: setattr(it, "value", ast.Constant(None))


def _compared(it: ast.Compare, at: int, other: type[ast.cmpop]) -> None:
    it.ops[at] = other()


_QUIET = ("strict", "key", "open_")
"""Arguments that ask for care where none is needed, or only name."""


def _inside(function: ast.AST) -> Iterator[ast.AST]:
    """Yield the nodes of a function that are worked out when it is called, but not those of functions within it."""
    body = function.body  # type: ignore[attr-defined]
    if isinstance(body, list) and body and isinstance(body[0], ast.Expr) and isinstance(body[0].value, ast.Constant):
        body = body[1:]
    todo: list[ast.AST] = list(body)
    while todo:
        node = todo.pop(0)
        if isinstance(node, ast.FunctionDef):
            continue
        yield node
        for name, value in ast.iter_fields(node):
            if name in {"annotation", "returns"}:
                continue
            each = value if isinstance(value, list) else [value]
            todo += [
                one for one in each
                if isinstance(one, ast.AST) and not (isinstance(one, ast.keyword) and one.arg in _QUIET)
                and not (isinstance(node, ast.Call) and name == "func" and isinstance(one, ast.Name))
            ]  # fmt: skip


def _functions(tree: ast.AST, names: tuple[str, ...] = ()) -> Iterator[tuple[str, ast.FunctionDef]]:
    """Yield each function with its name as code objects have it."""
    for node in ast.iter_child_nodes(tree):
        if isinstance(node, ast.FunctionDef):
            yield ".".join((*names, node.name)), node
            yield from _functions(node, (*names, node.name, "<locals>"))
        elif isinstance(node, ast.ClassDef):
            yield from _functions(node, (*names, node.name))
        elif not isinstance(node, (ast.Expr, ast.expr)):
            yield from _functions(node, names)


def changes(path: Path) -> Iterator[Mutation]:
    """Yield every change to a file."""
    tree = ast.parse(path.read_text(encoding="utf-8"))
    file = path.relative_to(ROOT).as_posix()
    for name, function in _functions(tree):
        for node in _inside(function):
            for words, swap in _swaps(node):
                before = copy.copy(node.__dict__)
                if isinstance(node, ast.Compare):
                    node.ops = list(node.ops)
                swap(node)
                changed = copy.deepcopy(tree)
                node.__dict__.clear()
                node.__dict__.update(before)
                at = (
                    getattr(node, "lineno", function.lineno),
                    f"{getattr(node, 'col_offset', 0)}-{getattr(node, 'end_col_offset', 0)}",
                )
                yield Mutation(file, name, at, words, ast.fix_missing_locations(changed))


def _codes(code: CodeType) -> Iterator[CodeType]:
    yield code
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield from _codes(each)


def _plain(value: object) -> FunctionType | None:
    """Return the function behind a decorated one, a property or a method."""
    if isinstance(value, property):
        value = value.fget
    if isinstance(value, (staticmethod, classmethod)):
        value = value.__func__
    if isinstance(value, functools.cached_property):
        value = value.func
    while hasattr(value, "__wrapped__"):
        value = value.__wrapped__
    return value if isinstance(value, FunctionType) else None


def put(change: Mutation) -> bool:
    """Put a changed function's code in its place; tell whether there is one."""
    module = importlib.import_module(change.file.removesuffix(".py").replace("/", ".").removesuffix(".__init__"))
    outer = change.function.split(".<locals>")[0]
    place: Any = module
    *classes, last = outer.split(".")
    for each in classes:
        place = getattr(place, each, None)
    function = _plain(vars(place).get(last)) if place is not None else None
    if function is None:
        return False
    whole = compile(change.tree, str(ROOT / change.file), "exec", dont_inherit=True)
    new = next((each for each in _codes(whole) if each.co_qualname == outer), None)
    if new is None or new.co_freevars != function.__code__.co_freevars:
        return False
    function.__code__ = new
    return True


class Forking:
    """A plugin that runs no test itself: each is run in a process of its own, with or without a change."""

    def __init__(self, paths: list[Path], seconds: float) -> None:
        self.paths, self.seconds = paths, seconds

    def pytest_collection(self) -> None:
        """Once `tests/conftest.py` is read: an input that fails is enough, a simpler one is not looked for."""
        from hypothesis import Phase, settings  # noqa: PLC0415 - not needed to see

        ways = (Phase.explicit, Phase.generate)
        settings.register_profile("one-failure", derandomize=True, database=None, phases=ways)
        settings.load_profile("one-failure")

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Find out which tests call what, then make the changes."""
        items = {item.nodeid: item for item in session.items}
        called = self.called(items)
        by_function: dict[str, list[tuple[float, str]]] = defaultdict(list)
        for name, (took, functions) in called.items():
            if name in items:
                for each in functions:
                    by_function[each].append((took, name))
        KEPT.mkdir(parents=True, exist_ok=True)
        done = {each["key"] for each in results()}
        with (KEPT / "results.jsonl").open("a", encoding="utf-8") as out:
            for path in self.paths:
                for change in changes(path):
                    if change.key in done:
                        continue
                    outer = change.function.split(".<locals>")[0]
                    tests = sorted(by_function[f"{change.file}:{outer}"])
                    what = self.tried(change, tests, items)
                    out.write(
                        json.dumps({"key": change.key, "file": change.file, "result": what, "tests": len(tests)}) + "\n"
                    )
                    out.flush()
        return True

    def called(self, items: dict[str, pytest.Item]) -> dict[str, tuple[float, list[str]]]:
        """Return how long each test takes and which functions of `calc` it calls, as kept or found out."""
        kept = KEPT / "calls.json"
        known: dict[str, tuple[float, list[str]]] = json.loads(kept.read_text()) if kept.exists() else {}
        for at, (name, item) in enumerate(items.items()):
            if name not in known:
                heard = _forked(lambda item=item: _watched(item), 300.0)  # type: ignore[misc]
                known[name] = tuple(json.loads(heard)) if heard else (1e9, [])
                if at % 200 == 0:
                    KEPT.mkdir(parents=True, exist_ok=True)
                    kept.write_text(json.dumps(known))
        KEPT.mkdir(parents=True, exist_ok=True)
        kept.write_text(json.dumps(known))
        return known

    def tried(self, change: Mutation, tests: list[tuple[float, str]], items: dict[str, pytest.Item]) -> str:
        """Return what became of a change: failed, timeout, survived, none (no test calls it) or still (not put)."""
        if not tests:
            return "none"
        chosen: list[pytest.Item] = []
        spent = 0.0
        for took, name in tests:
            if chosen and spent + took > self.seconds:
                break
            chosen.append(items[name])
            spent += took

        def run() -> str:
            if not put(change):
                return "still"
            for item in chosen:
                if not _passes(item):
                    return f"failed {item.nodeid}"
            return "survived"

        return _forked(run, 2.0 + 5.0 * spent) or "timeout"


def _passes(item: pytest.Item) -> bool:
    from _pytest.runner import runtestprotocol  # noqa: PLC0415 - only where pytest runs

    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        reports = runtestprotocol(item, log=False, nextitem=None)
    return not any(each.failed for each in reports)


def _watched(item: pytest.Item) -> str:
    """Run a test and tell how long it took and which functions of `calc` it called."""
    seen: set[CodeType] = set()

    def watch(frame: FrameType, event: str, _: object) -> None:
        if event == "call":
            seen.add(frame.f_code)

    start = time.process_time()
    sys.setprofile(watch)
    try:
        _passes(item)
    finally:
        sys.setprofile(None)
    took = time.process_time() - start
    calc = f"{ROOT}/calc/"
    called = {
        f"{each.co_filename[len(str(ROOT)) + 1 :]}:{each.co_qualname.split('.<locals>')[0]}"
        for each in seen if each.co_filename.startswith(calc)
    }  # fmt: skip
    return json.dumps([took, sorted(called)])


def _forked(work: Callable[[], str], seconds: float) -> str:
    """Return what a forked process says; nothing if it does not within so much time of the processor."""
    read, write = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            os.close(read)
            resource.setrlimit(resource.RLIMIT_CPU, (limit := ceil(seconds), limit))
            text = work()
            with os.fdopen(write, "w") as out:
                out.write(text)
        finally:
            os._exit(0)
    os.close(write)
    found, end = b"", time.monotonic() + 30.0 * seconds
    with os.fdopen(read, "rb", buffering=0) as pipe:
        while (left := end - time.monotonic()) > 0 and select.select([pipe], [], [], left)[0]:
            part = pipe.read(65536)
            if not part:
                break
            found += part
        else:
            os.kill(child, signal.SIGKILL)
            found = b""
    os.waitpid(child, 0)
    return found.decode()


def results() -> list[dict[str, Any]]:
    """Return what came of every change so far."""
    kept = KEPT / "results.jsonl"
    return [json.loads(line) for line in kept.read_text(encoding="utf-8").splitlines()] if kept.exists() else []


def report(found: list[dict[str, Any]]) -> str:
    """Return counts by file as a table, and what survived."""
    kinds = ("failed", "timeout", "survived", "none", "still")
    counts: dict[str, Counter[str]] = defaultdict(Counter)
    for each in found:
        counts[each["file"]][each["result"].split()[0]] += 1
    lines = [
        "| file | changes | failed a test | ran into the time limit | survived | no test | not put |",
        "|---" * 7 + "|",
    ]
    for file in sorted(counts):
        row = [counts[file][kind] for kind in kinds]
        lines.append(f"| {file} | {sum(row)} | {' | '.join(map(str, row))} |")
    lines += [each["key"] for each in found if each["result"] in {"survived", "none"}]
    return "\n".join(lines)


def main(arguments: list[str] | None = None) -> int:
    """Make the changes asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("paths", nargs="*", type=Path)
    parser.add_argument("--seconds", type=float, default=SECONDS)
    parser.add_argument("--see", action="store_true", help="tell what came of it so far, and make no change")
    asked = parser.parse_args(arguments)
    paths = [
        file
        for path in asked.paths
        for file in (sorted(path.resolve().rglob("*.py")) if path.is_dir() else [path.resolve()])
    ]
    if asked.see:
        names = {path.relative_to(ROOT).as_posix() for path in paths}
        print(report([each for each in results() if not names or each["file"] in names]))
        return 0
    import pytest  # noqa: PLC0415 - not needed to see

    ways = [f"--ignore={each}" for each in LEFT_OUT]
    return pytest.main(
        [*TESTS, *ways, "-q", "-p", "no:cacheprovider", "-p", "no:randomly", "-p", "no:xdist"],
        plugins=[Forking(paths, asked.seconds)],
    )


if __name__ == "__main__":
    raise SystemExit(main())
