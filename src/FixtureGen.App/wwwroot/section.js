// The section through the block along a line that can be dragged.
import { ask } from "./server.js";
import { $ } from "./dom.js";
import { state, show, read, body } from "./state.js";
import { drawSectionLine, el } from "./drawing.js";

export const line = { x0: 0, y0: 0, x1: 1, y1: 0 };
const svg = $("section");
let asked = 0;

export function startSection() {
  const [x0, y0, x1, y1] = state.job.box;
  Object.assign(line, { x0, y0: (y0 + y1) / 2, x1, y1: (y0 + y1) / 2 });
  const row = $("section-ends");
  row.replaceChildren();
  for (const key of ["x0", "y0", "x1", "y1"]) {
    const label = document.createElement("label");
    label.textContent = `${key[1] === "0" ? "From" : "To"} ${key[0].toUpperCase()}, ${state.job.unit} `;
    const input = Object.assign(document.createElement("input"), { type: "number", step: "any", id: `section-${key}` });
    input.addEventListener("change", () => {
      const v = read(input.value);
      if (Number.isFinite(v)) line[key] = v;
      showSection();
    });
    label.append(input);
    row.append(label);
  }
  showSection();
}

export async function showSection() {
  drawSectionLine(line);
  for (const key of ["x0", "y0", "x1", "y1"]) $(`section-${key}`).value = show(line[key], 2);
  const mine = ++asked;
  const { ok, answer } = await ask("section", { ...body(), line });
  if (!ok || mine !== asked) return;
  const length = Math.hypot(line.x1 - line.x0, line.y1 - line.y0);
  const top = answer.height + answer.shell + 3;
  const stretch = 3;
  svg.setAttribute("preserveAspectRatio", "xMidYMid meet");
  svg.replaceChildren();
  for (const piece of answer.solid) {
    const points = piece.map(([s, z]) => `${s.toFixed(3)},${(-z * stretch).toFixed(3)}`).join(" ");
    el("polygon", { points, class: "cut", "vector-effect": "non-scaling-stroke" }, svg);
  }
  for (const [from, to] of answer.shellRuns) {
    el("line", { x1: from, x2: to, y1: -(answer.height + answer.shell / 2) * stretch, y2: -(answer.height + answer.shell / 2) * stretch, class: "shell", "vector-effect": "non-scaling-stroke" }, svg);
  }
  const rows = figures(answer.notes, stretch);
  const caption = el("text", { x: 0, y: rows * ROW + 7, class: "caption" }, svg);
  caption.textContent = `heights ${stretch} x; block ${show(answer.height)} ${state.job.unit} high; the figures are the floor left, ${state.job.unit}`;
  svg.setAttribute("viewBox", `-6 ${-top * stretch - 3} ${length + 24} ${top * stretch + rows * ROW + 12}`);
}

const ROW = 5;
const GAP = 2;

/** Writes each floor's figure under the block, in the first row where it stands clear, with a line down to it; returns the rows. */
function figures(notes, stretch) {
  const ends = [];
  const leaders = el("g", {}, svg);
  for (const n of notes) {
    const t = el("text", { x: n.s, class: "figure" }, svg);
    t.textContent = n.text;
    const half = t.getComputedTextLength() / 2 + GAP / 2;
    let row = ends.findIndex((end) => end <= n.s - half);
    if (row < 0) row = ends.length;
    ends[row] = n.s + half;
    const y = (row + 1) * ROW;
    t.setAttribute("y", y);
    el("line", { x1: n.s, x2: n.s, y1: -n.z * stretch, y2: y - 3.2, class: "leader", "vector-effect": "non-scaling-stroke" }, leaders);
  }
  return ends.length;
}
