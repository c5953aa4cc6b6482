// What the page says to the person: a status line that clears itself, an alarm that stays while it is true, and words for a screen reader alone.
import { $ } from "./dom.js";

const NOTE_MS = 12_000;
const SPEAK_MS = 350;
let fading = 0;
let speaking = 0;

/** A note fades; a trouble stays until the next word. */
export function say(text, trouble = false) {
  clearTimeout(fading);
  const line = $("status");
  line.textContent = text;
  line.classList.toggle("trouble", trouble);
  if (text && !trouble) fading = setTimeout(() => (line.textContent = ""), NOTE_MS);
}

/** For a screen reader, a moment after the last change, so that a held key is not read step by step. */
export function speak(text) {
  clearTimeout(speaking);
  speaking = setTimeout(() => ($("spoken").textContent = text), SPEAK_MS);
}

/** An alarm by its name with up to two buttons [label, act]; empty text takes it away. */
export function alarm(name, text, buttons = []) {
  const box = $("alarms");
  let p = box.querySelector(`[data-alarm="${name}"]`);
  if (!text) return void p?.remove();
  if (p?.firstChild.textContent === text) return;
  p?.remove();
  p = Object.assign(document.createElement("p"), { className: "alarm" });
  p.dataset.alarm = name;
  p.append(Object.assign(document.createElement("span"), { textContent: text }));
  for (const [label, act] of buttons) {
    const button = Object.assign(document.createElement("button"), { type: "button", textContent: label });
    button.addEventListener("click", act);
    p.append(button);
  }
  box.append(p);
}

const rank = { error: 0, warning: 1, note: 2 };
/** Worst first, else in their order. */
export const worst = (list) => [...list].sort((a, b) => rank[a.severity] - rank[b.severity]);

/** Findings as a list, worst first, each with what to do. */
export function findings(box, list) {
  const ul = box.querySelector("ul");
  ul.replaceChildren();
  box.hidden = list.length === 0;
  for (const f of worst(list)) {
    const li = Object.assign(document.createElement("li"), { className: `finding ${f.severity}`, tabIndex: -1 });
    const head = Object.assign(document.createElement("p"), { className: "what" });
    if (f.at && f.severity !== "note") head.append(Object.assign(document.createElement("span"), { className: "place", textContent: String(ul.children.length + 1) }), " ");
    head.append(
      Object.assign(document.createElement("strong"), { textContent: f.severity }),
      ` ${f.message}`,
    );
    const at = f.line ? `${f.where}, line ${f.line}` : f.where;
    li.append(
      head,
      Object.assign(document.createElement("p"), { className: "todo", textContent: `\u2192 ${f.remedy}` }),
      Object.assign(document.createElement("p"), { className: "where", textContent: `${f.code} at ${at}` }),
    );
    ul.append(li);
  }
}
