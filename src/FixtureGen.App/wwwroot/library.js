// The library: every fixture with its state, and what happened to its blocks.
import { ask, address } from "./server.js";
import { alarm, findings, say } from "./say.js";
import { followRun, isRunning, takeRun, whenEnded } from "./run.js";
import { $, all, button, factor, link, make, minutes, stateWords, time } from "./dom.js";

let rows = [];
let open = "";
/** A library that takes long to look at is looked at so many times less often. */
const REST = 10;
let next = 0;
let shown = "";
const columns = {
  name: (r) => r.name, state: (r) => Object.keys(stateWords).indexOf(r.state), number: (r) => r.program,
  vacuum: (r) => r.vacuum ?? -1, stopping: (r) => r.stopping ?? -1, minutes: (r) => r.minutes, plate: (r) => r.plate,
};
const sorting = { by: "name", down: false };

export async function openLibrary() {
  document.title = "FixtureGen - library";
  shown = "";
  await load();
}

async function load() {
  const began = performance.now();
  const { ok, status, answer } = await ask("library");
  next = performance.now() + REST * (performance.now() - began);
  if ($("view-library").hidden) return;
  alarm("library", ok || status === 0 ? "" : answer.message);
  if (!ok) return;
  const text = JSON.stringify(answer);
  if (text === shown) return;
  shown = text;
  rows = answer.fixtures;
  findings($("library-findings"), answer.findings);
  keepFocus(draw);
  takeRun(answer.run);
}

/** Draws anew and gives the focus back to what has the same name. */
function keepFocus(redraw) {
  const at = document.activeElement?.closest("#library-table") ? document.activeElement : null;
  const name = at && (at.getAttribute("aria-label") ?? at.textContent);
  redraw();
  if (name) all("#library-table a, #library-table button").find((e) => (e.getAttribute("aria-label") ?? e.textContent) === name)?.focus();
}

/** Looks again, unless somebody is at a field of the open fixture. */
export async function watchLibrary() {
  if (performance.now() < next || isRunning() || $("shelf").contains(document.activeElement)) return;
  await load();
}

function wanted() {
  const words = $("search").value.toLowerCase().split(/\s+/).filter(Boolean);
  const state = $("of-state").value;
  const key = columns[sorting.by];
  const way = sorting.down ? -1 : 1;
  return rows
    .filter((r) => state === "" || r.state === state || (state === "attention" && (r.notices.length > 0 || ["stale", "refused", "worn"].includes(r.state))))
    .filter((r) => words.every((w) => `${r.name} ${r.id} ${r.program} ${r.plate} ${r.state}`.toLowerCase().includes(w)))
    .sort((a, b) => (key(a) < key(b) ? -way : key(a) > key(b) ? way : a.name < b.name ? -1 : 1));
}

function draw() {
  const list = wanted();
  const counts = Object.keys(stateWords).map((s) => [s, rows.filter((r) => r.state === s).length]).filter(([, n]) => n > 0);
  $("library-count").textContent = `${list.length === rows.length ? `${rows.length} fixtures` : `${list.length} of ${rows.length} fixtures`}: ${counts.map(([s, n]) => `${n} ${stateWords[s][0]}`).join(", ")}`;
  $("library-none").hidden = rows.length > 0;
  for (const th of all("#library-table th[data-sort]")) {
    const on = th.dataset.sort === sorting.by;
    th.setAttribute("aria-sort", on ? (sorting.down ? "descending" : "ascending") : "none");
  }
  $("library-table").tBodies[0].replaceChildren(...list.map(row));
  drawShelf();
}

function row(r) {
  const [word, chip] = stateWords[r.state];
  const picture = r.picture
    ? make("img", { src: address("output", { job: r.job, name: `${r.name}.preview.svg`, at: r.madeAt }), alt: "", loading: "lazy" })
    : make("span", { className: "no-picture" }, "no picture yet");
  const notices = r.notices.map((n) => make("span", { className: "chip bad" }, n.answer === "recut" ? "cut anew" : "answer needed"));
  const tr = make("tr", { className: r.job === open ? "open" : "" },
    make("td", { className: "thumb" }, picture),
    make("th", { scope: "row" }, make("a", { href: link("layout", r.job) }, r.name), make("small", {}, r.id)),
    make("td", { className: "of-state" }, make("span", { className: chip }, word), notices, make("small", {}, r.why)),
    cell("Number", r.program ? `${r.program}, rev ${r.revision}${r.trim > 1 ? `, trim rev ${r.trim}` : ""}` : "-"),
    cell("Vacuum alone", factor(r.vacuum)),
    cell("Magnets, stopping", factor(r.stopping)),
    cell("Machine time", minutes(r.minutes)),
    cell("Plate", r.plate || "-"),
    make("td", { className: "go" },
      make("a", { href: link("files", r.job), "aria-label": `Papers and files of ${r.name}` }, "Files"), " ",
      make("a", { href: link("job", r.job), "aria-label": `Job of ${r.name}` }, "Job"), " ",
      button("Block", () => toggle(r.job), { "aria-label": `Block of ${r.name}`, "aria-expanded": String(r.job === open) })),
  );
  tr.dataset.job = r.job;
  return tr;
}

const cell = (label, text) => {
  const td = make("td", { className: text === "-" ? "nothing" : "" }, text);
  td.dataset.label = label;
  return td;
};

function toggle(job) {
  open = open === job ? "" : job;
  draw();
  if (open) {
    $("shelf").scrollIntoView({ block: "nearest" });
    $("shelf-title").focus();
  }
}

function drawShelf() {
  const r = rows.find((x) => x.job === open);
  const box = $("shelf");
  box.hidden = !r;
  box.replaceChildren();
  if (!r) return;
  const why = make("input", { type: "text", id: "note-why", maxLength: 200 });
  const amount = make("input", { type: "number", id: "note-amount", min: 1, step: 1, inputMode: "numeric" });
  const note = (what, needsAmount) => button(noteWords[what], () => send(r, what, why.value, needsAmount ? Number.parseInt(amount.value, 10) : null));
  box.append(
    make("h2", { id: "shelf-title", tabIndex: -1 }, `The block of ${r.name}`),
    make("ul", { className: "notices" }, r.notices.map((n) => make("li", {}, `Notice ${n.number}, revision ${n.revision}: ${n.what}${n.answer === "recut" ? " (to be cut anew)" : ""}`))),
    r.blocks.length === 0 ? make("p", {}, "No block was noted as cut.") : blocksTable(r),
    make("div", { className: "row", role: "group", "aria-label": "What happened" }, note("cut"), note("spare"), note("worn"), note("scrapped"), note("cord")),
    make("div", { className: "row" }, make("label", {}, "Parts, or leak in Pa a minute ", amount), note("cycles", true), note("leak", true)),
    make("div", { className: "row" }, make("label", {}, "Reason ", why), r.notices.length > 0 ? [note("accept"), note("recut")] : [], note("retire"), note("undo")),
    make("h3", {}, "What happened"),
    make("ol", { className: "events" }, r.events.map((e) => make("li", {}, `${time(e.at)}, ${e.who}: ${e.what}${e.revision ? `, revision ${e.revision}` : ""}${e.block ? `, block ${e.block}` : ""}${amountOf(e)}${e.why ? `: ${e.why}` : ""}`))),
    button("Close", () => toggle(r.job)),
  );
}

/** What an event's figure is, by its kind. */
function amountOf(e) {
  if (!e.amount) return "";
  const words = { numbered: `, program ${e.amount}`, made: `, trim revision ${e.amount}`, retrimmed: `, trim revision ${e.amount}`, replaced: ` by revision ${e.amount}`, cut: `, with trim revision ${e.amount}`, cycles: `, ${e.amount} parts`, cord: ` after ${e.amount} parts`, leak: `, ${e.amount} Pa a minute`, undone: `: note ${e.amount} was a mistake` };
  return words[e.what] ?? `, notice ${e.amount}`;
}

const noteWords = {
  cut: "A block was cut", spare: "A spare was cut", worn: "It is worn", scrapped: "It was thrown away", cord: "Its cord was changed",
  cycles: "Parts were trimmed", leak: "Leak was read", accept: "Use it on all the same", recut: "It will be cut anew", retire: "Job is made no more", undo: "Take back the last note",
};

function blocksTable(r) {
  const head = ["Revision", "Block", "State", "Cut", "Parts", "Since its cord", "Leak"];
  return make("div", { className: "wide", tabIndex: 0, role: "region", "aria-label": `Blocks of ${r.name}` }, make("table", {},
    make("thead", {}, make("tr", {}, head.map((h) => make("th", { scope: "col" }, h)))),
    make("tbody", {}, r.blocks.map((b) => make("tr", {},
      [b.revision, b.number, b.state, time(b.cutAt), `${b.cycles} parts`, `${b.cordCycles} parts`, b.leakPaPerMin ? `${b.leakPaPerMin} Pa/min` : "-"].map((t) => make("td", {}, String(t)))))),
  ));
}

async function send(r, what, why, amount) {
  if (["scrapped", "retire"].includes(what) && !confirm(`${r.name}: ${noteWords[what].toLowerCase()}. Note it?`)) return;
  const { ok, answer } = await ask("note", { what, why, amount: Number.isFinite(amount) ? amount : null }, { query: { job: r.job } });
  const more = (answer.findings ?? []).map((f) => f.remedy).join(" ");
  say(ok ? answer.message : `${answer.message}. ${more}`, !ok);
  await load();
}

async function start(dryRun) {
  const { ok, answer } = await ask("regenerate", { dryRun, force: $("force").checked, plate: dryRun ? $("with-plate").value : "" });
  if (ok) followRun(answer);
  else say(answer.message, true);
}

export function startLibrary(home) {
  for (const plate of home.plates) $("with-plate").append(new Option(plate, plate));
  $("search").addEventListener("input", draw);
  $("of-state").addEventListener("change", draw);
  $("regenerate").addEventListener("click", () => start(false));
  $("dry-run").addEventListener("click", () => start(true));
  whenEnded(() => !$("view-library").hidden && load());
  for (const th of all("#library-table th[data-sort]")) {
    const b = button(th.textContent, () => {
      sorting.down = sorting.by === th.dataset.sort && !sorting.down;
      sorting.by = th.dataset.sort;
      draw();
    });
    th.replaceChildren(b);
  }
}
