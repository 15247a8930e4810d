// Force, rate and energy of both forks against travel, and the readings at the cursor.
import { byId, make } from "./dom.js";
import { draw } from "./chart.js";

export const names = ["first", "second"];

export function show(view) {
  byId("air").replaceChildren(make("strong", {}, "Filled"), ` at ${view.Then}. `, make("strong", {}, "Now"), ` at ${view.Now}.`);
  names.forEach((name, i) => {
    byId("name-" + (i + 1)).textContent = view.Forks[i] ? `${i + 1}: ${view.Forks[i].Name}` : "";
    document.querySelector(".sample." + name).hidden = !view.Forks[i];
  });
  for (const [id, key, label, unit] of [["force", "Force", "Force", view.ForceUnit], ["rate", "Rate", "Rate", view.RateUnit],
    ["energy", "Energy", "Energy", view.EnergyUnit]]) {
    const rest = view.Forks.map((f, i) => ({ x: f.X, y: f.Rest[key], class: names[i] + " rest" }));
    const ridden = view.Forks.map((f, i) => ({ x: f.X, y: f.Ridden[key], class: names[i] }));
    const at = view.Forks.map((f) => `${f.Name} ${f.At[key].toFixed(1)} ${unit}`).join(", ");
    draw(byId(id), {
      title: `${label} against travel. At ${view.Travel.toFixed(1)} ${view.LengthUnit}, ridden: ${at}.`,
      x: `travel, ${view.LengthUnit}`, y: `${label}, ${unit}`, lines: [...rest, ...ridden], from: { x: 0, y: key === "Rate" ? 0 : undefined, most: most(view, key) },
      cursor: view.Travel, height: id === "force" ? 340 : 260,
      levels: id === "force" ? [{ y: view.Forks[0].Load, class: "load", text: "load" }] : [],
      dots: view.Forks.map((f, i) => ({ x: f.At.X, y: f.At[key], class: names[i] })),
    });
  }
  const table = byId("readings");
  table.tHead.replaceChildren(make("tr", {}, make("th", { scope: "col" }, "at " + view.Travel.toFixed(view.LengthUnit === "in" ? 2 : 0) + " " + view.LengthUnit),
    ...view.Forks.map((f, i) => make("th", { scope: "col", class: "number" }, `${i + 1}: ${f.Name}`)), make("th", { scope: "col" }, "unit")));
  table.tBodies[0].replaceChildren(...view.Readings.map((r) => make("tr", {}, make("th", { scope: "row" }, r.Label),
    ...r.Texts.map((text, i) => make("td", { class: "number", id: `${r.Key}-${i + 1}`, "data-value": r.Values[i] }, text)),
    make("td", {}, r.Unit))));
  byId("notes").replaceChildren(...view.Notes.map((n) => make("li", {}, n)));
}

// most leaves the last steep bit of a locking leg out of the picture.
function most(view, key) {
  const ends = view.Forks.map((f) => f.Ridden[key][Math.floor(f.X.length * 0.97)]);
  return Math.max(...ends) * 1.15;
}

// sentence is what a screen reader hears after a move.
export function sentence(view) {
  return `At ${view.Travel.toFixed(1)} ${view.LengthUnit}: ` + view.Forks.map((f, i) => {
    const sag = view.Readings[0];
    return `${f.Name} ${f.At.Force.toFixed(0)} ${view.ForceUnit}, sag ${sag.Texts[i]} ${sag.Unit}`;
  }).join("; ") + ".";
}
