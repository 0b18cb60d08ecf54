// The clock face drawn from the form, and its marks listed in words beside it.

import * as geometry from "./face-geometry.js";
import { creases, patches } from "./face-marks.js";
import { say, sayList } from "./say.js";

const SVG = "http://www.w3.org/2000/svg";

function make(name, attributes, text) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (text !== undefined) element.textContent = text;
  return element;
}

const outline = { "fill-rule": "evenodd", stroke: "#222", "stroke-width": "1.4" };

function patch({ path, fill, unsure }) {
  return make("path", { d: path, fill: `url(#face-${fill})`, ...outline, ...(unsure ? { "stroke-dasharray": "5 4" } : {}) });
}

function line(hour) {
  const [x1, y1] = geometry.at(hour, geometry.STOMA_RADIUS);
  const [x2, y2] = geometry.at(hour, geometry.SKIN_RADIUS);
  return make("line", { x1, y1, x2, y2 });
}

function label({ spot: [x, y], number }) {
  const group = make("g", {});
  group.append(make("circle", { cx: x, cy: y, r: 11, fill: "#fff", stroke: "#111", "stroke-width": 1.4 }), make("text", { x, y, dy: 5.2, fill: "#111" }, number));
  return group;
}

function inWords({ number, words }) {
  const item = document.createElement("li");
  item.dataset.mark = number;
  item.textContent = words;
  return item;
}

// Parts of another colour, once both colour and hours are chosen.
function stomaParts(form) {
  return [...form.querySelectorAll('[data-rows="colourpart"] .row')].flatMap((row) => {
    const colour = row.querySelector('select[name$="-colour"]');
    const hours = [...row.querySelectorAll('[name$="-hours"]:checked')].map((box) => Number(box.value));
    const gone = row.querySelector('[name$="-remove"]').checked;
    return colour.value && hours.length && !gone ? [{ colour, hours }] : [];
  });
}

const placed = (hours) => (hours.length === 12 ? " all round" : ` at ${geometry.hoursWords(hours)}`);
const named = (select) => select.selectedOptions[0].text.toLowerCase();

// Its words and its place, from the form and the drawn outline.
function lumenOf(form, svg, across, along) {
  const place = form.querySelector('[name="stoma-lumen"]:checked');
  if (!place?.value) return { spot: null, words: [] };
  const hour = form.querySelector('[name="stoma-lumen_hour"]').value;
  const turned = Number(/-?[\d.]+/.exec(svg.querySelector(".face-stoma").getAttribute("transform"))[0]);
  const label = place.closest("label").textContent.trim().toLowerCase();
  return {
    spot: geometry.lumenSpot(place.value, Number(hour), across, along, turned),
    words: [`lumen ${label}${hour && place.value !== "centre" ? `, towards ${hour} o'clock` : ""}`],
  };
}

// The charted colours: a pattern each, and words.
function drawStoma(card, svg, form) {
  const colour = form.querySelector('[name="stoma-colour"]');
  const parts = stomaParts(form);
  const ellipse = svg.querySelector(".face-stoma ellipse");
  const [across, along] = [ellipse.rx.baseVal.value, ellipse.ry.baseVal.value];
  const lumen = lumenOf(form, svg, across, along);
  const whole = colour.value ? named(colour) : "colour not recorded";
  const words = `Stoma: ${[whole, ...parts.map((p) => named(p.colour) + placed(p.hours)), ...lumen.words].join("; ")}`;
  const reach = Math.min(across, along);
  svg.querySelector(".face-stoma-parts").replaceChildren(...parts.map((p) => make("path", {
    d: geometry.hoursPath(p.hours, geometry.LUMEN_RADIUS, reach),
    fill: `url(#face-stoma-${p.colour.value})`, "fill-rule": "evenodd",
  })));
  ellipse.setAttribute("fill", `url(#face-stoma-${colour.value || "unknown"})`);
  svg.querySelector(".face-lumen").replaceChildren(
    ...(lumen.spot ? [make("circle", { cx: lumen.spot[0], cy: lumen.spot[1], r: geometry.LUMEN_RADIUS })] : []),
  );
  say(card.querySelector(":scope > .face-stoma-words"), words);
  return words;
}

export function drawFace(card, svg, form) {
  const stoma = drawStoma(card, svg, form);
  const areas = patches(form);
  const lines = creases(form);
  const marks = [...areas, ...lines];
  svg.querySelector(".face-patches").replaceChildren(...areas.map(patch));
  svg.querySelector(".face-creases").replaceChildren(...lines.flatMap((l) => l.hours.map(line)));
  svg.querySelector(".face-numbers").replaceChildren(...marks.map(label));
  svg.querySelector("desc").textContent = [stoma, ...(marks.length ? marks.map((m) => m.words) : ["nothing is marked round it"])].join("; ");
  sayList(card.querySelector(":scope > .face-words"), marks.map(inWords));
}

export function drawCursor(svg, { hour, out }) {
  const cell = svg.querySelector(`[data-hour="${hour}"][data-out="${out}"]`);
  svg.querySelector(".face-cursor").setAttribute("d", document.activeElement === svg ? cell.getAttribute("d") : "");
}
