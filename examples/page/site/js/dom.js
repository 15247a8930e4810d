// Small helpers to make and fill elements. Nothing is ever set as HTML text.

export const byId = (id) => document.getElementById(id);

// make("td", {class: "number"}, "12", child…)
export function make(tag, attributes = {}, ...children) {
  return fill(document.createElement(tag), attributes, children);
}

// svg("path", {d: "…"}) is make for drawings.
export function svg(tag, attributes = {}, ...children) {
  return fill(document.createElementNS("http://www.w3.org/2000/svg", tag), attributes, children);
}

function fill(element, attributes, children) {
  for (const name in attributes) {
    if (attributes[name] !== undefined && attributes[name] !== false) element.setAttribute(name, attributes[name]);
  }
  element.append(...children.filter((c) => c !== undefined));
  return element;
}

// listFaults shows what is wrong in an alert, or hides it.
export function listFaults(box, faults) {
  box.hidden = faults.length === 0;
  box.replaceChildren(...(faults.length === 0 ? [] : [make("strong", {}, "Not understood, so the usual value stands:"),
    make("ul", {}, ...faults.map((f) => make("li", {}, f)))]));
}
