// Of many copies, or of the impressions of blocks: which two are laid together.
(() => {
  const looking = document.getElementById("looking");
  if (!looking) return;
  const noun = looking.dataset.noun;
  const choice = { first: document.getElementById("the-first"), second: document.getElementById("the-second") };
  const photograph = (copy) => document.querySelector(`.take[data-copy="${copy}"] img`);
  const settingOf = (copy) => choice.first.querySelector(`option[value="${copy}"]`)?.dataset.setting;
  const items = [...looking.querySelectorAll(".places li")].map((item) => ({
    item,
    readings: new Map(item.dataset.readings.split(" ").map((pair) => pair.split(":"))),
  }));

  // ---- both inks, in their colours ----

  const FIRST = [180, 97, 15];
  const SECOND = [11, 100, 112];
  const BOTH = [42, 38, 35];
  const PAPER = [252, 250, 244];
  // The colour of so much ink in the first and so much in the second, of fifteen, as a pixel of a canvas.
  const colours = new Uint32Array(256);
  for (let p = 0; p < 16; p++) {
    for (let q = 0; q < 16; q++) {
      const shared = Math.min(p, q) / 15;
      const [first, second, paper] = [p / 15 - shared, q / 15 - shared, 1 - Math.max(p, q) / 15];
      const [r, g, b] = [0, 1, 2].map((k) => Math.round(paper * PAPER[k] + shared * BOTH[k] + first * FIRST[k] + second * SECOND[k]));
      colours[(p << 4) | q] = (255 << 24) | (b << 16) | (g << 8) | r;
    }
  }
  // The ink of a copy, two pixels to a byte.
  async function unpacked(copy) {
    const packed = document.getElementById(`ink-${copy}`);
    const text = packed.textContent;
    const bytes = Uint8Array.fromBase64?.(text) ?? Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
    const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate"));
    const ink = new Uint8Array(await new Response(stream).arrayBuffer());
    return { width: Number(packed.dataset.width), height: Number(packed.dataset.height), ink };
  }
  // Of the two that are looked at one stays, mostly; those looked at last are ready.
  const KEPT = 12;
  const kept = new Map();
  function ink(copy) {
    const one = kept.get(copy) ?? unpacked(copy);
    kept.delete(copy);
    kept.set(copy, one);
    if (kept.size > KEPT) kept.delete(kept.keys().next().value);
    return one;
  }
  const together = looking.querySelector(".pane.both canvas");
  let latest = 0;
  async function colour(first, second) {
    const mine = ++latest;
    const [a, b] = await Promise.all([ink(first), ink(second)]);
    if (mine !== latest) return;
    const out = new ImageData(a.width, a.height);
    const pixels = new Uint32Array(out.data.buffer);
    for (let i = 0; i < a.ink.length; i++) {
      const p = a.ink[i];
      const q = b.ink[i];
      pixels[2 * i] = colours[(p & 240) | (q >> 4)];
      // Beyond the last of an odd number nothing is written.
      pixels[2 * i + 1] = colours[((p & 15) << 4) | (q & 15)];
    }
    [together.width, together.height] = [a.width, a.height];
    together.getContext("2d").putImageData(out, 0, 0);
    looking.dataset.inked = `${first} ${second}`;
  }

  // ---- the choice ----

  function take(first, second) {
    const setting = settingOf(first);
    if (settingOf(second) !== setting || second === first) second = other(first, setting);
    choice.first.value = first;
    choice.second.value = second;
    for (const option of choice.second.options) option.disabled = option.dataset.setting !== setting || option.value === first;
    for (const [rank, copy] of [["first", first], ["second", second]]) {
      const pane = looking.querySelector(`.pane.${rank}`);
      pane.querySelector("img").src = photograph(copy).src;
      pane.querySelector("img").alt = `The ${rank}: ${noun} ${copy}`;
      pane.querySelector(".chosen").textContent = choice[rank].selectedOptions[0].textContent;
    }
    let [differ, unclear] = [0, 0];
    items.forEach(({ item, readings }, i) => {
      const [a, b] = [readings.get(first), readings.get(second)];
      const unsure = a === "?" || b === "?";
      const shown = item.dataset.setting === setting && a !== undefined && b !== undefined && (unsure || a !== b);
      differ += shown && !unsure;
      unclear += shown && unsure;
      item.hidden = !shown;
      item.querySelector("em").hidden = !unsure;
      for (const mark of looking.querySelectorAll(`.place[data-number="${i + 1}"]`)) {
        mark.hidden = !shown;
        mark.classList.toggle("doubtful", unsure);
      }
    });
    document.getElementById("count").textContent = `${differ} between these two${unclear ? `, and ${unclear} not clear` : ""}`;
    const { naturalWidth, naturalHeight, width, height } = photograph(first);
    const frame = { width: naturalWidth || width, height: naturalHeight || height };
    looking.dispatchEvent(new CustomEvent("reframe", { detail: frame }));
    return colour(first, second);
  }

  // The copy to lay on another: one that differs from it where one does.
  function other(first, setting) {
    const all = [...choice.first.options].filter((o) => o.dataset.setting === setting && o.value !== first).map((o) => o.value);
    const apart = (copy) => items.filter(({ readings }) => readings.has(first) && readings.has(copy) && readings.get(first) !== readings.get(copy)).length;
    return all.reduce((best, copy) => (apart(copy) > apart(best) ? copy : best), all[0]);
  }

  choice.first.addEventListener("change", () => take(choice.first.value, choice.second.value));
  choice.second.addEventListener("change", () => take(choice.first.value, choice.second.value));
  for (const button of document.querySelectorAll(".take")) {
    const copy = button.dataset.copy;
    if (!settingOf(copy)) {
      button.disabled = true;
      continue;
    }
    button.title = `Lay this ${noun} on the first`;
    button.addEventListener("click", () => {
      const first = choice.first.value;
      take(settingOf(copy) === settingOf(first) && copy !== first ? first : copy, copy);
      looking.scrollIntoView();
    });
  }
  // A place of the tables, on the photographs: with two copies that differ there.
  for (const link of document.querySelectorAll("[data-place]")) {
    link.hidden = false;
    link.addEventListener("click", (event) => {
      event.preventDefault();
      const { item, readings } = items[Number(link.dataset.place) - 1];
      const [first, second] = [choice.first.value, choice.second.value];
      if (item.hidden) {
        const known = [...readings].filter(([, reading]) => reading !== "?");
        const [a] = known.find(([, reading]) => reading === "a") ?? known[0];
        const [b] = known.find(([, reading]) => reading !== readings.get(a)) ?? known[1] ?? [second];
        take(a, b);
      } else take(first, second);
      looking.scrollIntoView();
      item.querySelector("a").click();
    });
  }
  const start = choice.first.options[0].value;
  take(start, start);
})();
