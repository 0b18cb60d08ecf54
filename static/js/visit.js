// The visit page: each part of it begins here.

import { showAlarm } from "./alarm.js";
import { Autosave } from "./autosave.js";
import { watchBars } from "./bars.js";
import { watchIndex } from "./chart-index.js";
import { ClockFace } from "./clock-face.js";
import { showErrors, watchErrorLinks } from "./errors.js";
import { watchGroups } from "./groups.js";
import { showSaid, watchMore, watchOnePress } from "./one-press.js";
import { PlanPanel } from "./plan-panel.js";
import { putBack } from "./put-back.js";
import { reveal } from "./reveal.js";
import { watchRows } from "./rows.js";

const form = document.getElementById("chart-form");
const place = document.getElementById("plan");

const plan = new PlanPanel(place, { replaced, isDirty: () => autosave.dirty, hurry: () => autosave.save() });
const autosave = new Autosave(form, { plan, answered });

function answered(answer) {
  showErrors(form, answer.errors, answer.labels);
  showAlarm(place, answer);
  showSaid(form, answer.said);
  reveal(form);
  // Something was typed in the meantime: its own save brings the plan that includes it.
  if (!autosave.dirty) plan.show(answer.panel);
  plan.say(answer.changed);
}

function replaced() {
  reveal(form);
  autosave.settled();
}

watchGroups(form);
new ClockFace(form).start();
reveal(form);
form.addEventListener("input", () => reveal(form));
watchOnePress(form);
watchMore(form);
watchRows(form, () => autosave.changed());
watchErrorLinks();
watchIndex(document.querySelector(".chart-index"));
watchBars({ banner: document.querySelector(".patient-banner"), foot: document.getElementById("finish"), side: document.querySelector(".chart-side") });
autosave.settled();
autosave.watch();
putBack(autosave);

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

document.body.classList.add("scripted");
