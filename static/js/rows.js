// Rows that come several times. A row's id is made here, so a save sent twice is one row.

import { newId } from "./ids.js";

// What having rows says about the question above them.
export const ANSWER = { finding: ["skin-state", "findings"], crease: ["abdomen-creases", "present"] };

export function addRow(form, kind) {
  const template = form.querySelector(`template[data-row-template="${kind}"]`);
  const holder = form.querySelector(`[data-rows="${kind}"]`);
  const row = template.content.firstElementChild.cloneNode(true);
  const key = newId();
  for (const element of [row, ...row.querySelectorAll("*")]) {
    for (const attribute of [...element.attributes]) {
      if (attribute.value.includes("KEY")) {
        element.setAttribute(attribute.name, attribute.value.replaceAll("KEY", key));
      }
    }
  }
  holder.append(row);
  if (ANSWER[kind]) choose(form, ...ANSWER[kind]);
  return row;
}

export function choose(form, name, value) {
  const radio = form.querySelector(`input[name="${name}"][value="${value}"]`);
  if (radio && !radio.checked) {
    radio.checked = true;
    radio.dispatchEvent(new Event("input", { bubbles: true }));
  }
}

export function watchRows(form, changed) {
  form.addEventListener("click", (event) => {
    const button = event.target.closest("[data-add-row]");
    if (!button) return;
    event.preventDefault();
    const row = addRow(form, button.dataset.addRow);
    row.querySelector("select, input:not([type=hidden])").focus();
    changed();
  });
}
