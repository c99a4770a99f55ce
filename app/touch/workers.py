"""The threads that do what the window must not wait for: one for the register, one for photographs."""

from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from typing import Any, TypeVar

from kivy.clock import Clock

T = TypeVar("T")
Failed = Callable[[Exception], None]


class Worker:
    """One thread with a queue; results come back on the window's thread, in the order of the work."""

    def __init__(self, name: str, failed: Failed) -> None:
        """`failed` is told of an error that the caller of `do` did not want to handle itself."""
        self._pool = ThreadPoolExecutor(1, thread_name_prefix=name)
        self._failed = failed
        self._open = True
        self._busy = 0

    @property
    def idle(self) -> bool:
        """Whether everything asked for has been done and reported."""
        return self._busy == 0

    def do(self, work: Callable[[], T], done: Callable[[T], None] | None = None, failed: Failed | None = None) -> None:
        """Run `work` on the thread, then `done` with its result, or `failed` with its error, on the window's."""
        self._busy += 1

        def report(future: "Future[T]") -> None:
            Clock.schedule_once(lambda _dt: on_window(future))

        def on_window(future: "Future[Any]") -> None:
            self._busy -= 1
            if not self._open:
                return
            error = future.exception()
            if isinstance(error, Exception):
                (failed or self._failed)(error)
            elif done is not None:
                done(future.result())

        self._pool.submit(work).add_done_callback(report)

    def flush(self) -> None:
        """Wait for what was asked for so far: only for leaving, when the system may end us at any moment."""
        self._pool.submit(lambda: None).result()

    def close(self) -> None:
        """Finish what was asked for and end the thread; nothing is reported any more."""
        self._open = False
        self._pool.shutdown(wait=True)
