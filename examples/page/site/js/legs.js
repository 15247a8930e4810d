// Both legs of both forks in section. One millimeter of the fork is one unit of the drawing.
import { byId, svg } from "./dom.js";
import { names } from "./curves.js";

const gap = 96, top = 62, end = 30;

export function show(view) {
  const element = byId("section");
  const parts = [], said = [];
  let at = 20, deepest = 0;
  view.Forks.forEach((f, i) => {
    const start = at;
    for (const leg of f.Legs) {
      const half = Math.max(leg.Tube, leg.Stanchion) / 2 + 5;
      at += half;
      parts.push(...section(leg, at));
      at += half + gap;
      deepest = Math.max(deepest, top + leg.Axle + leg.X + end);
      said.push(`${f.Name} ${leg.Side}: ${leg.Holds}` + leg.Chambers.map((c) => `, ${c.Name} ${c.Text}`).join("") + (leg.GasText ? `, over the oil ${leg.GasText}` : ""));
    }
    parts.push(svg("text", { x: start, y: 20, class: names[i] + " large" }, `${i + 1}: ${f.Name}`));
  });
  const width = at - gap + 80;
  const title = "Legs in section. " + said.join("; ");
  element.setAttribute("viewBox", `0 0 ${width} ${deepest + 14}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(svg("title", {}, title), ...parts);
}

const box = (name, x, y, width, height) => svg("rect", { class: name, x, y, width: Math.max(0, width), height: Math.max(0, height) });

function section(leg, x) {
  const parts = [], label = (y, text, name = "quiet") => svg("text", { x: x + Math.max(leg.Tube, leg.Stanchion) / 2 + 9, y, class: name }, text);
  const axle = top + leg.Axle; // moves up in compression
  const inside = leg.StanchionBore / 2;
  if (leg.Gas > 0) {
    parts.push(box("oil", x - inside, top, 2 * inside, leg.Axle), box("gas", x - inside, top, 2 * inside, leg.Gas));
    parts.push(label(Math.max(top + leg.Gas - 8, top + 70), "gas over oil"), label(Math.max(top + leg.Gas - 8, top + 70) + 15, leg.GasText), label(top + leg.Gas + 24, "oil"));
  }
  if (leg.Bore > 0) {
    const half = leg.Bore / 2, wall = 2;
    let y = top;
    const whole = leg.Chambers.reduce((sum, c) => sum + c.Height, 0) + 8;
    parts.push(box("inner", x - half - wall, top, leg.Bore + 2 * wall, whole));
    parts.push(box("metal", x - leg.Rod / 2, top + leg.Chambers.filter((c) => c.Name !== "negative chamber").reduce((s, c) => s + c.Height, 0), leg.Rod, axle - top - whole + 8 + 400 > 0 ? axle - (top + leg.Chambers.filter((c) => c.Name !== "negative chamber").reduce((s, c) => s + c.Height, 0)) : 0));
    const above = [...leg.Chambers].sort((a, b) => rank(a) - rank(b));
    above.forEach((c, i) => {
      parts.push(box("gas", x - half, y, leg.Bore, c.Height));
      if (c.Name === "negative chamber") parts.push(box("metal", x - leg.Rod / 2, y, leg.Rod, c.Height));
      parts.push(label(y + Math.min(c.Height / 2, 30) + 4, c.Name.replace(" chamber", "")), label(y + Math.min(c.Height / 2, 30) + 19, c.Text));
      y += c.Height;
      if (i < above.length - 1) {
        parts.push(box("metal", x - half, y, leg.Bore, 8)); // piston, floating piston or orifice plate
        y += 8;
      }
    });
  }
  if (leg.Coil) parts.push(svg("path", { class: "coil", d: coil(x, inside - 4, top + 10, axle - 24) }), label(top + 30, "coil"));
  // The tubes: the sliding one moves with the axle.
  const fixed = leg.Inverted ? leg.Tube / 2 + 3 : leg.Stanchion / 2, moving = leg.Inverted ? leg.Stanchion / 2 : leg.Tube / 2 + 3;
  const overlap = top + leg.Axle + leg.X - leg.Travel - end;
  parts.push(svg("path", { class: "wall", d: `M${x - fixed} ${overlap}V${top}H${x + fixed}V${overlap}` }),
    svg("path", { class: "wall", d: `M${x - moving} ${Math.max(top + 12, overlap - 150 - leg.X)}V${axle}H${x + moving}V${Math.max(top + 12, overlap - 150 - leg.X)}` }),
    svg("circle", { class: "inner", cx: x, cy: axle + 9, r: 9 }),
    svg("text", { x, y: top - 14, "text-anchor": "middle", class: "quiet" }, leg.Side));
  return parts;
}

// rank puts what lies behind the main chamber over it and the negative one under it.
const rank = (c) => ({ "positive chamber": 1, "negative chamber": 2 })[c.Name] ?? 0;

// coil is the outline of some turns between two heights.
function coil(x, half, from, to) {
  const turns = 22;
  let d = `M${x - half} ${from}`;
  for (let i = 1; i <= turns; i++) d += `L${x + (i % 2 ? half : -half)} ${(from + (to - from) * i / turns).toFixed(1)}`;
  return d;
}
