"""From what a program printed to the one sentence a person needs."""

from __future__ import annotations

import errno

from site_build.setup.paths import LOGS, shown

_SIGNS = (
    (
        ("THESE PACKAGES DO NOT MATCH THE HASHES", "EINTEGRITY"),
        "{what}: a downloaded file is not the one recorded here, so it was not used; try another network.",
    ),
    (
        ("No space left on device", "ENOSPC", "There is not enough space on the disk"),
        "{what}: the disk is full; free some space, then run this again.",
    ),
    (
        ("CERTIFICATE_VERIFY_FAILED", "SELF_SIGNED_CERT", "UNABLE_TO_GET_ISSUER_CERT", "UNABLE_TO_VERIFY_LEAF"),
        "{what}: this machine does not trust the network's certificate; put that right, then run this again.",
    ),
    (
        (
            "Temporary failure in name resolution",
            "Name or service not known",
            "nodename nor servname",
            "getaddrinfo",
            "NameResolutionError",
            "NewConnectionError",
            "Failed to establish a new connection",
            "Max retries exceeded",
            "Read timed out",
            "ConnectTimeout",
            "Network is unreachable",
            "ProxyError",
            "ENOTFOUND",
            "EAI_AGAIN",
            "ECONNREFUSED",
            "ECONNRESET",
            "ETIMEDOUT",
            "ENETUNREACH",
            "ERR_SOCKET_TIMEOUT",
            "Could not resolve",
            "Temporary failure resolving",
        ),
        "{what}: the network gave no answer; connect, then run this again.",
    ),
    (
        ("Permission denied", "EACCES", "EPERM", "Read-only file system", "Access is denied"),
        "{what}: this user may not write there; run this in a folder of your own.",
    ),
    (
        ("No matching distribution found", "E404", "ETARGET", "403 Client Error", "404 Client Error"),
        "{what}: the package source set up on this machine does not offer it; look at its pip or npm settings.",
    ),
)


def reason(what: str, output: str, log: str) -> str:
    """Return a sentence for a failure, read from a program's output.

    >>> reason("Installing", "ERROR: [Errno 28] No space left on device", "pip")
    'Installing: the disk is full; free some space, then run this again.'
    """
    for signs, sentence in _SIGNS:
        if any(sign in output for sign in signs):
            return sentence.format(what=what)
    return f"{what} did not work: {shown(LOGS / log)}.txt holds all that was said."


def reason_of(error: OSError) -> str:
    """Return a sentence for what the system refused."""
    where = f" ({error.filename})" if error.filename else ""
    if error.errno == errno.ENOSPC:
        return f"The disk is full{where}: free some space, then run this again."
    if error.errno in {errno.EACCES, errno.EPERM, errno.EROFS}:
        return f"This user has no right to that{where}: run this in a folder of your own."
    return f"The system refused{where}: {error.strerror or error}. Put that right, then run this again."
