// Details that only make sense after one answer stay out of the way until it is given
// (data-reveal); what an answer makes matter opens with it (data-opens). Without scripts
// everything is shown, and what is folded opens by hand.

import { isMet } from "./conditions.js";

const isAnswered = (element) => [...element.querySelectorAll("input:checked, select")].some((control) => control.value);

function wanted(element, data) {
  const byNumber = element.dataset.reveal.includes(">=");
  return isMet(element.dataset.reveal, data) || (byNumber && isAnswered(element));
}

export function reveal(form) {
  const data = new FormData(form);
  for (const element of form.querySelectorAll("[data-reveal]")) {
    const filled = element.querySelector(".has-error") !== null;
    element.hidden = !(filled || wanted(element, data));
  }
  for (const fold of form.querySelectorAll("[data-opens]")) {
    const met = isMet(fold.dataset.opens, data);
    // Only when the answer is given: a fold closed since stays closed.
    if (met && fold.dataset.met === "no") fold.open = true;
    fold.dataset.met = met ? "yes" : "no";
  }
}
