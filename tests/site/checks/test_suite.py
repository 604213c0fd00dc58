"""The order of the checks, what a failure stops and what it does not, and the exit code."""

from __future__ import annotations

import subprocess
import sys
from contextlib import nullcontext
from pathlib import Path

import pytest

from site_build import __main__ as start
from site_build.checks import pytest_plugin, suite
from site_build.cli import commands, watching
from site_build.setup import chromium, environment, firefox, packages, programs
from site_build.setup.paths import ROOT
from site_build.setup.programs import surroundings
from site_build.setup.progress import StopError


def fine() -> None:
    """Stand for a check that passes."""


def broken() -> None:
    """Stand for a check that fails."""
    raise StopError("lines\nMend it.")


def full() -> None:
    """Stand for a check that meets a full disk."""
    raise OSError(28, "No space left on device", "site")


def states(*each: suite.Check) -> dict[str, str]:
    """Return what came of some checks."""
    return {result.name: result.state for result in suite.run_all(each)}


def test_a_failure_does_not_hide_the_others() -> None:
    told = states(suite.Check("one", broken), suite.Check("two", full), suite.Check("three", fine))
    assert told == {"one": suite.FAILED, "two": suite.FAILED, "three": suite.PASSED}


def test_what_needs_a_failed_check_is_not_run() -> None:
    told = states(
        suite.Check("build", broken), suite.Check("site", fine, ("build",)), suite.Check("far", fine, ("site",))
    )
    assert told == {"build": suite.FAILED, "site": suite.NOT_RUN, "far": suite.NOT_RUN}


def test_a_failure_is_told_in_full_and_summed_up_in_its_last_line(capsys: pytest.CaptureFixture[str]) -> None:
    results = suite.run_all([suite.Check("one", broken), suite.Check("two", full)])
    assert capsys.readouterr().err.startswith("lines\nMend it.\n")
    assert [result.words for result in results] == [
        "Mend it.",
        "The disk is full (site): free some space, then run this again.",
    ]
    assert suite.summary(results).endswith("\nFailed: one, two.")


def test_the_checks_come_in_their_order() -> None:
    names = ["format", "lint", "scripts", "types", "build", "site", "tests", "coverage", "others", "browser"]
    assert [check.name for check in suite.listed(types=beside)] == names
    assert [check.name for check in suite.listed(browser=False, types=beside)] == names
    assert [check.name for check in suite.fast()] == ["format", "lint", "types", "tests"]


def test_leaving_out_the_browser_says_so_and_counts_as_no_success() -> None:
    left_out = suite.listed(browser=False, types=beside)[-1]
    result = suite.run_one(left_out)
    assert (result.state, result.words) == (
        suite.NOT_RUN,
        "the tests in tests/browser were left out, as --no-browser asked",
    )
    assert suite.summary([result]).endswith("No check failed. Not run: browser.")


def test_every_test_belongs_to_one_check_and_a_long_run_is_handed_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """What `tests` leaves out is what `others` runs, and `browser` runs the rest."""
    started: list[list[str]] = []
    monkeypatch.setattr(suite, "run_shown", lambda commands, **_: started.append([*map(str, commands)]))
    monkeypatch.setattr(chromium, "ensure", lambda: Path("chromium"))
    monkeypatch.setattr(firefox, "bring", lambda: None)
    for check in suite.listed(long=True, types=beside):
        if check.name in {"tests", "others", "browser"}:
            check.run()
    watched, others, browser = started
    left_out = {word.removeprefix("--ignore=") for word in watched if word.startswith("--ignore=")}
    assert left_out == {word for word in others if word.startswith("tests/")}
    assert {"tests", "calc", "site_build", "not browser"} <= set(watched)
    assert {"tests/browser", "browser"} <= set(browser)
    assert all("--long" in words and "-n" in words for words in started)


@pytest.fixture
def set_up(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Pretend the whole set-up and note what was asked of it."""
    asked: list[str] = []
    monkeypatch.setattr(environment, "ensure", asked.append)
    monkeypatch.setattr(packages, "ensure", lambda name: asked.append(f"npm {name}"))
    return asked


@pytest.mark.parametrize(("check", "code"), [(fine, 0), (broken, 1)])
def test_one_failed_check_makes_the_exit_code(
    check: object, code: int, set_up: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    both = [suite.Check("one", fine), suite.Check("two", check)]  # type: ignore[arg-type]
    monkeypatch.setattr(suite, "every", lambda **_: nullcontext(both))
    assert commands.main(["test"]) == code
    assert set_up == ["test", "npm test"]


@pytest.mark.parametrize(
    ("name", "text"),
    [("a.js", "export const same = (a, b) => a == b;\n"), ("a.css", "p { colour: red; }\n")],
)
def test_a_fault_in_a_script_or_style_is_found(
    name: str, text: str, tmp_path: Path, capfd: pytest.CaptureFixture[str]
) -> None:
    suite.look_over(suite.SOURCES)
    (tmp_path / name).write_text(text)
    with pytest.raises(StopError, match="Biome found something"):
        suite.look_over(tmp_path)
    assert name in "".join(capfd.readouterr())


def test_fast_brings_no_package(set_up: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(suite, "fast", lambda: [suite.Check("one", fine)])
    assert commands.main(["test", "--fast"]) == 0
    assert set_up == ["test"]


@pytest.mark.parametrize(
    ("error", "said", "code"),
    [
        (StopError("Connect, then run this again."), "Connect, then run this again.\n", 1),
        (OSError(13, "no", "x"), "This user has no right to that (x): run this in a folder of your own.\n", 1),
        (KeyboardInterrupt(), "Stopped.\n", commands.STOPPED),
    ],
)
def test_what_stops_the_set_up_ends_in_a_sentence(
    error: BaseException,
    said: str,
    code: int,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    def ensure(name: str) -> None:
        del name
        raise error

    monkeypatch.setattr(environment, "ensure", ensure)
    assert commands.main(["build"]) == code
    assert capsys.readouterr().err == said


def test_ending_the_server_is_no_failure(set_up: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    ports: list[int | None] = []

    def serve(port: int | None) -> None:
        ports.append(port)
        raise KeyboardInterrupt

    monkeypatch.setattr(watching, "serve", serve)
    assert commands.main(["serve", "--port", "8123"]) == 0
    assert commands.main(["serve"]) == 0
    assert ports == [8123, None]
    assert set_up == ["site", "npm site"] * 2


@pytest.mark.parametrize("port", ["0", "70000", "x", "-1"])
def test_a_port_that_cannot_be_is_refused(port: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        commands.main(["serve", f"--port={port}"])
    assert stopped.value.code == 2
    assert "a port is a whole number from 1 to 65535" in capsys.readouterr().err


@pytest.mark.parametrize(("version", "old"), [((3, 10), True), ((2, 7), True), ((3, 11), False), ((4, 0), False)])
def test_a_python_too_old_is_told_so(version: tuple[int, int], *, old: bool) -> None:
    sentence = start.too_old(*version)
    assert bool(sentence) is old
    if old:
        assert sentence.startswith("This needs Python 3.11 or newer and is run by ")


def pytest_on(folder: Path, source: str, *more: str) -> str:
    """Return what pytest with our plugin says of one file, in a folder of its own."""
    done = run_pytest_on(folder, source, *more)
    return done.stdout + done.stderr


def run_pytest_on(folder: Path, source: str, *more: str) -> subprocess.CompletedProcess[str]:
    (folder / "test_it.py").write_text(source)
    words = ["-q", "-p", "site_build.checks.pytest_plugin", "-c", str(ROOT / "pyproject.toml")]
    return subprocess.run(
        [
            sys.executable,
            "-m",
            "pytest",
            *words,
            "--rootdir",
            str(folder),
            "-p",
            "no:cacheprovider",
            *more,
            str(folder),
        ],
        cwd=folder,
        env=surroundings({"PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1"}),
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.mark.parametrize("cores", [(), ("-p", "xdist", "-n", "2")], ids=["one core", "two"])
def test_passed_tests_are_counted_by_kind_and_timed(tmp_path: Path, cores: tuple[str, ...]) -> None:
    said = pytest_on(
        tmp_path,
        "import pytest, time\n"
        "@pytest.mark.exact\n@pytest.mark.parametrize('x', [1, 2])\ndef test_a(x): pass\n"
        "@pytest.mark.published\ndef test_b(): time.sleep(0.01)\n"
        "@pytest.mark.published\ndef test_c(): assert False\n"
        "def test_d(): pass\n",
        f"--times={tmp_path / 'times.json'}",
        *cores,
    )
    assert "Passed by kind: 1 published, 2 exact, 1 other" in said
    assert "1 failed, 4 passed" in said
    took = pytest_plugin.read_times(tmp_path / "times.json")
    assert sorted(took) == [f"test_it.py::test_{name}" for name in ("a[1]", "a[2]", "b", "c", "d")]
    assert took["test_it.py::test_b"] > 0.01


def test_when_time_is_short_slow_tests_come_last_and_are_skipped(tmp_path: Path) -> None:
    times = tmp_path / "times.json"
    times.write_text('{"test_it.py::test_slow": 99.0, "test_it.py::test_quick": 0.001}')
    source = "def test_slow(): assert False\ndef test_new(): pass\ndef test_quick(): pass\n"
    said = pytest_on(tmp_path, source, f"--times={times}", "--seconds=60")
    assert "2 passed, 1 skipped" in said
    assert "no time for these in a quick look of 60 s; the whole test command runs them" in said


def test_a_skipped_test_keeps_the_time_it_took_before(tmp_path: Path) -> None:
    times = tmp_path / "times.json"
    times.write_text('{"test_it.py::test_old": 99.0}')
    said = pytest_on(tmp_path, "def test_old(): pass\ndef test_new(): pass\n", f"--times={times}", "--seconds=60")
    assert "1 passed, 1 skipped" in said
    assert pytest_plugin.read_times(times)["test_it.py::test_old"] == 99.0


def test_a_quick_look_says_how_many_tests_it_ran(tmp_path: Path) -> None:
    times = tmp_path / "times.json"
    times.write_text('{"test_it.py::test_slow": 99.0}')
    source = "def test_slow(): pass\ndef test_a(): pass\ndef test_b(): pass\n"
    for cores in ((), ("-p", "xdist", "-n", "2")):
        assert "2 of 3 tests ran" in pytest_on(tmp_path, source, f"--times={times}", "--seconds=60", *cores)
    assert "tests ran" not in pytest_on(tmp_path, source)


def test_a_quick_look_at_which_no_test_ran_does_not_pass(tmp_path: Path) -> None:
    done = run_pytest_on(tmp_path, "def test_a(): pass\n", "--seconds=0")
    assert "0 of 1 tests ran: that is no check" in done.stdout
    assert done.returncode == pytest.ExitCode.NO_TESTS_COLLECTED


def test_what_pytest_takes_before_the_first_test_does_not_count(tmp_path: Path) -> None:
    source = "import time\nend = time.process_time() + 1.5\nwhile time.process_time() < end: pass\ndef test_a(): pass\n"
    assert "1 of 1 tests ran" in pytest_on(tmp_path, source, "--seconds=1")


def beside() -> programs.Ran:
    return programs.Ran(0, "all well")


def test_what_runs_beside_the_checks_is_waited_for_and_ended_when_nobody_waits() -> None:
    with programs.beside([sys.executable, "-c", "print('counted')"], "beside") as wait:
        assert wait() == programs.Ran(0, "counted\n")
    with programs.beside([sys.executable, "-c", "import time; time.sleep(60)"], "beside") as wait:
        pass
    assert wait().code != 0


def test_a_test_of_two_kinds_is_refused(tmp_path: Path) -> None:
    said = pytest_on(tmp_path, "import pytest\n@pytest.mark.exact\n@pytest.mark.pinned\ndef test_a(): pass\n")
    assert "test_it.py::test_a is marked exact and pinned: a test is one kind of check." in said


def test_times_that_cannot_be_read_count_as_none(tmp_path: Path) -> None:
    assert pytest_plugin.read_times(None) == {}
    assert pytest_plugin.read_times(tmp_path / "gone.json") == {}
    (tmp_path / "half.json").write_text('{"a": ')
    assert pytest_plugin.read_times(tmp_path / "half.json") == {}
