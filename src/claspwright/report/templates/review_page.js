// The page: controls, places, marks and the answer to the laboratory.

function element(tag, properties, ...children) {
  const made = Object.assign(document.createElement(tag), properties);
  made.append(...children);
  return made;
}

function byId(id) {
  return document.getElementById(id);
}

function startPage() {
  const facts = JSON.parse(byId("case").textContent);
  const canvas = byId("scene");
  const page = { facts, marks: [], place: null, codes: true, scene: null };
  answers(page);
  page.scene = makeScene(canvas, facts, () => drawOverlay(page));
  if (!page.scene) {
    byId("waiting").textContent =
      "This device cannot draw the 3D view. The pictures, the plan and the text on this page say the same.";
    return;
  }
  page.home = () => lookFrom(page, 0);
  sides(page);
  moves(page, canvas);
  for (const button of document.querySelectorAll("button[data-at]")) {
    button.addEventListener("click", () => goTo(page, JSON.parse(button.dataset.at), button.dataset.words));
  }
  new ResizeObserver(page.scene.redraw).observe(canvas);
  load(page).catch(() => {
    byId("waiting").hidden = false;
    byId("waiting").textContent =
      "This browser is too old to unpack the 3D. The pictures, the plan and the text say the same.";
  });
}

async function load(page) {
  const { scene, facts } = page;
  const box = byId("items");
  page.fields = [];
  scene.addTracks(facts.tracks);
  for (const part of facts.parts) {
    byId("waiting").textContent = `Unpacking the ${part.name}\u2026`;
    const bytes = await inflated(byId(`mesh-${part.key}`).textContent);
    const item = scene.add(part, unpacked(bytes, part));
    const seen = tick(box, part.name, item.shown, (on) => { item.shown = on; scene.redraw(); });
    item.reveal = () => { item.shown = true; seen.checked = true; };
    if (part.key === "model") {
      tick(box, "see-through model", false, (on) => { item.glass = on; scene.redraw(); });
    }
    if (part.values) mapped(page, box, item);
  }
  if (facts.tracks.length) {
    tick(box, "survey lines", true, (on) => { scene.state.showTracks = on; scene.redraw(); });
  }
  tick(box, "tooth codes", true, (on) => { page.codes = on; scene.redraw(); });
  byId("waiting").hidden = true;
  document.body.dataset.ready = "yes";
}

// One field at a time: its part shows it, the legend says what it is.
function mapped(page, box, item) {
  const { part } = item;
  const show = (on) => {
    for (const other of page.fields) {
      if (on && other.item !== item) { other.item.mapped = false; other.input.checked = false; }
    }
    item.mapped = on;
    byId("legend").hidden = !on;
    if (on) legendOf(page, part);
    if (on && !item.shown) item.reveal();
    page.scene.redraw();
  };
  const input = tick(box, `${part.values_name} colours`, false, show);
  page.fields.push({ item, input });
  item.mapped = false;
}

function legendOf(page, part) {
  byId("legend-name").textContent = `${part.values_name}, ${part.values_unit}`;
  byId("legend-plain").textContent = `plain surface: no ${part.values_name}`;
  const pen = byId("ramp").getContext("2d");
  for (let x = 0; x < 256; x += 1) {
    const at = (1 - x / 255) * (page.facts.ramp.length - 1);
    const below = Math.min(Math.floor(at), page.facts.ramp.length - 2);
    const rgb = page.facts.ramp[below].map((c, i) => c + (page.facts.ramp[below + 1][i] - c) * (at - below));
    pen.fillStyle = `rgb(${rgb.map(Math.round).join(",")})`;
    pen.fillRect(x, 0, 1, 12);
  }
  byId("ticks").replaceChildren(...[part.value_low, ...part.levels, part.value_high].map((value) => {
    const word = element("span", { textContent: String(value) });
    word.style.left = `${(100 * (value - part.value_low)) / (part.value_high - part.value_low)}%`;
    return word;
  }));
}

function tick(box, words, on, changed) {
  const input = element("input", { type: "checkbox", checked: on });
  input.addEventListener("change", () => changed(input.checked));
  box.append(element("label", { className: "tick" }, input, words));
  return input;
}

function sides(page) {
  page.facts.looks.forEach((look, index) => {
    const button = element("button", { type: "button", textContent: look.name });
    button.addEventListener("click", () => lookFrom(page, index));
    byId("sides").append(button);
  });
}

function lookFrom(page, index) {
  const { state, redraw } = page.scene;
  const look = page.facts.looks[index];
  state.look = lookAlong(look.up, look.toward);
  state.centre = [...page.facts.whole.centre];
  state.width = page.facts.whole.size;
  page.place = null;
  say(`Seen: ${look.name}.`);
  redraw();
}

// Turn so that the place is seen from outside the arch and somewhat from occlusal, and go near.
function goTo(page, at, words) {
  const { state, redraw } = page.scene;
  const middle = page.facts.whole.centre;
  let out = [at[0] - middle[0], at[1] - middle[1], 0];
  if (length(out) < 8) out = [0, 1, 0];
  out = out.map((x) => x / length(out));
  state.look = lookAlong(page.facts.head, [0.78 * out[0], 0.78 * out[1], 0.62]);
  state.centre = [...at];
  state.width = Math.min(22, page.facts.whole.size);
  page.place = at;
  say(words);
  byId("frame").scrollIntoView({ block: "nearest" });
  redraw();
}

function say(words) {
  byId("at").textContent = words;
}

function drawOverlay(page) {
  const overlay = byId("overlay");
  overlay.replaceChildren();
  const put = (point, name, words) => {
    const [x, y] = page.scene.project(point);
    const made = element("span", { className: name, textContent: words });
    made.style.left = `${x}px`;
    made.style.top = `${y}px`;
    overlay.append(made);
  };
  if (page.codes) page.facts.codes.forEach(({ code, at }) => put(at, "code", code));
  page.marks.forEach((mark, i) => put(mark.at, "flag", String(i + 1)));
  if (page.place) put(page.place, "ring", "");
}

function moves(page, canvas) {
  const { state, redraw, mmPerPixel } = page.scene;
  const fingers = new Map();
  const shift = (dx, dy) => {
    const mm = mmPerPixel();
    state.centre = state.centre.map((x, a) => x - mm * (dx * state.look[a] - dy * state.look[3 + a]));
  };
  const grow = (factor) => { state.width = Math.min(Math.max(state.width * factor, 2), 400); };
  const turn = (dx, dy) => { state.look = dragged(state.look, dx * 0.008, dy * 0.008); };
  canvas.addEventListener("pointerdown", (event) => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
  });
  canvas.addEventListener("pointermove", (event) => {
    const last = fingers.get(event.pointerId);
    if (!last) return;
    const [dx, dy] = [event.clientX - last[0], event.clientY - last[1]];
    if (fingers.size === 2) {
      const other = [...fingers].find(([id]) => id !== event.pointerId)[1];
      const before = Math.hypot(last[0] - other[0], last[1] - other[1]);
      const after = Math.hypot(event.clientX - other[0], event.clientY - other[1]);
      if (before > 0 && after > 0) grow(before / after);
      shift(dx / 2, dy / 2);
    } else if (event.buttons === 2 || event.buttons === 4 || event.shiftKey) {
      shift(dx, dy);
    } else {
      turn(dx, dy);
    }
    fingers.set(event.pointerId, [event.clientX, event.clientY]);
    redraw();
  });
  for (const name of ["pointerup", "pointercancel"]) {
    canvas.addEventListener(name, (event) => fingers.delete(event.pointerId));
  }
  canvas.addEventListener("contextmenu", (event) => event.preventDefault());
  canvas.addEventListener("wheel", (event) => {
    event.preventDefault();
    grow(Math.exp(event.deltaY * 0.0012));
    redraw();
  }, { passive: false });
  canvas.addEventListener("dblclick", (event) => {
    const box = canvas.getBoundingClientRect();
    markAt(page, event.clientX - box.left, event.clientY - box.top);
  });
  canvas.addEventListener("keydown", (event) => {
    const steps = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key in steps) {
      const [x, y] = steps[event.key];
      if (event.shiftKey) shift(30 * x, 30 * y);
      else turn(14 * x, 14 * y);
    } else if (event.key === "+" || event.key === "=") grow(1 / 1.2);
    else if (event.key === "-") grow(1.2);
    else if (event.key === "0") page.home();
    else if (event.key === "m" || event.key === "M") markAt(page, canvas.clientWidth / 2, canvas.clientHeight / 2);
    else return;
    event.preventDefault();
    redraw();
  });
}

function markAt(page, x, y) {
  const hit = page.scene.pick(x, y);
  if (!hit) {
    say("No surface there to mark.");
    return;
  }
  const near = nearestPlace(page.facts.places, hit.at);
  page.marks.push({ at: hit.at, part: hit.part, near });
  say(`Mark ${page.marks.length}: near ${near}.`);
  page.listMarks();
  page.scene.redraw();
}

function nearestPlace(places, at) {
  let best = ["the arch", Infinity];
  for (const place of places) {
    const far = length(place.at.map((x, a) => x - at[a]));
    if (far < best[1]) best = [place.words, far];
  }
  return best[0];
}
