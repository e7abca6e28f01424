"""The page of blocks, looked at and used as a reader would: of the invented block of the example `blocks`."""

import pytest
from test_page import WAYS, faults, focus_stage, until, view, way

# The order in which the example's impressions stand, its damages as they came, and what it says of them.
ORDER = ["3", "1", "5", "2", "6", "4"]
CAME = ["1", "2", "4", "3", "6", "5", "7"]


@pytest.fixture
def open_blocks(open_in, blocks):
    return lambda **options: open_in(blocks, "blocks.html", **options)


def inked(page):
    return page.locator("#looking").get_attribute("data-inked")


def chosen(page):
    return [page.locator(f"#the-{rank}").input_value() for rank in ("first", "second")]


def walked(page):
    return page.locator(".places li:not([hidden]) a")


def test_the_verdict_is_read_first_and_what_is_not_placed_has_its_reason(open_blocks):
    page = open_blocks()
    assert page.locator("h1").inner_text() == "Of 7 impressions, 6 agree with\none block; one stands alone.".replace("\n", " ")
    assert page.locator("h1").bounding_box()["y"] < page.locator("#looking").bounding_box()["y"]
    assert "Not placed: 8. No cut was found on it" in page.locator(".reasons").inner_text()
    assert "a block is no clock" in page.locator(".cautions").inner_text()


def test_the_earliest_and_what_differs_most_from_it_are_together_at_first(open_blocks):
    page = open_blocks()
    until(page, lambda: inked(page) == " ".join(chosen(page)))
    assert chosen(page) == ["3", "4"]
    assert walked(page).count() == 6
    pixels = page.evaluate(
        """() => { const c = document.querySelector('.pane.both canvas');
        const d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data;
        let [first, both] = [0, 0];
        for (let i = 0; i < d.length; i += 4) {
          if (d[i] > 150 && d[i + 2] < 70) first++;
          if (d[i] < 60 && d[i + 1] < 60 && d[i + 2] < 60) both++;
        }
        return [first, both]; }"""
    )
    assert pixels[0] > 100 and pixels[1] > 1000, "what was lost is ochre, what both have black"


def test_other_impressions_are_chosen_by_keyboard(open_blocks):
    page = open_blocks()
    until(page, lambda: inked(page) is not None)
    page.locator("#the-second").focus()
    page.keyboard.press("Home")
    page.keyboard.press("ArrowDown")
    first, second = chosen(page)
    assert second != "4" and second != first
    until(page, lambda: inked(page) == f"{first} {second}")
    focus_stage(page)
    for key, name in enumerate(WAYS, start=1):
        page.keyboard.press(str(key))
        assert way(page) == name
    page.keyboard.press("n")
    assert page.locator('.places a[aria-current="true"]').count() == 1


def test_the_film_strip_lays_an_impression_on_the_first(open_blocks):
    page = open_blocks()
    first = chosen(page)[0]
    page.locator('.take[data-copy="5"]').click()
    assert chosen(page) == [first, "5"]
    until(page, lambda: inked(page) == f"{first} 5")


def test_a_damage_of_the_table_is_shown_on_two_that_differ_there(open_blocks):
    page = open_blocks()
    page.locator("#damage-1-7 .see").click()
    current = page.locator('.places a[aria-current="true"]')
    assert current.get_attribute("data-label") == "7"
    assert "4" in chosen(page), "the only one that shows it"
    x, y, w, h = map(float, current.get_attribute("data-box").split())
    assert view(page)[:2] == pytest.approx([x + w / 2, y + h / 2], abs=2e-3)
    assert view(page)[2] > 1.5, "brought nearer"


def test_numbers_on_the_picture_and_in_the_table_lead_to_each_other(open_blocks):
    page = open_blocks()
    page.locator("#mark-1-5 .ring").click()
    assert page.url.endswith("#damage-1-5")
    until(page, lambda: page.locator("#damage-1-5").bounding_box()["y"] < 800)
    page.locator("#damage-1-5 .ring").focus()
    page.keyboard.press("Enter")
    assert page.url.endswith("#mark-1-5")
    box = page.locator("#mark-1-5 .around").bounding_box()
    assert 0 < box["y"] < 800, "the damage is in view"


def test_no_number_lies_on_a_damage(open_blocks):
    for width in (1280, 390):
        page = open_blocks(width=width)
        boxes = [page.locator(".around").nth(i).bounding_box() for i in range(7)]
        rings = [page.locator(".mark .ring").nth(i).bounding_box() for i in range(7)]
        for a in rings:
            for b in boxes:
                apart = a["x"] + a["width"] <= b["x"] or b["x"] + b["width"] <= a["x"]
                assert apart or a["y"] + a["height"] <= b["y"] or b["y"] + b["height"] <= a["y"]


def test_the_picture_of_order(open_blocks):
    page = open_blocks()
    heads = page.locator(".staircase .heads b")
    assert heads.all_inner_texts() == ORDER
    tied = page.locator(".staircase .ranks .tied")
    assert tied.count() == 1 and tied.get_attribute("colspan") == "2"
    rows = page.locator(".staircase tbody tr")
    assert [rows.nth(i).locator(".ring").inner_text().split()[-1] for i in range(rows.count())] == CAME
    # Of damage 3, the fourth row: whole, whole, not clear, then there.
    signs = rows.nth(3).locator("td .sign")
    classes = [signs.nth(i).get_attribute("class").split()[-1] for i in range(signs.count())]
    assert classes == ["absent", "absent", "unclear", "present", "present", "present"]
    assert page.locator(".staircase td.odd .dagger").count() >= 1
    against = page.locator("aside.against", has_text="No order explains").inner_text()
    assert "damage 5 is not seen in impression 6" in against
    assert rows.locator("td .crop img").count() == 6 * 7


def test_the_chances_open_by_keyboard(open_blocks):
    page = open_blocks()
    summary = page.locator("summary", has_text="How likely each was printed")
    summary.focus()
    page.keyboard.press("Enter")
    cells = page.locator(".chances tbody tr").first.locator("td").all_inner_texts()
    assert len(cells) == 6 and int(cells[-1].split()[0]) > 90, "the earliest before the latest"


def test_both_answers_are_drawn_and_tabled(open_blocks):
    page = open_blocks()
    row = page.locator(".year-table tbody tr").nth(2)
    assert row.locator("th").inner_text() == "5"
    for cell in (2, 3):
        words = row.locator("td").nth(cell - 1).inner_text()
        assert "50\u00a0%" in words and "95\u00a0%" in words
    assert page.locator("svg.wide-plot").is_visible() and not page.locator("svg.narrow-plot").is_visible()
    described = page.locator("svg.wide-plot desc").text_content()
    assert "Impression 5, by the order alone" in described and "Impression 5, with the rate" in described
    assert "Scholars disagree" in page.locator(".dates").inner_text()
    assert not open_blocks(width=390).locator("svg.wide-plot").is_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 1280, 2560])
def test_every_width_in_light_and_dark(open_blocks, shots, width, scheme):
    page = open_blocks(width=width, height=844 if width < 1000 else 900, color_scheme=scheme)
    page.evaluate("document.fonts.ready")
    until(page, lambda: inked(page) is not None)
    overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow == 0, "the page must not scroll sideways"
    for details in page.locator("details").all():
        details.evaluate("d => { d.open = true; }")
    page.screenshot(path=shots / f"blocks-{width}-{scheme}.png", full_page=True)
    assert faults(page) == []
    overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow == 0, "nor with everything opened"


def test_it_prints_as_a_record(open_blocks, shots):
    page = open_blocks()
    page.pdf(path=shots / "blocks.pdf", format="A4")
    page.emulate_media(media="print")
    assert not page.locator("#looking").is_visible()
    for part in (".plate", ".staircase", ".film", "svg.wide-plot", ".year-table", ".chances"):
        assert page.locator(part).first.is_visible(), part


def test_without_a_script_everything_but_the_stage_is_there(open_blocks):
    page = open_blocks(java_script_enabled=False)
    assert not page.locator("#looking").is_visible() and not page.locator(".see").first.is_visible()
    assert page.locator(".staircase .crop img").count() == 6 * 7
    assert page.locator(".film figure img").count() == 6
    page.locator("#mark-1-2 .ring").click()
    assert page.url.endswith("#damage-1-2")


def test_the_plates_and_their_list(blocks):
    names = {plate.name for plate in (blocks / "plates").glob("*.png")}
    assert {"block-1.png", "block-1-order.png", "block-1-states.png", "block-1-years.png"} <= names
    assert len([name for name in names if "-damage-" in name]) == 7
    listed = (blocks / "plates" / "plates.txt").read_text()
    assert all(name in listed for name in names)


def test_the_drawing_of_years_stands_by_itself(open_in, blocks):
    page = open_in(blocks, "years.svg")
    assert page.evaluate("document.documentElement.tagName") == "svg"
    assert page.evaluate("document.querySelectorAll('text').length") > 12
