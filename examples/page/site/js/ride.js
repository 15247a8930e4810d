// Both forks over the same ground, played slowly, side by side.
import { byId, make, svg } from "./dom.js";
import { draw } from "./chart.js";
import { names } from "./curves.js";
import { ask } from "./library.js";

const slower = 5;
let motion, view, timer;

export function prepare(courses, current) {
  byId("courses").replaceChildren(...courses.map((c) => {
    const b = make("button", { type: "button", "aria-pressed": "false", "data-course": c.Value }, "Ride " + c.Name);
    b.addEventListener("click", () => {
      stop();
      const { Answer, Faults } = ask("ride", current().address, c.Value);
      for (const other of byId("courses").children) other.setAttribute("aria-pressed", String(other === b));
      byId("ridenote").textContent = Answer ? Answer.Note : Faults.join("; ");
      if (!Answer) return;
      motion = Answer;
      view = current().view;
      byId("moment").max = motion.Road.length - 1;
      byId("moment").value = 0;
      byId("played").hidden = false;
      byId("play").disabled = false;
      byId("ridelines").replaceChildren(...motion.Forks.map((f, i) => make("p", {}, make("strong", {}, `${i + 1}: ${f.Name} `), f.Lines.join("; ") + ".")));
      moment();
      if (!matchMedia("(prefers-reduced-motion: reduce)").matches) play();
    });
    return b;
  }));
  byId("moment").addEventListener("input", () => { stop(); moment(); });
  byId("play").addEventListener("click", () => (timer ? stop() : play()));
}

// forget drops a ride that no longer belongs to the settings.
export function forget() {
  if (!motion) return;
  stop();
  byId("ridenote").textContent = "The settings have changed: ride again.";
}

function play() {
  const slider = byId("moment");
  if (+slider.value >= +slider.max) slider.value = 0;
  const began = performance.now(), from = +slider.value;
  byId("play").textContent = "Stop";
  const frame = (now) => {
    slider.value = Math.min(+slider.max, from + (now - began) / 1000 / slower / motion.Step);
    moment();
    if (+slider.value >= +slider.max) stop();
    else timer = requestAnimationFrame(frame);
  };
  timer = requestAnimationFrame(frame);
}

function stop() {
  cancelAnimationFrame(timer);
  timer = undefined;
  byId("play").textContent = `Play at a fifth of the speed`;
}

// moment draws where everything is at the time of the slider.
function moment() {
  if (!motion) return;
  const i = +byId("moment").value, time = i * motion.Step;
  const clock = time.toFixed(2) + " s";
  byId("clock").textContent = clock;
  byId("moment").setAttribute("aria-valuetext", clock + ", " + motion.Forks.map((f) => `${f.Name} ${f.Travel[i].toFixed(0)} ${view.LengthUnit}`).join(", "));
  stage(i);
  draw(byId("trace"), {
    title: `Travel over time on ${motion.Name}. At ${clock}: ` + motion.Forks.map((f) => `${f.Name} ${f.Travel[i].toFixed(0)} ${view.LengthUnit}`).join(", "),
    x: "time, s", y: `Travel, ${view.LengthUnit}`, from: { x: 0, y: 0 }, height: 260, cursor: time,
    lines: motion.Forks.map((f, k) => ({ x: f.Travel.map((_, j) => j * motion.Step), y: f.Travel, class: names[k] })),
    dots: motion.Forks.map((f, k) => ({ x: time, y: f.Travel[i], class: names[k] })),
  });
}

// stage draws ground, wheel, fork and body of both, drawn over each other's ground, to one scale.
function stage(i) {
  const most = motion.Forks[0].Most, radius = most * 0.9, long = most * 3.2, lane = most * 4.2;
  const parts = [];
  let top = 0, bottom = 0;
  for (const f of motion.Forks) for (let j = 0; j < f.Body.length; j++) top = Math.max(top, f.Body[j]);
  for (const v of motion.Road) bottom = Math.min(bottom, v);
  const sky = top + long + most * 0.5, depth = -bottom + most * 0.3;
  const y = (v) => sky - v;
  motion.Forks.forEach((f, k) => {
    const x = lane * (k + 0.5), body = f.Body[i] + long, axle = body - long + f.Travel[i] + radius;
    let ground = "";
    for (let j = -60; j <= 60; j++) { // ground that passes under the wheel
      const at = Math.min(Math.max(i + j, 0), motion.Road.length - 1);
      ground += (j === -60 ? "M" : "L") + (x + j / 60 * lane * 0.48).toFixed(1) + " " + y(motion.Road[at]).toFixed(1);
    }
    parts.push(svg("path", { class: "ground", d: ground }),
      svg("circle", { class: "wheel", cx: x, cy: y(axle), r: radius * 0.92 }),
      svg("path", { class: "line " + names[k], d: `M${x} ${y(axle)}V${y(body)}` }),
      svg("path", { class: "axis", d: `M${x - most * 0.12} ${y(axle)}V${y(axle + long * 0.45)}M${x + most * 0.12} ${y(axle)}V${y(axle + long * 0.45)}` }),
      svg("rect", { class: "metal", x: x - most * 0.6, y: y(body) - most * 0.2, width: most * 1.2, height: most * 0.2 }),
      svg("text", { class: names[k], x, y: y(body) - most * 0.3, "text-anchor": "middle" }, `${k + 1}: ${f.Name} ${f.Travel[i].toFixed(0)} ${view.LengthUnit}`));
  });
  const element = byId("stage"), width = lane * motion.Forks.length;
  const title = `Both forks ${byId("clock").textContent} into ${motion.Name}.`;
  element.setAttribute("viewBox", `0 0 ${width} ${sky + depth}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(svg("title", {}, title), ...parts);
}
