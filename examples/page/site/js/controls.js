// The settings: sliders and lists as the library describes them, so that ranges and names are in one place.
import { byId, make } from "./dom.js";

const order = ["Fork 1", "Fork 2", "Rider", "Today", "Closed and filled", "Show"];

// show builds the form for the forks of a state. The slider of the travel stands apart.
export function show(controls) {
  const groups = new Map(order.map((name) => [name, make("fieldset", {}, make("legend", {}, name))]));
  for (const c of controls) {
    if (c.Key === "travel") dress(byId("travel"), byId("traveltext"), c);
    else groups.get(c.Group).append(control(c));
  }
  byId("groups").replaceChildren(...groups.values());
}

function control(c) {
  const id = "set-" + c.Key;
  if (c.Choices.length > 0) {
    const list = make("select", { id, "data-key": c.Key },
      ...c.Choices.map((n) => make("option", { value: n.Value }, n.Name)));
    list.value = c.Chosen;
    const chosen = make("span", { class: "chosen", "aria-hidden": "true" }); // on paper, where a list would be cut off
    const say = () => { chosen.textContent = list.selectedOptions[0]?.textContent; };
    list.addEventListener("change", say);
    say();
    return make("div", { class: "control" }, make("label", { for: id }, c.Label), list, chosen);
  }
  const text = make("output", { id: id + "-text", for: id });
  const slider = make("input", { type: "range", id, "data-key": c.Key });
  dress(slider, text, c);
  return make("div", { class: "control" },
    make("div", { class: "row" }, make("label", { for: id }, c.Label), text), slider);
}

function dress(slider, text, c) {
  Object.assign(slider, { min: c.Min, max: c.Max, step: c.Step });
  slider.value = c.Value;
  slider.dataset.unit = c.Unit;
  say(slider, text, c.Text);
}

// say writes a slider's value out, for the eye and for screen readers.
export function say(slider, text, words) {
  text.textContent = words;
  slider.setAttribute("aria-valuetext", words);
}

// follow writes the values out again after a move.
export function follow(texts) {
  for (const { Value: key, Name: words } of texts) {
    const slider = byId(key === "travel" ? "travel" : "set-" + key);
    if (slider) say(slider, byId(key === "travel" ? "traveltext" : "set-" + key + "-text"), words);
  }
}
