"""axe-core finds nothing on any page, in either colour scheme."""

from __future__ import annotations

from typing import Literal

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.browser.conftest import Site

pytestmark = pytest.mark.browser
PAGES = (
    "/moulds",
    "/moulds/niche",
    "/builds/niche-1",
    "/builds/niche-1/bench",
    "/builds/niche-1/sheet",
    "/steps/1",
    "/search?q=gel+coat",
    "/recipes",
    "/recipes/niche-1?area_m2=2.8",
    "/builds/niche-1/plan",
    "/ask?q=how+much+B+for+420",
    "/weigh",
    "/shelf",
    "/compare?build=niche-1",
    "/trace",
    "/trace?what=polyester+gel+coat",
    "/builds/niche-1/pictures",
    "/moulds/niche/life",
    "/lives",
    "/teach/niche-1",
    "/teach/niche-1/test?seed=7",
    "/exchange",
    "/queue",
    "/devices",
    "/pair",
    "/moulds/niche/pins",
    "/away",
    "/nowhere",
)


@pytest.mark.slow  # every page there is
@pytest.mark.timeout(900)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(site: Site, page: Page, scheme: Literal["light", "dark"]) -> None:
    page.emulate_media(color_scheme=scheme)
    for path in PAGES:
        page.goto(site.address + path)
        page.evaluate("document.querySelectorAll('details').forEach(each => { each.open = true; })")
        found = Axe().run(page)
        assert found.violations_count == 0, f"{path}: {found.generate_report()}"
