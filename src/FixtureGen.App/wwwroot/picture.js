// A still picture of shapes with findings at their places; Y up, lengths mm.
const NS = "http://www.w3.org/2000/svg";
const el = (name, attributes, parent) => {
  const e = document.createElementNS(NS, name);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  parent?.append(e);
  return e;
};

/** Draws shapes [{ d, className, title }] within a box and numbered marks [{ x, y, severity, title, act }]. */
export function drawPicture(svg, box, shapes, marks) {
  svg.replaceChildren();
  const [x0, y0, x1, y1] = box;
  const edge = 0.04 * Math.max(x1 - x0, y1 - y0, 1e-9);
  svg.setAttribute("viewBox", `${x0 - edge} ${-y1 - edge} ${x1 - x0 + 2 * edge} ${y1 - y0 + 2 * edge}`);
  const world = el("g", { transform: "scale(1 -1)" }, svg);
  for (const s of shapes) {
    const path = el("path", { d: s.d, class: s.className, "vector-effect": "non-scaling-stroke", "fill-rule": "evenodd" }, world);
    if (s.title) el("title", {}, path).textContent = s.title;
  }
  const r = 0.017 * Math.max(x1 - x0, y1 - y0);
  marks.forEach((m, i) => {
    const g = el("g", { transform: `translate(${m.x} ${-m.y})`, class: `mark ${m.severity}` }, svg);
    el("circle", { r: 1.3 * r, "vector-effect": "non-scaling-stroke" }, g);
    el("text", { "text-anchor": "middle", y: 0.55 * r, "font-size": 1.6 * r }, g).textContent = String(m.number ?? i + 1);
    el("title", {}, g).textContent = m.title;
    if (m.act) g.addEventListener("click", m.act);
  });
}

/** The findings that have a place, numbered as the list beside the picture has them; a click leads to the line of the list. */
export const marksOf = (list, box) =>
  list.map((f, i) => ({ f, number: i + 1 })).filter(({ f }) => f.at && f.severity !== "note").map(({ f, number }) => ({
    x: f.at[0], y: f.at[1], severity: f.severity, number, title: f.message,
    act: () => {
      const line = box.querySelectorAll("li")[number - 1];
      line?.scrollIntoView({ block: "nearest" });
      line?.focus();
    },
  }));
