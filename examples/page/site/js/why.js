// The arithmetic of the point under the cursor.
import { byId, make } from "./dom.js";

export function show(why) {
  byId("reckoning").replaceChildren(...why.Forks.flatMap((f, i) => [make("h3", {}, `${i + 1}: ${f.Name}`),
    make("div", { class: "scroll" }, make("table", { class: "steps" }, make("tbody", {}, ...f.Steps.map((s) => make("tr", {},
      make("th", { scope: "row" }, s.Name), make("td", {}, s.Sum), make("td", { class: "number" }, s.Result))))))]));
  byId("laws").replaceChildren(...why.Laws.map((l) => make("li", {}, l)));
  byId("entries").replaceChildren(...why.Forks.map((f) => make("div", { class: "scroll" }, make("table", {},
    make("caption", {}, f.Name), make("tbody", {}, ...f.Entries.map((e) => make("tr", {}, make("th", { scope: "row" }, e.Key),
      make("td", {}, e.Text), make("td", {}, e.Source + (e.Note ? ": " + e.Note : "")))))))));
  byId("sources").replaceChildren(...why.Sources.map((s) => make("li", {}, s)));
}
