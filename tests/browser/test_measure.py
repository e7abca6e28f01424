"""The page of a measured side, looked at and used as a reader would: of a sheet of the virtual press."""

import subprocess

import pytest
from conftest import HOME
from test_page import faults, focus_stage, until, view


@pytest.fixture(scope="session")
def measured(tmp_path_factory):
    """The folder with order-measured.html."""
    folder = tmp_path_factory.mktemp("measured")
    reglet = "cargo run --release --locked --quiet --package reglet --".split()
    for arguments in (
        ["print", "--copies", "2", "--level", "1", "--ppi", "200", "--seed", "5", str(folder / "copies")],
        ["measure", "--quiet", "--ppi", "200", "--page", str(folder / "measured.html"), str(folder / "copies" / "copy-1.jpg")],
    ):
        subprocess.run([*reglet, *arguments], cwd=HOME, check=True, stdin=subprocess.DEVNULL, capture_output=True)
    return folder


@pytest.fixture
def open_measured(open_in, measured):
    return lambda **options: open_in(measured, "measured.html", **options)


def test_the_figure_is_read_first_with_its_doubt(open_measured):
    page = open_measured()
    head = page.locator("h1")
    assert head.inner_text().startswith("Twenty lines of the text measure") and "±" in head.inner_text()
    assert head.bounding_box()["y"] < page.locator("#looking").bounding_box()["y"]
    assert "evidence, not authentication" in page.locator(".cautions").inner_text()


def test_lines_are_traced_and_can_be_taken_away(open_measured):
    page = open_measured()
    lines = page.locator(".traced polyline.over")
    assert lines.count() > 5
    assert page.locator(".traced").is_visible()
    page.get_by_label("draw what was measured").uncheck()
    assert not page.locator(".traced").is_visible()


def test_a_line_of_the_table_is_shown_on_the_photograph(open_measured):
    page = open_measured()
    page.locator("#lines summary").click()
    page.locator("#lines tbody a").nth(3).click()
    until(page, lambda: view(page)[2] > 1.01)
    assert page.locator(".line-mark").is_visible()


def test_it_is_brought_nearer_by_keyboard(open_measured):
    page = open_measured()
    focus_stage(page)
    page.keyboard.press("+")
    until(page, lambda: view(page)[2] > 1.01)
    page.keyboard.press("0")
    until(page, lambda: view(page)[2] < 1.01)


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("color_scheme", ["light", "dark"])
def test_it_stands_on_screens_of_all_sizes(open_measured, shots, width, color_scheme):
    page = open_measured(width=width, height=900, color_scheme=color_scheme)
    page.screenshot(path=shots / f"measured-{width}-{color_scheme}.png", full_page=True)
    assert faults(page) == []
    assert page.evaluate("document.documentElement.scrollWidth") <= width
