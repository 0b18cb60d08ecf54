// A new row from its template: KEY becomes an id of its own, so that a row sent twice is one row.

import { newId } from "./ids.js";

export function freshRow(template) {
  const row = template.content.firstElementChild.cloneNode(true);
  const key = newId();
  for (const element of [row, ...row.querySelectorAll("*")]) {
    for (const attribute of [...element.attributes]) {
      if (attribute.value.includes("KEY")) {
        element.setAttribute(attribute.name, attribute.value.replaceAll("KEY", key));
      }
    }
  }
  return row;
}
