// The plan: the server's shapes, the magnets, the path coloured by factor, and the view (wheel, pinch, drag, fit).
import { $ } from "./dom.js";
import { state, show } from "./state.js";

const svg = $("drawing");
const NS = "http://www.w3.org/2000/svg";
export const el = (name, attributes, parent) => {
  const e = document.createElementNS(NS, name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  parent?.append(e);
  return e;
};

const view = { x: 0, y: 0, scale: 1 };
const world = el("g", {}, svg);
const layers = Object.fromEntries(["shapes", "ground", "path", "ports", "magnets", "marks", "along", "part", "section"].map((n) => [n, el("g", {}, world)]));
const pixels = () => svg.getBoundingClientRect();

// Factor to stroke: below the limit thick and strong against the paper, far above thin and faint, so that a grey print can still be read.
const steps = [0.5, 1, 1.5, 2, 3, 5, 10];
const grade = (factor) => {
  const i = steps.findIndex((s) => factor < s);
  return i < 0 ? steps.length : i;
};
const widthOf = (n) => 6.5 - n * 0.68;

export function place() {
  world.setAttribute("transform", `translate(${view.x} ${view.y}) scale(${view.scale} ${-view.scale})`);
  svg.style.setProperty("--thin", String(1 / view.scale));
}

export function fit() {
  const [x0, y0, x1, y1] = state.job.box;
  const p = pixels();
  view.scale = 0.94 * Math.min(p.width / (x1 - x0), p.height / (y1 - y0));
  view.x = p.width / 2 - (view.scale * (x0 + x1)) / 2;
  view.y = p.height / 2 + (view.scale * (y0 + y1)) / 2;
  place();
  redraw();
}

export function zoom(factor, cx = pixels().width / 2, cy = pixels().height / 2) {
  const scale = Math.min(200, Math.max(0.3, view.scale * factor));
  view.x = cx - ((cx - view.x) * scale) / view.scale;
  view.y = cy - ((cy - view.y) * scale) / view.scale;
  view.scale = scale;
  place();
  redraw();
}

export function pan(dx, dy) {
  view.x += dx;
  view.y += dy;
  place();
}

export function toWorld(event) {
  const p = pixels();
  return { x: (event.clientX - p.left - view.x) / view.scale, y: -(event.clientY - p.top - view.y) / view.scale };
}

const thin = (w) => w / view.scale;

// Elements are kept and only what changed is set: a drag changes a few of hundreds.
function set(element, name, value) {
  const text = String(value);
  if (element.getAttribute(name) !== text) element.setAttribute(name, text);
}

export function drawShapes() {
  const { shapes, curves } = state;
  shapes.forEach((s, i) => {
    let path = layers.shapes.children[i];
    if (!path) {
      path = el("path", { "vector-effect": "non-scaling-stroke", "fill-rule": "evenodd" }, layers.shapes);
      el("title", {}, path);
    }
    if (path.dataset.key !== s.key) {
      path.dataset.key = s.key;
      path.setAttribute("d", curves.get(s.key));
    }
    set(path, "class", `s-${s.kind}`);
    if (path.firstChild.textContent !== s.name) path.firstChild.textContent = s.name;
  });
  while (layers.shapes.children.length > shapes.length) layers.shapes.lastChild.remove();
}

export function drawItems() {
  drawMagnets();
  drawPorts();
  drawPart();
  drawGround();
}

const ground = el("path", { class: "allowed" }, layers.ground);
const drawGround = () => set(ground, "d", state.ground);

/** A handle in the part's middle that moves it, and one beside it that turns it. */
function drawPart() {
  const shown = $("part-mode").checked;
  set(layers.part, "display", shown ? "inline" : "none");
  if (!shown) return;
  const [x, y] = state.middle;
  const deg = (state.placement ?? state.placed).angleDeg;
  const [sin, cos] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  const far = thin(70);
  const arm = layers.part.children[0] ?? el("line", { class: "arm", "vector-effect": "non-scaling-stroke" }, layers.part);
  for (const [k, v] of Object.entries({ x1: x, y1: y, x2: x + far * cos, y2: y + far * sin })) set(arm, k, v);
  const label = `at X ${show((state.placement ?? state.placed).x)} Y ${show((state.placement ?? state.placed).y)} ${state.job.unit}, turned ${deg.toFixed(1)} degrees`;
  partHandle(1, "move", x, y, thin(9), `Part ${label}: arrow keys move it`);
  partHandle(2, "turn", x + far * cos, y + far * sin, thin(7), `Turn of the part, ${label}: arrow keys turn it by a degree, with Shift by 15`);
}

function partHandle(i, what, x, y, r, label) {
  const g = layers.part.children[i] ?? el("circle", { class: "part-handle", "data-part": what, tabindex: 0, role: "button", "vector-effect": "non-scaling-stroke" }, layers.part);
  for (const [k, v] of Object.entries({ cx: x, cy: y, r, "aria-label": label })) set(g, k, v);
}

/** All steps of the trim one after the other: cut, place, load and factors, as far as there are any. */
export function trimSteps() {
  return state.trace.flatMap(({ cut, values }, c) => {
    const list = [];
    for (let i = 0; i < values.length; i += 3) {
      const f = state.answer?.path[c]?.values;
      list.push({ cut, x: values[i], y: values[i + 1], load: values[i + 2], vacuum: f?.[i], stopping: f?.[i + 1], both: f?.[i + 2] });
    }
    return list;
  });
}

/** Marks one step of the trim; none takes the mark away. */
export function drawAlong(step) {
  layers.along.replaceChildren();
  if (!step) return;
  el("circle", { cx: step.x, cy: step.y, r: thin(7), class: "along", "vector-effect": "non-scaling-stroke" }, layers.along);
  el("circle", { cx: step.x, cy: step.y, r: thin(1.6), class: "along-middle" }, layers.along);
}

export function redraw() {
  drawPath();
  drawItems();
  drawMarks();
}

// One element for each look: the weakest is drawn last and so lies on top.
const strokes = [];
for (let n = steps.length; n >= 0; n--) {
  strokes[n] = el("path", { class: `grade g${n}`, "stroke-width": widthOf(n) }, layers.path);
}
const blank = el("path", { class: "grade unknown", "stroke-width": 2 }, layers.path);
const columns = { vacuum: 0, stopping: 1, both: 2 };

function drawPath() {
  const column = columns[$("show").value];
  const data = strokes.map(() => []);
  state.answer?.path.forEach(({ values }, cut) => {
    const at = state.trace[cut].values;
    for (let i = 3; i < at.length; i += 3) {
      if (Math.hypot(at[i] - at[i - 3], at[i + 1] - at[i - 2]) > 3) continue;
      const n = grade(Math.min(values[i + column], values[i - 3 + column]));
      data[n].push(`M${at[i - 3]} ${at[i - 2]}L${at[i]} ${at[i + 1]}`);
    }
  });
  strokes.forEach((path, n) => set(path, "d", data[n].join("")));
  const bare = state.answer?.path.length ? [] : state.trace.map(({ values }) => linesOf(values));
  set(blank, "d", bare.join(""));
}

/** The path without any factor, of a layout that has none. */
function linesOf(at) {
  const d = [];
  for (let i = 0; i < at.length; i += 3) {
    const joined = i > 0 && Math.hypot(at[i] - at[i - 3], at[i + 1] - at[i - 2]) <= 3;
    d.push(`${joined ? "L" : "M"}${at[i]} ${at[i + 1]}`);
  }
  return d.join("");
}

export function nearestSample(p) {
  /** @type {any} */
  let best = null;
  state.trace.forEach(({ cut, values }, c) => {
    for (let i = 0; i < values.length; i += 3) {
      const d = Math.hypot(values[i] - p.x, values[i + 1] - p.y);
      if (d < 12 / view.scale && (!best || d < best.d)) best = { d, cut, c, i };
    }
  });
  if (!best || !state.answer?.path.length) return null;
  const [x, y, load] = state.trace[best.c].values.slice(best.i, best.i + 3);
  const [vacuum, stopping, both] = state.answer.path[best.c].values.slice(best.i, best.i + 3);
  return { cut: best.cut, x, y, load, vacuum, stopping, both };
}

function handleOf(layer, i, kind, shape) {
  let g = layer.children[i];
  if (!g) {
    g = el("g", { tabindex: 0, role: "button", "data-index": i, [`data-${kind}`]: i }, layer);
    shape(g);
    el("text", { "text-anchor": "middle", y: 4 }, g).textContent = String(i + 1);
    el("title", {}, g);
  }
  return g;
}

function tell(g, names, at, label) {
  set(g, "class", names.filter(Boolean).join(" "));
  set(g, "transform", `translate(${at.x} ${at.y})`);
  set(g, "aria-label", label);
  if (g.lastChild.textContent !== label) g.lastChild.textContent = label;
  set(g.querySelector("text"), "transform", `scale(${thin(1)} ${-thin(1)})`);
}

const offenders = (kind) => new Set((state.answer?.violations ?? []).map((v) => v[kind]));
const isChosen = (kind, i) => state.chosen?.kind === kind && state.chosen.i === i;

function drawMagnets() {
  const bad = offenders("magnet");
  state.magnets.forEach((m, i) => {
    const g = handleOf(layers.magnets, i, "magnet", (parent) => {
      el("circle", { "vector-effect": "non-scaling-stroke" }, parent);
      el("circle", { class: "jacket", "vector-effect": "non-scaling-stroke" }, parent);
    });
    set(g.children[0], "r", state.job.magnet.diameter / 2);
    set(g.children[1], "r", state.job.magnet.jacket / 2);
    const share = state.answer?.shares?.[i];
    const pull = share === undefined ? "" : `, pull ${share.toFixed(1)} newtons`;
    const fixed = m.drawn ? ", from the drawing" : m.locked ? ", locked" : "";
    const label = `Magnet ${i + 1} at X ${show(m.x)} Y ${show(m.y)} ${state.job.unit}${fixed}${pull}`;
    tell(g, ["magnet", m.locked && "locked", m.drawn && "drawn", bad.has(i) && "bad", (isChosen("magnet", i) || state.picked.has(i)) && "chosen"], m, label);
  });
  while (layers.magnets.children.length > state.magnets.length) layers.magnets.lastChild.remove();
}

function drawPorts() {
  const bad = offenders("port");
  state.ports.forEach((p, i) => {
    const g = handleOf(layers.ports, i, "port", (parent) =>
      el("rect", { x: -4.5, y: -4.5, width: 9, height: 9, "vector-effect": "non-scaling-stroke" }, parent));
    const label = `Vacuum port ${i + 1} at X ${show(p.x)} Y ${show(p.y)} ${state.job.unit}`;
    tell(g, ["port", bad.has(i) && "bad", isChosen("port", i) && "chosen"], p, label);
  });
  while (layers.ports.children.length > state.ports.length) layers.ports.lastChild.remove();
}

function drawMarks() {
  layers.marks.replaceChildren();
  for (const v of state.answer?.violations ?? []) {
    const line = { x1: v.a[0], y1: v.a[1], x2: v.b[0], y2: v.b[1], class: "offence", "vector-effect": "non-scaling-stroke" };
    el("title", {}, el("line", line, layers.marks)).textContent = v.message;
    el("circle", { cx: v.b[0], cy: v.b[1], r: thin(4), class: "offence-end" }, layers.marks);
  }
  const factors = state.answer?.factors;
  if (!factors) return;
  const key = { vacuum: "vacuumOnly", stopping: "magnetsStopping", both: "both" }[$("show").value];
  const w = factors[key];
  el("circle", { cx: w.xMm, cy: w.yMm, r: thin(9), class: "weak", "vector-effect": "non-scaling-stroke" }, layers.marks);
  const t = el("text", { transform: `translate(${w.xMm} ${w.yMm}) scale(${thin(1)} ${-thin(1)})`, x: 13, y: 4, class: "weak-text" }, layers.marks);
  t.textContent = w.factor.toFixed(2);
}

export function drawSectionLine(line) {
  const g = layers.section;
  const cut = g.children[0] ?? el("line", { class: "cutline", "vector-effect": "non-scaling-stroke" }, g);
  for (const key of ["x0", "y0", "x1", "y1"]) set(cut, key[0] + (Number(key[1]) + 1), line[key]);
  for (const end of ["0", "1"]) {
    const name = end === "0" ? "start" : "end";
    const handle = g.children[1 + Number(end)] ?? el("circle", { class: "handle", "data-end": end, tabindex: 0, role: "button" }, g);
    set(handle, "cx", line[`x${end}`]);
    set(handle, "cy", line[`y${end}`]);
    set(handle, "r", thin(7));
    set(handle, "aria-label", `Section's ${name} at X ${show(line[`x${end}`])} Y ${show(line[`y${end}`])} ${state.job.unit}`);
  }
}

export function drawLegend() {
  const box = $("legend");
  box.replaceChildren();
  const s = el("svg", { viewBox: "0 0 640 40", role: "img", "aria-label": "Hold factor along the path. Thicker is weaker. Steps of the factor: " + steps.join(", ") }, box);
  el("text", { x: 0, y: 14 }, s).textContent = "Hold factor:";
  el("text", { x: 0, y: 32 }, s).textContent = "thick is weak";
  [0, ...steps].forEach((from, i) => {
    const x = 100 + i * 66;
    el("line", { x1: x, y1: 10, x2: x + 58, y2: 10, class: `grade g${i}`, "stroke-width": widthOf(i) }, s);
    el("text", { x, y: 32 }, s).textContent = i === 0 ? `under ${steps[0]}` : i === steps.length ? `${from} up` : `${from}`;
  });
}
