// The visit page: each part of it begins here.

import { Autosave } from "./autosave.js";
import { ClockFace } from "./clock-face.js";
import { showErrors, watchErrorLinks } from "./errors.js";
import { watchGroups } from "./groups.js";
import { watchPlan } from "./plan-panel.js";
import { reveal } from "./reveal.js";
import { watchRows } from "./rows.js";

const form = document.getElementById("chart-form");
const plan = document.getElementById("plan");

const showPlan = watchPlan(plan, () => reveal(form));

const autosave = new Autosave(form, {
  answered(answer) {
    showErrors(form, answer.errors, answer.labels);
    reveal(form);
    // Something was typed meanwhile: its own save brings the plan that includes it.
    if (autosave.dirty) return;
    showPlan(answer.panel);
    autosave.sent = autosave.body();
  },
});

new ClockFace(form).start();
reveal(form);
form.addEventListener("input", () => reveal(form));
watchRows(form, () => autosave.changed());
watchErrorLinks();
watchGroups(form);
autosave.sent = autosave.body();
autosave.watch();
autosave.sendKept();

// A minus sign is missing from many number pads.
for (const input of form.querySelectorAll('[name="stoma-protrusion_mm"]')) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button small";
  button.textContent = "Below skin (−)";
  button.addEventListener("click", () => {
    input.value = input.value.startsWith("-") ? input.value.slice(1) : `-${input.value}`;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.focus();
  });
  (input.parentElement.querySelector(".unit") || input).after(button);
}

// The part being charted is marked in the index.
const links = new Map([...document.querySelectorAll(".chart-index a")].map((a) => [a.hash.slice(1), a]));
const seen = new IntersectionObserver(
  (entries) => {
    for (const entry of entries) {
      if (!entry.isIntersecting) continue;
      for (const link of links.values()) link.removeAttribute("aria-current");
      links.get(entry.target.id)?.setAttribute("aria-current", "true");
    }
  },
  { rootMargin: "-25% 0px -65% 0px" },
);
for (const part of document.querySelectorAll(".part, #plan")) seen.observe(part);
document.body.classList.add("scripted");
