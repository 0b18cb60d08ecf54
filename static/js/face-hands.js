// The two ways to paint: a pointer drawn over the face, and keys.

import { RING_MM, SKIN_MM } from "./face-geometry.js";

const MOVES = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, RING_MM], ArrowDown: [0, -RING_MM] };

export function watchPointer(face) {
  const { svg } = face;
  let on = null; // whether this stroke marks or takes off; null between strokes
  const touch = ({ dataset }) => face.touch(Number(dataset.hour), Number(dataset.out), on);
  svg.addEventListener("pointerdown", (event) => {
    const cell = event.target.closest("[data-hour]");
    if (!cell) return;
    event.preventDefault();
    if (!face.begin()) return;
    on = !face.isPainted(Number(cell.dataset.hour), Number(cell.dataset.out));
    touch(cell);
  });
  window.addEventListener("pointermove", (event) => {
    const cell = on !== null && document.elementFromPoint(event.clientX, event.clientY)?.closest("[data-hour]");
    if (cell && svg.contains(cell)) touch(cell);
  });
  const end = () => {
    if (on !== null) face.end();
    on = null;
  };
  for (const name of ["pointerup", "pointercancel"]) window.addEventListener(name, end);
}

export function watchKeys(face) {
  const { svg } = face;
  svg.addEventListener("keydown", (event) => {
    if (!pressed(face, event)) return;
    event.preventDefault();
    face.draw();
    face.say();
  });
  svg.addEventListener("focus", () => { face.draw(); face.say(); });
  svg.addEventListener("blur", () => face.draw());
}

// True where the key was one of the face's own.
function pressed(face, event) {
  const { cursor } = face;
  if (MOVES[event.key]) {
    const [turn, out] = MOVES[event.key];
    cursor.hour = ((cursor.hour - 1 + turn + 12) % 12) + 1;
    cursor.out = Math.min(SKIN_MM, Math.max(RING_MM, cursor.out + out));
  } else if (event.key === " " || event.key === "Enter") paintAt(face, cursor);
  else if (event.key === "Backspace" || (event.key === "z" && (event.ctrlKey || event.metaKey))) face.undo();
  else if (event.key === "Escape" && face.active) face.goBack();
  else return false;
  return true;
}

function paintAt(face, { hour, out }) {
  if (!face.begin()) return;
  face.touch(hour, out, !face.isPainted(hour, out));
  face.end();
}
