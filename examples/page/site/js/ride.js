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
  byId("moment").setAttribute("aria-valuetext", clock + ", " + motion.Forks.map((f) => `${f.Name} ${deep(f, i)}`).join(", "));
  stage(i);
  draw(byId("trace"), {
    title: `Travel over time on ${motion.Name}. At ${clock}: ` + motion.Forks.map((f) => `${f.Name} ${deep(f, i)}`).join(", "),
    x: "time, s", y: `Travel, ${view.LengthUnit}`, from: { x: 0, y: 0 }, height: 260, cursor: time,
    lines: motion.Forks.map((f, k) => ({ x: f.Travel.map((_, j) => j * motion.Step), y: f.Travel, class: names[k] })),
    dots: motion.Forks.map((f, k) => ({ x: time, y: f.Travel[i], class: names[k] })),
  });
}

// deep is the travel of a fork in words; against its top-out stop it has none.
const deep = (f, i) => `${Math.max(0, f.Travel[i]).toFixed(view.LengthUnit === "in" ? 1 : 0)} ${view.LengthUnit}`;

// stage draws ground, wheel, fork and body of both side by side, all to one scale, the forks leaning by their rake.
// The machine goes to the right; the wheel stands still in the picture.
function stage(i) {
  const element = byId("stage"), width = Math.max(260, element.parentElement.clientWidth), lane = width / motion.Forks.length;
  const most = motion.Forks[0].Most, radius = most * 0.9, long = most * 2.1; // of the fork at full extension, upright
  const high = Math.max(...motion.Forks.map((f) => f.Body.reduce((a, b) => Math.max(a, b)))) + radius + long;
  const lowest = motion.Road.reduce((a, b) => Math.min(a, b));
  const scale = Math.min(340 / (high - lowest), lane / (4.2 * most)), sky = 58 + high * scale;
  const y = (v) => sky - v * scale;
  const parts = [];
  motion.Forks.forEach((f, k) => {
    const sin = Math.sin(f.Rake), cos = Math.cos(f.Rake), x = lane * (k + 0.5) + long * 0.3 * sin * scale, end = lane * 0.46;
    const axle = y(f.Body[i] + f.Travel[i] * cos + radius), length = (long / cos - f.Travel[i]) * scale;
    // from the axle so far up along the fork, and so far before its axis
    const at = (up, before) => `${(x - up * sin + before * cos).toFixed(1)} ${(axle - up * cos - before * sin).toFixed(1)}`;
    const beam = (name, from, to, half) => svg("path", { class: name, d: `M${at(from, -half)}L${at(to, -half)}L${at(to, half)}L${at(from, half)}Z` });
    let ground = ""; // passes under the wheel
    for (let j = -Math.ceil((end + x - lane * (k + 0.5)) / (motion.Ahead * scale)); ; j++) {
      const to = x + j * motion.Ahead * scale, when = Math.min(Math.max(i + j, 0), motion.Road.length - 1);
      if (to > lane * (k + 0.5) + end) break;
      ground += (ground ? "L" : "M") + Math.max(lane * (k + 0.5) - end, to).toFixed(1) + " " + y(motion.Road[when]).toFixed(1);
    }
    const half = Math.max(4, most * 0.085 * scale), tube = long * 0.5 * scale, crown = at(length, 0).split(" ");
    parts.push(svg("path", { class: "ground", d: ground }),
      svg("circle", { class: "wheel", cx: x, cy: axle, r: Math.max(3, radius * scale - 3) }),
      ...(f.Inverted ? [beam("stanchion " + names[k], 0, length - tube * 0.5, half * 0.72), beam("slider", length - tube, length, half)]
        : [beam("stanchion " + names[k], tube * 0.5, length, half * 0.72), beam("slider", 0, tube, half)]),
      svg("circle", { class: "hub", cx: x, cy: axle, r: half }),
      beam("metal", length - 9, length, half * 2.6),
      svg("path", { class: "frame", d: `M${at(length + 4, 0)}L${+crown[0] - lane * 0.2} ${+crown[1] + 6}M${at(length + 4, 0)}l${-half} ${-half * 3}` }),
      svg("text", { class: names[k], x: lane * (k + 0.5), y: 18, "text-anchor": "middle" }, `${k + 1}: ${f.Name}`),
      svg("text", { x: lane * (k + 0.5), y: 35, "text-anchor": "middle" }, `${deep(f, i)} of travel`));
  });
  const title = `Both forks ${byId("clock").textContent} into ${motion.Name}, leaning by their rake: `
    + motion.Forks.map((f) => `${f.Name} ${deep(f, i)} of travel`).join(", ");
  element.setAttribute("viewBox", `0 0 ${width} ${(y(lowest) + 14).toFixed(0)}`);
  element.setAttribute("aria-label", title);
  element.replaceChildren(svg("title", {}, title), ...parts);
}
