// Kept entries in the page's own words: "Length: 29", "Finding, Kind: Ulcer".

const SILENT = /^(csrfmiddlewaretoken|version|page|turn|press|\w+-row)$|-about$/;
const ROW = /^(\w+)-([0-9a-f-]{36})-/;

const clean = (element) => {
  const copy = element.cloneNode(true);
  for (const aside of copy.querySelectorAll(".visually-hidden, input, .row-number")) aside.remove();
  return copy.textContent.trim().replace(/\s+/g, " ");
};

// A field's place on the page; for a row that this page may not hold, its pattern's place.
function find(form, name) {
  const there = form.querySelector(`[name="${CSS.escape(name)}"]`);
  const row = name.match(ROW);
  if (there || !row) return there;
  const pattern = form.querySelector(`template[data-row-template="${row[1]}"]`);
  return pattern?.content.querySelector(`[name="${CSS.escape(name.replace(row[2], "KEY"))}"]`);
}

function labelOf(control, name) {
  const field = control?.closest(".field");
  const label = field?.querySelector("legend, label:not(.choice)") || field?.querySelector("label") || control?.closest("label");
  const row = control?.closest("[data-row]")?.querySelector(":scope > legend");
  return [row, label].filter(Boolean).map(clean).join(", ") || name;
}

function valueOf(control, value) {
  if (!control) return value;
  if (control.options) return [...control.options].find((o) => o.value === value)?.text || value;
  if (!["checkbox", "radio"].includes(control.type)) return value;
  const box = [...control.closest(".field, .part-head").querySelectorAll("input")].find((b) => b.value === value);
  return box?.closest("label") ? clean(box.closest("label")) : value;
}

// Where the kept body differs from the page.
export function inWords(form, body) {
  const kept = new URLSearchParams(body);
  const now = new URLSearchParams(new FormData(form));
  const names = [...new Set(kept.keys())].filter((name) => !SILENT.test(name));
  return names
    .filter((name) => kept.getAll(name).join("\n") !== now.getAll(name).join("\n"))
    .map((name) => [find(form, name), name, kept.getAll(name).filter((v) => v !== "")])
    .filter(([, name, values]) => values.length || now.getAll(name).some((v) => v !== ""))
    .map(([control, name, values]) => `${labelOf(control, name)}: ${values.map((v) => valueOf(control, v)).join(", ") || "empty"}`);
}
