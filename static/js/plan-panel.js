// The plan grows beside the visit: replaced as it changes, without taking anything out of a hand
// that is busy in it.

const TYPING = "input[type=text], input[type=date], textarea";

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

export function watchPlan(plan, replaced) {
  let waiting = null;
  let pressing = false;
  const isBusy = () => pressing || (plan.contains(document.activeElement) && document.activeElement.matches(TYPING));
  function show(html) {
    waiting = isBusy() ? html : null;
    if (waiting !== null) return;
    replace(plan, html);
    replaced();
  }
  const showWaiting = () => setTimeout(() => waiting !== null && show(waiting), 0);
  plan.addEventListener("focusout", showWaiting);
  // A button that is replaced between pressing and letting go would never be pressed.
  plan.addEventListener("pointerdown", () => { pressing = true; });
  for (const name of ["pointerup", "pointercancel"]) {
    window.addEventListener(name, () => { pressing = false; showWaiting(); });
  }
  return show;
}
