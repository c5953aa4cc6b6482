// The layout under work, with undo and redo. Lengths are mm here; only shown in the job's unit.
export const state = {
  job: null, magnets: [], ports: [], settings: {}, answer: null, chosen: null, kept: null, hash: "", step: 0.5, updates: [],
  shapes: [], curves: new Map(), trace: [], traceKey: "",
};

let past = [];
let future = [];
let saved = "";
const KEPT_STEPS = 200;
const copy = () => JSON.stringify({ magnets: state.magnets, ports: state.ports, settings: state.settings });

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
  const { magnets, ports, settings } = JSON.parse(text);
  Object.assign(state, { magnets, ports, settings, chosen: null });
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
    job: answer, magnets: answer.magnets, ports: answer.ports, settings: own, hash: answer.hash, answer: null, chosen: null, kept: null,
    shapes: [], trace: [], traceKey: "",
  });
  state.curves.clear();
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
export const body = () => ({ magnets: state.magnets, ports: state.ports, settings: state.settings });
/** A setting's own value in the job: a word or a figure. */
export const own = (setting) => setting.choice ?? setting.figure;
