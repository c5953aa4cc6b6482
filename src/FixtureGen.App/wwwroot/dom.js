// Small makers of elements, and figures as the papers write them.
/** @type {(id: string) => any} */
export const $ = (id) => document.getElementById(id);

/**
 * All elements of a selector, in their order.
 * @type {(selector: string) => any[]}
 */
export const all = (selector) => [...document.querySelectorAll(selector)];

/** An element with properties; children are nodes or text, empty ones are left out. */
export function make(tag, properties = {}, ...children) {
  const e = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (name.includes("-") || name === "role" || name === "for") e.setAttribute(name, value);
    else e[name] = value;
  }
  e.append(...children.flat().filter((c) => c !== null && c !== undefined && c !== ""));
  return e;
}

export const button = (text, act, properties = {}) => {
  const b = make("button", { type: "button", textContent: text, ...properties });
  b.addEventListener("click", act);
  return b;
};

/** A hold factor with two figures, rounded down, as on the papers. */
export function factor(value) {
  if (value === null || value === undefined) return "-";
  if (value >= 10) return String(Math.floor(value));
  const step = value >= 1 ? 10 : 100;
  return (Math.floor(value * step + 1e-9) / step).toFixed(value >= 1 ? 1 : 2);
}

export const minutes = (value) => (value > 0 ? `${value.toFixed(1)} min` : "-");

/** A time of the register, UTC, as this place's clock has it. */
export const time = (iso) => (iso ? new Date(iso).toLocaleString([], { dateStyle: "medium", timeStyle: "short" }) : "-");

export const size = (bytes) => (bytes < 1024 ? `${bytes} B` : bytes < 1024 * 1024 ? `${(bytes / 1024).toFixed(0)} kB` : `${(bytes / 1024 / 1024).toFixed(1)} MB`);

/** The address of a view of a job. */
export const link = (view, job = "") => `#/${view}${job ? `/${encodeURIComponent(job)}` : ""}`;

export const stateWords = {
  "never-made": ["never made", "chip"], made: ["made", "chip good"], stale: ["stale", "chip warn"], refused: ["refused", "chip bad"],
  cut: ["cut", "chip good"], worn: ["worn", "chip warn"], scrapped: ["scrapped", "chip"],
};
