// A job's papers and files: look, print, take along.
import { ask, address, current } from "./server.js";
import { alarm, say } from "./say.js";
import { $, button, link, make, size, time } from "./dom.js";

let shown = "";
const kinds = { program: "Programs", paper: "Papers", picture: "Pictures", drawing: "Drawings", table: "Tables", model: "Models", report: "Reports" };

export async function openFiles(job) {
  current.job = job;
  shown = "";
  $("preview").replaceChildren();
  await load();
}

export const watchFilesList = () => load();

async function load() {
  const { ok, status, answer } = await ask("outputs");
  if ($("view-files").hidden) return;
  if (!ok) {
    if (status !== 0) say(answer.message, true);
    return;
  }
  const name = current.job.split("/").pop().replace(/\.toml$/i, "");
  document.title = `${name} - papers and files`;
  $("files-title").textContent = `Papers and files of ${name}`;
  $("files-folder").textContent = answer.folder;
  const key = JSON.stringify(answer);
  alarm("old-files", answer.files.length > 0 && answer.stale ? `These files are not what would be made now: ${answer.stale}. Make the job again before you cut with them.` : "");
  if ($("files-list").dataset.key === key) return;
  $("files-list").dataset.key = key;
  $("files-none").hidden = answer.files.length > 0;
  $("files-all").hidden = answer.files.length === 0;
  $("files-all").href = address("outputs.zip");
  $("files-all").download = `${name}.zip`;
  $("files-make").href = link("layout", current.job);
  $("files-list").replaceChildren(...Object.entries(kinds).filter(([k]) => answer.files.some((f) => f.kind === k)).map(([kind, title]) =>
    make("div", {}, make("h2", {}, title), make("ul", { className: "files" }, answer.files.filter((f) => f.kind === kind).map(line)))));
  const first = answer.files.find((f) => f.name.endsWith(".setup.pdf")) ?? answer.files[0];
  if (first && !shown) look(first, false);
}

function line(f) {
  const target = address("output", { name: f.name });
  return make("li", {},
    button(f.name, () => look(f), { className: "plain", "aria-label": `Show ${f.name}` }),
    make("small", {}, `${size(f.bytes)}, ${time(f.at)}`),
    make("a", { href: target, download: f.name, "aria-label": `Download ${f.name}` }, "Download"),
    f.kind === "paper" || f.kind === "picture" || f.kind === "program" ? button("Print", () => print(target), { "aria-label": `Print ${f.name}` }) : "");
}

async function look(f, move = true) {
  shown = f.name;
  const target = address("output", { name: f.name, at: f.at });
  const box = $("preview");
  const head = make("h2", { tabIndex: -1 }, f.name);
  if (f.kind === "paper") box.replaceChildren(head, make("iframe", { src: target, title: f.name }));
  else if (f.kind === "picture") box.replaceChildren(head, make("img", { src: target, alt: `${f.name}` }));
  else {
    const text = await fetch(target).then((r) => r.text()).catch(() => "The program does not answer.");
    box.replaceChildren(head, make("pre", { tabIndex: 0, role: "region", "aria-label": f.name, textContent: text }));
  }
  if (move) head.focus();
}

/** Prints a file by a frame of its own, so that nothing of the page stands on the paper. */
function print(target) {
  document.getElementById("printing")?.remove();
  const frame = make("iframe", { id: "printing", src: target, title: "printing", className: "unseen" });
  frame.addEventListener("load", () => {
    frame.contentWindow.focus();
    frame.contentWindow.print();
  });
  document.body.append(frame);
}
