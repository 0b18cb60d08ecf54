// The visit page: each part of it begins here.

import { Autosave } from "./autosave.js";
import { ClockFace } from "./clock-face.js";
import { showErrors, watchErrorLinks } from "./errors.js";
import { reveal } from "./reveal.js";
import { watchRows } from "./rows.js";

const form = document.getElementById("chart-form");
const plan = document.getElementById("plan");

// The plan is replaced only while nobody is writing in it.
let waiting = null;
function showPlan(html) {
  if (plan.contains(document.activeElement) && document.activeElement.matches("input[type=text], input[type=date], textarea")) {
    waiting = html;
    return;
  }
  waiting = null;
  const open = new Set([...plan.querySelectorAll("details[open]")].map(nameOf));
  const focused = document.activeElement?.id && plan.contains(document.activeElement) ? document.activeElement.id : null;
  plan.innerHTML = html;
  for (const details of plan.querySelectorAll("details")) {
    if (open.has(nameOf(details))) details.open = true;
  }
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
  reveal(form);
}
const nameOf = (details) => `${details.closest("article")?.id || ""} ${details.querySelector("summary").textContent}`;
plan.addEventListener("focusout", () => setTimeout(() => waiting !== null && showPlan(waiting), 0));

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
  input.after(button);
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
