// What is done with several magnets at once, with the part, and along the path of the trim.
import { ask } from "./server.js";
import { say } from "./say.js";
import { $, make } from "./dom.js";
import * as s from "./state.js";
import * as plan from "./drawing.js";
import { back, changed, counted } from "./layout.js";

const { state } = s;
const MOST_SHOWN = 10;
const GROUND_AFTER_MS = 60;
let grounding = 0;

/** The magnets that are ticked, else the one that is chosen; by their numbers from 0. */
export function ticked() {
  const all = [...state.picked].filter((i) => i < state.magnets.length).sort((a, b) => a - b);
  return all.length > 0 ? all : state.chosen?.kind === "magnet" ? [state.chosen.i] : [];
}

const free = () => ticked().filter((i) => !state.magnets[i].locked && !state.magnets[i].drawn);

/** Shows where a magnet may stand with the others where they are. */
export function askGround(i) {
  clearTimeout(grounding);
  grounding = setTimeout(async () => {
    const { ok, answer } = await ask("ground", { ...s.body(), which: [i] });
    if (!ok || state.chosen?.i !== i) return;
    state.ground = answer.path;
    plan.drawItems();
  }, GROUND_AFTER_MS);
}

async function snap() {
  const which = ticked();
  if (which.length === 0) return say("Choose a magnet, or tick several.");
  const { ok, answer } = await ask("snap", { ...s.body(), which });
  if (!ok) return say(answer.message, true);
  s.remember();
  state.magnets = answer.magnets;
  changed();
  say(answer.message);
}

/** Does something with the ticked magnets that are free, as one step. */
function withSeveral(least, act) {
  const which = free();
  if (which.length < least) return say(`Tick ${least} magnets or more that are neither locked nor drawn.`);
  s.remember();
  act(which);
  changed();
}

function spread(which) {
  const m = which.map((i) => state.magnets[i]);
  const wide = (axis) => Math.max(...m.map((p) => p[axis])) - Math.min(...m.map((p) => p[axis]));
  const axis = wide("x") >= wide("y") ? "x" : "y";
  m.sort((a, b) => a[axis] - b[axis]);
  const [from, to] = [m[0][axis], m.at(-1)[axis]];
  m.forEach((p, k) => (p[axis] = from + ((to - from) * k) / (m.length - 1)));
}

/** Adds a twin of each on the other side of the part's middle. */
function twins(axis) {
  const which = ticked();
  if (which.length === 0) return say("Choose a magnet, or tick several.");
  s.remember();
  const middle = state.middle[axis === "x" ? 0 : 1];
  for (const i of which) state.magnets.push({ ...state.magnets[i], [axis]: 2 * middle - state.magnets[i][axis], locked: false, drawn: false });
  state.picked.clear();
  counted();
  changed();
  say(`${which.length === 1 ? "A twin was" : `${which.length} twins were`} added on the other side of the part's middle.`);
}

/** What a save and a make would do with this layout. */
export function fate() {
  const chip = $("fate");
  const a = state.answer;
  const stays = (v) => v.magnet === undefined || v.magnet === null || state.magnets[v.magnet].locked;
  const refused = a.refused || a.violations.some(stays) || (a.findings ?? []).some((f) => f.severity === "error" && a.violations.length === 0);
  const moved = !refused && a.violations.length > 0;
  chip.textContent = refused ? "would be refused" : moved ? "would be moved" : "would be made so";
  chip.className = `chip ${refused ? "bad" : moved ? "warn" : "good"}`;
}

/** The place of the part as fields. */
export function drawPlace() {
  const at = state.placement ?? state.placed;
  const box = $("part-place");
  if (box.children.length === 0) {
    for (const [key, label] of [["x", "X"], ["y", "Y"], ["angleDeg", "Turned"]]) {
      const input = make("input", { id: `part-${key}`, type: "number", step: "any" });
      input.addEventListener("change", () => {
        const typed = key === "angleDeg" ? Number.parseFloat(input.value) : s.read(input.value);
        const now = state.placement ?? state.placed;
        if (!Number.isFinite(typed)) return drawPlace();
        s.remember();
        if (key === "angleDeg") s.movePart(0, 0, typed - now.angleDeg);
        else s.movePart(key === "x" ? typed - now.x : 0, key === "y" ? typed - now.y : 0, 0);
        changed();
      });
      box.append(make("label", {}, `${label}, `, key === "angleDeg" ? "degrees " : make("span", { className: "unit" }, state.job.unit), " ", input));
    }
  }
  for (const key of ["x", "y", "angleDeg"]) {
    const input = $(`part-${key}`);
    if (input !== document.activeElement) input.value = key === "angleDeg" ? at.angleDeg.toFixed(2) : s.show(at[key]);
  }
  $("part-back").disabled = state.placement === null;
}

/** The scrubber over the steps of the trim: load and factor as curves, one step in words and on the plan. */
export function drawScrub() {
  drawPlace();
  const steps = plan.trimSteps();
  const along = $("along");
  along.max = String(Math.max(0, steps.length - 1));
  const svg = $("along-chart");
  svg.setAttribute("viewBox", `0 0 ${Math.max(1, steps.length - 1)} 40`);
  svg.setAttribute("preserveAspectRatio", "none");
  svg.replaceChildren();
  if (steps.length < 2) return;
  const most = Math.max(...steps.map((p) => p.load), 1e-9);
  const key = $("show").value;
  const curve = (value) => steps.map((p, i) => `${i},${(38 - 36 * Math.min(1, value(p))).toFixed(2)}`).join(" ");
  plan.el("polyline", { points: curve((p) => p.load / most), class: "load", "vector-effect": "non-scaling-stroke" }, svg);
  if (steps[0][key] === undefined) return;
  plan.el("polyline", { points: curve((p) => p[key] / MOST_SHOWN), class: "hold", "vector-effect": "non-scaling-stroke" }, svg);
  const limit = { vacuum: state.job.limits.vacuum, stopping: state.job.limits.magnets }[key];
  if (limit) plan.el("line", { x1: 0, x2: steps.length, y1: 38 - (36 * limit) / MOST_SHOWN, y2: 38 - (36 * limit) / MOST_SHOWN, class: "limit", "vector-effect": "non-scaling-stroke" }, svg);
  svg.setAttribute("aria-label", `Along the trim: load up to ${most.toFixed(1)} N, factor from ${Math.min(...steps.map((p) => p[key])).toFixed(2)}; the curve of the factor ends at ${MOST_SHOWN}`);
}

function showStep() {
  const p = plan.trimSteps()[Number($("along").value)];
  if (!p) return;
  plan.drawAlong(p);
  const factors = p.vacuum === undefined ? "no factor" : `vacuum ${p.vacuum.toFixed(2)}, magnets stopping ${p.stopping.toFixed(2)}, both ${p.both.toFixed(2)}`;
  const text = `${p.cut}: X ${s.coarse(p.x)} Y ${s.coarse(p.y)} ${state.job.unit}: load ${p.load.toFixed(1)} N, ${factors}`;
  $("hover").textContent = text;
  $("along").setAttribute("aria-valuetext", text);
}

/** To the step with the least factor of those that colour the path. */
function worstStep() {
  const key = $("show").value;
  const steps = plan.trimSteps();
  let least = 0;
  steps.forEach((p, i) => {
    if (p[key] < steps[least][key]) least = i;
  });
  $("along").value = String(least);
  showStep();
}

export function startExtras() {
  $("snap").addEventListener("click", snap);
  $("align-x").addEventListener("click", () => withSeveral(2, (which) => which.forEach((i) => (state.magnets[i].x = state.magnets[which[0]].x))));
  $("align-y").addEventListener("click", () => withSeveral(2, (which) => which.forEach((i) => (state.magnets[i].y = state.magnets[which[0]].y))));
  $("spread").addEventListener("click", () => withSeveral(3, spread));
  $("twin-x").addEventListener("click", () => twins("x"));
  $("twin-y").addEventListener("click", () => twins("y"));
  $("part-mode").addEventListener("change", () => plan.drawItems());
  $("part-back").addEventListener("click", () => {
    s.remember();
    s.carryTo(state.placement ?? state.placed, state.job.placed);
    Object.assign(state, { placement: null, placed: state.job.placed, middle: state.job.middle, ground: "" });
    back();
  });
  $("along").addEventListener("input", showStep);
  $("along-worst").addEventListener("click", worstStep);
  $("show").addEventListener("change", drawScrub);
  $("drawing").addEventListener("focusin", (e) => {
    const i = /** @type {any} */ (e.target).closest?.("[data-magnet]")?.dataset.index;
    if (i === undefined) return;
    state.chosen = { kind: "magnet", i: Number(i) };
    askGround(Number(i));
  });
}
