"""What several folders of tests share: a shop in a folder of its own, with the real weights joined once."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import hypothesis
import pytest

from journal.hear.weights import find_weights
from journal.settings import Settings
from journal.shop import Shop

SAMPLES = Path(__file__).resolve().parent.parent / "samples"
NOW = datetime(2026, 11, 25, 9, 0, tzinfo=UTC)
MORE_CHANCES = 2
# The same examples in every run, however long they take; `--hypothesis-profile=default` looks for others.
hypothesis.settings.register_profile(
    "steady", derandomize=True, deadline=None, suppress_health_check=[hypothesis.HealthCheck.too_slow]
)
hypothesis.settings.load_profile("steady")


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Give tests with a real browser, and those that hear while time passes, more chances: the machine may be busy.

    Each chance has the whole of the test's time. The summary of a run tells of every one that was taken.
    """
    for item in [] if config.option.usepdb else items:
        if item.get_closest_marker("browser") or item.get_closest_marker("live"):
            given = item.get_closest_marker("timeout")
            seconds = given.args[0] if given else float(config.getini("timeout"))
            item.add_marker(pytest.mark.timeout(seconds, func_only=True), append=False)
            item.add_marker(pytest.mark.flaky(reruns=MORE_CHANCES))


@pytest.fixture(scope="session")
def weights(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the joined base weights."""
    return find_weights("", tmp_path_factory.mktemp("weights")).folder


@pytest.fixture
def settings(tmp_path: Path, weights: Path) -> Settings:
    """Settings of a shop in an empty folder."""
    return Settings(data_dir=tmp_path, weights=str(weights), hear_threads=2, timezone="Europe/London")


@pytest.fixture
def shop(settings: Settings) -> Iterator[Shop]:
    """A shop whose clock stands at NOW, with one build of one mould."""
    from journal import flow

    opened = Shop(settings, clock=lambda: NOW)
    flow.ensure_build(opened, "niche", "niche-9")
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def sample() -> Callable[[str], bytes]:
    """Return a function that gives the bytes of a file of the demo workshop."""
    return lambda name: (SAMPLES / name).read_bytes()
