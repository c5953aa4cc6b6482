// The figures beside the drawing: factors, magnets, clearances, what may be tried, and the comparison.
import { state, show, read, remember } from "./state.js";

const $ = (id) => document.getElementById(id);
const cell = (row, text, className) => {
  const td = row.insertCell();
  td.textContent = text;
  if (className) td.className = className;
  return td;
};
const body = (id) => $(id).tBodies[0];
const rows = [["vacuumOnly", "vacuum alone", "vacuum"], ["magnetsStopping", "magnets, stopping", "magnets"], ["magnetsOnly", "magnets, full load", null], ["both", "both", null]];

export function drawFactors() {
  const t = body("factors");
  t.replaceChildren();
  const a = state.answer;
  if (!a?.factors) return;
  for (const [key, name, limit] of rows) {
    const f = a.factors[key];
    const least = limit ? state.job.limits[limit] : null;
    const row = t.insertRow();
    row.id = `factor-${key}`;
    const th = document.createElement("th");
    th.scope = "row";
    th.textContent = name;
    row.append(th);
    cell(row, f.factor.toFixed(4), least && f.factor < least ? "low" : "").dataset.factor = key;
    cell(row, least ? String(least) : "-");
    cell(row, f.mode);
    cell(row, `${show(f.xMm, 1)}, ${show(f.yMm, 1)}`);
  }
  $("governs").textContent = a.factors.vacuumOnly.governs;
}

export function drawMagnetTable(changed) {
  const t = body("magnets");
  const active = document.activeElement?.id;
  t.replaceChildren();
  state.magnets.forEach((m, i) => {
    const row = t.insertRow();
    cell(row, String(i + 1));
    for (const axis of ["x", "y"]) {
      const input = document.createElement("input");
      input.id = `magnet-${i}-${axis}`;
      input.type = "number";
      input.step = "any";
      input.value = show(m[axis]);
      input.setAttribute("aria-label", `${axis.toUpperCase()} of magnet ${i + 1}`);
      input.disabled = Boolean(m.drawn);
      input.addEventListener("change", () => {
        const v = read(input.value);
        if (!Number.isFinite(v)) return void (input.value = show(m[axis]));
        remember();
        m[axis] = v;
        changed();
      });
      row.insertCell().append(input);
    }
    const share = state.answer?.shares?.[i];
    cell(row, share === undefined ? "-" : `${share.toFixed(1)} N`);
    const lock = document.createElement("input");
    lock.type = "checkbox";
    lock.id = `magnet-${i}-lock`;
    lock.checked = m.locked || Boolean(m.drawn);
    lock.disabled = Boolean(m.drawn);
    lock.setAttribute("aria-label", `lock magnet ${i + 1}`);
    lock.addEventListener("change", () => {
      remember();
      m.locked = lock.checked;
      changed();
    });
    row.insertCell().append(lock);
    const remove = document.createElement("button");
    remove.type = "button";
    remove.textContent = "Remove";
    remove.disabled = Boolean(m.drawn);
    remove.setAttribute("aria-label", `remove magnet ${i + 1}`);
    remove.addEventListener("click", () => {
      remember();
      state.magnets.splice(i, 1);
      changed();
    });
    row.insertCell().append(remove);
  });
  if (active) $(active)?.focus({ preventScroll: true });
}

export function drawViolations() {
  const list = $("violations");
  list.replaceChildren();
  const all = state.answer?.violations ?? [];
  for (const v of all) {
    const li = document.createElement("li");
    li.textContent = v.message;
    list.append(li);
  }
  if (all.length === 0) {
    const li = document.createElement("li");
    li.className = "none";
    li.textContent = "Every clearance is kept.";
    list.append(li);
  }
}

export function buildSettings(changed) {
  const form = $("settings");
  form.replaceChildren();
  for (const s of state.job.settings) {
    const label = document.createElement("label");
    label.htmlFor = `set-${s.key}`;
    label.textContent = s.unit ? `${s.name}, ${s.unit}` : s.name;
    const input = document.createElement(s.choices ? "select" : "input");
    input.id = `set-${s.key}`;
    if (s.choices) {
      for (const c of s.choices) input.append(new Option(c, c));
    } else {
      Object.assign(input, { type: "number", min: s.min, max: s.max, step: s.step });
    }
    input.value = state.settings[s.key] ?? s.value;
    input.addEventListener("change", () => {
      const v = s.choices ? input.value : Number.parseFloat(input.value);
      if (!s.choices && !(v >= s.min && v <= s.max)) return void (input.value = state.settings[s.key] ?? s.value);
      remember();
      state.settings[s.key] = v;
      changed();
    });
    form.append(label, input);
  }
  form.addEventListener("submit", (e) => e.preventDefault());
}

export function refreshSettings() {
  for (const s of state.job.settings) $(`set-${s.key}`).value = state.settings[s.key] ?? s.value;
}

export function drawCompare() {
  const table = $("compare");
  table.hidden = !state.kept;
  if (!state.kept || !state.answer?.factors) return;
  const t = body("compare");
  t.replaceChildren();
  const line = (name, kept, now) => {
    const row = t.insertRow();
    const th = document.createElement("th");
    th.scope = "row";
    th.textContent = name;
    row.append(th);
    cell(row, kept);
    cell(row, now);
  };
  for (const [key, name] of rows) line(name, state.kept.factors[key].factor.toFixed(3), state.answer.factors[key].factor.toFixed(3));
  line("magnets", String(state.kept.shares.length), String(state.answer.shares.length));
  line("pull of all, N", state.kept.magnetForceN.toFixed(1), state.answer.magnetForceN.toFixed(1));
  line("clearances violated", String(state.kept.violations.length), String(state.answer.violations.length));
}

export function drawFindings(findings) {
  const box = $("findings");
  const list = box.querySelector("ul");
  list.replaceChildren();
  box.hidden = findings.length === 0;
  for (const f of findings) {
    const li = document.createElement("li");
    li.textContent = `${f.severity} ${f.code} at ${f.where}: ${f.message}. ${f.remedy}`;
    list.append(li);
  }
}
