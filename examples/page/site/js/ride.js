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

// stage draws ground, wheel, fork and body of both side by side, all to one scale.
function stage(i) {
  const element = byId("stage"), width = Math.max(260, element.parentElement.clientWidth), lane = width / motion.Forks.length;
  const most = motion.Forks[0].Most, radius = most * 0.9, long = most * 2; // of the fork, without its travel
  const high = Math.max(...motion.Forks.map((f) => f.Body.reduce((a, b) => Math.max(a, b)))) + radius + long;
  const deep = motion.Road.reduce((a, b) => Math.min(a, b));
  const scale = Math.min(320 / (high - deep), lane / (4 * most)), sky = 44 + high * scale;
  const y = (v) => sky - v * scale;
  const parts = [];
  motion.Forks.forEach((f, k) => {
    const x = lane * (k + 0.5), axle = y(f.Body[i] + f.Travel[i] + radius), body = y(f.Body[i] + radius + long), end = lane * 0.46;
    let ground = ""; // passes under the wheel
    for (let j = -Math.ceil(end / (motion.Ahead * scale)); j * motion.Ahead * scale <= end; j++) {
      const at = Math.min(Math.max(i + j, 0), motion.Road.length - 1);
      ground += (ground ? "L" : "M") + (x + Math.max(-end, j * motion.Ahead * scale)).toFixed(1) + " " + y(motion.Road[at]).toFixed(1);
    }
    const slider = (body - axle) * 0.5, half = Math.max(4, most * 0.09 * scale);
    parts.push(svg("path", { class: "ground", d: ground }),
      svg("circle", { class: "wheel", cx: x, cy: axle, r: Math.max(3, radius * scale - 3) }),
      svg("path", { class: "line " + names[k], d: `M${x} ${axle + slider * 0.3}V${body}` }),
      svg("path", { class: "wall", d: `M${x - half} ${axle + slider}V${axle}H${x + half}V${axle + slider}` }),
      svg("rect", { class: "metal", x: x - most * 0.6 * scale, y: body - 10, width: most * 1.2 * scale, height: 10 }),
      svg("text", { class: names[k], x, y: 18, "text-anchor": "middle" }, `${k + 1}: ${f.Name}`),
      svg("text", { x, y: 35, "text-anchor": "middle" }, `${f.Travel[i].toFixed(view.LengthUnit === "in" ? 1 : 0)} ${view.LengthUnit} of travel`));
  });
  const title = `Both forks ${byId("clock").textContent} into ${motion.Name}: `
    + motion.Forks.map((f) => `${f.Name} ${f.Travel[i].toFixed(0)} ${view.LengthUnit} of travel`).join(", ");
  element.setAttribute("viewBox", `0 0 ${width} ${(y(deep) + 14).toFixed(0)}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(svg("title", {}, title), ...parts);
}
