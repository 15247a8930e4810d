// Curves as CSV, the force drawing as SVG.
import { make } from "./dom.js";

function save(name, type, text) {
  const url = URL.createObjectURL(new Blob([text], { type }));
  make("a", { href: url, download: name }).click();
  setTimeout(() => URL.revokeObjectURL(url), 1000);
}

// table is the CSV of a view: a line for each sample of each fork, units in the heads of the columns.
export function table(view) {
  const plain = (unit) => unit.replaceAll("/", "_per_").replaceAll("·", "_");
  const columns = ["fork", `travel_${view.LengthUnit}`, ...["rest", "ridden"].flatMap((n) => [`force_${n}_${plain(view.ForceUnit)}`,
    `rate_${n}_${plain(view.RateUnit)}`, `energy_${n}_${plain(view.EnergyUnit)}`])];
  const lines = [columns.join(",")];
  for (const f of view.Forks) {
    for (let i = 0; i < f.X.length; i++) {
      lines.push([`"${f.Name}"`, f.X[i], ...[f.Rest, f.Ridden].flatMap((c) => [c.Force[i], c.Rate[i], c.Energy[i]])].join(","));
    }
  }
  return lines.join("\r\n") + "\r\n";
}

export const csv = (view) => save("fork-curves.csv", "text/csv", table(view));

// drawing is an SVG as a file of its own, with the styles it needs and the colors of now.
export async function drawing(element) {
  const copy = element.cloneNode(true);
  const colors = getComputedStyle(document.documentElement);
  const style = (await (await fetch("css/drawing.css")).text()).replaceAll(/var\((--[a-z]+)\)/g, (_, name) => colors.getPropertyValue(name))
    .replaceAll("svg ", "").split("\n").filter((line) => /^[.a-z]/.test(line)).join("\n");
  const sheet = document.createElementNS("http://www.w3.org/2000/svg", "style");
  sheet.textContent = style;
  copy.prepend(sheet);
  copy.setAttribute("xmlns", "http://www.w3.org/2000/svg");
  save("fork-force.svg", "image/svg+xml", new XMLSerializer().serializeToString(copy));
}
