"""The page of a comparison, looked at and used as a reader would."""

import io

import pytest
from PIL import Image, ImageChops, ImageStat
from axe_playwright_python.sync_playwright import Axe

WAYS = ["together", "turns", "apart", "changes"]
# What axe-core calls by these tags are the success criteria of WCAG 2.2, levels A and AA.
RULES = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}}


def way(page):
    return page.locator("#looking").get_attribute("data-way")


def view(page):
    """Where the middle of the windows lies on the frame (two shares), and how near (1 = the whole side)."""
    return [float(v) for v in page.locator("#looking").get_attribute("data-view").split()]


def seen(page):
    return [name for name in ("first", "second", "both") if page.locator(f".pane.{name} .layer > img").is_visible()]


def until(page, holds, seconds=5):
    """Waits for something that comes after a moment: a wheel's turn, a timer."""
    for _ in range(seconds * 20):
        if holds():
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"did not come true within {seconds} s")


def focus_stage(page):
    page.locator(".stage").focus()


def middle_of(page, selector):
    box = page.locator(selector).bounding_box()
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def faults(page):
    found = Axe().run(page, options=RULES).response["violations"]
    return [(v["id"], [n["html"][:120] for n in v["nodes"]]) for v in found]


def test_the_verdict_is_read_first(open_page):
    page = open_page()
    assert page.locator("h1").inner_text() .startswith("Both impressions agree with one setting")
    assert page.locator("h1").bounding_box()["y"] < page.locator("#looking").bounding_box()["y"]
    assert "Plates cast from one setting" in page.locator(".cautions").inner_text()


def test_a_file_name_with_markup_in_it_is_shown_as_it_is(open_page):
    page = open_page()
    assert page.locator(".file").first.inner_text() == "aldermouth-order-1671 <copy & one>.jpg"


def test_each_way_shows_its_photographs(open_page):
    page = open_page()
    focus_stage(page)
    shown = {}
    for key, name in enumerate(WAYS, start=1):
        page.keyboard.press(str(key))
        assert way(page) == name
        assert page.locator(f'.ways input[value="{name}"]').is_checked()
        shown[name] = seen(page)
    assert shown == {
        "together": ["both"],
        "turns": ["first"],
        "apart": ["first", "second"],
        "changes": ["first", "second", "both"],
    }


def test_the_ways_are_radio_buttons(open_page):
    page = open_page()
    page.locator('.ways input[value="together"]').focus()
    page.keyboard.press("ArrowRight")
    assert way(page) == "turns"
    page.locator("label", has_text="apart").click()
    assert way(page) == "apart"


def test_space_and_the_button_turn_to_the_other(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("2")
    assert seen(page) == ["first"]
    page.keyboard.press("Space")
    assert seen(page) == ["second"]
    page.locator("#other").click()
    assert seen(page) == ["first"]


def test_turning_by_itself_can_be_stopped(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("2")
    page.locator("#by-itself").click()
    until(page, lambda: seen(page) == ["second"])
    page.locator("#by-itself").click()
    before = seen(page)
    page.wait_for_timeout(1500)
    assert seen(page) == before
    assert page.locator("#by-itself").get_attribute("aria-pressed") == "false"


def test_the_walk_goes_round_and_centres_each_place(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("4")
    links = page.locator(".places a")
    count = links.count()
    assert count == 4
    for i in range(count):
        assert links.nth(i).get_attribute("aria-current") == "true"
        assert page.locator("#said").inner_text().startswith(f"Place {i + 1} of {count}: ")
        x, y, w, h = (float(v) for v in links.nth(i).get_attribute("data-box").split())
        at_x, at_y, near = view(page)
        assert (at_x, at_y) == pytest.approx((x + w / 2, y + h / 2), abs=2e-4)
        # The place is boxed and in the middle of every window, wholly in view.
        for name in ("first", "second", "both"):
            mark = middle_of(page, f".pane.{name} .place.current")
            assert mark == pytest.approx(middle_of(page, f".pane.{name} .window"), abs=2)
            window = page.locator(f".pane.{name} .window").bounding_box()
            box = page.locator(f".pane.{name} .place.current").bounding_box()
            assert box["width"] <= window["width"] and box["height"] <= window["height"]
        page.keyboard.press("n")
    assert links.nth(0).get_attribute("aria-current") == "true", "after the last comes the first"
    page.keyboard.press("p")
    assert links.nth(count - 1).get_attribute("aria-current") == "true"
    links.nth(1).click()
    assert links.nth(1).get_attribute("aria-current") == "true"


def test_keys_do_nothing_outside_the_photographs(open_page):
    page = open_page()
    page.locator(".lines a").first.focus()
    page.keyboard.press("4")
    assert way(page) == "together"


def test_zoom_and_pan_by_keyboard(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("+")
    page.keyboard.press("+")
    assert view(page)[2] == pytest.approx(2.25, abs=1e-3)
    x, y, _ = view(page)
    for key in ("ArrowRight", "ArrowDown"):
        page.keyboard.press(key)
    assert view(page)[0] > x and view(page)[1] > y
    page.keyboard.press("-")
    assert view(page)[2] == pytest.approx(1.5, abs=1e-3)
    page.keyboard.press("0")
    assert view(page) == [0.5, 0.5, 1.0]


def test_apart_moves_as_one(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("3")
    x, y = middle_of(page, ".pane.second .window")
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.up()
    page.mouse.wheel(0, -600)
    until(page, lambda: view(page)[2] > 1.5)
    before = page.locator(".pane.first .layer").bounding_box()
    page.mouse.down()
    page.mouse.move(x - 60, y - 40, steps=4)
    page.mouse.up()
    after = page.locator(".pane.first .layer").bounding_box()
    assert (after["x"] - before["x"], after["y"] - before["y"]) == pytest.approx((-60, -40), abs=1)


def test_the_wheel_holds_the_place_under_the_pointer(open_page):
    page = open_page()
    focus_stage(page)
    place = page.locator(".pane.both .place").nth(1)
    spot = place.bounding_box()
    page.mouse.move(spot["x"], spot["y"])
    page.mouse.wheel(0, -500)
    until(page, lambda: view(page)[2] > 1.5)
    now = place.bounding_box()
    assert (now["x"], now["y"]) == pytest.approx((spot["x"], spot["y"]), abs=1.5)


def test_the_wheel_scrolls_the_page_until_the_photograph_has_been_pressed(open_page):
    page = open_page()
    page.mouse.move(*middle_of(page, ".pane.both .window"))
    page.mouse.wheel(0, 300)
    until(page, lambda: page.evaluate("window.scrollY") > 0)
    assert view(page)[2] == 1.0


def test_a_press_brings_a_place_to_the_middle_without_dragging(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("+")
    page.keyboard.press("+")
    x, y = middle_of(page, ".pane.both .window")
    page.mouse.click(x + 80, y + 50)
    at_x, at_y, _ = view(page)
    assert at_x > 0.5 and at_y > 0.5


def test_two_fingers_bring_it_nearer(open_page):
    page = open_page(width=390, height=844, has_touch=True, is_mobile=True)
    page.locator("#looking").scroll_into_view_if_needed()
    x, y = middle_of(page, ".pane.both .window")
    session = page.context.new_cdp_session(page)

    def touch(kind, spread):
        points = [] if spread is None else [{"x": x - spread, "y": y, "id": 1}, {"x": x + spread, "y": y, "id": 2}]
        session.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})

    touch("touchStart", 30)
    for spread in (45, 60, 75, 90):
        touch("touchMove", spread)
    touch("touchEnd", None)
    assert view(page)[2] == pytest.approx(3.0, rel=0.1)


def test_tiles_are_brought_where_they_are_looked_at_and_let_go(open_page):
    page = open_page()
    tiles = page.locator(".pane.both .tiles img")
    assert tiles.count() == 0, "the whole side is seen without them"
    focus_stage(page)
    for _ in range(4):
        page.keyboard.press("+")
    until(page, lambda: tiles.count() > 0)
    layer = page.locator(".pane.both .layer").bounding_box()
    window = page.locator(".pane.both .window").bounding_box()
    # The picture is 2700 by 3600 pixels, in six columns and eight rows.
    assert tiles.count() < 48
    covered = []
    for tile in tiles.all():
        until(page, lambda tile=tile: tile.evaluate("t => t.complete"))
        assert tile.evaluate("t => t.naturalWidth") in (512, 2700 - 5 * 512)
        box = tile.bounding_box()
        column = round((box["x"] - layer["x"]) / layer["width"] * 2700 / 512, 3)
        row = round((box["y"] - layer["y"]) / layer["height"] * 3600 / 512, 3)
        assert (column, row) == pytest.approx((round(column), round(row)), abs=0.01)
        covered.append(box)
    assert min(b["x"] for b in covered) <= window["x"] + 1 and min(b["y"] for b in covered) <= window["y"] + 1
    assert max(b["x"] + b["width"] for b in covered) >= window["x"] + window["width"] - 1
    page.keyboard.press("0")
    until(page, lambda: tiles.count() == 0)


def test_a_tile_shows_what_the_whole_shows(open_page):
    """The box of a changed sort lies on the same ink, seen from afar and close by."""
    page = open_page()
    focus_stage(page)
    page.keyboard.press("4")
    page.keyboard.press("n")
    until(page, lambda: page.locator(".pane.first .tiles img").count() > 0)
    hidden = "document.querySelectorAll('.tiles').forEach(t => t.style.visibility = 'hidden')"
    page.locator("#boxes").uncheck()
    page.wait_for_timeout(300)
    window = page.locator(".pane.first .window")
    fine = Image.open(io.BytesIO(window.screenshot())).convert("L")
    page.evaluate(hidden)
    coarse = Image.open(io.BytesIO(window.screenshot())).convert("L")
    off = ImageStat.Stat(ImageChops.difference(fine, coarse)).mean[0]
    assert off < 6, off


def test_the_straight_edge_and_the_map_of_the_residual(open_page):
    page = open_page()
    assert page.locator(".edges figure").count() == 2
    assert "In 1 of the 23 lines" in page.locator(".edges figcaption").first.inner_text()
    assert page.locator(".edges .strip .off b").first.inner_text() == "0.44 mm"
    page.locator(".edges figcaption a").first.click()
    assert view(page)[0] == pytest.approx(0.3, abs=2e-3)
    assert "465 patches" in page.locator("svg.map").get_attribute("aria-label")


def edge(page):
    return [float(v) for end in page.locator("#looking").get_attribute("data-edge").split(",") for v in end.split()]


def test_a_straight_edge_is_laid_through_two_places_and_lies_in_one_place_over_both(open_page):
    page = open_page()
    focus_stage(page)
    page.keyboard.press("3")
    page.keyboard.press("e")
    assert page.locator("#edge").get_attribute("aria-pressed") == "true"
    x1, y1, x2, y2 = edge(page)
    assert x1 == x2 and y1 < y2, "it lies upright at first"
    window = page.locator(".pane.first .window").bounding_box()
    layer = page.locator(".pane.first .layer").bounding_box()
    points = [(layer["x"] + 0.3 * layer["width"], window["y"] + 90), (layer["x"] + 0.6 * layer["width"], window["y"] + 400)]
    for point in points:
        page.mouse.click(*point)
    shares = [[(x - layer["x"]) / layer["width"], (y - layer["y"]) / layer["height"]] for x, y in points]
    assert edge(page) == pytest.approx(shares[0] + shares[1], abs=2e-3)
    # The line runs through both on either photograph, from one side of the frame to the other.
    for pane in ("first", "second"):
        line = page.locator(f".pane.{pane} .laid-edge .over")
        ends = [float(line.get_attribute(name)) for name in ("x1", "y1", "x2", "y2")]
        assert {ends[1], ends[3]} == {0, 1} or {ends[0], ends[2]} == {0, 1}
        for x, y in shares:
            across = (x - ends[0]) * (ends[3] - ends[1]) - (y - ends[1]) * (ends[2] - ends[0])
            assert abs(across) < 3e-3
    before = edge(page)
    page.locator(".stage").focus()
    page.keyboard.press("]")
    after = edge(page)
    assert after[0] > before[0] and after[2] - after[0] == pytest.approx(before[2] - before[0], abs=2e-4)
    page.keyboard.press("{")
    assert edge(page)[2] < after[2] and edge(page)[0] == after[0]
    page.locator("#edge").click()
    assert page.locator(".laid-edge:visible").count() == 0
    assert page.locator("#looking").get_attribute("data-edge") == ""


def test_a_line_of_the_table_is_shown_on_the_photograph(open_page):
    page = open_page()
    page.locator('.lines a[data-line="3"]').click()
    x, y, w, h = (float(v) for v in page.locator('.lines a[data-line="3"]').get_attribute("data-box").split())
    assert view(page)[1] == pytest.approx(y + h / 2, abs=2e-4)
    assert page.locator(".pane.both .line-mark").is_visible()


def test_lines_that_could_not_be_judged_open_on_demand(open_page):
    page = open_page()
    aside = page.locator('.lines a[data-line="24"]')
    assert not aside.is_visible()
    page.locator(".lines summary").click()
    assert aside.is_visible()


def test_the_boxes_can_be_taken_away(open_page):
    page = open_page()
    place = page.locator(".pane.both .place").first
    assert place.is_visible()
    page.locator("#boxes").uncheck()
    assert not place.is_visible()


def test_without_a_script_everything_is_there(open_page):
    page = open_page(java_script_enabled=False)
    assert seen(page) == ["first", "second", "both"]
    assert page.locator(".places a").count() == 4
    assert not page.locator(".bar").is_visible()


def test_two_that_could_not_be_laid_stand_apart(open_page):
    page = open_page("apart.html")
    assert seen(page) == ["first", "second"]
    assert page.locator(".ways").count() == 0
    focus_stage(page)
    page.keyboard.press("4")
    assert way(page) == "apart"


def test_a_page_without_pictures_has_no_stage(open_page):
    page = open_page("bare.html")
    assert "nothing to look at" in page.locator(".nothing").inner_text()
    assert page.locator(".stage").count() == 0


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [390, 768, 1280, 2560])
def test_every_width_in_light_and_dark(open_page, shots, width, scheme):
    page = open_page(width=width, height=844 if width < 1000 else 900, color_scheme=scheme)
    page.evaluate("document.fonts.ready")
    overflow = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    assert overflow == 0, "the page must not scroll sideways"
    page.screenshot(path=shots / f"page-{width}-{scheme}.png", full_page=True)
    assert faults(page) == []
    page.evaluate("document.getElementById('looking').scrollIntoView()")
    focus_stage(page)
    for key, name in enumerate(WAYS, start=1):
        page.keyboard.press(str(key))
        page.screenshot(path=shots / f"{name}-{width}-{scheme}.png")
    assert faults(page) == []


@pytest.mark.parametrize("name", ["apart.html", "bare.html"])
def test_the_lesser_pages_are_accessible_too(open_page, shots, name):
    page = open_page(name)
    page.screenshot(path=shots / f"{name.removesuffix('.html')}-1280.png", full_page=True)
    assert faults(page) == []


def test_what_can_be_pressed_is_large_enough(open_page):
    """WCAG 2.2, 2.5.8: at least 24 by 24 CSS pixels, text links in sentences excepted."""
    page = open_page(width=390, height=844)
    sizes = page.eval_on_selector_all(
        "button:not([hidden]), .ways label, .toggle label, summary, .places a, .lines th a",
        "all => all.filter(e => e.offsetParent).map(e => [e.textContent.trim(), e.offsetWidth, e.offsetHeight])",
    )
    assert len(sizes) > 10
    assert [s for s in sizes if s[1] < 24 or s[2] < 24] == []


@pytest.mark.parametrize("key", ["1", "2", "3", "4"])
def test_it_prints_whole_whatever_is_seen(open_page, shots, key):
    page = open_page(color_scheme="dark")
    focus_stage(page)
    page.keyboard.press(key)
    page.pdf(path=shots / f"page-{key}.pdf", format="A4")
    page.emulate_media(media="print", color_scheme="dark")
    assert seen(page) == ["first", "second", "both"]
    assert not page.locator(".bar").is_visible()
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    for name in ("first", "second", "both"):
        box = page.locator(f".pane.{name} .layer > img").bounding_box()
        assert box["width"] / box["height"] == pytest.approx(900 / 1200, rel=0.01)
