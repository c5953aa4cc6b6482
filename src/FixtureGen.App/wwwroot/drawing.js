// The plan: the server's shapes, the magnets, the path coloured by factor, and the view (wheel, pinch, drag, fit).
import { state, show } from "./state.js";

const svg = document.getElementById("drawing");
const NS = "http://www.w3.org/2000/svg";
export const el = (name, attributes, parent) => {
  const e = document.createElementNS(NS, name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  parent?.append(e);
  return e;
};

const view = { x: 0, y: 0, scale: 1 };
const world = el("g", {}, svg);
const layers = Object.fromEntries(["shapes", "path", "magnets", "marks", "section"].map((n) => [n, el("g", {}, world)]));
const pixels = () => svg.getBoundingClientRect();

// Factor to stroke: below the limit thick and dark, far above thin and light, so that grey print still tells.
const steps = [0.5, 1, 1.5, 2, 3, 5, 10];
export function look(factor) {
  const i = steps.findIndex((s) => factor < s);
  const n = i < 0 ? steps.length : i;
  return { width: 6.5 - n * 0.68, lightness: 18 + n * 8.5, hue: 18 + n * 24 };
}
const stroke = (l) => `hsl(${l.hue} 70% ${l.lightness}%)`;

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

export function drawShapes() {
  layers.shapes.replaceChildren();
  for (const s of state.job.shapes) {
    const path = el("path", { d: s.d, class: `s-${s.kind}`, "vector-effect": s.width ? "none" : "non-scaling-stroke", "fill-rule": "evenodd" }, layers.shapes);
    if (s.width) path.setAttribute("stroke-width", s.width);
    el("title", {}, path).textContent = s.name;
  }
}

export function redraw() {
  drawPath();
  drawMagnets();
  drawMarks();
}

const value = (sample) => ({ vacuum: sample.vacuum, stopping: sample.stopping, both: sample.both })[document.getElementById("show").value];

function drawPath() {
  layers.path.replaceChildren();
  const samples = state.answer?.samples ?? [];
  for (let i = 1; i < samples.length; i++) {
    const a = samples[i - 1];
    const b = samples[i];
    if (a.cut !== b.cut || Math.hypot(a.x - b.x, a.y - b.y) > 3) continue;
    const l = look(Math.min(value(a), value(b)));
    el("line", { x1: a.x, y1: a.y, x2: b.x, y2: b.y, stroke: stroke(l), "stroke-width": thin(l.width), "stroke-linecap": "round" }, layers.path);
  }
}

export function nearestSample(p) {
  let best = null;
  for (const s of state.answer?.samples ?? []) {
    const d = Math.hypot(s.x - p.x, s.y - p.y);
    if (d < 12 / view.scale && (!best || d < best.d)) best = { s, d };
  }
  return best?.s ?? null;
}

function drawMagnets() {
  const focused = document.activeElement?.dataset?.index;
  layers.magnets.replaceChildren();
  const bad = new Set((state.answer?.violations ?? []).map((v) => v.magnet));
  state.magnets.forEach((m, i) => {
    const names = ["magnet", m.locked && "locked", bad.has(i) && "bad", state.chosen === i && "chosen"].filter(Boolean).join(" ");
    const share = state.answer?.shares?.[i];
    const label = `Magnet ${i + 1} at X ${show(m.x)} Y ${show(m.y)} ${state.job.unit}${m.locked ? ", locked" : ""}${share === undefined ? "" : `, pull ${share.toFixed(1)} newtons`}`;
    const g = el("g", { class: names, transform: `translate(${m.x} ${m.y})`, tabindex: 0, role: "button", "aria-label": label, "data-index": i, "data-magnet": i }, layers.magnets);
    el("circle", { r: state.job.magnet.diameter / 2, "vector-effect": "non-scaling-stroke" }, g);
    el("circle", { r: state.job.magnet.jacket / 2, class: "jacket", "vector-effect": "non-scaling-stroke" }, g);
    const t = el("text", { "text-anchor": "middle", transform: `scale(${thin(1)} ${-thin(1)})`, y: 4 }, g);
    t.textContent = String(i + 1);
    el("title", {}, g).textContent = label;
  });
  if (focused !== undefined) layers.magnets.querySelector(`[data-index="${focused}"]`)?.focus({ preventScroll: true });
}

function drawMarks() {
  layers.marks.replaceChildren();
  for (const v of state.answer?.violations ?? []) {
    if (v.a && v.b) el("line", { x1: v.a[0], y1: v.a[1], x2: v.b[0], y2: v.b[1], class: "offence", "vector-effect": "non-scaling-stroke" }, layers.marks);
  }
  const factors = state.answer?.factors;
  if (!factors) return;
  const key = { vacuum: "vacuumOnly", stopping: "magnetsStopping", both: "both" }[document.getElementById("show").value];
  const w = factors[key];
  el("circle", { cx: w.xMm, cy: w.yMm, r: thin(9), class: "weak", "vector-effect": "non-scaling-stroke" }, layers.marks);
  const t = el("text", { transform: `translate(${w.xMm} ${w.yMm}) scale(${thin(1)} ${-thin(1)})`, x: 13, y: 4 }, layers.marks);
  t.textContent = w.factor.toFixed(2);
}

export function drawSectionLine(line) {
  layers.section.replaceChildren();
  el("line", { x1: line.x0, y1: line.y0, x2: line.x1, y2: line.y1, class: "cutline", "vector-effect": "non-scaling-stroke" }, layers.section);
  for (const end of ["0", "1"]) {
    el("circle", { cx: line[`x${end}`], cy: line[`y${end}`], r: thin(7), class: "handle", "data-end": end }, layers.section);
  }
}

export function drawLegend() {
  const box = document.getElementById("legend");
  box.replaceChildren();
  const s = el("svg", { viewBox: "0 0 520 40", role: "img", "aria-label": "Thicker and darker is weaker. Steps of the factor: " + steps.join(", ") }, box);
  [0, ...steps].forEach((from, i) => {
    const l = look(from);
    const x = 6 + i * 64;
    el("line", { x1: x, y1: 10, x2: x + 58, y2: 10, stroke: stroke(l), "stroke-width": l.width }, s);
    el("text", { x, y: 32 }, s).textContent = i === 0 ? `under ${steps[0]}` : i === steps.length ? `${from} up` : `${from}`;
  });
}
