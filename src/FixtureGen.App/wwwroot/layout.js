// The layout of one job: what the person does on the drawing and at the keyboard, and what the program answers to it.
import { ask, address, current, isLost, tryLayout } from "./server.js";
import { alarm, findings, say, speak } from "./say.js";
import { $ } from "./dom.js";
import * as s from "./state.js";
import * as plan from "./drawing.js";
import * as panel from "./panel.js";
import { askGround, drawScrub, fate, startExtras, ticked } from "./extras.js";
import { listKept } from "./kept.js";
import { line, showSection, startSection } from "./section.js";

const { state } = s;
const svg = $("drawing");
const listed = (list) => findings($("findings"), list ?? []);

const items = (kind) => (kind === "port" ? state.ports : state.magnets);
const named = (kind, i) => `${kind === "port" ? "Port" : "Magnet"} ${i + 1}`;

function fixed(kind, i) {
  const m = items(kind)[i];
  if (m.drawn) say(`Magnet ${i + 1} stands in the drawing: move it there.`);
  else if (m.locked) say(`Magnet ${i + 1} is locked.`);
  return Boolean(m.drawn || m.locked);
}

/** Moves a magnet or port; a ticked magnet takes the other ticked ones along that are free. */
function together(item, dx, dy) {
  const all = item.kind === "magnet" && state.picked.has(item.i) ? [...state.picked].filter((i) => i === item.i || !(state.magnets[i].locked || state.magnets[i].drawn)) : [item.i];
  for (const i of all) {
    const at = items(item.kind)[i];
    at.x += dx;
    at.y += dy;
  }
}

function tick(i) {
  if (state.picked.has(i)) state.picked.delete(i);
  else state.picked.add(i);
  panel.drawMagnetTable(changed);
  plan.drawItems();
  speak(`${ticked().length} magnets are ticked.`);
}

/** The magnet or port that an element of the drawing stands for. */
function itemOf(target) {
  const g = target.closest?.("[data-magnet], [data-port]");
  if (!g) return null;
  return { kind: "port" in g.dataset ? "port" : "magnet", i: Number(g.dataset.index) };
}

function buttons() {
  const lost = isLost();
  const dirty = s.isDirty();
  $("undo").disabled = !s.canUndo();
  $("redo").disabled = !s.canRedo();
  $("discard").disabled = !dirty;
  for (const id of ["save", "make", "best", "fewest", "shade"]) $(id).disabled = lost || (id === "make" && making);
  $("saved").textContent = dirty ? "unsaved changes" : "as saved";
  $("saved").className = dirty ? "chip open" : "chip";
  $("make").textContent = dirty ? "Save and make all files" : "Make all files";
  document.title = `${dirty ? "\u2022 " : ""}${state.job.job} - layout`;
}

function refused(result) {
  state.answer = { factors: null, shares: [], violations: [], path: [], fed: state.job.fed, magnetForceN: 0, refused: true };
  listed(result.answer.findings);
  show();
  say(result.answer.message ?? "the program refused this", true);
}

function show() {
  panel.drawFactors();
  panel.drawViolations();
  panel.drawMagnetTable(changed);
  panel.drawPortTable(changed);
  panel.drawCompare();
  plan.redraw();
  drawScrub();
  fate();
}

export function changed() {
  buttons();
  s.keep();
  panel.drawMagnetTable(changed);
  panel.drawPortTable(changed);
  plan.drawItems();
  let lies = "";
  tryLayout(() => {
    lies = JSON.stringify(state.placement);
    return s.question();
  }, (result, asked) => {
    if (result.status === 0) return;
    if (!result.ok) return refused(result);
    state.answer = result.answer;
    state.job.magnet = result.answer.magnet;
    if (lies === JSON.stringify(state.placement)) Object.assign(state, { placed: result.answer.placed, middle: result.answer.middle });
    if (s.take(result.answer)) plan.drawShapes();
    listed(result.answer.findings);
    show();
    speak(panel.inWords());
    state.updates.push(performance.now() - asked);
    document.body.dataset.updates = String(state.updates.length);
  });
}

/** The job that is laid out; null for none. */
export const layoutJob = () => laidOut;
let laidOut = null;

/** Opens a job, by its name in the list. */
export async function openLayout(job) {
  const again = job === laidOut;
  if (!again) laidOut = null;
  current.job = job;
  for (const id of ["laid", "second"]) $(id).hidden = !again;
  if (!again) {
    $("title").textContent = `Layout of ${job.split("/").pop().replace(/\.toml$/i, "")}`;
    $("subtitle").textContent = $("saved").textContent = "";
    say("Opening the layout: the part is placed and what is left open is chosen ...");
  }
  const { ok, status, answer } = await ask("state");
  if (!ok) {
    // the layout that is on the page stays: it is the last one that could be read
    listed(answer.findings);
    const first = answer.findings?.find((f) => f.severity === "error");
    if (status !== 0) say(first ? `${first.where}: ${first.message}` : answer.message, true);
    return false;
  }
  for (const id of ["laid", "second"]) $(id).hidden = false;
  const own = Object.fromEntries(answer.settings.map((setting) => [setting.key, s.own(setting)]));
  const restored = s.begin(answer, own);
  laidOut = job;
  $("title").textContent = `Layout of ${answer.job}`;
  $("subtitle").textContent = answer.title;
  for (const u of document.querySelectorAll(".unit")) u.textContent = answer.unit;
  state.step = answer.unit === "in" ? 0.02 * 25.4 : 0.5;
  $("step").value = s.show(state.step, answer.unit === "in" ? 3 : 2);
  panel.buildSettings(changed);
  panel.refreshSettings();
  s.take(answer);
  plan.drawShapes();
  plan.drawLegend();
  plan.fit();
  startSection();
  $("block").hidden = true;
  listKept();
  alarm("changed", "");
  alarm("blocked", answer.findings.length > 0 ? `The job as it is saved cannot be made: ${answer.findings[0].message}. Its magnets are shown where it states them.` : "");
  say(restored ? "Your unsaved layout was taken up again: Undo leads back step by step." : "Arrow keys move the chosen magnet or port by the step; with Shift ten steps.");
  changed();
  return true;
}

/** Looks whether the files on disk are still those that the page shows. */
export async function watchFiles(soon) {
  if (laidOut === null) return openLayout(current.job);
  current.job = laidOut;
  const { ok, answer } = await soon("pulse");
  buttons();
  if (!ok || $("view-layout").hidden) return;
  if (answer.hash === state.hash) return alarm("changed", "");
  const what = answer.changes.length > 0 ? answer.changes.join(", ") : "the job was saved from elsewhere";
  alarm("changed", `The files on disk are no longer those that this page shows: ${what}. The figures are for the files as they were; nothing can be saved over them.`, [
    [s.isDirty() ? "Take over the files, drop this layout" : "Take over the files", () => openLayout(current.job)],
  ]);
}

// Pointers: drag a magnet, a handle of the section line, or the view; two fingers pinch.
const pointers = new Map();
let drag = null;

svg.addEventListener("pointerdown", (e) => {
  pointers.set(e.pointerId, e);
  svg.setPointerCapture(e.pointerId);
  const item = itemOf(e.target);
  const handle = e.target.closest?.("[data-end]");
  if (pointers.size === 2) drag = { kind: "pinch", span: span() };
  else if (handle) drag = { kind: "end", end: handle.dataset.end };
  else if (e.target.dataset?.part) drag = { kind: "part", what: e.target.dataset.part, last: plan.toWorld(e), moved: false };
  else if (item && !$("pan-mode").checked) {
    state.chosen = item;
    if (item.kind === "magnet") {
      if (e.shiftKey) return tick(item.i);
      askGround(item.i);
    }
    if (fixed(item.kind, item.i)) return;
    const p = plan.toWorld(e);
    const at = items(item.kind)[item.i];
    drag = { kind: "item", item, dx: at.x - p.x, dy: at.y - p.y, moved: false };
  } else drag = { kind: "pan", x: e.clientX, y: e.clientY };
});

const span = () => {
  const [a, b] = [...pointers.values()];
  return { d: Math.hypot(a.clientX - b.clientX, a.clientY - b.clientY), x: (a.clientX + b.clientX) / 2, y: (a.clientY + b.clientY) / 2 };
};

svg.addEventListener("pointermove", (e) => {
  if (pointers.has(e.pointerId)) pointers.set(e.pointerId, e);
  const p = plan.toWorld(e);
  if (!drag) {
    const sample = plan.nearestSample(p);
    $("hover").textContent = sample
      ? `${sample.cut}: X ${s.coarse(sample.x)} Y ${s.coarse(sample.y)} ${state.job.unit}: vacuum ${sample.vacuum.toFixed(2)}, magnets stopping ${sample.stopping.toFixed(2)}, both ${sample.both.toFixed(2)}, load ${sample.load.toFixed(1)} N`
      : "";
    return;
  }
  if (drag.kind === "pinch" && pointers.size === 2) {
    const now = span();
    const box = svg.getBoundingClientRect();
    plan.pan(now.x - drag.span.x, now.y - drag.span.y);
    plan.zoom(now.d / drag.span.d, now.x - box.left, now.y - box.top);
    drag.span = now;
  } else if (drag.kind === "pan") {
    plan.pan(e.clientX - drag.x, e.clientY - drag.y);
    Object.assign(drag, { x: e.clientX, y: e.clientY });
  } else if (drag.kind === "end") {
    line[`x${drag.end}`] = p.x;
    line[`y${drag.end}`] = p.y;
    showSection();
  } else if (drag.kind === "item") {
    if (!drag.moved) s.remember();
    drag.moved = true;
    const at = items(drag.item.kind)[drag.item.i];
    together(drag.item, p.x + drag.dx - at.x, p.y + drag.dy - at.y);
    changed();
  } else if (drag.kind === "part") {
    if (!drag.moved) s.remember();
    drag.moved = true;
    state.ground = "";
    const [cx, cy] = state.middle;
    const way = (q) => Math.atan2(q.y - cy, q.x - cx);
    if (drag.what === "move") s.movePart(p.x - drag.last.x, p.y - drag.last.y, 0);
    else s.movePart(0, 0, ((way(p) - way(drag.last)) * 180) / Math.PI);
    drag.last = p;
    changed();
  }
});

for (const end of ["pointerup", "pointercancel"]) {
  svg.addEventListener(end, (e) => {
    pointers.delete(e.pointerId);
    if ((drag?.kind === "item" || drag?.kind === "part") && drag.moved) showSection();
    if (drag?.kind === "item" && drag.moved && drag.item.kind === "magnet" && $("snap-mode").checked) $("snap").click();
    drag = null;
  });
}

svg.addEventListener("wheel", (e) => {
  e.preventDefault();
  const box = svg.getBoundingClientRect();
  plan.zoom(Math.exp(-e.deltaY * 0.0015), e.clientX - box.left, e.clientY - box.top);
}, { passive: false });

svg.addEventListener("keydown", (e) => {
  if (e.ctrlKey || e.metaKey || e.altKey) return;
  if (e.key === "n" || e.key === "N") return void add();
  if (e.key === "p" || e.key === "P") return void addPort();
  const arrow = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[e.key];
  const step = state.step * (e.shiftKey ? 10 : 1);
  const end = e.target.dataset?.end;
  if (end !== undefined && arrow) {
    e.preventDefault();
    line[`x${end}`] += arrow[0] * step;
    line[`y${end}`] += arrow[1] * step;
    return void showSection();
  }
  const part = e.target.dataset?.part;
  if (part && arrow) {
    e.preventDefault();
    s.remember();
    state.ground = "";
    if (part === "move") s.movePart(arrow[0] * step, arrow[1] * step, 0);
    else s.movePart(0, 0, (arrow[0] < 0 || arrow[1] > 0 ? 1 : -1) * (e.shiftKey ? 15 : 1));
    return changed();
  }
  const item = itemOf(e.target);
  if (!item) return;
  const { kind, i } = item;
  if (kind === "magnet" && e.key === " ") {
    e.preventDefault();
    return tick(i);
  }
  const at = items(kind)[i];
  state.chosen = item;
  if (arrow) {
    e.preventDefault();
    if (fixed(kind, i)) return;
    s.remember();
    together(item, arrow[0] * step, arrow[1] * step);
  } else if (e.key === "Delete" || e.key === "Backspace") {
    e.preventDefault();
    if (at.drawn) return void say(`Magnet ${i + 1} stands in the drawing: take it out there.`);
    s.remember();
    items(kind).splice(i, 1);
    state.picked.clear();
    state.ground = "";
    if (kind === "magnet") counted();
    state.chosen = null;
    say(`${named(kind, i)} was removed.`);
    changed();
    const next = Math.min(i, items(kind).length - 1);
    return void (svg.querySelector(`[data-${kind}="${next}"]`) ?? svg).focus();
  } else if (kind === "magnet" && !at.drawn && (e.key === "l" || e.key === "L")) {
    s.remember();
    at.locked = !at.locked;
  } else return;
  changed();
});

document.addEventListener("keydown", (e) => {
  if (!(e.ctrlKey || e.metaKey) || /** @type {any} */ (e.target).matches("input, select")) return;
  if (e.key.toLowerCase() === "z") {
    e.preventDefault();
    if (e.shiftKey ? s.redo() : s.undo()) back();
  } else if (e.key.toLowerCase() === "y") {
    e.preventDefault();
    if (s.redo()) back();
  }
});

export function back() {
  panel.refreshSettings();
  changed();
  showSection();
}

function add() {
  const [x0, y0, x1, y1] = state.job.box;
  s.remember();
  state.magnets.push({ x: (x0 + x1) / 2, y: (y0 + y1) / 2, locked: false });
  counted();
  choose("magnet");
  say(`Magnet ${state.magnets.length} was added in the middle of the block.`);
}

/** The number that is asked for follows the magnets that are there. */
export function counted() {
  state.settings.count = state.magnets.length;
  panel.refreshSettings();
}

function choose(kind) {
  const i = items(kind).length - 1;
  state.chosen = { kind, i };
  changed();
  svg.querySelector(`[data-${kind}="${i}"]`)?.focus();
}

/** Fixes the port of the first zone that has none fixed, just where the program put it. */
function addPort() {
  const fed = state.answer?.fed ?? state.job.fed;
  const free = fed.find((z) => !state.ports.some((p) => Math.hypot(p.x - z.x, p.y - z.y) < 0.02));
  if (!free) return say("Every zone's port is fixed already.");
  s.remember();
  state.ports.push({ x: free.x, y: free.y });
  choose("port");
  say(`The port of zone ${free.zone} is fixed as port ${state.ports.length}: it can be moved now.`);
}

async function best(path) {
  say("Looking for the best places ...");
  const { ok, answer } = await ask(path, s.body());
  if (!ok) {
    listed(answer.findings);
    return say(answer.message ?? "no places were found", true);
  }
  s.remember();
  state.magnets = answer.magnets;
  state.settings.count = answer.magnets.length;
  panel.refreshSettings();
  changed();
  showSection();
  say(answer.message);
}

/** True when the layout stands in the job's file. */
async function save(anyway = false) {
  const { ok, status, answer } = await ask("save", { ...s.body(), hash: state.hash, anyway });
  if (ok) {
    s.isSaved(answer.hash);
    alarm("changed", "");
    alarm("blocked", "");
    buttons();
    listKept();
    say(answer.message);
    return true;
  }
  if (status === 422 && answer.violations && confirm(`${answer.message}\n\nSave it all the same?`)) return save(true);
  if (answer.findings) listed(answer.findings);
  say(answer.message, true);
  return false;
}

let making = false;

/** Makes what the page shows: what is not saved yet is saved first. */
async function make() {
  if (s.isDirty() && !(await save())) return;
  making = true;
  buttons();
  const watch = setInterval(async () => {
    const { ok, answer } = await ask("progress");
    if (ok && answer.step) say(`Making all files: ${answer.step} ...`);
  }, 250);
  const { ok, answer } = await ask("make", { hash: state.hash });
  clearInterval(watch);
  making = false;
  buttons();
  listed(answer.findings);
  say(answer.message, !ok);
}

startExtras();
$("undo").addEventListener("click", () => s.undo() && back());
$("redo").addEventListener("click", () => s.redo() && back());
$("discard").addEventListener("click", () => {
  s.discard();
  back();
});
$("fit").addEventListener("click", () => plan.fit());
$("in").addEventListener("click", () => plan.zoom(1.3));
$("out").addEventListener("click", () => plan.zoom(1 / 1.3));
$("show").addEventListener("change", () => plan.redraw());
$("add").addEventListener("click", add);
$("add-port").addEventListener("click", addPort);
$("best").addEventListener("click", () => best("best"));
$("fewest").addEventListener("click", () => best("fewest"));
$("save").addEventListener("click", () => save());
$("make").addEventListener("click", make);
$("keep").addEventListener("click", () => {
  state.kept = { ...structuredClone(state.answer), magnets: state.magnets.length };
  panel.drawCompare();
});
$("step").addEventListener("change", () => {
  const v = s.read($("step").value);
  if (v > 0) state.step = v;
});
$("shade").addEventListener("click", async () => {
  say("Cutting the block ...");
  const picture = $("block");
  picture.onload = () => say("The block as its top program cuts it.");
  picture.onerror = () => {
    picture.hidden = true;
    say("The block cannot be cut with this layout: keep the clearances, or see the findings of Make all files.", true);
  };
  picture.src = address("block.png", { for: JSON.stringify(s.body()) });
  picture.hidden = false;
});
window.addEventListener("resize", () => state.job && plan.fit());
window.addEventListener("beforeunload", (e) => {
  if (s.isDirty()) e.preventDefault();
});
