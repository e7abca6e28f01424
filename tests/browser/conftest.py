"""The pages of Reglet in a real browser.

That of two copies is written by the example `page` of the crate `publish`, that of blocks by its example `blocks`, that of
many by `reglet compare` itself, of copies from the virtual press; Debian's chromium is driven by Playwright. Where
either cannot be had the tests are skipped and say so, unless REGLET_CHROMIUM is set, as the test command sets it.
Screenshots go to target/screenshots.
"""

import os
import pathlib
import shutil
import subprocess

import pytest
from playwright.sync_api import sync_playwright

HOME = pathlib.Path(__file__).resolve().parents[2]
SHOTS = HOME / "target" / "screenshots"
# Nothing but the page itself: chromium's own calls to the network are turned off.
FLAGS = [
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser():
    program = os.environ.get("REGLET_CHROMIUM") or shutil.which("chromium")
    if not program:
        pytest.skip("no chromium: install it or set REGLET_CHROMIUM")
    # Chromium refuses its sandbox to root, as whom a test machine may run it.
    flags = FLAGS + (["--no-sandbox"] if os.geteuid() == 0 else [])
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=flags)
        yield browser
        browser.close()


@pytest.fixture(scope="session")
def pages(tmp_path_factory):
    """The folder with page.html, apart.html (not laid together), bare.html (no pictures) and many.html (nine copies)."""
    folder = tmp_path_factory.mktemp("pages")
    command = "cargo run --release --locked --quiet --package publish --example page --".split()
    subprocess.run([*command, str(folder)], cwd=HOME, check=True, stdin=subprocess.DEVNULL)
    reglet = "cargo run --release --locked --quiet --package reglet --".split()
    copies = folder / "copies"
    for arguments in (
        ["print", "--copies", "9", "--level", "0", "--ppi", "200", "--seed", "3", str(copies)],
        ["compare", "--quiet", "--page", str(folder / "many.html"), "--json", str(folder / "many.json"), str(copies)],
    ):
        subprocess.run([*reglet, *arguments], cwd=HOME, check=True, stdin=subprocess.DEVNULL, capture_output=True)
    return folder


@pytest.fixture(scope="session")
def blocks(tmp_path_factory):
    """The folder with blocks.html (six impressions of an invented block and one of another), years.svg and plates."""
    folder = tmp_path_factory.mktemp("blocks")
    command = "cargo run --release --locked --quiet --package publish --example blocks_page --".split()
    subprocess.run([*command, str(folder)], cwd=HOME, check=True, stdin=subprocess.DEVNULL, capture_output=True)
    return folder


@pytest.fixture
def open_page(open_in, pages):
    """Opens one of the pages."""
    return lambda name="page.html", **options: open_in(pages, name, **options)


@pytest.fixture
def open_in(browser):
    """Opens a page of a folder; fails the test if the page logs anything or asks for anything but itself."""
    contexts, trouble = [], []

    def open_one(folder, name, width=1280, height=800, **options):
        options = {"color_scheme": "light", "reduced_motion": "reduce"} | options
        context = browser.new_context(viewport={"width": width, "height": height}, **options)
        contexts.append(context)
        page = context.new_page()
        page.on("console", lambda message: trouble.append(f"console: {message.text}"))
        page.on("pageerror", lambda error: trouble.append(f"error: {error}"))
        page.on(
            "request",
            lambda request: request.url.startswith(("file:", "data:")) or trouble.append(f"request: {request.url}"),
        )
        page.goto((folder / name).as_uri())
        return page

    yield open_one
    for context in contexts:
        context.close()
    assert not trouble, trouble


@pytest.fixture(scope="session")
def shots():
    SHOTS.mkdir(parents=True, exist_ok=True)
    return SHOTS
