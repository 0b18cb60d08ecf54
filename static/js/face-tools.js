// What can be marked on the clock face, to choose from; and the ways to it from each part.

const OTHERS = {
  "Stoma and abdomen": [["crease", "Crease, scar or dip"], ["bulge", "Bulge"], ["separation", "Mucocutaneous separation"]],
  "Used barrier": [["erosion", "Barrier melted"], ["leak", "Leak under the barrier"]],
};

export function buildSelect(card) {
  const kinds = document.querySelector('template[data-row-template="finding"]').content.querySelector('select[name$="-kind"]');
  const skin = [...kinds.options].filter((o) => o.value).map((o) => [`finding:${o.value}`, o.text]);
  const select = document.createElement("select");
  select.id = "face-kind";
  select.setAttribute("aria-label", "What to mark on the clock face");
  select.append(new Option("What to mark…", ""));
  for (const [label, options] of Object.entries({ Skin: skin, ...OTHERS })) {
    const group = document.createElement("optgroup");
    group.label = label;
    group.append(...options.map(([value, text]) => new Option(text, value)));
    select.append(group);
  }
  card.querySelector(".face-tools").prepend(select);
  return select;
}

function paintButton(pressed) {
  const button = document.createElement("button");
  button.type = "button";
  button.className = "button small quiet paint";
  button.textContent = "Mark on the clock face";
  button.addEventListener("click", pressed);
  return button;
}

// Bands lead straight to the face; for findings and creases the kind is chosen first.
export function addPaintButtons(form, { toBand, toRows }) {
  for (const holder of form.querySelectorAll("[data-layer]:not([data-row] *)")) {
    holder.querySelector(".choices").append(paintButton(() => toBand(holder)));
  }
  for (const adder of form.querySelectorAll('[data-add-row="finding"], [data-add-row="crease"]')) {
    adder.after(paintButton(() => toRows(adder.dataset.addRow)));
  }
}
