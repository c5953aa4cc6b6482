// A new fixture: a drawing is dropped, looked at, and its job written.
import { ask } from "./server.js";
import { findings, say, worst } from "./say.js";
import { $, link, make } from "./dom.js";
import { drawPicture, marksOf } from "./picture.js";

let file = null;

export async function openFresh() {
  document.title = "New fixture";
}

async function take(chosen) {
  if (!chosen) return;
  file = { name: chosen.name, bytes: await chosen.arrayBuffer() };
  $("ask-unit").value = "";
  await look();
}

async function look() {
  say(`Reading ${file.name} ...`);
  const { ok, answer } = await ask("drawing", file.bytes, { raw: true, query: { name: file.name, unit: $("ask-unit").value } });
  $("drawn").hidden = false;
  $("drawn-title").textContent = file.name;
  findings($("new-findings"), []);
  if (!ok) {
    $("drawn-picture").replaceChildren();
    $("drawn-key").replaceChildren();
    $("drawn-size").textContent = "";
    findings($("drawn-findings"), answer.findings ?? []);
    $("write-job").disabled = true;
    return say(answer.message, true);
  }
  draw(answer);
  $("write-job").disabled = false;
  $("write-job").textContent = `Write ${answer.job}`;
  say(answer.fit ? "The drawing can be used as it is." : "The drawing cannot be used as it is: see the findings. A job may be written all the same, to answer them there.", !answer.fit);
}

function draw(d) {
  const unit = d.unit ?? "drawing units";
  const shapes = d.loops.map((l) => ({
    d: l.path, className: `loop ${l.role || "none"}${l.clean ? "" : " unclean"}`,
    title: `${l.role || "no role"}, layer ${l.layer}, ${l.perimeterMm.toFixed(1)} ${unit} round, ${l.areaMm2.toFixed(0)} ${d.unit ? "mm\u00b2" : "square drawing units"}${l.clean ? "" : ", crosses itself"}`,
  }));
  const gaps = d.gaps.map((g) => ({ d: g.path, className: "gap", title: `open, layer ${g.layer}, gap ${g.gapMm.toFixed(3)} ${unit}` }));
  const list = worst(d.findings);
  drawPicture($("drawn-picture"), d.box, [...shapes, ...gaps], marksOf(list, $("drawn-findings")));
  const roles = [...new Set(d.loops.map((l) => l.role || "none"))];
  $("drawn-key").replaceChildren(
    ...roles.map((r) => make("li", { className: `loop-key ${r}` }, `${r === "none" ? "no role" : r}: ${d.loops.filter((l) => (l.role || "none") === r).length}`)),
    ...(d.gaps.length > 0 ? [make("li", { className: "loop-key gap" }, `open: ${d.gaps.length}, widest gap ${Math.max(...d.gaps.map((g) => g.gapMm)).toFixed(3)} ${unit}`)] : []));
  $("drawn-size").textContent = `${(d.box[2] - d.box[0]).toFixed(2)} x ${(d.box[3] - d.box[1]).toFixed(2)} ${unit}${d.unit ? "" : ": the drawing states no unit, so say which it is"}`;
  findings($("drawn-findings"), list);
  const before = $("ask-shell").value || d.answers.shell;
  $("ask-shell").replaceChildren(new Option("not said yet", ""), ...d.answers.shells.map((s) => new Option(s, s)));
  $("ask-shell").value = before;
  for (const [id, value] of [["ask-thickness", d.answers.thickness], ["ask-slack", d.answers.slack], ["ask-locator", d.answers.locator]]) {
    if (!$(id).value) $(id).value = value;
  }
  for (const [key, question] of [["holes", d.answers.askHoles], ["corner", d.answers.askCorners]]) {
    $(`ask-${key}-words`).textContent = question.charAt(0).toUpperCase() + question.slice(1);
    $(`ask-${key}`).hidden = $(`ask-${key}-words`).hidden = question === "";
    if (question === "") $(`ask-${key}`).value = "";
  }
}

async function write() {
  const query = { name: file.name };
  for (const key of ["unit", "shell", "thickness", "slack", "locator", "holes", "corner"]) query[key] = $(`ask-${key}`).value.trim();
  const { ok, answer } = await ask("new", file.bytes, { raw: true, query });
  findings($("new-findings"), answer.findings ?? []);
  if (!ok) return say(answer.message, true);
  const moved = new Promise((done) => window.addEventListener("hashchange", done, { once: true }));
  location.hash = link("job", answer.job);
  await moved;
  say(answer.open.length > 0 ? `${answer.message} Still to be answered: ${answer.open.join(", ")}.` : answer.message);
}

export function startFresh() {
  $("drawing-file").addEventListener("change", (e) => take(e.target.files[0]));
  const drop = $("drop");
  drop.addEventListener("dragover", (e) => {
    e.preventDefault();
    drop.classList.add("over");
  });
  drop.addEventListener("dragleave", () => drop.classList.remove("over"));
  drop.addEventListener("drop", (e) => {
    e.preventDefault();
    drop.classList.remove("over");
    take(e.dataTransfer.files[0]);
  });
  $("ask-unit").addEventListener("change", () => file && look());
  $("questions").addEventListener("submit", (e) => e.preventDefault());
  $("write-job").addEventListener("click", write);
}
