"""One sentence for every failure a person can meet."""

from __future__ import annotations

import errno

import pytest

from site_build.setup.reasons import reason, reason_of


@pytest.mark.parametrize(
    ("output", "sentence"),
    [
        ("socket.gaierror: [Errno -3] Temporary failure in name resolution", "the network gave no answer; connect"),
        ("NewConnectionError ...\nERROR: No matching distribution found for a", "the network gave no answer; connect"),
        ("npm error code ECONNREFUSED", "the network gave no answer; connect"),
        ("ERROR: THESE PACKAGES DO NOT MATCH THE HASHES FROM ...", "is not the one recorded here, so it was not used"),
        ("[SSL: CERTIFICATE_VERIFY_FAILED]", "does not trust the network's certificate"),
        ("npm error code ENOSPC", "the disk is full; free some space"),
        ("[Errno 13] Permission denied: '/x'", "this user may not write there; run this in a folder of your own"),
        ("npm error code E404", "does not offer it; look at its pip or npm settings"),
        ("something new", "did not work: .cache/log/pip.txt holds all that was said."),
    ],
)
def test_what_a_program_printed_becomes_one_sentence(output: str, sentence: str) -> None:
    said = reason("Installing", output, "pip")
    assert said.startswith("Installing")
    assert sentence in said
    assert said.endswith(".")
    assert "\n" not in said


@pytest.mark.parametrize(
    ("number", "sentence"),
    [
        (errno.ENOSPC, "The disk is full (site): free some space, then run this again."),
        (errno.EACCES, "This user has no right to that (site): run this in a folder of your own."),
        (errno.EROFS, "This user has no right to that (site): run this in a folder of your own."),
        (errno.EIO, "The system refused (site): broken. Put that right, then run this again."),
    ],
)
def test_what_the_system_refused_becomes_one_sentence(number: int, sentence: str) -> None:
    assert reason_of(OSError(number, "broken", "site")) == sentence
