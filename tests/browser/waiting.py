"""Waiting for a page whose policy forbids it to run texts, as Playwright's own `wait_for_function` does there."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

from playwright.sync_api import Error
from playwright.sync_api import TimeoutError as Late

if TYPE_CHECKING:
    from playwright.sync_api import Page

EVERY_MS = 20
PATIENCE_MS = 30_000
_GOING = ("Execution context was destroyed", "navigati")


def wait_for_function(page: Page, expression: str, *, arg: Any = None, timeout: float = PATIENCE_MS) -> None:  # noqa: ANN401
    """Ask a page again and again, until what it says is true.

    Parameters
    ----------
    page : Page
        It may go to another address meanwhile.
    expression : str
        An expression, or a function of ``arg``.
    arg : object
        As `Page.evaluate` takes it.
    timeout : float
        How long it may take [ms].

    Raises
    ------
    TimeoutError
        Playwright's, when it is still not true.
    """
    end = time.monotonic() + timeout / 1000
    while time.monotonic() < end:
        try:
            if page.evaluate(expression, arg):
                return
        except Error as error:
            if not any(words in error.message for words in _GOING):
                raise
        page.wait_for_timeout(EVERY_MS)
    message = f"not true within {timeout / 1000:.0f} s: {expression}"
    raise Late(message)
