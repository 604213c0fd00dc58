"""A worker held still in the middle of what it does, through the browser's own debugger."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tests.browser.sheets import PYTHON_MS

if TYPE_CHECKING:
    from collections.abc import Callable

    from playwright.sync_api import Page

    _Said = dict[str, Any]
    _Look = Callable[[], _Said | None]

_LOOK_MS = 20


class Inside:
    """The debugger of the newest worker of a page that runs a script."""

    def __init__(self, page: Page, script: str) -> None:
        self._page = page
        self._session = page.context.new_cdp_session(page)
        self._found: list[_Said] = []
        self._heard: list[_Said] = []
        self._asked = 0
        self._session.on("Target.attachedToTarget", lambda told: self._found.append(told or {}))
        self._session.on(
            "Target.receivedMessageFromTarget", lambda said: self._heard.append(json.loads(said["message"]))
        )
        self._session.send(
            "Target.setAutoAttach", {"autoAttach": True, "waitForDebuggerOnStart": False, "flatten": False}
        )
        self._worker = self._wait(self._of(script))
        self._wait(self._reply(self._send("Debugger.enable")))

    def hold(self) -> list[str]:
        """Stop the worker where it is; return the functions it is in, innermost first."""
        self._heard.clear()
        self._send("Debugger.pause")
        return [frame["functionName"] for frame in self._wait(self._held)["params"]["callFrames"]]

    def tear_out(self) -> None:
        """End what the worker is doing, and leave the worker alive."""
        self._send("Runtime.terminateExecution")
        self._wait(self._reply(self._send("Debugger.resume")))

    def bytes_held(self) -> int:
        """Return what scripts and Python hold in the worker once all that is not needed is thrown away [B]."""
        self._wait(self._reply(self._send("HeapProfiler.collectGarbage")))
        held = self._wait(self._reply(self._send("Runtime.getHeapUsage")))["result"]
        return int(held["usedSize"] + held["backingStorageSize"])

    def leave(self) -> None:
        """Look into no worker any more."""
        self._session.detach()

    def _of(self, script: str) -> _Look:
        return lambda: next((each for each in reversed(self._found) if script in each["targetInfo"]["url"]), None)

    def _reply(self, number: int) -> _Look:
        return lambda: next((said for said in self._heard if said.get("id") == number), None)

    def _held(self) -> _Said | None:
        return next((said for said in self._heard if said.get("method") == "Debugger.paused"), None)

    def _send(self, method: str) -> int:
        self._asked += 1
        message = json.dumps({"id": self._asked, "method": method})
        self._session.send("Target.sendMessageToTarget", {"sessionId": self._worker["sessionId"], "message": message})
        return self._asked

    def _wait(self, look: _Look) -> _Said:
        for _ in range(PYTHON_MS // _LOOK_MS):
            found: _Said | None = look()
            if found:
                return found
            self._page.wait_for_timeout(_LOOK_MS)
        raise TimeoutError("the worker said nothing")
