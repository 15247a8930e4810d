// Nine steps, each with a question that the library answers by computing.
import { byId, make } from "./dom.js";
import { ask } from "./library.js";

// show lists the lessons; look takes the page to the state and view of one.
export function show(lessons, look) {
  const done = new Set();
  const progress = () => { byId("progress").textContent = `${done.size} of ${lessons.length} answered right.`; };
  byId("steps").replaceChildren(...lessons.map((lesson, i) => {
    const verdict = make("p", { class: "verdict", role: "status", id: `verdict-${i}` });
    const question = make("form", { id: `lesson-${i}`, "aria-label": lesson.Title });
    if (lesson.Choices.length > 0) {
      question.append(make("fieldset", {}, make("legend", {}, lesson.Question), ...lesson.Choices.map((c) =>
        make("label", { class: "choice" }, make("input", { type: "radio", name: "answer", value: c.Value }), " " + c.Name))));
    } else {
      question.append(make("label", { for: `answer-${i}` }, lesson.Question + " "),
        make("p", {}, make("input", { type: "text", inputmode: "decimal", name: "answer", id: `answer-${i}`, autocomplete: "off" }), " " + lesson.Unit));
    }
    question.append(make("button", { type: "submit" }, "Check by computing"));
    question.addEventListener("submit", (event) => {
      event.preventDefault();
      const given = new FormData(question).get("answer") ?? "";
      const { Answer, Faults } = ask("answer", "", `${i}:${given}`);
      if (Answer?.Right) done.add(i);
      verdict.textContent = given === "" ? "Choose or write an answer first." : Answer ? Answer.Text : Faults.join("; ");
      progress();
    });
    const go = make("button", { type: "button" }, "Show it");
    go.addEventListener("click", () => look(lesson));
    return make("li", {}, make("h3", {}, lesson.Title), make("p", {}, lesson.Text), go, question, verdict);
  }));
  progress();
}
