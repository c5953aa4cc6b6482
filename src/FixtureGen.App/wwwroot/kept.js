// Layouts kept beside the job: by name, and one for each save.
import { ask } from "./server.js";
import { say } from "./say.js";
import { $, button, factor, make, time } from "./dom.js";
import * as s from "./state.js";
import { back } from "./layout.js";

const { state } = s;

export async function listKept() {
  const { ok, answer } = await ask("kept");
  if (!ok) return void $("kept-list").replaceChildren(make("li", { className: "trouble" }, answer.message));
  draw(answer.layouts);
}

function draw(layouts) {
  const list = layouts.map((k, number) => ({ ...k, number })).reverse();
  const line = (k) => make("li", {},
    make("span", { className: "of" }, make("b", {}, k.name || "saved"), make("small", {}, [time(k.at), `${k.magnets.length} magnets`, k.factors].filter(Boolean).join(", "))),
    button("Restore", () => restore(k), { "aria-label": `Restore ${k.name || `the layout saved ${time(k.at)}`}` }),
    k.name ? button("Forget", () => forget(k.number), { "aria-label": `Forget ${k.name}` }) : "");
  const named = list.filter((k) => k.name);
  const saved = list.filter((k) => !k.name);
  $("kept-list").replaceChildren(...named.map(line),
    saved.length > 0 ? make("li", { className: "past" }, make("details", {}, make("summary", {}, `What was saved before: ${saved.length}`), make("ul", {}, saved.map(line)))) : "");
}

/** As it lay: on the part's place of then where the layout states one, else on the part as the job has it now. */
function restore(k) {
  s.remember();
  Object.assign(state, { magnets: k.magnets, ports: k.ports, settings: k.settings, placement: k.placement ?? null, chosen: null, ground: "" });
  state.picked.clear();
  if (!k.placement) {
    s.carryTo(k.placed, state.job.placed);
    Object.assign(state, { placed: state.job.placed, middle: state.job.middle });
  }
  back();
  say(`${k.name ? `"${k.name}"` : "What was saved"} is on the page again, not saved yet.`);
}

async function forget(number) {
  const { ok, answer } = await ask("forget", { number });
  if (ok) draw(answer.layouts);
  else say(answer.message, true);
}

async function keep() {
  const f = state.answer?.factors;
  const factors = f ? `vacuum ${factor(f.vacuumOnly.factor)}, magnets stopping ${factor(f.magnetsStopping.stays)}` : "cannot be cut";
  const { ok, answer } = await ask("keep", { ...s.body(), name: $("kept-name").value, factors });
  if (!ok) return say(answer.message, true);
  $("kept-name").value = "";
  draw(answer.layouts);
  say("Kept beside the job.");
}

$("keep-named").addEventListener("click", keep);
