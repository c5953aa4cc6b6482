// The layout under work, with undo and redo. Lengths are mm here; only shown in the job's unit.
export const state = {
  job: null, magnets: [], ports: [], settings: {}, answer: null, chosen: null, kept: null, hash: "", dirty: false, step: 0.5, updates: [],
  shapes: [], curves: new Map(), trace: [], traceKey: "",
};

const past = [];
const future = [];
const copy = () => JSON.stringify({ magnets: state.magnets, ports: state.ports, settings: state.settings });

export function remember() {
  past.push(copy());
  if (past.length > 200) past.shift();
  future.length = 0;
  state.dirty = true;
}

export const canUndo = () => past.length > 0;
export const canRedo = () => future.length > 0;

function travel(from, to) {
  if (from.length === 0) return false;
  to.push(copy());
  const { magnets, ports, settings } = JSON.parse(from.pop());
  state.magnets = magnets;
  state.ports = ports;
  state.settings = settings;
  state.chosen = null;
  return true;
}

export const undo = () => travel(past, future);
export const redo = () => travel(future, past);

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
