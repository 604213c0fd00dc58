"""Every check there is, each with its own line; one failing does not hide the others."""

from __future__ import annotations

import subprocess
import time
from dataclasses import dataclass

from site_build import browser, building, environment, packages
from site_build.environment import ROOT
from site_build.tell import complain, say


@dataclass(frozen=True, slots=True)
class Check:
    """A named command."""

    name: str
    command: list[str]


def quick() -> list[Check]:
    """Return the checks that need neither site nor browser."""
    python = str(environment.python())
    return [
        Check("format", [python, "-m", "ruff", "format", "--check", "--quiet", "."]),
        Check("lint", [python, "-m", "ruff", "check", "--quiet", "."]),
        Check("types", [python, "-m", "mypy"]),
        Check("sums", [python, "-m", "pytest", "-q", "-m", "not browser"]),
    ]


def script_types() -> Check:
    """Return the type check of the page scripts."""
    tsc = packages.fetch("typescript") / "bin" / "tsc"
    config = ROOT / "site_build" / "web" / "jsconfig.json"
    return Check("script types", [*packages.node_tool("node"), str(tsc), "-p", str(config)])


def run(checks: list[Check], extra: dict[str, str] | None = None) -> list[str]:
    """Run checks and return the names of those that failed."""
    failed = []
    for check in checks:
        say(f"== {check.name}")
        start = time.monotonic()
        surroundings = environment.surroundings() | (extra or {})
        done = subprocess.run(check.command, cwd=ROOT, env=surroundings, check=False)
        verdict = "failed" if done.returncode else "good"
        say(f"== {check.name}: {verdict}, {time.monotonic() - start:.1f} s")
        if done.returncode:
            failed.append(check.name)
    return failed


def test(*, fast: bool, with_browser: bool) -> int:
    """Run every check; return the exit code."""
    failed = run(quick())
    if not fast:
        failed += run([script_types()])
        building.build()
        failed += _again()
        if with_browser:
            command = [str(environment.python()), "-m", "pytest", "-q", "-m", "browser"]
            failed += run([Check("browser", command)], {"CHROMIUM": browser.ensure()})
        else:
            complain("Not run, since --no-browser was given: every test in tests/browser.")
    say("All good." if not failed else f"Failed: {', '.join(failed)}")
    return 1 if failed else 0


def _again() -> list[str]:
    """Build once more elsewhere and compare: the same sources must give the same bytes."""
    second = environment.CACHE / "site-again"
    building.build(second)
    differ = [
        path.relative_to(second).as_posix()
        for path in sorted(second.rglob("*"))
        if path.is_file() and (building.SITE / path.relative_to(second)).read_bytes() != path.read_bytes()
    ]
    say(f"== same bytes when built twice: {'good' if not differ else 'failed: ' + ', '.join(differ[:5])}")
    return ["same bytes"] if differ else []
