// A program played back: the block as the judge carves it, the tool and its way, line by line.
import { ask, address, current } from "./server.js";
import { findings, say, worst } from "./say.js";
import { $, button, make } from "./dom.js";
import { look, makeScene } from "./scene.js";

const RAPID_MM_PER_MIN = 10_000;
const NUMBERS = 10;
const SHOWN_LINES = 24;
const CHORD = 0.25;
const kinds = ["rapid", "straight cut", "arc counter-clockwise", "arc clockwise"];
const eye = { turn: -0.5, tilt: 0.9, far: 420, at: [0, 0, 0] };
let scene;
let opened = null;
let program = null;
let clock = 0;
let playing = false;
let last = 0;
let asking = false;
let carved = -1;

export const playJob = () => opened;

export async function openPlay(job) {
  current.job = job;
  opened = job;
  program = null;
  stop();
  const name = job.split("/").pop().replace(/\.toml$/i, "");
  document.title = `${name} - play-back`;
  $("play-title").textContent = `Play-back of ${name}`;
  for (const id of ["played", "play-findings"]) $(id).hidden = true;
  const { ok, answer } = await ask("outputs");
  const files = ok ? answer.files.filter((f) => f.kind === "program") : [];
  $("play-none").hidden = files.length > 0;
  $("play-program").replaceChildren(...files.map((f) => new Option(f.name, f.name)));
  const first = files.find((f) => f.name.endsWith(".top.nc")) ?? files[0];
  if (!first) return;
  $("play-program").value = first.name;
  await take(first.name);
}

async function take(name) {
  const text = await fetch(address("output", { name })).then((r) => r.arrayBuffer()).catch(() => null);
  if (text) await load(name, text);
}

async function load(name, bytes) {
  stop();
  say(`The judge reads ${name} ...`);
  const { ok, answer } = await ask("play", bytes, { raw: true, query: { name } });
  findings($("play-findings"), worst(answer.findings ?? []));
  $("played").hidden = !ok;
  if (!ok) return say(answer.message, true);
  program = { ...answer, name, bytes, text: new TextDecoder().decode(bytes).split(/\r?\n/), ...way(answer) };
  program.flagged = new Map(answer.findings.filter((f) => f.line && f.severity !== "note").map((f) => [f.line, f]));
  carved = -1;
  scene ??= makeScene($("stage"));
  $("no-scene").hidden = scene !== null;
  $("stage").hidden = scene === null;
  scene?.setWay(program.points);
  const [x0, y0, x1, y1] = answer.box;
  Object.assign(eye, { at: [(x0 + x1) / 2, (y0 + y1) / 2, answer.rawTop / 2], far: 2.1 * Math.max(x1 - x0, y1 - y0), turn: -0.5, tilt: 0.9 });
  Object.assign($("cut-at"), { min: String(y0), max: String(y1), step: "0.5", value: String((y0 + y1) / 2) });
  $("shell-row").hidden = answer.setup !== "trim";
  $("time").max = String(program.motions.length / NUMBERS);
  operations();
  marks();
  go(program.motions.length / NUMBERS);
  say(answer.ok ? `The judge passes ${name}: ${answer.lines} lines, ${answer.minutes.toFixed(1)} min.` : `The judge refuses ${name}: see the findings.`, !answer.ok);
}

/** The way as pairs of points, the count of them after each motion, and the minutes at its end. */
function way({ motions, centres }) {
  const points = [];
  const counts = [0];
  const ends = [0];
  for (let m = 0; m * NUMBERS < motions.length; m++) {
    const v = motions.slice(m * NUMBERS, (m + 1) * NUMBERS);
    const steps = trace(v, centres[2 * m], centres[2 * m + 1]);
    let length = 0;
    for (let i = 1; i < steps.length; i++) {
      points.push(...steps[i - 1], v[1] ? 1 : 0, ...steps[i], v[1] ? 1 : 0);
      length += Math.hypot(...steps[i].map((c, k) => c - steps[i - 1][k]));
    }
    counts.push(points.length / 4);
    ends.push(ends[m] + length / (v[1] ? Math.max(v[9], 1) : RAPID_MM_PER_MIN));
  }
  return { points: new Float32Array(points), counts, ends };
}

function trace([, kind, x0, y0, z0, x1, y1, z1], cx, cy) {
  if (kind < 2) return [[x0, y0, z0], [x1, y1, z1]];
  const r = Math.hypot(x0 - cx, y0 - cy);
  const from = Math.atan2(y0 - cy, x0 - cx);
  let sweep = Math.atan2(y1 - cy, x1 - cx) - from;
  if (kind === 2 && sweep <= 1e-9) sweep += 2 * Math.PI;
  if (kind === 3 && sweep >= -1e-9) sweep -= 2 * Math.PI;
  const n = Math.min(200, Math.max(2, Math.ceil(Math.abs(sweep) * Math.sqrt(r / CHORD))));
  return Array.from({ length: n + 1 }, (_, i) => [cx + r * Math.cos(from + (sweep * i) / n), cy + r * Math.sin(from + (sweep * i) / n), z0 + ((z1 - z0) * i) / n]);
}

function operations() {
  const box = $("operations");
  box.replaceChildren();
  let tool = null;
  for (let m = 0; m * NUMBERS < program.motions.length; m++) {
    const t = program.motions[m * NUMBERS + 8];
    if (t === tool) continue;
    tool = t;
    const name = program.tools.find((x) => x.number === t)?.name ?? "no tool";
    if (t > 0) box.append(button(`T${t} ${name}`, () => go(m + 1)));
  }
}

/** Where findings lie on the time line, by their lines. */
function marks() {
  const list = worst(program.findings);
  [...$("play-findings").querySelectorAll("li")].forEach((li, i) => {
    if (list[i].line) li.append(button(`Go to line ${list[i].line}`, () => go(motionOf(list[i].line))));
  });
}

function motionOf(line) {
  for (let m = 0; m * NUMBERS < program.motions.length; m++) if (program.motions[m * NUMBERS] >= line) return m + 1;
  return program.motions.length / NUMBERS;
}

const lineAt = (m) => (m === 0 ? 0 : program.motions[(m - 1) * NUMBERS]);

/** Shows the program after so many motions; a fraction is a motion under way. */
function go(motion) {
  clock = Math.max(0, Math.min(program.motions.length / NUMBERS, motion));
  const done = Math.floor(clock);
  $("time").value = String(done);
  const now = Math.min(done, program.motions.length / NUMBERS - 1);
  const v = program.motions.slice(now * NUMBERS, (now + 1) * NUMBERS);
  const tool = program.tools.find((t) => t.number === v[8]);
  $("now").textContent = `Line ${v[0]} of ${program.lines}: ${kinds[v[1]]}${v[1] ? ` at ${v[9].toFixed(0)} mm/min` : ""}, ${tool ? `T${tool.number} ${tool.name}` : "no tool"}, to X ${v[5].toFixed(2)} Y ${v[6].toFixed(2)} Z ${v[7].toFixed(2)} mm; ${program.ends[done].toFixed(1)} of ${program.ends.at(-1).toFixed(1)} min of motion`;
  $("time").setAttribute("aria-valuetext", `line ${v[0]}`);
  lines(v[0]);
  carve();
  draw();
}

function lines(line) {
  const from = Math.max(1, Math.min(line - SHOWN_LINES / 2, program.text.length - SHOWN_LINES));
  $("lines").replaceChildren(...program.text.slice(from - 1, from - 1 + SHOWN_LINES).map((text, i) => {
    const n = from + i;
    const bad = program.flagged.get(n);
    return make("li", { value: n, className: `${n === line ? "here" : ""} ${bad?.severity ?? ""}`, title: bad?.message ?? "" }, text || " ");
  }));
}

/** Asks the judge for the block as it stands now; one question at a time, the newest place next. */
async function carve() {
  if (!scene || asking) return;
  const line = lineAt(Math.floor(clock));
  if (line === carved) return;
  asking = true;
  const asked = program;
  const answer = await fetch(address("carved", { name: program.name, line, setup: program.setup }), { method: "POST", body: program.bytes, headers: { "Content-Type": "application/octet-stream" } }).catch(() => null);
  const numbers = answer?.ok ? new Float32Array(await answer.arrayBuffer()) : null;
  asking = false;
  if (!numbers || asked !== program) return;
  carved = line;
  scene.setBlock(numbers);
  document.body.dataset.carved = String(line);
  draw();
  if (lineAt(Math.floor(clock)) !== line) carve();
}

/** The motion from which the way is drawn: of this operation, of all or of none. */
function firstShown(done) {
  const which = $("way").value;
  if (which === "all") return 0;
  if (which === "none") return done;
  const tool = program.motions[(Math.max(1, done) - 1) * NUMBERS + 8];
  let m = done;
  while (m > 0 && program.motions[(m - 1) * NUMBERS + 8] === tool) m--;
  return m;
}

const rgb = (name) => {
  const hex = getComputedStyle(document.documentElement).getPropertyValue(name).trim();
  return [1, 3, 5].map((i) => Number.parseInt(hex.slice(i, i + 2), 16) / 255);
};

function draw() {
  if (!scene || !program || $("view-play").hidden) return;
  const done = Math.floor(clock);
  const share = clock - done;
  const now = Math.min(done, program.motions.length / NUMBERS - 1);
  const v = program.motions.slice(now * NUMBERS, (now + 1) * NUMBERS);
  const steps = trace(v, program.centres[2 * now], program.centres[2 * now + 1]);
  const at = done > now ? steps.length - 1 : share * (steps.length - 1);
  const [a, b] = [steps[Math.floor(at)], steps[Math.min(steps.length - 1, Math.floor(at) + 1)]];
  const tip = a.map((c, i) => c + (b[i] - c) * (at - Math.floor(at)));
  const canvas = $("stage");
  scene.draw(look(eye, canvas.clientWidth / Math.max(1, canvas.clientHeight)), {
    tip, cutter: program.tools.find((t) => t.number === v[8]), from: program.counts[firstShown(done)], drawn: program.counts[done],
    clip: $("cut-away").checked ? Number($("cut-at").value) : null, jackets: program.jackets, jacket: program.jacket, shell: program.setup === "trim" && $("with-shell").checked,
    colours: { face: rgb("--accent"), jacket: [0.42, 0.44, 0.48], shell: rgb("--warn"), paper: rgb("--field"), raw: [0.93, 0.91, 0.86], cut: [0.72, 0.76, 0.8], feed: rgb("--good"), rapid: rgb("--bad"), metal: [0.55, 0.57, 0.6] },
  });
}

function frame(t) {
  if (!playing || !program) return;
  const minutes = ((t - last) / 60_000) * Number($("speed").value);
  last = t;
  let done = Math.floor(clock);
  let at = program.ends[done] + (clock - done) * ((program.ends[done + 1] ?? program.ends[done]) - program.ends[done]) + minutes;
  while (done < program.ends.length - 1 && program.ends[done + 1] <= at) done++;
  const span = (program.ends[done + 1] ?? at) - program.ends[done];
  const moved = done !== Math.floor(clock);
  clock = done >= program.ends.length - 1 ? done : done + (span > 0 ? (at - program.ends[done]) / span : 0);
  if (moved) go(clock);
  else draw();
  if (done >= program.ends.length - 1) return stop();
  requestAnimationFrame(frame);
}

function stop() {
  playing = false;
  $("play").textContent = "Play";
}

export function startPlay() {
  $("play-program").addEventListener("change", () => take($("play-program").value));
  $("play-own").addEventListener("change", async (e) => e.target.files[0] && load(e.target.files[0].name, await e.target.files[0].arrayBuffer()));
  $("time").addEventListener("input", () => {
    stop();
    go(Number($("time").value));
  });
  $("play").addEventListener("click", () => {
    if (playing) return stop();
    if (clock >= program.motions.length / NUMBERS) go(0);
    playing = true;
    $("play").textContent = "Pause";
    last = performance.now();
    requestAnimationFrame(frame);
  });
  $("back").addEventListener("click", () => go(Math.ceil(clock) - 1));
  $("on").addEventListener("click", () => go(Math.floor(clock) + 1));
  $("way").addEventListener("change", draw);
  $("with-shell").addEventListener("change", draw);
  $("cut-away").addEventListener("change", cutAway);
  $("cut-at").addEventListener("input", cutAway);
  $("from-above").addEventListener("click", () => {
    Object.assign(eye, { turn: 0, tilt: Math.PI / 2 - 0.001 });
    draw();
  });
  $("from-side").addEventListener("click", () => {
    Object.assign(eye, { turn: -0.5, tilt: 0.9 });
    draw();
  });
  const stage = $("stage");
  let drag = null;
  stage.addEventListener("pointerdown", (e) => {
    drag = e;
    stage.setPointerCapture(e.pointerId);
  });
  stage.addEventListener("pointermove", (e) => {
    if (!drag) return;
    turn((e.clientX - drag.clientX) * 0.008, (e.clientY - drag.clientY) * 0.008);
    drag = e;
  });
  for (const end of ["pointerup", "pointercancel"]) stage.addEventListener(end, () => (drag = null));
  stage.addEventListener("wheel", (e) => {
    e.preventDefault();
    eye.far *= Math.exp(e.deltaY * 0.001);
    draw();
  }, { passive: false });
  stage.addEventListener("keydown", (e) => {
    const by = { ArrowLeft: [-0.1, 0], ArrowRight: [0.1, 0], ArrowUp: [0, -0.1], ArrowDown: [0, 0.1] }[e.key];
    if (by) turn(...by);
    else if (e.key === "+" || e.key === "-") eye.far *= e.key === "+" ? 0.9 : 1.1;
    else return;
    e.preventDefault();
    draw();
  });
  window.addEventListener("resize", draw);
}

function cutAway() {
  const at = Number($("cut-at").value);
  $("cut-at").disabled = !$("cut-away").checked;
  $("cut-at").setAttribute("aria-valuetext", `Y ${at.toFixed(1)} mm`);
  $("cut-said").textContent = $("cut-away").checked ? `Y ${at.toFixed(1)} mm` : "";
  draw();
}

function turn(by, tilt) {
  eye.turn -= by;
  eye.tilt = Math.max(-1.5, Math.min(1.57, eye.tilt + tilt));
  draw();
}
