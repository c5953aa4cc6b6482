// The regeneration that runs, or what one would change: progress, stop, and what came of it. Seen from the library and from the shop.
import { ask } from "./server.js";
import { findings, say } from "./say.js";
import { $, make, minutes } from "./dom.js";

const POLL_MS = 500;
let run = { state: "none" };
let poll = 0;
let closed = false;
const ended = [];

/** Called when a run has come to its end. */
export const whenEnded = (tell) => ended.push(tell);
export const isRunning = () => run.state === "running" || run.state === "stopping";

/** How it stands, as an answer said it. */
export function takeRun(answer) {
  run = answer;
  drawRun();
}

/** Shows the one that was just begun. */
export function followRun(answer) {
  closed = false;
  takeRun(answer);
  $("run").scrollIntoView({ block: "nearest" });
}

function drawRun() {
  clearTimeout(poll);
  const active = isRunning();
  for (const id of ["regenerate", "dry-run", "shop-try"]) $(id).disabled = active;
  $("run").hidden = run.state === "none" || closed;
  $("run-stop").hidden = !active;
  $("run-stop").disabled = run.state === "stopping";
  $("run-close").hidden = active;
  const what = run.dryRun ? (run.with ? `What ${run.with.includes("/") ? run.with : `plate ${run.with}`} would change` : "What would change") : "Regeneration";
  const left = run.secondsLeft ? `, about ${Math.ceil(run.secondsLeft)} s left` : "";
  $("run-title").textContent = active ? `${what}: ${run.done} of ${run.total || "?"}${left}` : what;
  $("run-bar").hidden = !active;
  $("run-bar").max = Math.max(1, run.total);
  $("run-bar").value = run.done;
  $("run-last").textContent = active ? (run.state === "stopping" ? "stopping after the job under work" : run.last) : "";
  $("run-result").hidden = active;
  if (active) poll = setTimeout(follow, POLL_MS);
  else drawChanges();
}

async function follow() {
  const { ok, answer } = await ask("run");
  if (ok) run = answer;
  if (ok && run.state === "ended") {
    const counts = ["made", "would be made", "unchanged", "refused", "stopped"].map((w) => [w, run.changes.filter((c) => c.result === w).length]).filter(([, n]) => n > 0);
    say(`${run.dryRun ? "Nothing was written" : "Regenerated"}: ${counts.map(([w, n]) => `${n} ${w}`).join(", ") || "see the findings"}.`, run.changes.some((c) => c.result === "refused"));
    for (const tell of ended) tell();
    drawRun();
  } else drawRun();
}

function drawChanges() {
  const changed = run.changes.filter((c) => c.result !== "unchanged");
  const list = (items, name) => (items.length > 0 ? make("p", {}, make("b", {}, `${name}: `), items.join("; ")) : "");
  const head = ["Fixture", "Result", "Vacuum alone", "Magnets, stopping", "Machine time, min", "What"];
  const table = make("table", { className: "changes" },
    make("thead", {}, make("tr", {}, head.map((h) => make("th", { scope: "col" }, h)))),
    make("tbody", {}, changed.map((c) => make("tr", {},
      make("th", { scope: "row" }, c.name), make("td", {}, c.result), make("td", {}, c.vacuum), make("td", {}, c.stopping), make("td", {}, c.minutes),
      make("td", {}, make("p", {}, c.why), list(c.misfits, "The block on the shelf no longer fits"), list(c.moved, "Moved"), list(c.reload, "Load again"),
        c.findings.filter((f) => f.severity === "error").map((f) => make("p", { className: "trouble" }, `${f.message} \u2192 ${f.remedy}`)))))));
  const recut = run.recut.length === 0 ? "" : make("div", {}, make("h3", {}, "Blocks to cut anew, and what they cost"),
    make("table", {}, make("thead", {}, make("tr", {}, ["Fixture", "Revision", "Machine time", "Cord", "Magnets", "Blank"].map((h) => make("th", { scope: "col" }, h)))),
      make("tbody", {}, run.recut.map((x) => make("tr", {}, [x.name, x.revision, minutes(x.minutes), `${x.cordMm.toFixed(0)} mm`, x.magnets, x.blank].map((t) => make("td", {}, String(t))))))));
  $("run-result").replaceChildren(
    changed.length === 0 ? make("p", {}, "Everything is up to date.") : make("div", { className: "wide", tabIndex: 0, role: "region", "aria-label": "Changes" }, table), recut);
  findings($("run-findings"), run.findings);
}

export function startRun() {
  $("run-stop").addEventListener("click", () => ask("cancel", {}));
  $("run-close").addEventListener("click", () => {
    closed = true;
    drawRun();
  });
}
