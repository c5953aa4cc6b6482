// The shop's files: a list with pictures, one file as a form and as tables, tried against the library before it is saved.
import { ask } from "./server.js";
import { alarm, findings, say, worst } from "./say.js";
import { $, all, button, link, make } from "./dom.js";
import { drawPicture } from "./picture.js";
import { followRun } from "./run.js";

const kinds = {
  plates: "Plates", blanks: "Blanks", tools: "Changers", gaskets: "Gasket cords", magnets: "Magnets", fasteners: "Screws and pins", controls: "Controls", materials: "Materials",
};
const keptAt = (f) => `shop ${f.kind}/${f.name}`;
let file = null;
let disk = null;
let past = [];
let future = [];
let asking = Promise.resolve();

const dirty = () => file !== null && file.text !== disk.text;
const of = () => ({ kind: file.kind, name: file.name });

export async function openShop(named) {
  document.title = "FixtureGen - shop";
  const { ok, status, answer } = await ask("shop");
  if ($("view-shop").hidden) return;
  alarm("shop", ok || status === 0 ? "" : answer.message);
  if (!ok) return;
  $("shop-folder").textContent = answer.folder;
  list(answer.kinds);
  const [kind, name] = named.split("/");
  if (file && file.kind === kind && file.name === name) return watchShop();
  file = null;
  $("shop-file").hidden = true;
  if (name) await open(kind, name);
}

function list(all) {
  $("shop-list").replaceChildren(...all.filter((k) => k.entries.length > 0).map((k) =>
    make("section", { "aria-labelledby": `kind-${k.kind}` }, make("h2", { id: `kind-${k.kind}` }, kinds[k.kind]),
      make("ul", {}, k.entries.map((e) => entry(k.kind, e))))));
}

function entry(kind, e) {
  const chips = [e.errors > 0 ? make("span", { className: "chip bad" }, "cannot be read") : "", e.warnings > 0 ? make("span", { className: "chip warn" }, `${e.warnings} to look at`) : ""];
  const a = make("a", { href: link("shop", `${kind}/${e.name}`) }, thumb(e.picture), make("span", { className: "of" }, make("b", {}, e.name), make("small", {}, e.description), make("small", {}, used(e.namedBy, e.openTo)), chips));
  a.dataset.file = `${kind}/${e.name}`;
  return make("li", {}, a);
}

const count = (n) => (n === 1 ? "1 job" : `${n} jobs`);
const used = (named, open) => [named > 0 ? `${count(named)} by name` : "", open > 0 ? `open to ${count(open)}` : ""].filter(Boolean).join(", ") || "no job uses it";

function thumb(p) {
  if (!p || p.parts.length === 0) return make("span", { className: "no-picture", "aria-hidden": "true" }, p ? "words" : "none");
  return svgOf(p, "");
}

function svgOf(p, label) {
  const svg = document.createElementNS("http://www.w3.org/2000/svg", "svg");
  drawPicture(svg, p.box, p.parts.map((x) => ({ d: x.path, className: `p-${x.kind}`, title: label ? x.name : "" })), []);
  if (label) svg.setAttribute("aria-label", label);
  svg.setAttribute(label ? "role" : "aria-hidden", label ? "img" : "true");
  return svg;
}

async function open(kind, name) {
  const { ok, status, answer } = await ask("shop-file", undefined, { query: { kind, name } });
  if (!ok) {
    if (status !== 0) say(answer.message, true);
    return;
  }
  disk = answer;
  [past, future] = [[], []];
  const kept = JSON.parse(sessionStorage.getItem(keptAt(answer)) ?? "null");
  alarm("shop-changed", "");
  show(answer, true);
  if (kept?.hash === answer.hash) {
    [past, future] = [kept.past, kept.future];
    await turn(kept.text);
    if (dirty()) say("Your unsaved changes were taken up again.");
  }
}

/** Shows a file's answer; anew builds the fields, else only what the answer changes is set. */
function show(answer, anew) {
  const same = !anew && file && answer.keys.length === file.keys.length && answer.keys.every((k, i) => k.field.path === file.keys[i].field.path && k.field.unit === file.keys[i].field.unit);
  file = answer;
  for (const a of all("#shop-list a")) {
    if (a.dataset.file === `${file.kind}/${file.name}`) a.setAttribute("aria-current", "true");
    else a.removeAttribute("aria-current");
  }
  $("shop-file").hidden = false;
  $("shop-title").textContent = `${file.name}`;
  $("shop-path").textContent = file.file;
  document.title = `${dirty() ? "\u2022 " : ""}${file.name} - shop`;
  pictures();
  if (!same) build();
  values();
  users();
  findings($("shop-findings"), worst(file.findings));
  $("shop-text").textContent = file.text;
  marks();
}

function pictures() {
  const first = file.pictures.find((p) => p.of === "");
  const box = $("shop-picture");
  const caption = first?.caption ?? "It cannot be drawn until it can be read.";
  box.replaceChildren(
    first && first.parts.length > 0 ? svgOf(first, caption) : first ? make("pre", { tabIndex: 0, role: "region", "aria-label": "The control's words" }, first.lines.filter(Boolean).join("\n")) : "",
    make("figcaption", {}, caption));
}

function users() {
  $("shop-users").replaceChildren(
    disk.usedBy.length === 0 ? make("p", {}, "No job uses it.") : "",
    jobsOf("Used by name in: ", disk.usedBy.filter((u) => u.named)),
    jobsOf("May be chosen by, since they leave it open: ", disk.usedBy.filter((u) => !u.named)));
}

const jobsOf = (title, list) => (list.length === 0 ? "" : make("p", {}, make("b", {}, title), list.flatMap((u, i) => [i > 0 ? ", " : "", make("a", { href: link("job", u.job) }, u.name)])));

const rowOf = (path) => path.slice(0, path.lastIndexOf("]") + 1);
const leaf = (path) => path.slice(path.lastIndexOf("]") + 1).replace(/^\./, "");
const spoken = (path) => path.replaceAll("_", " ").replace(/\[(\d+)\]/g, (_, n) => ` ${Number(n) + 1}`).replaceAll(".", ", ");
const bare = (literal) => (literal === null ? "" : /^".*"$/.test(literal) ? JSON.parse(literal.replace(/\\(?!["\\nt])/g, "\\\\")) : literal);
const round4 = (v) => String(Math.round(v * 1e4) / 1e4);
const range = (f) => (f.least === null ? "" : `${round4(f.least)} to ${round4(f.greatest)}${f.unit ? ` ${f.unit}` : ""}`);

/** Fields of the file itself as a list; every list of tables as a table with a line for each row. */
function build() {
  const box = $("shop-keys");
  box.replaceChildren();
  const plain = file.keys.filter((k) => rowOf(k.field.path) === "");
  const tables = [...new Set(plain.map((k) => (k.field.path.includes(".") ? k.field.path.split(".")[0] : "")))];
  for (const t of tables) {
    box.append(make("fieldset", {}, make("legend", {}, t ? spoken(t) : "File"),
      plain.filter((k) => (k.field.path.includes(".") ? k.field.path.split(".")[0] : "") === t).map((k) => line(k.field))));
  }
  const lists = [...new Set(file.rows.map((r) => r.replace(/\[\d+\]/g, "[]")))];
  for (const name of lists) box.append(table(name));
}

function line(f) {
  const input = field(f);
  const about = [range(f), f.usual].filter(Boolean).join("; ");
  const row = make("div", { className: "key-row" }, make("label", { for: input.id }, spoken(f.path.split(".").slice(f.path.includes(".") ? 1 : 0).join(".")), f.unit ? make("span", { className: "unit-of" }, `, ${f.unit}`) : ""), input, about ? make("small", { id: `${input.id}-about` }, about) : "");
  if (about) input.setAttribute("aria-describedby", `${input.id}-about`);
  row.dataset.key = f.path;
  return row;
}

function table(name) {
  const rows = file.rows.filter((r) => r.replace(/\[\d+\]/g, "[]") === name);
  const keys = file.keys.map((k) => k.field).filter((f) => rows.includes(rowOf(f.path)));
  const written = new Map(file.keys.filter((k) => k.line !== null).map((k) => [k.field.path, k.line]));
  const first = (key) => Math.min(...rows.map((r, i) => (written.get(`${r}.${key}`) ?? Infinity) - (written.get(`${r}.name`) ?? 0) + i / 1e3));
  const columns = [...new Map(keys.map((f) => [leaf(f.path), f])).entries()].sort(([a], [b]) => first(a) - first(b) || 0);
  const title = spoken(name.replaceAll("[]", "")).replaceAll("_", " ");
  const drawn = file.pictures.some((p) => rows.includes(p.of));
  const head = make("tr", {}, drawn ? make("th", { scope: "col" }, "Picture") : "", make("th", { scope: "col" }, "Row"),
    columns.map(([key, f]) => make("th", { scope: "col" }, spoken(key), f.unit ? make("span", { className: "unit-of" }, `, ${f.unit}`) : "", range(f) ? make("small", {}, range(f)) : "")), make("td", {}));
  const body = rows.map((r) => {
    const tr = make("tr", {}, drawn ? make("td", { className: "shape" }) : "", make("th", { scope: "row" }, rowName(r)),
      columns.map(([key]) => {
        const f = keys.find((x) => x.path === `${r}.${key}`);
        const td = make("td", {}, f ? field(f, spoken(r)) : "");
        if (f) td.dataset.key = f.path;
        return td;
      }),
      make("td", { className: "go" }, button("Copy", () => edit({ act: "copy", path: r }), { "aria-label": `Copy ${spoken(r)}` }), " ", button("Take out", () => edit({ act: "take-out", path: r }), { "aria-label": `Take out ${spoken(r)}` })));
    tr.dataset.row = r;
    return tr;
  });
  return make("fieldset", {}, make("legend", {}, title), make("div", { className: "wide", tabIndex: 0, role: "region", "aria-label": `Table of ${title}` }, make("table", { className: "values" }, make("thead", {}, head), make("tbody", {}, body))));
}

const rowName = (r) => [...r.matchAll(/\[(\d+)\]/g)].map((m) => Number(m[1]) + 1).join(".");

function field(f, row = "") {
  const id = `shop-${f.path}`;
  const input = f.kind === "choice" || f.kind === "flag" ? make("select", { id }) : make("input", { id, type: "text", autocomplete: "off" });
  if (row) input.setAttribute("aria-label", `${spoken(leaf(f.path))} of ${row}${f.unit ? `, ${f.unit}` : ""}`);
  input.addEventListener("change", () => edit({ act: input.value === "" ? "leave-out" : "set", path: f.path, value: input.value === "" ? null : input.value }));
  if (input.tagName === "INPUT") {
    input.addEventListener("input", () => {
      clearTimeout(input.wait);
      input.wait = setTimeout(() => look(f.path, input.value), 350);
    });
  }
  return input;
}

/** What is typed, checked before the field is left; nothing is kept of it. */
async function look(path, value) {
  const asked = file;
  const { ok, answer } = await ask("shop-edit", { ...of(), text: file.text, edit: { act: value === "" ? "leave-out" : "set", path, value: value === "" ? null : value } });
  if (file !== asked || document.activeElement?.id !== `shop-${path}`) return;
  const list = ok ? worst(answer.findings) : (answer.findings ?? []);
  findings($("shop-findings"), list);
  const line = ok ? answer.keys.find((k) => k.field.path === path)?.line : null;
  const bad = !ok || list.some((x) => x.severity === "error" && x.line === line);
  document.querySelector(`#shop-keys [data-key="${CSS.escape(path)}"]`)?.classList.toggle("bad", bad);
}

function values() {
  for (const { field: f } of file.keys) {
    const input = $(`shop-${f.path}`);
    if (!input) continue;
    const value = bare(f.stated);
    if (input.tagName === "SELECT") {
      const words = ["", ...(f.kind === "flag" ? ["true", "false"] : f.choices)];
      input.replaceChildren(...words.map((w) => new Option(w === "" ? "left out" : w, w)));
      if (!words.includes(value)) input.append(new Option(`${value} (unknown)`, value));
    } else {
      input.placeholder = "left out";
    }
    input.value = value;
  }
  for (const p of file.pictures) {
    const cell = p.of && document.querySelector(`#shop-keys tr[data-row="${CSS.escape(p.of)}"] .shape`);
    if (cell) cell.replaceChildren(svgOf(p, p.caption));
  }
}

function marks() {
  const was = new Map(disk.keys.map((k) => [k.field.path, k.field.stated]));
  for (const { field: f, line } of file.keys) {
    const at = document.querySelector(`#shop-keys [data-key="${CSS.escape(f.path)}"]`);
    if (!at) continue;
    const here = file.findings.filter((x) => line !== null && x.line === line);
    at.classList.toggle("bad", here.some((x) => x.severity === "error"));
    at.classList.toggle("odd", here.some((x) => x.severity === "warning"));
    at.classList.toggle("changed", was.get(f.path) !== f.stated);
  }
  const bad = file.findings.some((f) => f.severity === "error");
  $("shop-saved").textContent = dirty() ? "unsaved changes" : "as saved";
  $("shop-saved").className = dirty() ? "chip open" : "chip";
  $("shop-undo").disabled = past.length === 0;
  $("shop-redo").disabled = future.length === 0;
  $("shop-discard").disabled = !dirty();
  $("shop-save").disabled = !dirty();
  $("shop-try").disabled = bad;
  $("shop-copy").disabled = bad;
}

/** One change at a time, each on the text that the one before left. */
function edit(change) {
  asking = asking.then(async () => {
    const before = file.text;
    const { ok, answer } = await ask("shop-edit", { ...of(), text: before, edit: { value: null, ...change } });
    if (!ok) {
      say(answer.message, true);
      if (answer.findings) findings($("shop-findings"), answer.findings);
      return;
    }
    if (answer.text === before) return show({ ...answer, hash: file.hash }, false);
    past.push(before);
    future = [];
    const at = document.activeElement?.id;
    show(answer, false);
    if (at) $(at)?.focus();
    keep();
  });
  return asking;
}

/** Takes a text that was here before, or the disk's. */
async function turn(text) {
  const { ok, answer } = await ask("shop-edit", { ...of(), text, edit: null });
  if (!ok) return say(answer.message, true);
  show(answer, false);
  keep();
}

function travel(from, to) {
  const text = from.pop();
  to.push(file.text);
  return turn(text);
}

function keep() {
  try {
    sessionStorage.setItem(keptAt(disk), JSON.stringify({ hash: disk.hash, text: file.text, past: past.slice(-20), future: future.slice(-20) }));
  } catch {
    sessionStorage.removeItem(keptAt(disk));
  }
}

async function save() {
  await asking;
  const { ok, answer } = await ask("shop-save", { ...of(), text: file.text, hash: disk.hash, new: false });
  if (!ok) {
    say(answer.message, true);
    if (answer.findings) findings($("shop-findings"), answer.findings);
    return watchShop();
  }
  const { kind, name } = disk;
  const again = await ask("shop-file", undefined, { query: { kind, name } });
  if (again.ok) {
    disk = again.answer;
    show(disk, false);
    keep();
  }
  say(answer.message);
}

async function saveCopy() {
  const name = prompt("Name of the new file: small letters, figures and hyphens", `${file.name}-2`);
  if (!name) return;
  const { kind } = file;
  const { ok, answer } = await ask("shop-save", { kind, name, text: file.text, hash: "", new: true });
  say(answer.message, !ok);
  if (ok) location.hash = link("shop", `${kind}/${name}`);
}

async function tryOut() {
  const { ok, answer } = await ask("shop-trial", { ...of(), text: file.text });
  if (!ok) {
    if (answer.findings) findings($("shop-findings"), answer.findings);
    return say(answer.message, true);
  }
  followRun(answer);
}

/** Whether the file on disk is still the one that was read. */
export async function watchShop() {
  if (!file) return;
  const { kind, name } = disk;
  const { ok, status, answer } = await ask("shop-pulse", undefined, { query: { kind, name } });
  if ($("view-shop").hidden || status === 0) return;
  if (!ok) return alarm("shop-changed", answer.message);
  if (answer.hash === disk.hash) return alarm("shop-changed", "");
  alarm("shop-changed", `${disk.file} changed on disk since it was read here; nothing can be saved over it.`, [[dirty() ? "Take over the file, drop what I changed" : "Take over the file", () => {
    sessionStorage.removeItem(keptAt(disk));
    open(kind, name);
  }]]);
}

export function startShop() {
  $("shop-undo").addEventListener("click", () => travel(past, future));
  $("shop-redo").addEventListener("click", () => travel(future, past));
  $("shop-discard").addEventListener("click", () => {
    past.push(file.text);
    future = [];
    turn(disk.text);
  });
  $("shop-save").addEventListener("click", save);
  $("shop-try").addEventListener("click", tryOut);
  $("shop-copy").addEventListener("click", saveCopy);
  $("shop-keys").addEventListener("submit", (e) => e.preventDefault());
  $("shop-begin").addEventListener("click", async () => {
    const { ok, answer } = await ask("shop-begin", {});
    say(answer.message, !ok);
    if (ok) location.reload();
  });
  window.addEventListener("beforeunload", (e) => {
    if (dirty()) e.preventDefault();
  });
}
