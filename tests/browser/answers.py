"""How soon a page answers: `python tests/browser/answers.py PAGE.html [...]`. A measurement, not a test.

Of each key: milliseconds from its event until the frame after it has been drawn, the median and the longest of ten. Of a
page of many copies also from the choice of another copy until both inks are drawn together.
"""

import os
import pathlib
import shutil
import statistics
import sys

from playwright.sync_api import sync_playwright

KEYS = ["1", "2", "3", "4", "n", "+", "ArrowRight", "ArrowDown", "-", "0"]
WATCH = """() => {
  window.answers = [];
  const stage = document.querySelector('.stage');
  stage.addEventListener('keydown', () => {
    const from = performance.now();
    requestAnimationFrame(() => setTimeout(() => window.answers.push(performance.now() - from)));
  }, { capture: true });
  stage.focus();
}"""


CHOOSE = """async () => {
  const looking = document.getElementById('looking');
  const second = document.getElementById('the-second');
  const found = [];
  const copies = [...second.options].filter((option) => !option.disabled).slice(0, 10);
  for (const { value } of copies) {
    if (value === second.value) continue;
    const from = performance.now();
    const inked = new Promise((done) => new MutationObserver((_, watch) => {
      if (!looking.dataset.inked.endsWith(' ' + value)) return;
      watch.disconnect();
      requestAnimationFrame(() => setTimeout(done));
    }).observe(looking, { attributes: true, attributeFilter: ['data-inked'] }));
    second.value = value;
    second.dispatchEvent(new Event('change'));
    await inked;
    found.push(performance.now() - from);
    await new Promise((done) => setTimeout(done, 60));
  }
  return found;
}"""


def measure(browser, path):
    page = browser.new_page(viewport={"width": 1280, "height": 900})
    page.goto(pathlib.Path(path).resolve().as_uri())
    opened = page.evaluate("performance.getEntriesByType('navigation')[0].loadEventEnd")
    page.wait_for_timeout(1500)
    page.evaluate(WATCH)
    print(f"{path}: open after {opened:.0f} ms")
    for key in KEYS:
        page.evaluate("window.answers = []")
        for _ in range(10):
            page.keyboard.press(key)
            page.wait_for_timeout(60)
        found = page.evaluate("window.answers")
        print(f"  {key:10} {statistics.median(found):6.1f} ms, at most {max(found):6.1f}")
    if page.locator("#the-second").count():
        found = page.evaluate(CHOOSE)
        print(f"  {'a copy':10} {statistics.median(found):6.1f} ms, at most {max(found):6.1f}")
    page.close()


def main():
    program = os.environ.get("REGLET_CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as playwright:
        flags = ["--disable-gpu"] + (["--no-sandbox"] if os.geteuid() == 0 else [])
        browser = playwright.chromium.launch(executable_path=program, args=flags)
        for path in sys.argv[1:]:
            measure(browser, path)
        browser.close()


main()
