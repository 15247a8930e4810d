// A drawing of lines over an axis: what all curves of the page share.
import { svg } from "./dom.js";

const margin = { left: 52, right: 14, top: 26, bottom: 40 };

// ticks are round numbers from lo to hi, some n of them.
export function ticks(lo, hi, n) {
  const raw = (hi - lo) / n || 1;
  const power = 10 ** Math.floor(Math.log10(raw));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= raw) ?? 10 * power;
  const list = [];
  for (let i = Math.ceil(lo / step - 1e-9); i * step <= hi + 1e-9 * step; i++) list.push(+(i * step).toPrecision(12));
  return list;
}

const span = (lists) => {
  let lo = Infinity, hi = -Infinity;
  for (const list of lists) for (const v of list) {
    if (v < lo) lo = v;
    if (v > hi) hi = v;
  }
  return [lo, hi];
};

export function path(xs, ys, x, y) {
  let d = "";
  for (let i = 0; i < xs.length; i++) d += (i ? "L" : "M") + x(xs[i]).toFixed(1) + " " + y(ys[i]).toFixed(1);
  return d;
}

// draw fills a drawing: lines of {x, y, class}, bands of {x, low, high, class}, levels of {y, class},
// dots of {x, y, class}, a cursor, and a title that says it all to who does not see it.
export function draw(element, { title, x: xName, y: yName, lines = [], bands = [], levels = [], dots = [], cursor, from = {}, height = 300 }) {
  const width = Math.max(260, element.parentElement.clientWidth);
  let [x0, x1] = span([...lines.map((l) => l.x), ...bands.map((b) => b.x)]);
  let [y0, y1] = span([...lines.map((l) => l.y), ...bands.flatMap((b) => [b.low, b.high])]);
  x0 = from.x ?? x0;
  y0 = Math.min(from.y ?? y0, y0);
  y1 = Math.min(y1, from.most ?? Infinity);
  if (!(x1 > x0)) x1 = x0 + 1;
  if (!(y1 > y0)) y1 = y0 + 1;
  y1 += (y1 - y0) * 0.04;
  const x = (v) => margin.left + (v - x0) / (x1 - x0) * (width - margin.left - margin.right);
  const y = (v) => height - margin.bottom - (Math.min(Math.max(v, y0), y1) - y0) / (y1 - y0) * (height - margin.top - margin.bottom);
  const parts = [svg("title", {}, title)];
  for (const v of ticks(x0, x1, width < 420 ? 4 : 8)) {
    parts.push(svg("path", { class: "grid", d: `M${x(v)} ${margin.top}V${height - margin.bottom}` }),
      svg("text", { x: x(v), y: height - margin.bottom + 16, "text-anchor": "middle", class: "quiet" }, String(v)));
  }
  for (const v of ticks(y0, y1, height < 220 ? 4 : 6)) {
    parts.push(svg("path", { class: "grid", d: `M${margin.left} ${y(v)}H${width - margin.right}` }),
      svg("text", { x: margin.left - 6, y: y(v) + 4, "text-anchor": "end", class: "quiet" }, String(v).replace("-", "−")));
  }
  parts.push(svg("path", { class: "axis", d: `M${margin.left} ${margin.top}V${height - margin.bottom}H${width - margin.right}` }),
    svg("text", { x: 4, y: 14, class: "bold" }, yName),
    svg("text", { x: width - margin.right, y: height - 6, "text-anchor": "end", class: "bold" }, xName));
  for (const b of bands) {
    const d = path(b.x, b.high, x, y) + path([...b.x].reverse(), [...b.low].reverse(), x, y).replace("M", "L") + "Z";
    parts.push(svg("path", { class: "band " + b.class, d }));
  }
  for (const l of levels) {
    if (l.y < y0 || l.y > y1) continue;
    parts.push(svg("path", { class: l.class, d: `M${margin.left} ${y(l.y)}H${width - margin.right}` }));
    if (l.text) parts.push(svg("text", { x: width - margin.right, y: y(l.y) - 4, "text-anchor": "end", class: "quiet" }, l.text));
  }
  for (const l of lines) parts.push(svg("path", { class: "line " + l.class, d: path(l.x, l.y, x, y) }));
  if (cursor !== undefined && cursor >= x0 && cursor <= x1) {
    parts.push(svg("path", { class: "cursor", d: `M${x(cursor)} ${margin.top}V${height - margin.bottom}` }));
  }
  for (const d of dots) parts.push(...mark(x(d.x), y(d.y), d));
  element.setAttribute("viewBox", `0 0 ${width} ${height}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(...parts);
  element.valueAt = (px) => x0 + (px - margin.left) / (width - margin.left - margin.right) * (x1 - x0);
}

// mark is a round dot for fork 1 and a square one for fork 2, with a text beside it if there is one.
export function mark(x, y, { class: name, text, left }) {
  const shape = name.includes("second") ? svg("rect", { x: x - 5, y: y - 5, width: 10, height: 10, class: "dot " + name })
    : svg("circle", { cx: x, cy: y, r: 5.5, class: "dot " + name });
  return text ? [shape, svg("text", { x: x + (left ? -9 : 9), y: y - 8, "text-anchor": left ? "end" : "start", class: name }, text)] : [shape];
}
