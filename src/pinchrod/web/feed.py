"""What tells every open page that something has changed."""

import asyncio
import time
from collections.abc import AsyncGenerator
from contextlib import suppress

BEAT = 5.0  # seconds: a page that hears nothing for three of these says that what it shows is old
PAUSE = 0.2  # seconds between two tellings at least: many changes at once are told once


class Feed:
    """A number that grows with each change; pages wait for it to grow."""

    def __init__(self) -> None:
        """Nothing has happened."""
        self._number = time.time_ns() // 1000  # no number of an earlier run comes again
        self._loop: asyncio.AbstractEventLoop | None = None
        self._waiting: set[asyncio.Event] = set()

    @property
    def number(self) -> int:
        """How things stand now: what is shown under another number may be old."""
        return self._number

    def tell(self) -> None:
        """Say that something has changed, from whatever thread."""
        self._number += 1
        if self._loop is not None:
            with suppress(RuntimeError):  # the server is stopping: nobody waits any more
                self._loop.call_soon_threadsafe(self._wake)

    def _wake(self) -> None:
        for each in self._waiting:
            each.set()

    async def changes(self) -> AsyncGenerator[str, None]:
        """Lines of an event stream: something at once, then each change, and a beat where there is none."""
        self._loop = asyncio.get_running_loop()
        woken = asyncio.Event()
        self._waiting.add(woken)
        try:
            told = -1
            while True:
                kind = "beat" if told == self._number else "change"
                told = self._number
                yield f"event: {kind}\ndata: {told}\n\n"
                await asyncio.sleep(PAUSE)
                with suppress(TimeoutError):
                    await asyncio.wait_for(woken.wait(), BEAT)
                woken.clear()
        finally:
            self._waiting.discard(woken)
