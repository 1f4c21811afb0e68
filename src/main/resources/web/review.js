"use strict";
// The page under review: zoom and pan, plates, the map of patches drawn over the page, the readout
// of inks, and the mixture under a click. Everything it shows comes from the server; the map is
// kept here so that pointing at a colour answers at once.
(() => {
  const review = document.getElementById("review");
  const pane = document.getElementById("pane");
  const sheet = document.getElementById("sheet");
  const readout = document.getElementById("readout");
  const spot = document.getElementById("spot");
  const heat = document.getElementById("heat");
  const legend = document.getElementById("legend");
  const base = review.dataset.base;
  const columns = Number(review.dataset.columns);
  const lines = Number(review.dataset.lines);
  const mmPerPlace = Number(review.dataset.widthMm) / columns;
  const NO_PATCH = 255;
  const STEPS = 20;

  document.documentElement.classList.add("scripts");

  // ---- the stage: the picture, the overlay and the mark, moved and scaled as one
  const stage = document.createElement("div");
  stage.className = "stage";
  const overlay = document.createElement("canvas");
  overlay.id = "overlay";
  overlay.setAttribute("aria-hidden", "true");
  const mark = document.createElement("div");
  mark.className = "crosshair";
  mark.hidden = true;
  sheet.replaceWith(stage);
  stage.append(sheet, overlay);
  pane.append(stage, mark);

  // ---- the picture: which plates, and how fine
  const plates = [...document.querySelectorAll("input[name=plate]")];
  let pictureTurn = 0;
  const draws = () => {
    const on = plates.filter((one) => one.checked).map((one) => "plate=" + encodeURIComponent(one.value));
    const wanted = on.length === plates.length ? [] : on.length > 0 ? on : ["plate="];
    if (isFine) {
      wanted.push("fine=1");
    }
    const turn = ++pictureTurn;
    const next = new Image();
    next.addEventListener("load", () => {
      if (turn === pictureTurn) {
        sheet.src = next.src;
      }
    });
    next.src = base + "/picture.png" + (wanted.length > 0 ? "?" + wanted.join("&") : "");
  };

  const view = { scale: 1, x: 0, y: 0 };
  const least = () => Math.min(pane.clientWidth / columns, pane.clientHeight / lines);
  let isFine = false;
  const place = () => {
    // Seen whole, a picture of fewer samples does; closer up every sample counts.
    if (!isFine && view.scale * window.devicePixelRatio > 0.6) {
      isFine = true;
      draws();
    }
    stage.style.width = columns + "px";
    stage.style.height = lines + "px";
    stage.style.transform = `translate(${view.x}px, ${view.y}px) scale(${view.scale})`;
    sheet.style.imageRendering = view.scale >= 2 ? "pixelated" : "auto";
    if (!mark.hidden) {
      mark.style.transform = `translate(${view.x + (cursor.x + 0.5) * view.scale}px, ${view.y + (cursor.y + 0.5) * view.scale}px)`;
    }
  };
  const bound = () => {
    const slack = 40;
    view.x = Math.min(pane.clientWidth - slack, Math.max(slack - columns * view.scale, view.x));
    view.y = Math.min(pane.clientHeight - slack, Math.max(slack - lines * view.scale, view.y));
  };
  const fit = () => {
    view.scale = least();
    view.x = (pane.clientWidth - columns * view.scale) / 2;
    view.y = (pane.clientHeight - lines * view.scale) / 2;
    place();
  };
  const zoom = (factor, x = pane.clientWidth / 2, y = pane.clientHeight / 2) => {
    const scale = Math.min(16, Math.max(least() * 0.8, view.scale * factor));
    view.x = x - ((x - view.x) / view.scale) * scale;
    view.y = y - ((y - view.y) / view.scale) * scale;
    view.scale = scale;
    bound();
    place();
  };
  const cursor = { x: Math.floor(columns / 2), y: Math.floor(lines / 2) };

  document.getElementById("closer").addEventListener("click", () => zoom(1.5));
  document.getElementById("farther").addEventListener("click", () => zoom(1 / 1.5));
  document.getElementById("fit").addEventListener("click", fit);
  new ResizeObserver(fit).observe(pane);
  pane.addEventListener("wheel", (event) => {
    event.preventDefault();
    const box = pane.getBoundingClientRect();
    zoom(Math.exp(-event.deltaY * 0.0015), event.clientX - box.left, event.clientY - box.top);
  }, { passive: false });

  // ---- the map: for each place its nearest patch and how far that is
  let map = null;
  let mapTurn = 0;
  const loadMap = async () => {
    if (!document.querySelector("#set .patches")) {
      return;
    }
    const turn = ++mapTurn;
    const answer = await fetch(base + "/map");
    if (!answer.ok) {
      return;
    }
    const bytes = new Uint8Array(await answer.arrayBuffer());
    if (turn !== mapTurn) {
      return;
    }
    const across = Number(answer.headers.get("X-Map-Columns"));
    const down = Number(answer.headers.get("X-Map-Lines"));
    map = {
      columns: across,
      lines: down,
      samples: Number(answer.headers.get("X-Map-Samples")),
      patch: bytes.subarray(0, across * down),
      far: bytes.subarray(across * down),
    };
    draw();
    review.dataset.map = document.getElementById("set").dataset.version;
  };

  let lit = -1; // the patch that is pointed at
  let held = -1; // the patch that stays lit
  const draw = () => {
    const context = overlay.getContext("2d");
    const shown = lit >= 0 ? lit : held;
    const hot = heat.checked;
    if (!map || (shown < 0 && !hot)) {
      overlay.hidden = true;
      review.dataset.lit = "";
      return;
    }
    overlay.hidden = false;
    if (overlay.width !== map.columns || overlay.height !== map.lines) {
      overlay.width = map.columns;
      overlay.height = map.lines;
    }
    overlay.style.width = map.columns * map.samples + "px";
    overlay.style.height = map.lines * map.samples + "px";
    const image = context.createImageData(map.columns, map.lines);
    const cells = new Uint32Array(image.data.buffer);
    const dim = 0xc8404040; // alpha, blue, green, red
    const veil = 0xa0606060;
    let places = 0;
    if (shown >= 0) {
      for (let i = 0; i < cells.length; i++) {
        if (map.patch[i] === shown && map.far[i] <= 3 * STEPS) {
          places++;
        } else {
          cells[i] = dim;
        }
      }
    } else {
      for (let i = 0; i < cells.length; i++) {
        const far = map.far[i];
        if (map.patch[i] === NO_PATCH || far <= 3 * STEPS) {
          cells[i] = veil;
        } else {
          places++;
          cells[i] = far > 10 * STEPS ? 0xff2a20b3 : far > 6 * STEPS ? 0xff3a8cf0 : 0xff8ae0ff;
        }
      }
    }
    context.putImageData(image, 0, 0);
    review.dataset.lit = shown >= 0 ? String(shown) : "heat";
    review.dataset.places = String(places);
  };
  heat.addEventListener("change", () => {
    legend.hidden = !heat.checked;
    draw();
  });

  // ---- the list of patches
  const row = (target) => target instanceof Element ? target.closest("#set .patch") : null;
  const light = (index) => {
    if (lit !== index) {
      lit = index;
      draw();
    }
  };
  review.addEventListener("pointerover", (event) => {
    const patch = row(event.target);
    light(patch ? Number(patch.dataset.index) : -1);
  });
  review.addEventListener("pointerleave", () => light(-1));
  review.addEventListener("focusin", (event) => {
    const patch = row(event.target);
    light(patch && event.target.classList.contains("show") ? Number(patch.dataset.index) : -1);
  });
  review.addEventListener("focusout", () => light(-1));
  const hold = (index) => {
    held = index;
    for (const button of document.querySelectorAll("#set .show")) {
      button.setAttribute("aria-pressed", String(Number(button.closest(".patch").dataset.index) === held));
    }
    draw();
  };
  review.addEventListener("click", (event) => {
    const button = event.target.closest("#set .show");
    if (button) {
      const index = Number(button.closest(".patch").dataset.index);
      hold(held === index ? -1 : index);
    }
  });

  document.body.addEventListener("set-changed", () => {
    held = -1;
    lit = -1;
    const set = document.getElementById("set");
    document.getElementById("spot-seen").value = set.dataset.version;
    spot.hidden = true;
    window.selvage.say("Coverage " + document.getElementById("coverage").textContent);
    loadMap();
  });
  // Focus stays near where it was when the list is renewed.
  let before = null;
  document.body.addEventListener("htmx:beforeSwap", (event) => {
    if (event.detail.target.id === "set") {
      const active = document.activeElement;
      const patch = row(active);
      before = patch ? { index: Number(patch.dataset.index), act: active.value || "" } : { id: active ? active.id : "", act: active && active.name === "do" ? active.value : "" };
    }
  });
  document.body.addEventListener("htmx:afterSettle", (event) => {
    if (event.detail.target.id !== "set" || !before) {
      return;
    }
    const rows = document.querySelectorAll("#set .patch");
    let next = null;
    if (before.index !== undefined && rows.length > 0) {
      const step = before.act === "up" ? -1 : before.act === "down" ? 1 : 0;
      const at = rows[Math.min(rows.length - 1, Math.max(0, before.index + step))];
      // What can be done with a patch is shown once the focus is on it.
      at.querySelector(".show").focus({ preventScroll: true });
      next = (before.act && at.querySelector(`button[value="${before.act}"]:not(:disabled)`)) || at.querySelector(".show");
    } else if (before.id === "add") {
      next = pane;
    } else if (before.act) {
      next = document.querySelector(`#set .tools button[value="${before.act}"]:not(:disabled)`) || document.getElementById("count");
    }
    before = null;
    if (next) {
      next.focus({ preventScroll: true });
    }
  });

  for (const plate of plates) {
    plate.addEventListener("change", draws);
  }

  // ---- the readout and the mixture under a click
  const ask = async (x, y, signal) => {
    const answer = await fetch(`${base}/spot?x=${x}&y=${y}`, { signal });
    return answer.ok ? answer.json() : null;
  };
  const facts = (found) => found.nearest === undefined
    ? "paper"
    : (found.isPatch ? `is patch ${found.nearest}` : `nearest patch ${found.nearest}, ΔE00 ${found.de00}`);
  let asking = null;
  let due = 0;
  const read = (x, y) => {
    window.clearTimeout(due);
    due = window.setTimeout(async () => {
      if (asking) {
        asking.abort();
      }
      asking = new AbortController();
      try {
        const found = await ask(x, y, asking.signal);
        if (found) {
          const where = `${(x * mmPerPlace).toFixed(1)} | ${(y * mmPerPlace).toFixed(1)} mm`;
          const inks = found.inks.map((ink) => `${ink.name} ${ink.percent}`).join("  ");
          readout.textContent = `${where}   ${inks}   total ${found.total} %   L*a*b* ${found.lab}   ${facts(found)}`;
        }
      } catch (error) {
        if (error.name !== "AbortError") {
          throw error;
        }
      }
    }, 25);
  };
  const show = async (x, y) => {
    const found = await ask(x, y);
    if (!found) {
      return;
    }
    document.getElementById("spot-color").setAttribute("fill", found.color);
    document.getElementById("spot-build").textContent = found.build;
    document.getElementById("spot-facts").textContent =
      `${facts(found)}; ${found.area} % of the sheet; L*a*b* ${found.lab}`;
    const key = document.getElementById("spot-key");
    if (key) {
      key.value = found.key;
      const add = document.getElementById("add");
      add.hidden = found.nearest === undefined || found.isPatch;
    }
    spot.hidden = false;
  };
  const at = (event) => {
    const box = pane.getBoundingClientRect();
    return {
      x: Math.floor((event.clientX - box.left - view.x) / view.scale),
      y: Math.floor((event.clientY - box.top - view.y) / view.scale),
    };
  };
  const inside = (p) => p.x >= 0 && p.y >= 0 && p.x < columns && p.y < lines;
  let drag = null;
  pane.addEventListener("pointerdown", (event) => {
    drag = { x: event.clientX, y: event.clientY, from: { x: view.x, y: view.y }, moved: false };
    pane.setPointerCapture(event.pointerId);
  });
  pane.addEventListener("pointermove", (event) => {
    if (drag && (drag.moved || Math.hypot(event.clientX - drag.x, event.clientY - drag.y) > 4)) {
      drag.moved = true;
      view.x = drag.from.x + event.clientX - drag.x;
      view.y = drag.from.y + event.clientY - drag.y;
      bound();
      place();
      return;
    }
    const p = at(event);
    if (inside(p)) {
      read(p.x, p.y);
    }
  });
  pane.addEventListener("pointerup", (event) => {
    const isClick = drag && !drag.moved;
    drag = null;
    const p = at(event);
    if (isClick && inside(p)) {
      Object.assign(cursor, p);
      mark.hidden = false;
      place();
      show(p.x, p.y);
    }
  });
  pane.addEventListener("pointercancel", () => { drag = null; });
  pane.addEventListener("keydown", (event) => {
    const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    const step = steps[event.key];
    if (step && event.shiftKey) {
      view.x -= step[0] * 60;
      view.y -= step[1] * 60;
      bound();
    } else if (step) {
      const size = Math.max(1, Math.round(8 / view.scale));
      cursor.x = Math.min(columns - 1, Math.max(0, cursor.x + step[0] * size));
      cursor.y = Math.min(lines - 1, Math.max(0, cursor.y + step[1] * size));
      mark.hidden = false;
      read(cursor.x, cursor.y);
    } else if (event.key === "Enter" || event.key === " ") {
      mark.hidden = false;
      show(cursor.x, cursor.y);
    } else if (event.key === "+" || event.key === "=") {
      zoom(1.5);
    } else if (event.key === "-") {
      zoom(1 / 1.5);
    } else if (event.key === "0") {
      fit();
    } else {
      return;
    }
    event.preventDefault();
    place();
  });
  const close = document.getElementById("spot-close");
  if (close) {
    close.addEventListener("click", () => {
      spot.hidden = true;
      pane.focus();
    });
  }
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") {
      spot.hidden = true;
      hold(-1);
    }
    const isTyping = event.target instanceof Element && event.target.closest("input, select, textarea");
    if (event.key === "u" && !isTyping && !event.ctrlKey && !event.metaKey && !event.altKey) {
      const undo = document.querySelector("#set button[value=undo]:not(:disabled)");
      if (undo) {
        undo.click();
      }
    }
  });

  fit();
  loadMap();
})();
