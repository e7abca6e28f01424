"use strict";
// Looking at two photographs together. One view serves every window: where its middle lies on the frame
// of the first photograph (shares of width and height), and how near it is (1 = the whole side fits).
(() => {
  const looking = document.getElementById("looking");
  if (!looking) return;
  const stage = looking.querySelector(".stage");
  const panes = [...looking.querySelectorAll(".pane")].map((pane) => {
    const layer = pane.querySelector(".layer");
    const [whole, ...finer] = layer.dataset.sizes.split(" ").map((size) => size.split("x").map(Number));
    const name = ["first", "second", "both"].find((name) => pane.classList.contains(name));
    return {
      pane,
      layer,
      window: pane.querySelector(".window"),
      shape: whole[0] / whole[1],
      whole: whole[0],
      pixels: (finer[0] ?? whole)[0],
      finer,
      block: document.querySelector(`script.tiles[data-of="${name}"]`),
      tiles: layer.querySelector(".tiles"),
      shown: new Map(),
    };
  });
  const all = [...looking.querySelectorAll(".places a")];
  // Of many copies only the places in which the two that are chosen differ are walked through.
  let places = all;
  const button = (id) => document.getElementById(id);
  const view = { x: 0.5, y: 0.5, k: 1 };
  const keep = (value, low, high) => Math.min(Math.max(value, low), high);
  looking.classList.add("moving");
  looking.dataset.seen = "first";

  // ---- the view ----

  const seen = () => panes.filter((p) => p.window.clientWidth > 0 && getComputedStyle(p.pane).visibility !== "hidden");

  // How wide the whole side is drawn in a window, in pixels of the screen.
  const wholeWidth = (p) => Math.min(p.window.clientWidth, p.window.clientHeight * p.shape);

  // Near enough is eight pixels of the screen to one of the photograph.
  const nearest = () => Math.max(8, ...seen().map((p) => (8 * p.pixels) / wholeWidth(p)));

  function draw() {
    view.k = keep(view.k, 1, nearest());
    const visible = seen();
    // A side that fits its window stays in the middle of it.
    const fitsAcross = visible.every((p) => wholeWidth(p) * view.k <= p.window.clientWidth);
    const fitsDown = visible.every((p) => (wholeWidth(p) / p.shape) * view.k <= p.window.clientHeight);
    view.x = fitsAcross ? 0.5 : keep(view.x, 0, 1);
    view.y = fitsDown ? 0.5 : keep(view.y, 0, 1);
    for (const p of panes) {
      if (p.window.clientWidth === 0) continue;
      const w = wholeWidth(p);
      const h = w / p.shape;
      const left = p.window.clientWidth / 2 - view.x * w * view.k;
      const top = p.window.clientHeight / 2 - view.y * h * view.k;
      p.layer.style.width = `${w * view.k}px`;
      p.layer.style.height = `${h * view.k}px`;
      p.layer.style.transform = `translate(${left}px, ${top}px)`;
    }
    stage.classList.toggle("near", view.k > 1.001);
    stage.classList.toggle("crowded", places.length > 12 && view.k < 2.5);
    soon();
    looking.dataset.view = `${view.x.toFixed(4)} ${view.y.toFixed(4)} ${view.k.toFixed(3)}`;
  }

  // ---- tiles: what is finer than the whole side, decoded only where it is looked at ----

  // The tiles of a photograph, and where those of each size begin; taken apart when first asked for.
  function tilesOf(p) {
    if (!p.sheet) {
      const side = Number(p.block.dataset.side);
      let from = 0;
      p.levels = p.finer.map(([w, h]) => {
        const level = { w, h, side, columns: Math.ceil(w / side), rows: Math.ceil(h / side), from };
        from += level.columns * level.rows;
        return level;
      });
      p.sheet = p.block.textContent.split("\n");
    }
    return p.sheet;
  }

  // The tiles under a window, of the size that it shows pixel for pixel or the next finer one.
  function needed(p) {
    const w = wholeWidth(p) * view.k;
    const asked = w * devicePixelRatio;
    if (!p.block || asked <= p.whole * 1.05) return new Map();
    const sheet = tilesOf(p);
    const level = p.levels.findLast((l) => l.w >= asked * 0.95) ?? p.levels[0];
    const range = (middle, reach, count, length) => {
      const at = (share) => keep(Math.floor((share * length) / level.side), 0, count - 1);
      return [at(middle - reach), at(middle + reach)];
    };
    const [left, right] = range(view.x, p.window.clientWidth / (2 * w), level.columns, level.w);
    const [top, foot] = range(view.y, (p.window.clientHeight * p.shape) / (2 * w), level.rows, level.h);
    const out = new Map();
    for (let row = top; row <= foot; row++) {
      for (let column = left; column <= right; column++) {
        const index = level.from + row * level.columns + column;
        out.set(index, { level, row, column, data: sheet[index] });
      }
    }
    return out;
  }

  function refine() {
    for (const p of seen()) {
      for (const [index, { level, row, column, data }] of needed(p)) {
        if (p.shown.has(index)) continue;
        const tile = new Image();
        const share = (from, length) => [(from * level.side) / length, Math.min((from + 1) * level.side, length) / length];
        const [left, right] = share(column, level.w);
        const [top, foot] = share(row, level.h);
        Object.assign(tile.style, {
          left: `${left * 100}%`,
          top: `${top * 100}%`,
          width: `${(right - left) * 100}%`,
          height: `${(foot - top) * 100}%`,
        });
        tile.alt = "";
        tile.draggable = false;
        tile.decoding = "async";
        tile.src = `data:image/jpeg;base64,${data}`;
        p.shown.set(index, tile);
        p.tiles.append(tile);
      }
    }
    clearTimeout(sweeping);
    sweeping = setTimeout(sweep, 600);
  }

  // What is no longer looked at is let go once the hand rests; until then it covers what has yet to be decoded.
  let sweeping = 0;
  function sweep() {
    const visible = seen();
    for (const p of panes) {
      const wanted = visible.includes(p) ? needed(p) : new Map();
      for (const [index, tile] of p.shown) {
        if (wanted.has(index)) continue;
        tile.remove();
        p.shown.delete(index);
      }
    }
  }

  let asked = 0;
  function soon() {
    asked ||= requestAnimationFrame(() => {
      asked = 0;
      refine();
    });
  }

  // Long moves glide (where motion is welcome); what the hand does is followed at once.
  function move(change, glide) {
    stage.classList.toggle("gliding", Boolean(glide));
    Object.assign(view, change);
    draw();
  }

  const whole = () => move({ x: 0.5, y: 0.5, k: 1 }, true);

  // The place of the frame under a point of the screen.
  function under(p, event) {
    const r = p.window.getBoundingClientRect();
    const w = wholeWidth(p) * view.k;
    return {
      x: view.x + (event.clientX - r.left - r.width / 2) / w,
      y: view.y + ((event.clientY - r.top - r.height / 2) / w) * p.shape,
      dx: (event.clientX - r.left - r.width / 2) / w,
      dy: ((event.clientY - r.top - r.height / 2) / w) * p.shape,
    };
  }

  // Nearer or farther, with the place under the pointer held still (or the middle, without a pointer).
  function zoom(factor, p, event) {
    const k = keep(view.k * factor, 1, nearest());
    const at = p && under(p, event);
    const held = (k - view.k) / k;
    move(at ? { k, x: view.x + at.dx * held, y: view.y + at.dy * held } : { k }, !event);
  }

  // Brings a box to the middle with its surroundings, but no nearer than three pixels of the screen to one
  // of the photograph.
  function show([x, y, w, h]) {
    const fit = seen().map((p) => {
      const across = wholeWidth(p);
      const wide = Math.max(w, 1e-4) * across;
      const high = (Math.max(h, 1e-4) * across) / p.shape;
      return Math.min((0.8 * p.window.clientWidth) / wide, (0.3 * p.window.clientHeight) / high, (3 * p.pixels) / across);
    });
    move({ x: x + w / 2, y: y + h / 2, k: Math.max(1, Math.min(...fit)) }, true);
  }

  const boxOf = (link) => link.dataset.box.split(" ").map(Number);

  // ---- the ways of looking ----

  let ticking = 0;
  function stopTurning() {
    clearInterval(ticking);
    ticking = 0;
    button("by-itself")?.setAttribute("aria-pressed", "false");
  }
  function turn() {
    looking.dataset.seen = looking.dataset.seen === "first" ? "second" : "first";
    draw();
  }
  function choose(way) {
    const input = looking.querySelector(`.ways input[value="${way}"]`);
    if (!input) return;
    input.checked = true;
    looking.dataset.way = way;
    stopTurning();
    stage.classList.remove("gliding");
    if (way === "changes" && places.length) go(Math.max(current, 0));
    else draw();
  }
  for (const input of looking.querySelectorAll(".ways input")) input.addEventListener("change", () => choose(input.value));
  button("other")?.addEventListener("click", () => {
    stopTurning();
    turn();
  });
  // Slower than once a second: nobody is harmed by it, and the eye has time to see.
  button("by-itself")?.addEventListener("click", () => {
    if (ticking) return stopTurning();
    ticking = setInterval(turn, 1100);
    button("by-itself").setAttribute("aria-pressed", "true");
  });

  // ---- the walk through the places that differ ----

  let current = -1;
  function go(index) {
    if (!places.length) return;
    current = (index + places.length) % places.length;
    const link = places[current];
    places.forEach((other, i) => (i === current ? other.setAttribute("aria-current", "true") : other.removeAttribute("aria-current")));
    for (const mark of looking.querySelectorAll(".place")) mark.classList.toggle("current", mark.dataset.number === link.dataset.number);
    hideLine();
    // The list moves, not the page.
    const list = link.closest("ol");
    const top = link.offsetTop - list.offsetTop;
    if (top < list.scrollTop || top + link.offsetHeight > list.scrollTop + list.clientHeight) list.scrollTop = top - list.clientHeight / 3;
    const words = link.querySelector("b").textContent;
    button("said").textContent = `Place ${current + 1} of ${places.length}: ${words}, ${link.querySelector(".score").textContent}`;
    show(boxOf(link));
  }
  for (const link of all) {
    link.addEventListener("click", (event) => {
      event.preventDefault();
      go(places.indexOf(link));
    });
  }
  // Two other copies were chosen: their frame has another shape, and they differ in other places.
  looking.addEventListener("reframe", ({ detail }) => {
    for (const p of panes) {
      p.shape = detail.width / detail.height;
      p.whole = p.pixels = detail.width;
    }
    places = all.filter((link) => !link.closest("li").hidden);
    current = -1;
    for (const mark of looking.querySelectorAll(".place.current")) mark.classList.remove("current");
    for (const link of all) link.removeAttribute("aria-current");
    hideLine();
    if (looking.dataset.way === "changes" && places.length) go(0);
    else draw();
  });
  button("next")?.addEventListener("click", () => go(current + 1));
  button("previous")?.addEventListener("click", () => go(Math.max(current, 0) - 1));
  button("boxes")?.addEventListener("change", (event) => stage.classList.toggle("bare", !event.target.checked));

  // ---- a line of the table, on the photograph ----

  function hideLine() {
    for (const mark of looking.querySelectorAll(".line-mark")) mark.hidden = true;
  }
  for (const link of document.querySelectorAll(".lines a[data-box]")) {
    link.addEventListener("click", () => {
      const [x, y, w, h] = boxOf(link);
      for (const mark of looking.querySelectorAll(".line-mark")) {
        Object.assign(mark.style, { left: `${x * 100}%`, top: `${y * 100}%`, width: `${w * 100}%`, height: `${h * 100}%` });
        mark.hidden = false;
      }
      stage.focus({ preventScroll: true });
      const nearEnough = seen().map((p) => p.window.clientWidth / (Math.max(w, 1e-4) * wholeWidth(p)));
      move({ x: x + w / 2, y: y + h / 2, k: Math.max(1, 0.94 * Math.min(...nearEnough)) }, true);
    });
  }

  // ---- a straight edge, laid through two places ----

  // Both ends in shares of the frame; null while none is laid.
  let edge = null;
  const ruler = button("edge");
  const RULER =
    '<svg class="laid-edge" viewBox="0 0 1 1" preserveAspectRatio="none"><line class="under"/><line class="over"/></svg>' +
    '<i class="end"></i><i class="end"></i>';
  for (const p of ruler ? panes : []) {
    const marks = p.layer.querySelector(".marks");
    marks.insertAdjacentHTML("beforeend", RULER);
    p.edge = marks.querySelector(".laid-edge");
    p.ends = [...marks.querySelectorAll(".end")];
  }
  const isUpright = (p) => Math.abs(edge[1].y - edge[0].y) / p.shape >= Math.abs(edge[1].x - edge[0].x);
  function drawEdge() {
    ruler.setAttribute("aria-pressed", String(Boolean(edge)));
    for (const p of panes) {
      for (const mark of [p.edge, ...p.ends]) mark.toggleAttribute("hidden", !edge);
      if (!edge) continue;
      const [a, b] = edge;
      // From one side of the frame to the other, along whichever way it runs more.
      const along = isUpright(p) ? "y" : "x";
      const at = (share) => {
        const t = (share - a[along]) / (b[along] - a[along]);
        return [a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)];
      };
      const [[x1, y1], [x2, y2]] = [at(0), at(1)];
      for (const line of p.edge.children) for (const [name, value] of Object.entries({ x1, y1, x2, y2 })) line.setAttribute(name, value);
      p.ends.forEach((end, i) => Object.assign(end.style, { left: `${edge[i].x * 100}%`, top: `${edge[i].y * 100}%` }));
    }
    looking.dataset.edge = edge ? edge.map((end) => `${end.x.toFixed(4)} ${end.y.toFixed(4)}`).join(",") : "";
  }
  function lay() {
    const p = seen()[0];
    const reach = (0.3 * p.window.clientHeight * p.shape) / (wholeWidth(p) * view.k);
    edge = edge ? null : [-1, 1].map((way) => ({ x: view.x, y: keep(view.y + way * reach, 0, 1) }));
    drawEdge();
    button("edge-said").textContent = edge
      ? "A straight edge lies upright over both. Press two places to lay it through them."
      : "The straight edge is taken away.";
  }
  // The nearer end comes to where the reader pressed.
  function layThrough(p, { x, y }) {
    const far = (end) => Math.hypot(end.x - x, (end.y - y) / p.shape);
    const nearer = far(edge[0]) <= far(edge[1]) ? 0 : 1;
    const other = edge[1 - nearer];
    if (Math.hypot(other.x - x, (other.y - y) / p.shape) > 0.005) edge[nearer] = { x, y };
    drawEdge();
  }
  // Four pixels of the screen to either side, of one that lies flat up or down: the whole edge, or its second end.
  function shift(pixels, ends) {
    if (!edge) return;
    const p = seen()[0];
    const share = pixels / (wholeWidth(p) * view.k);
    const [across, by] = isUpright(p) ? ["x", share] : ["y", share * p.shape];
    for (const end of ends) edge[end][across] = keep(edge[end][across] + by, 0, 1);
    drawEdge();
  }
  ruler?.addEventListener("click", lay);
  if (ruler) drawEdge();

  // ---- the hand ----

  const fingers = new Map();
  let travelled = 0;
  for (const p of panes) {
    p.window.addEventListener("pointerdown", (event) => {
      if (event.button !== 0) return;
      if (fingers.size === 0) travelled = 0;
      fingers.set(event.pointerId, { x: event.clientX, y: event.clientY });
      if (event.pointerType === "mouse" || view.k > 1.001) p.window.setPointerCapture(event.pointerId);
      stage.classList.add("held");
      stage.focus({ preventScroll: true });
    });
    p.window.addEventListener("pointermove", (event) => {
      const at = under(p, event);
      looking.style.setProperty("--at-x", at.x);
      looking.style.setProperty("--at-y", at.y);
      looking.classList.toggle("pointed", event.pointerType === "mouse" && fingers.size === 0);
      const was = fingers.get(event.pointerId);
      if (!was) return;
      const now = { x: event.clientX, y: event.clientY };
      const others = [...fingers].filter(([id]) => id !== event.pointerId).map(([, finger]) => finger);
      const w = wholeWidth(p) * view.k;
      if (others.length === 0) {
        travelled += Math.hypot(now.x - was.x, now.y - was.y);
        if (travelled > 4) move({ x: view.x - (now.x - was.x) / w, y: view.y - ((now.y - was.y) / w) * p.shape });
      } else {
        travelled = Infinity;
        const from = Math.hypot(was.x - others[0].x, was.y - others[0].y);
        const to = Math.hypot(now.x - others[0].x, now.y - others[0].y);
        const middle = { clientX: (now.x + others[0].x) / 2, clientY: (now.y + others[0].y) / 2 };
        if (from > 0) zoom(to / from, p, middle);
      }
      fingers.set(event.pointerId, now);
    });
    const lift = (event) => {
      if (!fingers.delete(event.pointerId)) return;
      if (fingers.size === 0) stage.classList.remove("held");
      // A press without a drag brings the place to the middle: moving about needs no dragging.
      if (event.type !== "pointerup" || travelled > 4) return;
      const { x, y } = under(p, event);
      if (edge) layThrough(p, { x, y });
      else if (view.k > 1.001) move({ x, y }, true);
    };
    p.window.addEventListener("pointerup", lift);
    p.window.addEventListener("pointercancel", lift);
    p.window.addEventListener("pointerleave", () => looking.classList.remove("pointed"));
    p.window.addEventListener("dblclick", (event) => zoom(2, p, event));
    // The wheel scrolls the page until the photograph has been pressed: nobody is caught by it in passing.
    p.window.addEventListener(
      "wheel",
      (event) => {
        if (!event.ctrlKey && document.activeElement !== stage) return;
        event.preventDefault();
        zoom(Math.exp(-event.deltaY * (event.deltaMode === 1 ? 0.05 : 0.0016) * (event.ctrlKey ? 4 : 1)), p, event);
      },
      { passive: false },
    );
  }
  // Two fingers bring nearer even while the side fits, when one finger still scrolls the page.
  stage.addEventListener("touchmove", (event) => event.touches.length > 1 && event.preventDefault(), { passive: false });

  button("in").addEventListener("click", () => zoom(1.5));
  button("out").addEventListener("click", () => zoom(1 / 1.5));
  button("whole").addEventListener("click", whole);

  if (document.fullscreenEnabled) {
    const fill = button("fill");
    fill.hidden = false;
    fill.addEventListener("click", () => (document.fullscreenElement ? document.exitFullscreen() : looking.requestFullscreen()));
    document.addEventListener("fullscreenchange", () => {
      fill.textContent = document.fullscreenElement ? "leave the screen" : "fill the screen";
    });
  }

  // ---- the keyboard: only while the photographs or what belongs to them have the focus ----

  const step = (dx, dy) => move({ x: view.x + (0.12 * dx) / view.k, y: view.y + (0.12 * dy) / view.k }, true);
  const everywhere = {
    n: () => go(current + 1),
    p: () => go(Math.max(current, 0) - 1),
    "+": () => zoom(1.5),
    "=": () => zoom(1.5),
    "-": () => zoom(1 / 1.5),
    0: whole,
    1: () => choose("together"),
    2: () => choose("turns"),
    3: () => choose("apart"),
    4: () => choose("changes"),
    e: () => ruler && lay(),
    "[": () => shift(-4, [0, 1]),
    "]": () => shift(4, [0, 1]),
    "{": () => shift(-4, [1]),
    "}": () => shift(4, [1]),
  };
  const onStage = {
    ArrowLeft: () => step(-1, 0),
    ArrowRight: () => step(1, 0),
    ArrowUp: () => step(0, -1),
    ArrowDown: () => step(0, 1),
    " ": () => {
      if (looking.dataset.way !== "turns") choose("turns");
      else {
        stopTurning();
        turn();
      }
    },
  };
  looking.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const does = (event.target === stage && onStage[event.key]) || everywhere[event.key];
    if (!does) return;
    event.preventDefault();
    does();
  });

  new ResizeObserver(() => {
    stage.classList.remove("gliding");
    draw();
  }).observe(stage);
  choose(looking.dataset.way);
  draw();
})();
