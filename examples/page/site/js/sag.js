// The sag of both forks on a scale of their travel.
import { byId, svg } from "./dom.js";
import { mark, ticks } from "./chart.js";
import { names } from "./curves.js";

export function show(view) {
  const element = byId("sagscale");
  const width = Math.max(260, element.parentElement.clientWidth), row = 78, left = 14, right = 26;
  const height = 16 + row * view.Forks.length;
  const x = (v) => left + v / view.Most * (width - left - right);
  const parts = [];
  const said = [];
  view.Forks.forEach((f, i) => {
    const s = f.Sag, y = 40 + row * i, digits = view.LengthUnit === "in" ? 2 : 0;
    const words = `${i + 1}: ${f.Name}: ${s.Middle.toFixed(digits)} ${view.LengthUnit} (${s.High.toFixed(digits)} to ${s.Low.toFixed(digits)})`;
    said.push(words);
    parts.push(svg("text", { x: left, y: y - 22, class: names[i] }, words),
      svg("path", { class: "axis", d: `M${x(0)} ${y + 12}H${x(s.Travel)}` }));
    for (const v of ticks(0, s.Travel, width < 420 ? 4 : 10)) {
      parts.push(svg("path", { class: "axis", d: `M${x(v)} ${y + 12}v5` }),
        svg("text", { x: x(v), y: y + 29, "text-anchor": "middle", class: "quiet" }, String(v)));
    }
    parts.push(svg("rect", { class: "window", x: x(s.From), y: y - 13, width: x(s.To) - x(s.From), height: 25 }),
      svg("rect", { class: "band " + names[i], x: x(s.High), y: y - 8, width: Math.max(1, x(s.Low) - x(s.High)), height: 15 }),
      svg("path", { class: "line " + names[i] + " rest", d: `M${x(s.High)} ${y - 8}v15M${x(s.Low)} ${y - 8}v15` }),
      ...mark(x(s.Then), y, { class: names[i] + " hollow" }), ...mark(x(s.Middle), y, { class: names[i] }));
  });
  parts.push(svg("text", { x: width - 4, y: height - 2, "text-anchor": "end", class: "quiet" },
    `frame: usual window · travel in ${view.LengthUnit}`));
  const title = "Sag with rider. " + said.join("; ");
  element.setAttribute("viewBox", `0 0 ${width} ${height}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(svg("title", {}, title), ...parts);
}
