"""Run the checks that concern a change of the package, in a fork of one process that has them all.

The tests are collected once and run once, to see that they pass and what each of them reaches:
functions of the package, numbers of its fits, atomic weights. A change is then made in a fork, the
tests that reach it run there, the most direct first, until one fails; the fork ends and leaves
nothing behind, no cached value and no changed number.
"""

from __future__ import annotations

import functools
import gc
import os
import select
import signal
import sys
import time
from collections import defaultdict
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from reefchem.core import atoms, in_place, quantity
from reefchem.core.fit import Fit

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable

TESTS = Path(__file__).resolve().parent
ROOT = TESTS.parent
PACKAGE = str(ROOT / "reefchem") + os.sep
OURS = (PACKAGE, str(TESTS) + os.sep, "<boundary of")
KEPT = {"_registry"}
"""What stays cached in a fork: quantities of two pint registries do not mix."""


@dataclass(eq=False)
class Bench:
    """All checks, with what each of them reaches.

    `work` is called with the bench when the checks have been run once.
    """

    work: Callable[[Bench], int]
    status: int = 0
    reach: dict[Hashable, set[pytest.Item]] = field(default_factory=lambda: defaultdict(set))
    cost: dict[pytest.Item, tuple[int, float]] = field(default_factory=dict)
    failed: bool = False

    def pytest_sessionstart(self) -> None:
        """Stop Hypothesis at the first failure; the smallest one is of no use here."""
        from hypothesis import HealthCheck, Phase, settings  # noqa: PLC0415 - pytest rewrites it

        settings.register_profile(
            "once",
            settings(),
            phases=(Phase.explicit, Phase.generate),
            suppress_health_check=list(HealthCheck),  # what is watched is slow
        )
        settings.load_profile("once")

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Run all once, then do the work instead of what pytest would do."""
        session.config.pluginmanager.unregister(name="terminalreporter")
        for item in session.items:
            self.look(item)
        cached()
        self.status = self.work(self)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Remember a failure."""
        self.failed |= report.failed

    def passes(self, item: pytest.Item) -> bool:
        """Return whether a check passes now."""
        self.failed = False
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
        return not self.failed

    def passes_in_time(self, item: pytest.Item) -> bool:
        """Return whether a check passes; one that never ends kills this fork."""
        signal.signal(signal.SIGALRM, signal.SIG_DFL)
        signal.alarm(30 + int(10 * self.cost[item][1]))
        return self.passes(item)

    def look(self, item: pytest.Item) -> None:
        """Run a check and note what it reaches."""
        forget()  # what is cached is not called, and would not be seen
        seen: set[Hashable] = set()
        calls = 0

        def note(frame: Any, event: str, _argument: object) -> None:
            nonlocal calls
            if event == "call":
                code = frame.f_code
                if code.co_filename.startswith(OURS):
                    seen.add(code)
                    calls += 1

        def spy(fit: Fit, name: str) -> Any:
            seen.add((type(fit), name))
            return object.__getattribute__(fit, name)

        Fit.__getattribute__ = spy  # type: ignore[method-assign]
        weights = atoms.ATOMIC_WEIGHTS
        atoms.ATOMIC_WEIGHTS = Watched(weights, seen)
        start = time.perf_counter()
        sys.setprofile(note)
        try:
            good = self.passes(item)
        finally:
            sys.setprofile(None)
            del Fit.__getattribute__
            atoms.ATOMIC_WEIGHTS = weights
        if not good:
            print(f"fails as it stands, left out: {item.nodeid}")  # noqa: T201
            return
        self.cost[item] = (calls, time.perf_counter() - start)
        for thing in seen:
            self.reach[thing].add(item)

    def reaching(self, things: Iterable[Hashable]) -> list[pytest.Item]:
        """Return the checks that reach one of the things, the most direct first."""
        found = set().union(*(self.reach.get(thing, set()) for thing in things))
        return sorted(found, key=lambda item: (item.path.parent != TESTS, *self.cost[item]))

    def noticed_by(
        self, change: Callable[[], None], items: list[pytest.Item], within: float = 300.0
    ) -> str:
        """Return the first check that fails after a change, or nothing.

        One that takes thirty seconds and ten times as long as before has failed. When all of them
        take longer than `within`, in seconds, nothing is known, and nothing is returned.
        """
        reading, writing = os.pipe()
        gc.freeze()  # a fork shares what nobody looks through
        child = os.fork()
        if not child:
            os.close(reading)
            os.write(writing, self.first_failure(change, items).encode())
            os._exit(0)
        os.close(writing)
        ready, _, _ = select.select([reading], [], [], within)
        if not ready:
            os.kill(child, signal.SIGKILL)
        said = os.read(reading, 4096).decode() if ready else ""
        os.close(reading)
        _, ended = os.waitpid(child, 0)
        return said or ("(a crash, or no end)" if ready and ended else "")

    def first_failure(self, change: Callable[[], None], items: list[pytest.Item]) -> str:
        """Return the first check that fails after a change, or nothing."""
        try:
            change()
            forget()
            return next((item.nodeid for item in items if not self.passes_in_time(item)), "")
        except BaseException as error:  # noqa: BLE001 - a change may break anything
            return f"({type(error).__name__})"


class Watched(dict[str, tuple[float, float]]):
    """Atomic weights that note who is asked for."""

    def __init__(self, weights: dict[str, tuple[float, float]], seen: set[Hashable]) -> None:
        super().__init__(weights)
        self.seen = seen

    def __getitem__(self, element: str) -> tuple[float, float]:
        """Note the element and return its weight."""
        self.seen.add(("weight", element))
        return super().__getitem__(element)


def forget() -> None:
    """Empty the caches of the package and of the tests; drop what has numbers of them in it."""
    for kept in (in_place._programs, quantity._incoming, quantity._outgoing):
        kept.clear()
    for wrapper in cached():
        wrapper.cache_clear()


@functools.cache
def cached() -> list[Any]:
    """Return the cached functions of the package and of the tests."""
    kind = type(cached)
    found = (thing for thing in gc.get_objects() if type(thing) is kind)
    return [f for f in found if is_ours(f) and f.__name__ not in KEPT]


def is_ours(function: Any) -> bool:
    """Return whether a function is of the package or of its tests."""
    code = getattr(getattr(function, "__wrapped__", function), "__code__", None)
    own = code is not None and code.co_filename != __file__
    return own and code.co_filename.startswith(OURS)


def run(work: Callable[[Bench], int], paths: Iterable[Path], words: Iterable[str] = ()) -> int:
    """Collect the checks of some files, do the work with them, and return its status.

    With words, only checks that have one of them in their names are collected.
    """
    os.chdir(ROOT)
    bench = Bench(work)
    options = ["-q", "-s", "-p", "no:cacheprovider", "-p", "no:xdist", "-p", "no:sybil"]
    options += ["-k", " or ".join(sorted(words))] if words else []
    ended = pytest.main([*options, *map(str, paths)], plugins=[bench])
    return bench.status or int(ended != pytest.ExitCode.OK)
