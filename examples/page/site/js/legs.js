// Both legs of each fork in section. One millimeter of a fork is one unit of the drawing.
import { byId, svg } from "./dom.js";
import { names } from "./curves.js";

const beside = 138, top = 60, end = 30, plate = 8;

const half = (leg) => Math.max(leg.Tube + 6, leg.Stanchion) / 2;
const box = (name, x, y, width, height) => svg("rect", { class: name, x, y, width: Math.max(0, width), height: Math.max(0, height) });

export function show(view) {
  const drawings = [...byId("section").children];
  while (drawings.length < view.Forks.length) drawings.push(svg("svg", { role: "img" }));
  drawings.length = view.Forks.length;
  const width = Math.max(...view.Forks.map((f) => f.Legs.reduce((sum, leg) => sum + 2 * half(leg) + beside, 16)));
  const height = Math.max(...view.Forks.flatMap((f) => f.Legs.map((leg) => top + leg.Axle + leg.X + end)));
  view.Forks.forEach((f, i) => {
    let x = 8;
    const parts = [svg("text", { x, y: 18, class: names[i] }, `${i + 1}: ${f.Name}`)];
    for (const leg of f.Legs) {
      parts.push(...section(leg, x + half(leg)));
      x += 2 * half(leg) + beside;
    }
    const title = `${f.Name} in section at ${view.Travel.toFixed(1)} ${view.LengthUnit}. ` + f.Legs.map((leg) => `${leg.Side}: ${leg.Holds}`
      + leg.Chambers.map((c) => `, ${c.Name} ${c.Text}`).join("") + (leg.GasText ? `, over the oil ${leg.GasText}` : "")
      + (leg.DamperText ? `, damper gas ${leg.DamperText}` : "") + leg.OilTexts.map((text) => `, oil ${text}`).join("")).join("; ");
    drawings[i].setAttribute("viewBox", `0 0 ${width} ${height}`);
    drawings[i].setAttribute("aria-label", title);
    drawings[i].replaceChildren(svg("title", {}, title), ...parts);
  });
  byId("section").replaceChildren(...drawings);
}

// section draws one leg about its middle line: what is inside, then the tubes, then the words.
function section(leg, x) {
  const parts = [], words = [];
  const axle = top + leg.Axle; // comes nearer in compression
  const inside = leg.StanchionBore / 2;
  if (leg.Gas > 0) {
    const wide = leg.Low ? leg.Tube / 2 : inside; // a lower leg is filled from wall to wall
    const from = leg.Low ? axle - leg.Oil - leg.Gas : top, surface = from + leg.Gas;
    parts.push(box("oil", x - wide, surface, 2 * wide, axle - surface), box("gas", x - wide, from, 2 * wide, leg.Gas));
    parts.push(svg("path", { class: "surface", d: `M${x - wide} ${surface}H${x + wide}` }));
    words.push({ y: surface - 30, text: [leg.Low ? "trapped gas" : "gas over oil", leg.GasText] }, { y: Math.min(surface + 20, axle), text: [`oil ${leg.OilTexts[0] ?? ""}`, ...leg.OilTexts.slice(1)] });
  }
  if (leg.Coil) { // the turns behind what it goes around
    parts.push(svg("path", { class: "coil behind", d: coil(x, inside - 4, top + 8, axle - 20, 1) }));
    words.push({ y: top + 16, text: ["coil"] });
  }
  if (leg.DamperGas > 0) parts.push(...damper(leg, x, axle, words));
  if (leg.Bore > 0) parts.push(...air(leg, x, axle, words));
  if (leg.Coil) parts.push(svg("path", { class: "coil", d: coil(x, inside - 4, top + 8, axle - 20, 0) }));
  parts.push(...tubes(leg, x, axle), svg("text", { x, y: top - 12, "text-anchor": "middle", class: "quiet" }, leg.Side));
  let free = 0;
  for (const w of words.sort((a, b) => a.y - b.y)) {
    let y = Math.max(w.y, free);
    for (const line of w.text) {
      parts.push(svg("text", { x: x + half(leg) + 6, y, class: "quiet" }, line));
      y += 20;
    }
    free = y + 5;
  }
  return parts;
}

// air draws the chambers of an air spring from the cap down, a plate between each two: a floating piston, an
// orifice, or the piston, whose rod goes on to the axle.
function air(leg, x, axle, words) {
  const order = (c) => ({ "positive chamber": 1, "negative chamber": 2 })[c.Name] ?? 0;
  const chambers = [...leg.Chambers].sort((a, b) => order(a) - order(b));
  const left = x - leg.Bore / 2;
  const parts = [box("inner", left - 2, top, leg.Bore + 4, leg.Cylinder)];
  let y = top, rod = top;
  for (const c of chambers) {
    parts.push(box("gas", left, y, leg.Bore, c.Height));
    words.push({ y: y + Math.min(c.Height / 2, 26) + 4, text: [c.Name.replace(" chamber", ""), c.Text] });
    y += c.Height;
    if (order(c) < 2) parts.push(box("metal", left, y, leg.Bore, plate));
    if (order(c) === 1) rod = y;
    y += plate;
  }
  parts.push(box("metal", x - leg.Rod / 2, rod, leg.Rod, axle - rod));
  return parts;
}

// damper draws a pressurized damper: its gas under the cap, a floating piston, oil, and the piston on its rod, which
// comes up from the axle and leaves the gas less room.
function damper(leg, x, axle, words) {
  const left = x - leg.DamperBore / 2, cylinder = leg.DamperGas + 1.25 * leg.Travel, piston = top + leg.DamperGas + plate + 1.1 * leg.Travel - leg.X;
  words.push({ y: top + Math.min(leg.DamperGas / 2, 26) + 4, text: ["damper gas", leg.DamperText] });
  return [box("inner", left - 2, top, leg.DamperBore + 4, cylinder), box("oil", left, top, leg.DamperBore, cylinder),
    box("gas", left, top, leg.DamperBore, leg.DamperGas), box("metal", left, top + leg.DamperGas, leg.DamperBore, plate),
    box("metal", left, piston, leg.DamperBore, plate), box("metal", x - leg.DamperRod / 2, piston, leg.DamperRod, axle - piston)];
}

// tubes draws the fixed one from the crown and the sliding one up from the axle.
function tubes(leg, x, axle) {
  const stanchion = leg.Stanchion / 2, tube = leg.Tube / 2 + 3;
  const [fixed, sliding] = leg.Inverted ? [tube, stanchion] : [stanchion, tube];
  const longest = top + leg.Axle + leg.X;
  const lower = longest - leg.Travel - end; // end of the fixed tube, which the axle does not pass
  const upper = Math.max(top + 10, lower - 130 - leg.X);
  return [svg("path", { class: "wall", d: `M${x - fixed} ${lower}V${top}H${x + fixed}V${lower}` }),
    svg("path", { class: "wall", d: `M${x - sliding} ${upper}V${axle}H${x + sliding}V${upper}` }),
    svg("circle", { class: "inner", cx: x, cy: axle + 9, r: 9 })];
}

// coil is the half turns in front or behind, between two heights.
function coil(x, wide, from, to, behind) {
  const halves = 30, y = (i) => (from + (to - from) * i / halves).toFixed(1);
  let d = "";
  for (let i = behind; i < halves; i += 2) d += `M${x + (behind ? wide : -wide)} ${y(i)}L${x + (behind ? -wide : wide)} ${y(i + 1)}`;
  return d;
}
