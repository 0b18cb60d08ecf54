// The page that measures on a photo: form, marks, drawing, hands and figures put together.

import { draw } from "./photo-drawing.js";
import { PhotoFigures } from "./photo-figures.js";
import { PhotoHands } from "./photo-hands.js";
import { PhotoMarks } from "./photo-marks.js";
import { PhotoProposal } from "./photo-proposal.js";
import { say } from "./say.js";

const MOST_ZOOM = 8;

const form = document.getElementById("measure-form");
const svg = document.getElementById("measure-svg");
const view = document.getElementById("measure-view");
const layer = document.getElementById("measure-drawing");
const status = document.getElementById("measure-status");
const { marks: field, head } = form.elements;
const { width, height } = svg.viewBox.baseVal;

let zoomed = 1;
const figures = new PhotoFigures(form, document.getElementById("measure-figures"));
const marks = new PhotoMarks({ size: [width, height], stored: read(), changed });
const hands = new PhotoHands(svg, marks, { wide, zoom, show });
const proposal = new PhotoProposal(form, marks, { wide, show });

function read() {
  try {
    return JSON.parse(field.value);
  } catch {
    return {};
  }
}

// How many pixels of the picture one pixel of the screen covers.
function wide() {
  const shown = svg.getBoundingClientRect().width;
  return shown ? width / shown : 1;
}

const kind = () => form.elements.kind.value;
const raised = () => form.elements.raised.value;
const mode = () => form.elements.mode.value;

function redraw() {
  draw(layer, marks, { kind: kind() || "card", head: Number(head.value), wide: wide() });
  proposal.redraw(marks.group === "outline" || kind() === "card");
}

function changed() {
  field.value = JSON.stringify({ ...marks.points, proposed: marks.proposed });
  redraw();
  say(status, words());
  figures.askSoon(isReady());
}

function isReady() {
  const { card, line, outline } = marks.points;
  const { line_mm: length, raised_mm: height, rounded, askew } = form.elements;
  const isMarked = kind() === "card" ? card.length === 4 : line.length === 2 && length.value.trim() && askew.value;
  const isAnswered = rounded.value && raised() && (raised() !== "raised" || height.value.trim());
  const isOpen = marks.isOpen("outline") || (kind() === "card" && marks.isOpen("card"));
  return Boolean(isMarked && isAnswered) && !isOpen && outline.length >= 3;
}

function words() {
  if (!kind()) return "First say what lies beside the stoma (step 1).";
  const count = marks.here.length;
  const [name, names] = { card: ["Corner", "Corners"], line: ["End of the ruler", "Ends of the ruler"], outline: ["Edge point", "Edge points"] }[marks.group];
  const left = marks.group === "outline" ? Math.max(0, 12 - count) : marks.full - count;
  const next = { card: `${left} more corner${left === 1 ? "" : "s"} to mark`, line: `${left} more end${left === 1 ? "" : "s"} to mark`, outline: left ? `${left} more for a good measurement` : "enough; more make it finer" }[marks.group];
  if (marks.isOpen(marks.group)) return `${marks.chosen < 0 ? names : `${name} ${marks.chosen + 1} of ${count} chosen`}: proposed, not confirmed yet.`;
  const done = marks.group !== "outline" && !left ? "all marked; go on to the edge" : next;
  return marks.chosen < 0 || !count ? `${names}: ${done}.` : `${name} ${marks.chosen + 1} of ${count} chosen: ${done}.`;
}

// The chosen point into the middle of what is seen.
function show() {
  const point = marks.here[marks.chosen];
  if (!point || zoomed === 1) return;
  const factor = svg.getBoundingClientRect().width / width;
  view.scrollTo(point[0] * factor - view.clientWidth / 2, point[1] * factor - view.clientHeight / 2);
}

function zoom(by) {
  const before = zoomed;
  const middle = [(view.scrollLeft + view.clientWidth / 2) / before, (view.scrollTop + view.clientHeight / 2) / before];
  zoomed = Math.min(MOST_ZOOM, Math.max(1, zoomed * by));
  svg.style.width = `${zoomed * 100}%`;
  if (marks.here[marks.chosen]) show();
  else view.scrollTo(middle[0] * zoomed - view.clientWidth / 2, middle[1] * zoomed - view.clientHeight / 2);
  redraw();
}

// What is not asked of this kind of reference, or of this answer, is out of sight.
function showAsked() {
  const isLine = kind() === "line";
  document.getElementById("line-box").hidden = !isLine;
  document.getElementById("askew-box").hidden = !isLine;
  document.getElementById("raised-box").hidden = raised() !== "raised";
  for (const help of form.querySelectorAll("[data-for]")) help.hidden = help.dataset.for !== kind();
}

function turned() {
  showAsked();
  marks.turnTo(mode() === "outline" ? "outline" : kind() || "card");
  changed();
}

const TOOLS = {
  undo: () => { marks.undo(); form.querySelector(`[name=mode][value="${marks.group === "outline" ? "outline" : "reference"}"]`).checked = true; },
  remove: () => marks.remove(),
  clear: () => marks.clear(),
  smaller: () => zoom(0.5),
  larger: () => zoom(2),
  previous: () => hands.chooseNext(-1),
  next: () => hands.chooseNext(1),
  left: () => hands.nudge(-1, 0),
  right: () => hands.nudge(1, 0),
  up: () => hands.nudge(0, -1),
  down: () => hands.nudge(0, 1),
  propose: () => proposal.find(),
  confirm: () => proposal.confirm(),
  decline: () => proposal.decline(),
};

form.addEventListener("click", ({ target }) => TOOLS[target.dataset?.tool]?.());
form.addEventListener("change", ({ target }) => {
  if (["kind", "mode", "raised", "rounded", "askew"].includes(target.name)) turned();
});
for (const name of ["line_mm", "raised_mm"]) form.elements[name].addEventListener("input", changed);
head.addEventListener("change", () => {
  // Another way was chosen: it must be checked again.
  form.elements.head_sure.checked = false;
  changed();
});
// Enter in a box would press the first button, which fills in.
form.addEventListener("keydown", (event) => {
  if (event.key === "Enter" && event.target.matches("input:not([type=checkbox])")) event.preventDefault();
});
new ResizeObserver(redraw).observe(view);

document.body.classList.add("scripted");
hands.watch();
const hasErrors = form.querySelector(".field-error");
if (hasErrors) {
  // Said by the server about what was pressed: it stays until something changes.
  showAsked();
  marks.group = kind() || "card";
  redraw();
  say(status, words());
  hasErrors.scrollIntoView({ block: "center" });
} else turned();
