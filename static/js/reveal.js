// Details that only make sense after one answer stay out of the way until it is given.
// data-reveal="field=value,value". Without scripts everything is shown.

function wanted(element, form) {
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
