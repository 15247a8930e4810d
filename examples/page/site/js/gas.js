// p–V: a gas space of either fork, at rest and ridden, with its state as a point.
import { byId, make } from "./dom.js";
import { draw } from "./chart.js";
import { names } from "./curves.js";

export function show(view) {
  const choice = byId("space");
  const spaces = view.Forks.flatMap((f, i) => f.Spaces.map((s) => ({ ...s, fork: i, name: `${i + 1}: ${f.Name}, ${s.Name}` })));
  const known = [...choice.options].map((o) => o.textContent);
  if (known.join() !== spaces.map((s) => s.name).join()) {
    choice.replaceChildren(...spaces.map((s, i) => make("option", { value: i }, s.name)));
  }
  const s = spaces[choice.value] ?? spaces[0];
  byId("pv").parentElement.hidden = !s;
  byId("state").textContent = s ? `Ridden to ${view.Travel.toFixed(1)} ${view.LengthUnit}: ${s.AtVolume.toFixed(1)} ${view.VolumeUnit}, `
    + `${s.AtPressure.toFixed(2)} ${view.PressureUnit} absolute, ${s.Gauge} on the gauge, ${s.AtCelsius.toFixed(0)} °C. `
    + "Thick: moved fast from the sag. Thin: so slowly that it stays as warm as its wall." : "No closed gas in these forks.";
  if (!s) return;
  const name = names[s.fork];
  draw(byId("pv"), {
    title: `Pressure over volume of ${s.name}: ${s.AtPressure.toFixed(2)} ${view.PressureUnit} absolute at ${s.AtVolume.toFixed(1)} ${view.VolumeUnit}.`,
    x: `volume, ${view.VolumeUnit}`, y: `Absolute pressure, ${view.PressureUnit}`, from: { y: 0 }, height: 320,
    lines: [{ x: s.Rest.V, y: s.Rest.P, class: name + " rest" }, { x: s.Ridden.V, y: s.Ridden.P, class: name }],
    dots: [{ x: s.AtVolume, y: s.AtPressure, class: name }],
  });
}
