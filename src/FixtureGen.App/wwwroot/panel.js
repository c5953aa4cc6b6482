// The figures beside the drawing: factors, magnets, clearances, what may be tried, and the comparison.
import { $ } from "./dom.js";
import { state, show, coarse, read, remember, own } from "./state.js";

const cell = (row, text, className) => {
  const td = row.insertCell();
  td.textContent = text;
  if (className) td.className = className;
  return td;
};
const body = (id) => $(id).tBodies[0];
const rows = [["vacuumOnly", "vacuum alone", "vacuum"], ["magnetsStopping", "magnets, stopping", "magnets"], ["magnetsOnly", "magnets, full load", null], ["both", "both", null]];

const onMagnets = (a) => a.factors?.heldBy === "magnets";

export function drawFactors() {
  const t = body("factors");
  const a = state.answer;
  if (!a) return;
  $("impossible").hidden = Boolean(a.factors);
  $("factors").classList.toggle("none", !a.factors);
  rows.forEach(([key, name, limit], i) => {
    let row = t.rows[i];
    if (!row) {
      row = t.insertRow();
      row.id = `factor-${key}`;
      row.append(Object.assign(document.createElement("th"), { scope: "row", textContent: name }));
      for (let n = 0; n < 5; n++) row.insertCell();
      row.cells[1].dataset.factor = key;
      row.cells[3].dataset.stays = key;
    }
    // where magnets are the hold, theirs is the limit on staying put, and nothing is asked of a vacuum
    const asked = !onMagnets(a) ? limit : key === "vacuumOnly" ? null : key === "magnetsOnly" ? "vacuum" : limit;
    const least = asked ? state.job.limits[asked] : null;
    put(row.cells[2], least ? String(least) : "-");
    const f = a.factors?.[key];
    if (!f) {
      for (const n of [1, 3, 4, 5]) {
        put(row.cells[n], "-");
        row.cells[n].className = "";
      }
      return;
    }
    put(row.cells[1], f.factor.toFixed(4));
    // the vacuum's limit is on staying put, the magnets' on staying once the stops bear
    const stays = key === "magnetsStopping";
    row.cells[1].className = least && !stays && f.factor < least ? "low" : "";
    put(row.cells[3], f.stays.toFixed(4));
    row.cells[3].className = least && stays && f.stays < least ? "low" : "";
    put(row.cells[4], f.mode);
    put(row.cells[5], `${coarse(f.xMm)}, ${coarse(f.yMm)}`);
  });
  put($("governs"), !a.factors ? "" : onMagnets(a) ? `Magnets alone: ${a.factors.magnetsOnly.governs}.` : `Vacuum alone: ${a.factors.vacuumOnly.governs}.`);
}

/** The answer as a sentence: what a screen reader is told after a change. */
export function inWords() {
  const a = state.answer;
  const item = state.chosen;
  const at = item && (item.kind === "port" ? state.ports : state.magnets)[item.i];
  const place = at ? `${item.kind === "port" ? "Port" : "Magnet"} ${item.i + 1} at X ${show(at.x)} Y ${show(at.y)} ${state.job.unit}. ` : "";
  if (!a.factors) return `${place}${a.violations.length > 0 ? a.violations.map((v) => v.message).join(" ") : "This layout cannot be cut."} There is no hold factor.`;
  if (onMagnets(a)) return `${place}Every clearance is kept. Hold factor on magnets alone ${a.factors.magnetsOnly.factor.toFixed(2)}.`;
  return `${place}Every clearance is kept. Hold factor on vacuum alone ${a.factors.vacuumOnly.factor.toFixed(2)}, magnets while the machine stops ${a.factors.magnetsStopping.stays.toFixed(2)} on the stops.`;
}

// Rows are kept while their number stays, so that a drag only changes values and a field keeps its cursor.
function coordinates(row, kind, i, list, changed) {
  for (const axis of ["x", "y"]) {
    const input = Object.assign(document.createElement("input"), { id: `${kind}-${i}-${axis}`, type: "number", step: "any" });
    input.setAttribute("aria-label", `${axis.toUpperCase()} of ${kind} ${i + 1}`);
    input.addEventListener("change", () => {
      const v = read(input.value);
      if (!Number.isFinite(v)) return void (input.value = show(list()[i][axis]));
      remember();
      list()[i][axis] = v;
      changed();
    });
    row.insertCell().append(input);
  }
}

function removal(row, kind, i, list, changed) {
  const remove = Object.assign(document.createElement("button"), { type: "button", textContent: "Remove" });
  remove.setAttribute("aria-label", `remove ${kind} ${i + 1}`);
  remove.addEventListener("click", () => {
    remember();
    list().splice(i, 1);
    if (kind === "magnet") {
      state.picked.clear();
      state.settings.count = list().length;
      refreshSettings();
    }
    state.chosen = null;
    changed();
  });
  row.insertCell().append(remove);
}

const put = (node, text) => {
  if (node.textContent !== text) node.textContent = text;
};

function place(kind, i, item) {
  for (const axis of ["x", "y"]) {
    const input = $(`${kind}-${i}-${axis}`);
    const text = show(item[axis]);
    if (input !== document.activeElement || read(input.value).toFixed(2) !== item[axis].toFixed(2)) input.value = text;
    input.disabled = Boolean(item.drawn);
  }
}

export function drawMagnetTable(changed) {
  const t = body("magnets");
  const list = () => state.magnets;
  while (t.rows.length > state.magnets.length) t.rows[t.rows.length - 1].remove();
  while (t.rows.length < state.magnets.length) {
    const i = t.rows.length;
    const row = t.insertRow();
    const pick = Object.assign(document.createElement("input"), { type: "checkbox", id: `magnet-${i}-pick` });
    pick.setAttribute("aria-label", `tick magnet ${i + 1}, to move, align or twin it with others`);
    pick.addEventListener("change", () => {
      if (pick.checked) state.picked.add(i);
      else state.picked.delete(i);
      changed();
    });
    row.insertCell().append(pick, ` ${i + 1}`);
    coordinates(row, "magnet", i, list, changed);
    cell(row, "-");
    const lock = Object.assign(document.createElement("input"), { type: "checkbox", id: `magnet-${i}-lock` });
    lock.setAttribute("aria-label", `lock magnet ${i + 1}`);
    lock.addEventListener("change", () => {
      remember();
      state.magnets[i].locked = lock.checked;
      changed();
    });
    row.insertCell().append(lock);
    removal(row, "magnet", i, list, changed);
  }
  state.magnets.forEach((m, i) => {
    place("magnet", i, m);
    const share = state.answer?.shares?.[i];
    put(t.rows[i].cells[3], share === undefined ? "-" : `${share.toFixed(1)} N`);
    $(`magnet-${i}-pick`).checked = state.picked.has(i);
    const lock = $(`magnet-${i}-lock`);
    lock.checked = m.locked || Boolean(m.drawn);
    lock.disabled = Boolean(m.drawn);
    t.rows[i].querySelector("button").disabled = Boolean(m.drawn);
  });
}

export function drawPortTable(changed) {
  const t = body("ports");
  const list = () => state.ports;
  while (t.rows.length > state.ports.length) t.rows[t.rows.length - 1].remove();
  while (t.rows.length < state.ports.length) {
    const i = t.rows.length;
    const row = t.insertRow();
    cell(row, String(i + 1));
    coordinates(row, "port", i, list, changed);
    removal(row, "port", i, list, changed);
  }
  state.ports.forEach((p, i) => place("port", i, p));
  $("ports").hidden = state.ports.length === 0;
  const lines = (state.answer?.fed ?? state.job.fed).map((z) => {
    const chosen = state.ports.some((p) => Math.hypot(p.x - z.x, p.y - z.y) < 0.02) ? "fixed" : "chosen by the program";
    return `Zone ${z.zone}: X ${show(z.x)} Y ${show(z.y)}, from ${z.feeds}, ${chosen}`;
  });
  const ul = $("fed");
  while (ul.children.length > lines.length) ul.lastChild.remove();
  lines.forEach((text, i) => put(ul.children[i] ?? ul.appendChild(document.createElement("li")), text));
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
    input.value = state.settings[s.key] ?? own(s);
    input.addEventListener("change", () => {
      /** @type {any} */
      const v = s.choices ? input.value : Number.parseFloat(input.value);
      if (!s.choices && !(v >= s.min && v <= s.max)) return void (input.value = state.settings[s.key] ?? own(s));
      remember();
      state.settings[s.key] = s.key === "count" ? Math.round(v) : v;
      changed();
    });
    form.append(label, input);
  }
  form.addEventListener("submit", (e) => e.preventDefault());
}

export function refreshSettings() {
  for (const s of state.job.settings) $(`set-${s.key}`).value = state.settings[s.key] ?? own(s);
}

export function drawCompare() {
  const table = $("compare");
  table.hidden = !state.kept;
  if (!state.kept) return;
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
  for (const [key, name] of rows) line(name, state.kept.factors?.[key].factor.toFixed(3) ?? "-", state.answer?.factors?.[key].factor.toFixed(3) ?? "-");
  line("magnets", String(state.kept.magnets), String(state.magnets.length));
  line("pull of all, N", state.kept.magnetForceN.toFixed(1), state.answer.magnetForceN.toFixed(1));
  line("clearances violated", String(state.kept.violations.length), String(state.answer.violations.length));
}
