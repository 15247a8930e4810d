// How well the force is known, and what makes most of it.
import { byId, make } from "./dom.js";
import { draw } from "./chart.js";
import { names } from "./curves.js";

export function show(sure, view) {
  byId("means").textContent = sure.Means;
  byId("surelines").replaceChildren(...sure.Forks.flatMap((f, i) => [make("p", {}, make("strong", {}, `${i + 1}: ${f.Name}: `),
    f.Lines.join("; ") + `. ${f.Drawn} forks drawn` + (f.Refused ? `, ${f.Refused} more did not carry the rider or are no forks.` : ".")),
  make("div", { class: "scroll" }, make("table", {}, make("caption", {}, "What makes most of it, each alone"),
    make("thead", {}, make("tr", {}, ...["value", "may be off by", "source", "sag", "energy", "change"].map((text, k) => make("th", { scope: "col", class: k > 2 && "number" }, text)))),
    make("tbody", {}, ...f.Parts.map((p) => make("tr", {}, make("th", { scope: "row" }, p.Name), make("td", {}, p.Known),
      make("td", {}, p.Source), ...[p.Sag, p.Energy, p.Change].map((text) => make("td", { class: "number" }, text))))))),
  make("p", { class: "small" }, `and ${f.Others} more that add less`)]));
  draw(byId("band"), {
    title: "Force against travel, ridden: bands that nine of ten forks lie in.",
    x: `travel, ${view.LengthUnit}`, y: `Force, ${view.ForceUnit}`, from: { x: 0 }, height: 320, cursor: view.Travel,
    bands: sure.Forks.map((f, i) => ({ x: f.X, low: f.Low, high: f.High, class: names[i] })),
    lines: [...sure.Forks.flatMap((f, i) => [f.Low, f.High].map((y) => ({ x: f.X, y, class: names[i] + " rest" }))),
      ...view.Forks.map((f, i) => ({ x: f.X, y: f.Ridden.Force, class: names[i] }))],
  });
}
