// The arithmetic of the point under the cursor, and what the records say.
import { byId, make } from "./dom.js";
import { fetched } from "./library.js";

let records, shown = [];

export function show(why) {
  byId("handunits").textContent = why.Units;
  byId("reckoning").replaceChildren(...why.Forks.flatMap((f, i) => [make("h3", {}, `${i + 1}: ${f.Name}`),
    make("div", { class: "scroll" }, make("table", { class: "steps" }, make("tbody", {}, ...f.Steps.map((s) => make("tr", {},
      make("th", { scope: "row" }, s.Name), make("td", {}, s.Sum), make("td", { class: "number" }, s.Result))))))]));
  byId("laws").replaceChildren(...why.Laws.map((l) => make("li", {}, l)));
  shown = [...new Set(why.Forks.map((f) => f.ID))];
  if (byId("records").open) list();
}

// prepare has the records listed once somebody wants to see them: they are a file of their own.
export function prepare() {
  byId("records").addEventListener("toggle", () => { if (byId("records").open) list(); });
}

async function list() {
  try {
    records ??= JSON.parse(new TextDecoder().decode(await fetched("records.json.gz")));
  } catch (error) {
    byId("entries").textContent = "The records cannot be read: " + error.message;
    return;
  }
  const cells = (e) => [e.Text, e.Known, e.Source + (e.Note ? ": " + e.Note : "")].map((text) => make("td", {}, text));
  byId("entries").replaceChildren(...shown.map((id) => make("div", { class: "scroll" }, make("table", {}, make("caption", {}, id),
    make("thead", {}, make("tr", {}, ...["value", "", "may be off by", "from"].map((text) => make("th", { scope: "col" }, text)))),
    make("tbody", {}, ...records.Forks[id].map((e) => make("tr", {}, make("th", { scope: "row" }, e.Key), ...cells(e))))))));
  const used = new Set(shown.flatMap((id) => records.Forks[id].map((e) => e.Source)));
  byId("sources").replaceChildren(...[...used].filter((id) => records.Sources[id]).map((id) => make("li", {}, `${id}: ${records.Sources[id]}`)));
}
