// Answers of one press: a quick answer fills in what it says, and only where nothing is charted; a
// barrier that was on is closed. Without scripts the server does the same with the same buttons.

import { addRow } from "./rows.js";
import { say } from "./say.js";

const boxesOf = (form, name) => [...form.querySelectorAll(`[name="${CSS.escape(name)}"]`)];
const isFilled = (form, names) => names.some((name) => new FormData(form).getAll(name).some(Boolean));

function fill(form, name, value) {
  for (const box of boxesOf(form, name)) {
    if (["radio", "checkbox"].includes(box.type)) box.checked = box.value === value;
    else box.value = value;
  }
}

function offer(form) {
  for (const button of form.querySelectorAll("[data-quick]")) {
    button.hidden = isFilled(form, Object.keys(JSON.parse(button.dataset.values)));
  }
  const open = form.querySelector("[data-still-on]");
  if (open) open.hidden = [...form.querySelectorAll('[name^="wear-"][name$="-on"]')].some((box) => box.value === open.dataset.stillOn);
}

function answer(form, button) {
  for (const [name, value] of Object.entries(JSON.parse(button.dataset.values))) fill(form, name, value);
  const question = button.closest("[data-question]");
  question.querySelector("[data-said]").textContent = button.textContent;
  question.querySelector("summary").focus();
}

function cameOff(form, button) {
  const { stillOn, today } = button.closest("[data-still-on]").dataset;
  const row = addRow(form, "wear");
  const set = (part, value) => { row.querySelector(`[name$="-${part}"]`).value = value; };
  set("on", stillOn);
  if (button.dataset.cameOff) {
    set("off", today);
    set("reason", button.dataset.cameOff);
  }
  row.querySelector('[name$="-off"]').focus();
}

export function watchOnePress(form) {
  form.addEventListener("click", (event) => {
    const button = event.target.closest("[data-quick], [data-came-off]");
    if (!button) return;
    event.preventDefault();
    if (button.dataset.quick === undefined) cameOff(form, button);
    else answer(form, button);
    form.dispatchEvent(new Event("input", { bubbles: true }));
  });
  form.addEventListener("input", () => offer(form));
  offer(form);
}

// What is charted behind each closed line, in the server's words.
export function showSaid(form, said) {
  for (const [key, words] of Object.entries(said)) {
    const place = form.querySelector(`[data-question="${key}"] [data-said]`);
    if (place) say(place, words);
  }
}

// "More" opens every question of a section, and closes them again.
export function watchMore(form) {
  form.addEventListener("click", ({ target }) => {
    const button = target.closest("[data-open-all]");
    if (!button) return;
    const section = document.getElementById(button.dataset.openAll);
    const folds = [...section.querySelectorAll(".question > .fold")];
    const open = folds.some((fold) => !fold.open);
    for (const fold of folds) fold.open = open;
    section.querySelector(".extras")?.classList.toggle("all", open);
    button.setAttribute("aria-expanded", String(open));
    button.firstChild.textContent = open ? "Less" : "More";
  });
}
