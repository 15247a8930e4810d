// The state of the page lives in its address, after the #, which no server ever sees.

export const read = () => location.hash.slice(1);

// write puts a state into the address without a new entry in the history.
export function write(state) {
  history.replaceState(null, "", "#" + state);
}

// of collects the settings of the form: numbers with their units, choices by their values.
export function of(form, travel) {
  const parts = [];
  for (const input of form.querySelectorAll("[data-key]")) {
    parts.push(input.dataset.key + "=" + encodeURIComponent(input.value + (input.dataset.unit ?? "")));
  }
  parts.push("travel=" + encodeURIComponent(travel.value + travel.dataset.unit));
  return parts.join("&");
}

// without drops settings by their keys.
export function without(state, keys) {
  return state.split("&").filter((part) => !keys.includes(part.split("=")[0])).join("&");
}
