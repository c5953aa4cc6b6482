// A job's file as a form: every key with its range, default and effect; what it comes to beside it.
import { ask, current, soon } from "./server.js";
import { alarm, findings, say, worst } from "./say.js";
import { $, all, factor, make } from "./dom.js";
import { drawPicture, marksOf } from "./picture.js";

let form = null;
let opened = null;
let edits = new Map();
let checking = 0;
let round = 0;
const CHECK_AFTER_MS = 400;
const groups = {
  "": "Fixture", shop: "Shop", shell: "Shell", locator: "Locator", drawing: "Drawing", placement: "Placement", magnets: "Magnets", trim: "Trim", vacuum: "Vacuum",
  hold: "Hold", limits: "House limits", skirt: "Scrap round the part", block: "Block", rules: "Rules",
};

export const formJob = () => opened;

export async function openForm(job) {
  current.job = job;
  if (opened !== job) edits = new Map();
  opened = null;
  $("job-title").textContent = `Job ${job.split("/").pop().replace(/\.toml$/i, "")}`;
  const { ok, status, answer } = await ask("form");
  $("keys").replaceChildren();
  if (!ok) {
    findings($("job-findings"), answer.findings ?? []);
    if (status !== 0) say(answer.message, true);
    return;
  }
  opened = job;
  form = answer;
  alarm("form-changed", "");
  $("job-file").textContent = form.file;
  $("job-text").textContent = form.text;
  build();
  marks();
  await check();
}

export async function watchForm() {
  if (opened === null) return openForm(current.job);
  current.job = opened;
  const { ok, answer } = await soon("form");
  if (!ok || $("view-job").hidden) return;
  if (answer.hash === form.hash) return alarm("form-changed", "");
  const keys = answer.keys.filter((k) => form.keys.find((f) => f.path === k.path)?.stated !== k.stated);
  const what = keys.map((k) => `${k.path} is ${k.stated ?? "left out"} there${edits.has(k.path) ? `, ${edits.get(k.path) ?? "left out"} here` : ""}`);
  alarm("form-changed", `The files changed on disk since this form was read${what.length > 0 ? `: ${what.join("; ")}` : " (shop files, the drawing or comments)"}.`, [
    [edits.size > 0 ? "Take over the files, keep what I changed" : "Take over the files", () => openForm(opened)],
  ]);
}

const bare = (literal) => (literal === null ? "" : /^".*"$/.test(literal) ? JSON.parse(literal.replace(/\\(?!["\\nt])/g, "\\\\")) : literal);
const shownValue = (k) => (edits.has(k.path) ? edits.get(k.path) ?? "" : bare(k.stated));

function build() {
  const box = $("keys");
  for (const [prefix, title] of Object.entries(groups)) {
    const keys = form.keys.filter((k) => (k.path.includes(".") ? k.path.split(".")[0] === prefix : prefix === "") && groups[k.path.includes(".") ? k.path.split(".")[0] : ""] !== undefined);
    if (keys.length > 0) box.append(make("fieldset", {}, make("legend", {}, title), keys.map(field)));
  }
}

function field(k) {
  const id = `key-${k.path}`;
  const range = k.least === null ? "" : `${round4(k.least)} to ${round4(k.greatest)}${k.unit ? ` ${k.unit}` : ""}`;
  const input = k.kind === "choice" || k.kind === "flag"
    ? make("select", { id }, new Option(k.default ? `left out: ${bare(k.default)}` : "left out", ""), (k.kind === "flag" ? ["true", "false"] : k.choices).map((c) => new Option(c, c)))
    : make("input", { id, type: "text", autocomplete: "off", placeholder: k.default ? bare(k.default) : "left out" });
  const value = shownValue(k);
  if (input.tagName === "SELECT" && value && ![...input.options].some((o) => o.value === value)) input.append(new Option(`${value} (unknown)`, value));
  input.value = value;
  const from = k.stated === null ? (k.default ? `left out, ${bare(k.default)} holds` : "left out, chosen or assumed") : "in the job";
  const about = [k.note, range, k.usual, from].filter(Boolean).join("; ");
  input.setAttribute("aria-describedby", `${id}-about`);
  input.addEventListener("input", () => {
    if (input.value === bare(k.stated)) edits.delete(k.path);
    else edits.set(k.path, input.value === "" ? null : input.value);
    marks();
    clearTimeout(checking);
    checking = setTimeout(check, CHECK_AFTER_MS);
  });
  const row = make("div", { className: "key-row" },
    make("label", { for: id }, k.path.split(".").slice(1).join(".").replaceAll("_", " ") || k.path.replaceAll("_", " "), k.unit ? make("span", { className: "unit-of" }, `, ${k.unit}`) : ""),
    input, make("small", { id: `${id}-about` }, about));
  row.dataset.key = k.path;
  row.dataset.stated = String(k.stated !== null);
  return row;
}

const round4 = (v) => String(Math.round(v * 1e4) / 1e4);

function marks() {
  const dirty = edits.size > 0;
  $("job-saved").textContent = dirty ? `${edits.size} unsaved change${edits.size > 1 ? "s" : ""}` : "as saved";
  $("job-saved").className = dirty ? "chip open" : "chip";
  $("job-save").disabled = !dirty;
  $("job-discard").disabled = !dirty;
  $("job-make").textContent = dirty ? "Save and make all files" : "Make all files";
  const words = $("find-key").value.toLowerCase();
  for (const row of all("#keys .key-row")) {
    row.classList.toggle("changed", edits.has(row.dataset.key));
    row.hidden = ($("only-stated").checked && row.dataset.stated === "false" && !edits.has(row.dataset.key)) || !row.textContent.toLowerCase().includes(words);
  }
  for (const set of all("#keys fieldset")) set.hidden = [...set.querySelectorAll(".key-row")].every((r) => r.hidden);
  document.title = `${dirty ? "\u2022 " : ""}${$("job-title").textContent}`;
}

const question = () => ({ hash: form.hash, edits: [...edits].map(([path, value]) => ({ path, value })) });

async function check() {
  const mine = ++round;
  $("come").textContent = "Working out what it comes to ...";
  const { ok, answer } = await ask("form-check", question());
  if (mine !== round) return;
  if (!ok) {
    $("come").textContent = answer.message;
    $("come").className = "verdict bad";
    return findings($("job-findings"), answer.findings ?? []);
  }
  $("job-text").textContent = answer.text;
  const a = answer.factors;
  $("come").className = answer.ok ? "verdict good" : "verdict bad";
  $("come").textContent = a?.heldBy === "magnets"
    ? `${answer.ok ? "It holds" : "Refused"}: magnets alone ${factor(a.magnetsOnly.factor)} (house limit ${answer.limits.vacuum}).`
    : a
    ? `${answer.ok ? "It holds" : "Refused"}: vacuum alone ${factor(a.vacuumOnly.factor)} (house limit ${answer.limits.vacuum}), magnets while the machine stops ${factor(a.magnetsStopping.stays)} (house limit ${answer.limits.magnets}).`
    : "Refused: see the findings.";
  const list = worst(answer.findings);
  findings($("job-findings"), list);
  $("job-plan").toggleAttribute("hidden", !answer.box);
  if (answer.box) drawPicture($("job-plan"), answer.box, answer.shapes.map((s) => ({ d: answer.curves[s.key], className: `s-${s.kind}`, title: s.name })), marksOf(list, $("job-findings")));
  solved(answer.solve);
  for (const row of all("#keys .key-row")) row.classList.toggle("bad", list.some((f) => f.severity === "error" && f.message.includes(`'${row.dataset.key}'`)));
}

function solved(s) {
  const box = $("solved");
  box.replaceChildren();
  if (!s) return;
  const open = Object.entries(s.chosen.keys).filter(([k]) => !s.chosen.stated.includes(k));
  if (open.length > 0) {
    box.append(make("h2", {}, "Chosen for what is left open"), make("div", { className: "wide", tabIndex: 0, role: "region", "aria-label": "Chosen" }, make("table", {},
      make("thead", {}, make("tr", {}, ["Key", "Chosen", "Second best"].map((h) => make("th", { scope: "col" }, h)))),
      make("tbody", {}, open.map(([k, v]) => make("tr", {}, make("th", { scope: "row" }, k), make("td", {}, v), make("td", {}, s.next?.keys[k] ?? "-"))),
        make("tr", {}, make("th", { scope: "row" }, "minutes over the batch"), make("td", {}, s.chosen.batchMinutes.toFixed(1)), make("td", {}, s.next ? s.next.batchMinutes.toFixed(1) : "-")),
        make("tr", {}, make("th", { scope: "row" }, "magnets"), make("td", {}, String(s.chosen.magnets)), make("td", {}, s.next ? String(s.next.magnets) : "-"))))));
  }
  for (const x of s.stated) box.append(make("p", {}, `${x.key} is stated as ${x.value}; left out it would be ${x.instead} and save ${x.minutes.toFixed(1)} min over the batch.`));
  if (s.mend) box.append(make("p", { className: "alarm" }, s.mend));
}

async function save() {
  const { ok, answer } = await ask("form-save", question());
  if (!ok) {
    say(answer.message, true);
    if (answer.findings) findings($("job-findings"), answer.findings);
    await watchForm();
    return false;
  }
  edits = new Map();
  await openForm(opened);
  say(answer.message);
  return true;
}

async function makeAll() {
  if (edits.size > 0 && !(await save())) return;
  say("Making all files ...");
  $("job-make").disabled = true;
  const { ok, answer } = await ask("make", { hash: form.hash });
  $("job-make").disabled = false;
  say(answer.message, !ok);
  if (!ok) findings($("job-findings"), worst(answer.findings ?? []));
}

export function startForm() {
  $("find-key").addEventListener("input", marks);
  $("only-stated").addEventListener("change", marks);
  $("keys").addEventListener("submit", (e) => e.preventDefault());
  $("job-save").addEventListener("click", save);
  $("job-make").addEventListener("click", makeAll);
  $("job-discard").addEventListener("click", () => {
    edits = new Map();
    openForm(opened);
  });
  window.addEventListener("beforeunload", (e) => {
    if (edits.size > 0) e.preventDefault();
  });
}
