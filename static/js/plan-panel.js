// The plan grows beside the visit: replaced as it changes, without taking anything out of a hand
// that is busy in it, and without a press on a plan that no one has seen.

import { say } from "./say.js";

const TYPING = "input[type=text], input[type=date], textarea, select";
const CHANGED = "The plan changed with your last entries. Please look at it, then press again.";

const nameOf = (details) => `${details.closest("article")?.id || ""} ${details.querySelector("summary").textContent}`;

// Finds the place again after the markup is new: a control by its id, a summary by its words.
function placeOf(plan, element) {
  if (!element || !plan.contains(element)) return () => null;
  if (element.id) return () => document.getElementById(element.id);
  const details = element.closest("details");
  if (!details) return () => null;
  const name = nameOf(details);
  return () => [...plan.querySelectorAll("details")].find((other) => nameOf(other) === name)?.querySelector("summary");
}

function replace(plan, html) {
  const open = new Set([...plan.querySelectorAll("details[open]")].map(nameOf));
  const closed = new Set([...plan.querySelectorAll("details:not([open])")].map(nameOf));
  const place = placeOf(plan, document.activeElement);
  plan.innerHTML = html;
  window.htmx?.process(plan);
  for (const details of plan.querySelectorAll("details")) {
    if (open.has(nameOf(details))) details.open = true;
    if (closed.has(nameOf(details))) details.open = false;
  }
  place()?.focus({ preventScroll: true });
}

// The words shown there to be decided on.
const wordsOf = (plan) => [...plan.querySelectorAll('input[name^="decision-"][name$="-about"]')].map((i) => `${i.name}=${i.value}`).join(" ");

export class PlanPanel {
  constructor(plan, { replaced, isDirty, hurry }) {
    Object.assign(this, { plan, replaced, isDirty, hurry });
    this.notice = document.getElementById("plan-notice");
    this.changedLine = document.getElementById("plan-changed");
    this.outdated = false;
    this.waiting = null;
    this.pressing = false;
    this.look();
    this.watch();
  }

  watch() {
    const showWaiting = () => setTimeout(() => this.showWaiting(), 0);
    this.plan.addEventListener("focusout", showWaiting);
    // Entered in the plan since: what waits is older than what is there.
    this.plan.addEventListener("input", () => { this.waiting = null; });
    // A button that is replaced between pressing and letting go would never be pressed.
    this.plan.addEventListener("pointerdown", () => { this.pressing = true; });
    for (const name of ["pointerup", "pointercancel"]) {
      window.addEventListener(name, () => { this.pressing = false; showWaiting(); });
    }
    // A person who turns to the plan need not wait until typing has rested.
    for (const name of ["pointerenter", "focusin"]) this.plan.addEventListener(name, () => this.outdated && this.hurry());
    this.plan.addEventListener("click", (event) => this.refuse(event), true);
    for (const name of ["pointerdown", "keydown"]) window.addEventListener(name, () => this.look(), true);
  }

  // What was on the screen before the press is what was decided on.
  look() {
    this.before = wordsOf(this.plan);
  }

  seen() {
    return this.before;
  }

  now() {
    return wordsOf(this.plan);
  }

  // The plan on the page is not that of what is charted: until the new one is here, nothing in it
  // is decided. Not `disabled`, which would take the focus, and its entries out of what is posted.
  waits(outdated) {
    this.outdated = outdated;
    this.plan.setAttribute("aria-busy", String(outdated));
    for (const button of this.plan.querySelectorAll("button")) button.setAttribute("aria-disabled", String(outdated));
    for (const body of this.plan.querySelectorAll(".exception-body")) {
      body.inert = outdated && !body.contains(document.activeElement);
    }
  }

  refuse(event) {
    if (!this.outdated || !event.target.closest("button")) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.hurry();
  }

  // Read out once, and only where something in the plan changed.
  say(words) {
    if (words) say(this.changedLine, words);
  }

  isBusy() {
    const { activeElement } = document;
    return this.pressing || (this.plan.contains(activeElement) && activeElement.matches(TYPING));
  }

  show(html) {
    this.waiting = this.isBusy() ? html : null;
    if (this.waiting !== null) return;
    this.notice.replaceChildren();
    replace(this.plan, html);
    this.waits(this.outdated);
    this.replaced();
  }

  // With something unsaved, the next save brings the plan that includes it.
  showWaiting() {
    if (this.isDirty()) this.waiting = null;
    if (this.waiting !== null) this.show(this.waiting);
  }

  tellChanged() {
    const box = Object.assign(document.createElement("p"), { className: "notice warning", textContent: CHANGED });
    this.notice.replaceChildren(box);
    this.plan.scrollIntoView({ block: "start" });
    this.notice.scrollIntoView({ block: "nearest" });
    this.look();
  }
}
