// The layout under work, with undo and redo. Lengths are mm here; only shown in the job's unit.
export const state = {
  job: null, magnets: [], ports: [], settings: {}, answer: null, chosen: null, kept: null, hash: "", step: 0.5, updates: [],
  shapes: [], curves: new Map(), trace: [], traceKey: "", placement: null, placed: null, middle: [0, 0], picked: new Set(), ground: "",
};

let past = [];
let future = [];
let saved = "";
const KEPT_STEPS = 200;
const copy = () => JSON.stringify({ magnets: state.magnets, ports: state.ports, settings: state.settings, placement: state.placement });

export function remember() {
  past.push(copy());
  if (past.length > KEPT_STEPS) past.shift();
  future = [];
}

export const canUndo = () => past.length > 0;
export const canRedo = () => future.length > 0;
/** Whether the layout differs from the one in the job's file. */
export const isDirty = () => state.job !== null && copy() !== saved;

function restore(text) {
  const { magnets, ports, settings, placement } = JSON.parse(text);
  Object.assign(state, { magnets, ports, settings, placement: placement ?? null, chosen: null, ground: "" });
  state.picked.clear();
}

function travel(from, to) {
  if (from.length === 0) return false;
  to.push(copy());
  restore(from.pop());
  return true;
}

export const undo = () => travel(past, future);
export const redo = () => travel(future, past);

/** Takes the job's own layout as the saved one. What was laid out before on the same files is taken up again: true. */
export function begin(answer, own) {
  Object.assign(state, {
    job: answer, magnets: answer.magnets, ports: answer.ports, settings: own, hash: answer.hash, answer: null, chosen: null, kept: null, placement: null, placed: answer.placed, middle: answer.middle, ground: "",
    shapes: [], trace: [], traceKey: "",
  });
  state.curves.clear();
  state.picked.clear();
  [past, future, saved] = [[], [], copy()];
  const kept = JSON.parse(sessionStorage.getItem(draftKey()) ?? "null");
  if (kept?.hash !== state.hash) return false;
  [past, future] = [kept.past, kept.future];
  restore(kept.now);
  return isDirty();
}

/** The layout on the page is the one in the file now. */
export function isSaved(hash) {
  state.hash = hash;
  saved = copy();
  keep();
}

/** Back to the layout of the file, as one step that can be undone. */
export function discard() {
  remember();
  restore(saved);
}

const draftKey = () => `layout ${state.job.jobFile}`;
/** Keeps layout and history for a reload of this tab. */
export function keep() {
  try {
    sessionStorage.setItem(draftKey(), JSON.stringify({ hash: state.hash, now: copy(), past: past.slice(-50), future: future.slice(-50) }));
  } catch {
    sessionStorage.removeItem(draftKey());
  }
}

/** Keeps the curves that an answer brings, and only those that are drawn; true where the drawing differs from before. */
export function take(answer) {
  for (const [key, d] of Object.entries(answer.curves)) state.curves.set(key, d);
  const same = answer.shapes.length === state.shapes.length && answer.shapes.every((s, i) => s.key === state.shapes[i].key && s.name === state.shapes[i].name);
  state.shapes = answer.shapes;
  const used = new Set(answer.shapes.map((s) => s.key));
  for (const key of state.curves.keys()) if (!used.has(key)) state.curves.delete(key);
  if (answer.trace) state.trace = answer.trace;
  state.traceKey = answer.traceKey ?? state.traceKey;
  return !same;
}

export const perUnit = () => (state.job?.unit === "in" ? 25.4 : 1);
export const show = (mm, digits) => (mm / perUnit()).toFixed(digits ?? (perUnit() === 1 ? 2 : 4));
/** A place to look at, not to type: a tenth of a millimetre, a hundredth of an inch. */
export const coarse = (mm) => show(mm, perUnit() === 1 ? 1 : 2);
export const read = (text) => Number.parseFloat(text) * perUnit();
/** The layout, and what the page has already so that it is not sent again. */
export const question = () => ({ ...body(), have: [...state.curves.keys(), state.traceKey] });
export const body = () => ({ magnets: state.magnets, ports: state.ports, settings: state.settings, placement: state.placement });
/** A setting's own value in the job: a word or a figure. */
export const own = (setting) => setting.choice ?? setting.figure;

/** Moves the part by dx, dy (mm) and turns it about its middle by so many degrees; magnets and ports go with it. */
export function movePart(dx, dy, deg) {
  const from = state.placement ?? state.placed;
  const [cx, cy] = state.middle;
  const [sin, cos] = [Math.sin((deg * Math.PI) / 180), Math.cos((deg * Math.PI) / 180)];
  const go = (p) => ({ ...p, x: cx + cos * (p.x - cx) - sin * (p.y - cy) + dx, y: cy + sin * (p.x - cx) + cos * (p.y - cy) + dy });
  const at = go(from);
  state.placement = { x: at.x, y: at.y, angleDeg: turned(from.angleDeg + deg) };
  carry(go);
  state.middle = [cx + dx, cy + dy];
}

/** Magnets and ports as they lie when the part goes from one place to another. */
export function carryTo(from, to) {
  const deg = ((to.angleDeg - from.angleDeg) * Math.PI) / 180;
  const [sin, cos] = [Math.sin(deg), Math.cos(deg)];
  carry((p) => ({ ...p, x: to.x + cos * (p.x - from.x) - sin * (p.y - from.y), y: to.y + sin * (p.x - from.x) + cos * (p.y - from.y) }));
}

function carry(go) {
  state.magnets = state.magnets.map(go);
  state.ports = state.ports.map(go);
}

/** Within half a turn either way. */
const turned = (deg) => Math.round((((((deg + 180) % 360) + 360) % 360) - 180) * 1e4) / 1e4;
