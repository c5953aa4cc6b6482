// The layout under work, with undo and redo. Lengths are mm here; only shown in the job's unit.
export const state = {
  job: null, magnets: [], ports: [], settings: {}, answer: null, chosen: null, kept: null, hash: "", dirty: false, step: 0.5, updates: [], shapesKey: "",
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

export const perUnit = () => (state.job?.unit === "in" ? 25.4 : 1);
export const show = (mm, digits) => (mm / perUnit()).toFixed(digits ?? (perUnit() === 1 ? 2 : 4));
export const read = (text) => Number.parseFloat(text) * perUnit();
export const body = () => ({ magnets: state.magnets, ports: state.ports, settings: state.settings });
