// Rows that come several times.

import { freshRow } from "./fresh-row.js";

// What having rows says about the question above them.
export const ANSWER = { finding: ["skin-state", "findings"], crease: ["abdomen-creases", "present"] };

export function addRow(form, kind) {
  const template = form.querySelector(`template[data-row-template="${kind}"]`);
  const holder = form.querySelector(`[data-rows="${kind}"]`);
  const row = freshRow(template);
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
