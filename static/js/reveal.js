// Details that only make sense after one answer stay out of the way until it is given.
// data-reveal="field=value,value", or "field>=number". Without scripts everything is shown.

function reached(element, form) {
  const [name, least] = element.dataset.reveal.split(">=");
  const typed = String(new FormData(form).get(name) ?? "").replace(",", ".");
  const answered = [...element.querySelectorAll("input:checked, select")].some((control) => control.value);
  return answered || Number.parseFloat(typed) >= Number(least);
}

function wanted(element, form) {
  if (element.dataset.reveal.includes(">=")) return reached(element, form);
  const [name, values] = element.dataset.reveal.split("=");
  const chosen = new FormData(form).getAll(name);
  return values.split(",").some((value) => chosen.includes(value));
}

export function reveal(form) {
  for (const element of form.querySelectorAll("[data-reveal]")) {
    const filled = element.querySelector(".has-error") !== null;
    element.hidden = !(filled || wanted(element, form));
  }
}
