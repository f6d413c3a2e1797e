"""A second build that failed, beside the workshop's that worked: something to compare and to trace."""

from __future__ import annotations

from datetime import timedelta

from journal.keep.views import NewNote
from tests.api.workshop import MORNING
from tests.browser.conftest import Site
from tests.keep.made import seen, step, use


def with_a_failed_build(site: Site) -> str:
    """Put a build that failed with a soft gel coat of lot 4471 into the shop; return its key."""
    store = site.shop.store
    store.set_outcome("niche-1", "worked", "", None, MORNING)
    build = store.add_build("niche", MORNING)
    mixed = step("mix", use("polyester gel coat", 600, "g", lot="4471"), use("catalyst", 6, "g"), words="Mixed")
    opened = step("demould", observations=(seen("soft", "soft on the left scroll"),))
    told = (
        (1, mixed, "Mixed six hundred, lot 4471"),
        (60, opened, "Popped it"),
        (90, step("pull", pull=1), "Cast one"),
    )
    for hours, made, words in told:
        at = MORNING + timedelta(hours=hours)
        with site.shop.one_at_a_time:  # the worker looks once a minute for what nobody has read yet
            note, _ = store.add_note(build.id, NewNote(at, text=words, who="apprentice"))
            store.keep_steps(note.id, [made], "1", at)
    store.set_outcome(build.id, "failed", "soft", None, MORNING)
    return build.key
