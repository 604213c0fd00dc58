"""When and where something was changed: stamps that sort by time and are never given twice."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

TIME = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z")
DEVICE = re.compile(r"[a-z0-9]{4,32}")
_MILLISECOND = timedelta(milliseconds=1)
_PAST_ALL = "9999"


def next_stamp(now: str, device: str, seen: Mapping[str, str]) -> str:
    """Return the stamp of a change: later than all that was seen, even where a clock goes wrong.

    Parameters
    ----------
    now : str
        Time by the device's clock, like ``2026-05-03T10:11:12.000Z``.
    device : str
        Its name: letters and figures.
    seen : mapping of str to str
        The time of the last change seen from each device.

    Returns
    -------
    str
        Time and device with a stroke between.

    Examples
    --------
    >>> next_stamp("2026-05-03T10:11:12.000Z", "aaaa", {"bbbb": "2026-05-03T10:11:12.999Z"})
    '2026-05-03T10:11:13.000Z/aaaa'
    """
    latest = max(seen.values(), default="")
    return f"{max(now, _after(latest) if latest else '')}/{device}"


def _after(time: str) -> str:
    return format_time(datetime.fromisoformat(time) + _MILLISECOND)


def format_time(time: datetime) -> str:
    """Return a time as stamps have it.

    Parameters
    ----------
    time : datetime
        With its zone.
    """
    return f"{time.astimezone(UTC).strftime('%Y-%m-%dT%H:%M:%S')}.{time.microsecond // 1000:03d}Z"


@lru_cache(maxsize=4096)
def is_time(text: str) -> bool:
    """Return whether a text is a time as stamps have it, before the year 9999: a later one must still be possible.

    Parameters
    ----------
    text : str
    """
    if not TIME.fullmatch(text) or text >= _PAST_ALL:
        return False
    try:
        datetime.fromisoformat(text)
    except ValueError:
        return False
    return True


@lru_cache(maxsize=4096)
def is_stamp(text: str) -> bool:
    """Return whether a text is a stamp.

    Parameters
    ----------
    text : str
    """
    time, _, device = text.partition("/")
    return is_time(time) and bool(DEVICE.fullmatch(device))


def latest_times(stamps: Iterable[str]) -> dict[str, str]:
    """Return the last time of each device among stamps.

    Parameters
    ----------
    stamps : iterable of str
    """
    found: dict[str, str] = {}
    for each in stamps:
        time, _, device = each.partition("/")
        found[device] = max(time, found.get(device, ""))
    return found


def is_seen(each: str, seen: Mapping[str, str]) -> bool:
    """Return whether a change is among those that were seen.

    Parameters
    ----------
    each : str
        Its stamp.
    seen : mapping of str to str
        As for `next_stamp`.
    """
    time, _, device = each.partition("/")
    return time <= seen.get(device, "")
