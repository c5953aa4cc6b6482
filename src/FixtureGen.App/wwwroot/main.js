// The frame: which view is shown, and whether the program answers.
import { ask, soon, whenLost } from "./server.js";
import { alarm, say } from "./say.js";
import { $, all } from "./dom.js";
import { openLayout, layoutJob, watchFiles } from "./layout.js";
import { openLibrary, startLibrary, watchLibrary } from "./library.js";
import { formJob, openForm, startForm, watchForm } from "./job.js";
import { openFresh, startFresh } from "./fresh.js";
import { openPlay, playJob, startPlay } from "./play.js";
import { openShop, startShop, watchShop } from "./shop.js";
import { startRun } from "./run.js";
import { openFiles, watchFilesList } from "./files.js";

const WATCH_MS = 2500;
const nothing = async () => {};
const views = {
  library: { open: openLibrary, watch: watchLibrary, withRun: true },
  layout: { open: openLayout, watch: () => watchFiles(soon), ofJob: true, isOpen: layoutJob },
  shop: { open: openShop, watch: watchShop, withRun: true },
  begin: { open: nothing, watch: nothing },
  new: { open: openFresh, watch: nothing },
  job: { open: openForm, watch: watchForm, ofJob: true, isOpen: formJob },
  play: { open: openPlay, watch: nothing, ofJob: true, isOpen: playJob },
  files: { open: openFiles, watch: watchFilesList, ofJob: true },
};
let shown = null;
let home = null;

async function show() {
  const [asked = "", named = ""] = location.hash.slice(2).split("/").map(decodeURIComponent);
  const name = !home.shop ? "begin" : views[asked] ? asked : home.start ? "layout" : "library";
  const view = views[name];
  const job = named || home.start;
  for (const section of all(".view")) section.hidden = section.id !== `view-${name}`;
  $("run-view").hidden = !view.withRun;
  for (const id of ["changed", "blocked", "old-files", "form-changed", "library", "shop", "shop-changed"]) alarm(id, "");
  say("");
  $("job-tabs").hidden = !view.ofJob;
  $("job-name").textContent = job.split("/").pop().replace(/\.toml$/i, "");
  for (const a of all(".top nav a")) {
    if (a.closest("#job-tabs")) a.href = `#/${a.dataset.view}/${encodeURIComponent(job)}`;
    if (a.dataset.view === name) a.setAttribute("aria-current", "page");
    else a.removeAttribute("aria-current");
  }
  shown = view;
  if (!view.ofJob) await view.open(named);
  else if (view.isOpen?.() !== job) await view.open(job);
  else await view.watch();
}

whenLost((since) => {
  document.body.classList.toggle("lost", Boolean(since));
  const at = since instanceof Date ? since.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit" }) : "";
  alarm("lost", !since ? ""
    : since === "stranger" ? "The program was started anew: open the address that it printed last. What you laid out is still on this page and is not saved."
    : `The program has not answered since ${at}. What you see is as it was then, and nothing is saved. Leave this page open: it goes on by itself when the program answers again.`);
});

async function begin() {
  const { ok, answer } = await ask("home");
  if (!ok) return void setTimeout(begin, WATCH_MS);
  home = answer;
  $("where").textContent = home.folder;
  startLibrary(home);
  startRun();
  startShop();
  startFresh();
  startForm();
  startPlay();
  window.addEventListener("hashchange", show);
  await show();
  const watch = async () => {
    await (shown?.watch ?? nothing)();
    setTimeout(watch, WATCH_MS);
  };
  setTimeout(watch, WATCH_MS);
}

await begin();
