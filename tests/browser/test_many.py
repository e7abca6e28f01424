"""The page of many copies, looked at and used as a reader would."""

import json

import pytest
from test_page import WAYS, faults, focus_stage, until, view, way


@pytest.fixture(scope="session")
def record(pages):
    return json.loads((pages / "many.json").read_text())


@pytest.fixture(scope="session")
def truth(pages):
    return json.loads((pages / "copies" / "truth.json").read_text())


def inked(page):
    return page.locator("#looking").get_attribute("data-inked")


def chosen(page):
    return [page.locator(f"#the-{rank}").input_value() for rank in ("first", "second")]


def walked(page):
    return page.locator(".places li:not([hidden]) a")


def test_the_settings_are_those_that_were_printed(record, truth):
    setting = [copy["setting"] for copy in truth["copies"]]
    for group in record["settings"]:
        assert len({setting[copy] for copy in group}) == 1
    assert len(record["settings"]) == 2


def test_every_place_is_shown_in_every_copy_of_its_setting(open_page, record):
    page = open_page("many.html")
    articles = page.locator("article.variant")
    assert articles.count() == len(record["variants"])
    for i, variant in enumerate(record["variants"]):
        copies = sum(map(len, variant["readings"])) + len(variant["unclear"])
        assert articles.nth(i).locator("figure").count() == copies
        row = page.locator(".matrix tbody tr").nth(i)
        assert row.locator(".reading").count() == copies
        assert row.locator(".unsure").count() == len(variant["unclear"])
        assert row.locator(".other").count() == sum(map(len, variant["readings"][1:]))


def test_two_that_differ_are_laid_together_at_first(open_page):
    page = open_page("many.html")
    until(page, lambda: inked(page) == " ".join(chosen(page)))
    assert walked(page).count() > 0
    assert page.locator("#count").inner_text().endswith("between these two")
    # The inks are in the colours of the legend: somewhere one stands alone.
    pixels = page.evaluate(
        """() => { const c = document.querySelector('.pane.both canvas');
        const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
        let [first, second, both] = [0, 0, 0];
        for (let i = 0; i < d.length; i += 4) {
          if (d[i] > 150 && d[i + 2] < 70) first++;
          if (d[i] < 60 && d[i + 2] > 90) second++;
          if (d[i] < 60 && d[i + 1] < 60 && d[i + 2] < 60) both++;
        }
        return [first, second, both]; }"""
    )
    assert all(count > 20 for count in pixels[:2]) and pixels[2] > 10 * max(pixels[:2])


def test_other_copies_can_be_chosen(open_page, record):
    page = open_page("many.html")
    group = next(g for groups in record["groups_within"] for g in groups if len(g) > 1)
    first, second = (str(copy + 1) for copy in group[:2])
    page.locator("#the-first").select_option(first)
    page.locator("#the-second").select_option(second)
    until(page, lambda: inked(page) == f"{first} {second}")
    assert walked(page).count() == 0, "of one group, they agree in every place"
    assert page.locator("#count").inner_text().startswith("0 between")
    smaller = record["settings"][1]
    page.locator("#the-first").select_option(str(smaller[0] + 1))
    assert int(chosen(page)[1]) - 1 in smaller, "the second comes from the same setting"
    enabled = page.locator("#the-second option:not([disabled])").count()
    assert enabled == len(smaller) - 1


def test_the_contact_sheet_lays_a_copy_on_the_first(open_page, record):
    page = open_page("many.html")
    first = chosen(page)[0]
    setting = next(s for s in record["settings"] if int(first) - 1 in s)
    other = next(str(c + 1) for c in setting if str(c + 1) not in chosen(page))
    page.locator(f'.take[data-copy="{other}"]').click()
    assert chosen(page) == [first, other]
    until(page, lambda: inked(page) == f"{first} {other}")


def test_a_place_of_the_table_is_shown_with_two_copies_that_differ_there(open_page, record):
    page = open_page("many.html")
    last = len(record["variants"])
    page.locator(f'.matrix a[href="#place-{last}"]').click()
    page.locator(f"#place-{last} h3 a").click()
    readings = record["variants"][-1]["readings"]
    of = {str(copy + 1): i for i, reading in enumerate(readings) for copy in reading}
    first, second = chosen(page)
    assert of[first] != of[second]
    assert page.locator('.places a[aria-current="true"]').get_attribute("data-number") == str(last)
    x, y, w, h = map(float, page.locator('.places a[aria-current="true"]').get_attribute("data-box").split())
    assert view(page)[:2] == pytest.approx([x + w / 2, y + h / 2], abs=2e-3)


def test_the_walk_by_keyboard(open_page):
    page = open_page("many.html")
    focus_stage(page)
    page.keyboard.press("4")
    assert way(page) == "changes"
    for i in range(walked(page).count()):
        assert walked(page).nth(i).get_attribute("aria-current") == "true"
        page.keyboard.press("n")


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280, 2560])
def test_every_width_in_light_and_dark(open_page, shots, width, scheme):
    page = open_page("many.html", width=width, height=844 if width < 1000 else 900, color_scheme=scheme)
    page.evaluate("document.fonts.ready")
    until(page, lambda: inked(page) is not None)
    overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow == 0, "the page must not scroll sideways"
    page.screenshot(path=shots / f"many-{width}-{scheme}.png", full_page=True)
    assert faults(page) == []
    focus_stage(page)
    for key, name in enumerate(WAYS, start=1):
        page.keyboard.press(str(key))
        page.screenshot(path=shots / f"many-{name}-{width}-{scheme}.png")
    assert faults(page) == []


def test_it_prints_as_a_record(open_page, shots):
    page = open_page("many.html")
    page.pdf(path=shots / "many.pdf", format="A4")
    page.emulate_media(media="print")
    assert not page.locator("#looking").is_visible()
    assert page.locator(".matrix").first.is_visible() and page.locator(".contact").first.is_visible()


def test_without_a_script_the_record_is_there(open_page, record):
    page = open_page("many.html", java_script_enabled=False)
    assert not page.locator("#looking").is_visible()
    assert page.locator("article.variant").count() == len(record["variants"])
