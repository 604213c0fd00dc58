"""Firefox for Playwright: starts it with the arguments given and passes on what the two say to each other.

Playwright tells every Firefox which colours and motion its pages should ask for; the Firefox of Debian 12 does not know
that command of WebDriver BiDi yet and refuses it, and Playwright then gives up. So it is answered here. Once Firefox
knows it, this file can go, and `engines/conftest.py` can start Firefox itself.
"""

from __future__ import annotations

import asyncio
import json
import re
import sys

from websockets.asyncio.client import connect
from websockets.asyncio.server import ServerConnection, serve

UNKNOWN = "emulation.setMediaFeaturesOverride"
_LISTENS = re.compile(r"WebDriver BiDi listening on (ws://\S+)")


async def _firefox(command: list[str]) -> int:
    """Run Firefox until it ends, and tell where to reach it through here."""
    ran = await asyncio.create_subprocess_exec(*command, stderr=asyncio.subprocess.PIPE)
    assert ran.stderr
    async for line in ran.stderr:
        found = _LISTENS.search(line.decode(errors="replace"))
        if found:
            break
    else:
        return await ran.wait()

    async def pass_on(playwright: ServerConnection) -> None:
        async with connect(f"{found[1]}/session", max_size=None, compression=None) as firefox:

            async def asks() -> None:
                async for text in playwright:
                    ask = json.loads(text)
                    if ask["method"] == UNKNOWN:
                        await playwright.send(json.dumps({"type": "success", "id": ask["id"], "result": {}}))
                    else:
                        await firefox.send(text, text=True)

            asking = asyncio.create_task(asks())
            async for text in firefox:
                await playwright.send(text, text=True)
            asking.cancel()

    async with serve(pass_on, "127.0.0.1", 0, max_size=None, compression=None) as server:
        port = server.sockets[0].getsockname()[1]
        sys.stderr.write(f"WebDriver BiDi listening on ws://127.0.0.1:{port}\n")
        sys.stderr.flush()
        async for _ in ran.stderr:  # read, so that Firefox never waits for someone to read it
            pass
        return await ran.wait()


if __name__ == "__main__":
    raise SystemExit(asyncio.run(_firefox(sys.argv[1:])))
