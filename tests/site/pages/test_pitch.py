"""The finder of notes: sounds made from known notes, as strings make them, come back."""

from __future__ import annotations

import json
import subprocess
from typing import TYPE_CHECKING

import pytest

from site_build.setup import packages
from site_build.setup.paths import WEB

if TYPE_CHECKING:
    from pathlib import Path

pytestmark = pytest.mark.exact
ASK = f"""
import {{ agreed, pitch }} from '{(WEB / "note" / "pitch.js").as_uri()}';
let seed = 7;
const chance = () => (seed = (seed * 16807) % 2147483647) / 2147483647 - 0.5;
/** Odd partials that die away, as of a string plucked in its middle: a share of its lowest, noise, an offset. */
const string = (hz, rate, lowest, noise) => Float32Array.from({{ length: Math.round(rate * 0.34) }}, (_, at) => {{
  const t = at / rate;
  let sum = 0;
  for (let k = 1; k < 12; k += 2) {{
    sum += ((k === 1 ? lowest : 1) / k ** 2) * Math.sin(2 * Math.PI * hz * k * t + k) * Math.exp(-t * (1 + k));
  }}
  return 0.05 * sum + noise * chance() + 0.01;
}});
const found = [];
for (const rate of [16000, 44100, 48000, 96000])
  for (const hz of [24.7, 41.2, 61.7, 82.4, 99.3, 102, 146.8, 329.6, 587.3])
    for (const lowest of [1, 0.1]) found.push([hz, pitch(string(hz, rate, lowest, 0.004), rate)]);
const quiet = pitch(new Float32Array(16384), 48000) ?? null;
const noise = pitch(Float32Array.from({{ length: 16384 }}, chance), 48000) ?? null;
const means = [agreed([101, 100.5, 100]), agreed([101, 100.5, 120]) ?? null, agreed([100, 100]) ?? null];
console.log(JSON.stringify({{ found, quiet, noise, means }}));
"""


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, object]:
    file: Path = tmp_path_factory.mktemp("pitch") / "ask.mjs"
    file.write_text(ASK, encoding="utf-8")
    ran = subprocess.run([*packages.node_tool("node"), file], capture_output=True, text=True, check=True)
    found: dict[str, object] = json.loads(ran.stdout)
    return found


def test_notes_of_strings_are_found(said: dict[str, object]) -> None:
    """Within two in a thousand, five below 30 Hz; also where the lowest partial is nearly lost, as in a phone."""
    found = said["found"]
    assert isinstance(found, list)
    assert len(found) == 72
    assert [each for each in found if each[1] != pytest.approx(each[0], rel=5e-3 if each[0] < 30 else 2e-3)] == []


@pytest.mark.parametrize("sound", ["quiet", "noise"])
def test_what_is_no_one_note_is_none(said: dict[str, object], sound: str) -> None:
    assert said[sound] is None


def test_readings_that_do_not_agree_are_no_note(said: dict[str, object]) -> None:
    assert said["means"] == [100.5, None, None]
