// The page: one state, in the address; every view follows it.
import { byId, listFaults } from "./dom.js";
import { ask, start } from "./library.js";
import * as state from "./state.js";
import * as controls from "./controls.js";
import * as curves from "./curves.js";
import * as sag from "./sag.js";
import * as legs from "./legs.js";
import * as gas from "./gas.js";
import * as sure from "./sure.js";
import * as why from "./why.js";
import * as lessons from "./lessons.js";
import * as ride from "./ride.js";
import * as job from "./job.js";
import * as download from "./download.js";

const form = byId("controls"), travel = byId("travel");
const now = { address: "", view: undefined };
let later, frame;

// restart builds the settings anew: for other forks, other units or an address from outside. The faults of the
// address are shown once; what stands then is a sound state.
function restart(address) {
  const { Answer, Faults } = ask("controls", address);
  controls.show(Answer);
  listFaults(byId("faults"), Faults);
  redraw();
}

// redraw follows the settings. What takes longer than a frame comes once they rest.
function redraw() {
  frame = undefined;
  now.address = state.of(form, travel);
  const { Answer: view, Faults } = ask("view", now.address);
  controls.follow(ask("texts", now.address).Answer);
  if (view) {
    now.view = view;
    travel.max = Math.min(view.Most, travel.max);
    for (const part of [curves, sag, legs, gas]) part.show(view);
    if (now.faulty) listFaults(byId("faults"), []);
  } else {
    listFaults(byId("faults"), Faults);
    byId("faults").querySelector("strong").textContent = "This fork cannot be set so; the drawings show the last one that could:";
  }
  now.faulty = !view;
  clearTimeout(later);
  later = setTimeout(rest, 120);
}

function rest() {
  state.write(now.address);
  if (now.faulty) return;
  byId("live").textContent = curves.sentence(now.view);
  const known = ask("sure", now.address);
  if (known.Answer) sure.show(known.Answer, now.view);
  else byId("surelines").textContent = known.Faults.join("; ");
  const reasons = ask("why", now.address);
  if (reasons.Answer) why.show(reasons.Answer);
}

const soon = () => { frame ??= requestAnimationFrame(redraw); };

// changed follows a setting; other forks and units have other settings.
function changed(event) {
  const key = event.target.dataset.key;
  if (event.target.tagName !== "SELECT") return soon();
  ride.forget();
  const rest = state.of(form, travel);
  if (key === "units") return restart(rest);
  const own = ["pressure", "rate", "preload", "oil"], valve = /^(no|yes)$/.test(byId("set-set").value) ? [] : ["set"];
  if (key === "fork") return restart(state.without(rest, [...own, ...own.map((k) => k + "2"), ...valve, "rider", "travel"]));
  if (key === "second") return restart(state.without(rest, [...own.map((k) => k + "2"), ...valve]));
  soon();
}

// drag moves the travel with a pointer on a drawing.
function drag(element) {
  const move = (event) => {
    if (!(event.buttons & 1) || !element.valueAt) return;
    const box = element.getBoundingClientRect();
    travel.value = element.valueAt((event.clientX - box.left) * element.viewBox.baseVal.width / box.width);
    soon();
  };
  element.addEventListener("pointerdown", move);
  element.addEventListener("pointermove", move);
}

function jump(event) {
  const to = document.querySelector(event.currentTarget.getAttribute("href"));
  event.preventDefault();
  to.scrollIntoView();
  to.focus({ preventScroll: true });
}

function prepare() {
  form.addEventListener("input", (event) => { if (event.target.tagName !== "SELECT") { ride.forget(); changed(event); } });
  form.addEventListener("change", (event) => { if (event.target.tagName === "SELECT") changed(event); });
  form.addEventListener("submit", (event) => event.preventDefault());
  travel.addEventListener("input", soon);
  addEventListener("resize", soon);
  addEventListener("hashchange", () => restart(state.read()));
  byId("space").addEventListener("change", soon);
  for (const id of ["force", "rate", "energy", "band"]) drag(byId(id));
  for (const link of document.querySelectorAll("[data-jump]")) link.addEventListener("click", jump);
  document.querySelector(".skip").addEventListener("click", jump);
  byId("reset").addEventListener("click", () => restart(""));
  byId("csv").addEventListener("click", () => download.csv(now.view));
  byId("svg").addEventListener("click", () => download.drawing(byId("force")));
  byId("print").addEventListener("click", () => print());
  const settings = byId("settings"); // stand on paper, open or not
  let was = settings.open;
  addEventListener("beforeprint", () => { was = settings.open; settings.open = true; });
  addEventListener("afterprint", () => { settings.open = was; });
  byId("copy").addEventListener("click", async () => {
    state.write(now.address);
    try {
      await navigator.clipboard.writeText(location.href);
      byId("copied").textContent = "Copied.";
    } catch {
      byId("copied").textContent = "The link is in the address bar; this browser lets no page copy it.";
    }
  });
  why.prepare();
  lessons.show(ask("lessons", "").Answer, (lesson) => {
    restart(lesson.Address);
    byId(lesson.Look).scrollIntoView();
    byId(lesson.Look).focus({ preventScroll: true });
  });
  ride.prepare(ask("courses", "").Answer, () => now);
  job.prepare();
}

try {
  await start();
  byId("loading").remove();
  byId("page").hidden = byId("travelbar").hidden = false;
  byId("settings").open = innerWidth >= 960; // on a phone the drawings come first
  prepare();
  restart(state.read());
  document.documentElement.dataset.ready = Math.round(performance.now());
} catch (error) {
  byId("loading").textContent = "The page cannot start: " + error.message;
  throw error;
}
