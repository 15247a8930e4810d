// How well the force is known.
import { byId, make } from "./dom.js";
import { draw } from "./chart.js";
import { names } from "./curves.js";

export function show(sure, view) {
  byId("means").textContent = sure.Means;
  byId("surelines").replaceChildren(...sure.Forks.map((f, i) => make("p", {}, make("strong", {}, `${i + 1}: ${f.Name} `),
    f.Lines.join("; ") + ` (one standard deviation). ${f.Drawn} forks drawn` + (f.Refused ? `, ${f.Refused} more did not carry the rider.` : "."))));
  draw(byId("band"), {
    title: "Force against travel, ridden: bands that nine of ten forks lie in.",
    x: `travel, ${view.LengthUnit}`, y: `Force, ${view.ForceUnit}`, from: { x: 0 }, height: 320, cursor: view.Travel,
    bands: sure.Forks.map((f, i) => ({ x: f.X, low: f.Low, high: f.High, class: names[i] })),
    lines: sure.Forks.flatMap((f, i) => [f.Low, f.High].map((y) => ({ x: f.X, y, class: names[i] + " rest" }))),
  });
}
