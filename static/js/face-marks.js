// What the form says, as marks on the clock face: the same paths and the same words as
// clinic/visits/presenters/clockface.py; a browser test holds the two together.

import * as geometry from "./face-geometry.js";

const RIM = geometry.SKIN_RADIUS;

export const BANDS = {
  separation: { letter: "S", words: "Mucocutaneous separation", radii: [geometry.STOMA_RADIUS, geometry.STOMA_RADIUS + 9], fill: "separation", answer: ["stoma-junction", "separated"] },
  bulge: { letter: "B", words: "Bulge", radii: [RIM - 42, RIM], fill: "bulge", answer: ["abdomen-bulge", "present"] },
  erosion: { letter: "M", words: "Barrier melted", radii: geometry.MELTED_RADII, fill: "erosion_band", turn: -geometry.LABEL_TURN },
  leak: { letter: "L", words: "Leak under the barrier", radii: geometry.LEAK_RADII, fill: "leak", turn: geometry.LABEL_TURN },
};
const SYMPTOMS = [["itch", "itch"], ["pain", "pain"], ["burning", "burning"], ["moist", "weeping"], ["product_outline", "sharp edge, shape of a product"], ["enlarging", "growing quickly"]];

export const boxesOf = (holder) => [...holder.querySelectorAll('input[type="checkbox"]')].filter((box) => /^\d+$/.test(box.value));
export const hoursOf = (holder) => boxesOf(holder).filter((box) => box.checked).map((box) => Number(box.value)).sort((a, b) => a - b);
export const part = (row, name) => row.querySelector(`[name$="-${name}"]`);

export function numberIn(input) {
  const text = (input?.value || "").trim().replace(",", ".");
  return text !== "" && Number.isFinite(Number(text)) ? Number(text) : null;
}

export function rowsOf(form, kind) {
  return [...form.querySelectorAll(`[data-rows="${kind}"] [data-row]`)].filter((row) => !part(row, "remove")?.checked);
}

export const holderOf = (form, layer) => form.querySelector(`[data-layer="${layer}"]`);

export const patches = (form) => [...findings(form), ...bands(form)];

function findings(form) {
  return rowsOf(form, "finding")
    .map((row, index) => [row, hoursOf(row.querySelector("[data-layer]")), String(index + 1)])
    .filter(([row, hours]) => hours.length && part(row, "kind").value)
    .map(([row, hours, number]) => finding(row, hours, number));
}

function finding(row, hours, number) {
  const kind = part(row, "kind");
  const from = numberIn(part(row, "inner_mm"));
  const to = numberIn(part(row, "outer_mm"));
  const radii = [geometry.radiusOf(from ?? 0), geometry.radiusOf(to ?? (from ?? 0) + geometry.UNSAID_MM)];
  const extras = SYMPTOMS.filter(([name]) => part(row, name)?.value === "yes").map(([, word]) => word);
  const reach = to === null ? "how far out not recorded" : `${from ?? "up"} to ${to} mm out`;
  return {
    fill: kind.value,
    path: geometry.hoursPath(hours, ...radii),
    number,
    spot: geometry.at(geometry.middleHour(hours), (radii[0] + radii[1]) / 2),
    words: `${kind.selectedOptions[0].text}, ${geometry.hoursWords(hours)}, ${reach}${extras.length ? `; ${extras.join(", ")}` : ""}`,
    unsure: to === null,
  };
}

// A detail counts only while the question above it is answered with it.
const counts = (form, { answer }) => !answer || form.querySelector(`input[name="${answer[0]}"][value="${answer[1]}"]`)?.checked;

function bands(form) {
  return Object.entries(BANDS)
    .map(([layer, band]) => [band, hoursOf(holderOf(form, layer))])
    .filter(([band, hours]) => hours.length && counts(form, band))
    .map(([band, hours]) => ({
      fill: band.fill,
      path: geometry.hoursPath(hours, ...band.radii),
      number: band.letter,
      spot: geometry.at(geometry.middleHour(hours) + (band.turn || 0), (band.radii[0] + band.radii[1]) / 2),
      words: `${band.words}, ${geometry.hoursWords(hours)}`,
    }));
}

export function creases(form) {
  return rowsOf(form, "crease")
    .map((row) => [hoursOf(row.querySelector("[data-layer]")), numberIn(part(row, "depth_mm"))])
    .filter(([hours]) => hours.length)
    .map(([hours, depth]) => ({
      hours,
      number: "C",
      spot: geometry.at(geometry.middleHour(hours) + geometry.LABEL_TURN, RIM - 10),
      words: `Crease, ${geometry.hoursWords(hours)}${depth === null ? "" : `, ${depth} mm deep`}`,
    }));
}
