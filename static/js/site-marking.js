// A mark is put on the drawing by mouse, touch or keyboard. The form's own boxes hold it: without
// scripts its numbers are typed.
import { say } from "./say.js";

const EDGE = 100;
const NAVEL = { x: 120, y: 130 };
const QUADRANTS = { "-1 1": "right upper", "1 1": "left upper", "-1 -1": "right lower", "1 -1": "left lower" };

for (const site of document.querySelectorAll(".marked-site")) wire(site, site.dataset.rank);

function wire(site, rank) {
  const svg = site.querySelector("[data-drawing]");
  const mark = site.querySelector("[data-mark]");
  const said = site.querySelector("[data-place]");
  const box = (name) => site.querySelector(`[name="${name}_${rank}"]`);
  svg.setAttribute("tabindex", "0");
  svg.setAttribute("role", "application");
  const label = svg.getAttribute("aria-label");
  svg.setAttribute("aria-label", `${label} Press a place, or move the mark with the arrow keys.`);

  const place = () => {
    const x = parseInt(box("place_x").value, 10);
    const y = parseInt(box("place_y").value, 10);
    return Number.isNaN(x) || Number.isNaN(y) ? null : { x, y };
  };

  function draw() {
    const at = place();
    mark.toggleAttribute("hidden", at === null);
    say(said, at === null ? "No mark on the drawing yet. Press its place." : words(at));
    if (at) mark.setAttribute("transform", `translate(${NAVEL.x + at.x} ${NAVEL.y - at.y})`);
  }

  function put(x, y) {
    const within = (value) => Math.max(-EDGE, Math.min(EDGE, Math.round(value)));
    box("place_x").value = within(x);
    box("place_y").value = within(y);
    const key = `${x < 0 ? -1 : 1} ${y < 0 ? -1 : 1}`;
    const near = Math.hypot(x, y) < 8;
    const value = near ? "umbilical" : QUADRANTS[key];
    const choice = site.querySelector(`[name="quadrant_${rank}"][value="${value}"]`);
    if (choice) choice.checked = true;
    draw();
  }

  svg.addEventListener("click", (event) => {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    put(at.x - NAVEL.x, NAVEL.y - at.y);
  });
  svg.addEventListener("keydown", (event) => {
    const moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] };
    const move = moves[event.key];
    if (!move) return;
    event.preventDefault();
    const step = event.shiftKey ? 10 : 2;
    const from = place() ?? { x: 0, y: 0 };
    put(from.x + move[0] * step, from.y + move[1] * step);
  });
  for (const name of ["place_x", "place_y"]) box(name).addEventListener("input", draw);
  draw();
}

function words({ x, y }) {
  const side = x < 0 ? "to the patient's right" : "to the patient's left";
  return `On the drawing: ${Math.abs(x)} ${side}, ${Math.abs(y)} ${y < 0 ? "down" : "up"} from the navel.`;
}
