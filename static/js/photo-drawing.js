// Draws the marks over the photo. Everything is as large on the screen at every zoom.

const SVG = "http://www.w3.org/2000/svg";
const DOT = 5;
const FINGER = 22; // half of 44 px

function element(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

// The same smooth edge that the sizes are worked out from (Catmull-Rom, as cubic curves).
function smoothPath(points) {
  if (points.length < 3) return points.length ? `M${points.map(([x, y]) => `${x} ${y}`).join("L")}` : "";
  const at = (i) => points[(i + points.length) % points.length];
  const parts = points.map((p, i) => {
    const [a, b, c, d] = [at(i - 1), p, at(i + 1), at(i + 2)];
    const first = [b[0] + (c[0] - a[0]) / 6, b[1] + (c[1] - a[1]) / 6];
    const second = [c[0] - (d[0] - b[0]) / 6, c[1] - (d[1] - b[1]) / 6];
    return `C${first.join(" ")} ${second.join(" ")} ${c[0]} ${c[1]}`;
  });
  return `M${points[0][0]} ${points[0][1]}${parts.join("")}Z`;
}

// Corners in the order in which they go round, whatever order they were marked in.
function round(points) {
  const middle = [0, 1].map((k) => points.reduce((sum, p) => sum + p[k], 0) / points.length);
  const angle = (p) => Math.atan2(p[1] - middle[1], p[0] - middle[0]);
  return [...points].sort((a, b) => angle(a) - angle(b));
}

// What is only proposed is dashed.
function twice(layer, path, name, wide, isOpen = false) {
  const dash = isOpen ? { "stroke-dasharray": `${7 * wide} ${5 * wide}` } : {};
  layer.append(element("path", { d: path, class: `measure-${name}`, "stroke-width": 4 * wide }));
  layer.append(element("path", { d: path, class: `measure-${name}-inner`, "stroke-width": 2 * wide, ...dash }));
}

function drawReference(layer, marks, kind, wide) {
  const points = marks.points[kind];
  if (points.length < 2) return;
  const line = kind === "card" && points.length > 2 ? round(points) : points;
  const path = `M${line.map(([x, y]) => `${x} ${y}`).join("L")}${kind === "card" ? "Z" : ""}`;
  twice(layer, path, "reference", wide, marks.isOpen(kind));
}

function drawHead(layer, marks, head, wide) {
  const edge = marks.points.outline;
  const middle = edge.length > 2
    ? [0, 1].map((k) => edge.reduce((sum, p) => sum + p[k], 0) / edge.length)
    : marks.size.map((v) => v / 2);
  const turn = (head * Math.PI) / 180;
  const way = [Math.sin(turn), -Math.cos(turn)];
  const reach = edge.length > 2 ? Math.max(...edge.map((p) => Math.hypot(p[0] - middle[0], p[1] - middle[1]))) : 0;
  const at = (far, aside = 0) => [middle[0] + way[0] * far - way[1] * aside, middle[1] + way[1] * far + way[0] * aside].join(" ");
  const tip = reach + 46 * wide;
  const path = `M${at(reach + 10 * wide)}L${at(tip)}M${at(tip - 10 * wide, 8 * wide)}L${at(tip)}L${at(tip - 10 * wide, -8 * wide)}`;
  twice(layer, path, "head", wide);
  const [x, y] = at(tip + 14 * wide).split(" ");
  const words = element("text", { x, y, class: "measure-head-words", "font-size": 15 * wide, "stroke-width": 3 * wide });
  words.textContent = "head, 12";
  layer.append(words);
}

function drawPoint(layer, [x, y], kind, index, isChosen, wide, isOpen) {
  if (isChosen) layer.append(element("circle", { cx: x, cy: y, r: 13 * wide, class: "measure-ring", "stroke-width": 3 * wide }));
  layer.append(element("circle", { cx: x, cy: y, r: DOT * wide, class: ["measure-dot", kind, isChosen && "chosen", isOpen && "unconfirmed"].filter(Boolean).join(" "), "stroke-width": 1.5 * wide }));
  const handle = element("circle", { cx: x, cy: y, r: FINGER * wide, class: "measure-handle" });
  handle.dataset.index = index;
  layer.append(handle);
}

export function draw(layer, marks, { kind, head, wide }) {
  layer.replaceChildren();
  drawReference(layer, marks, kind, wide);
  const edge = smoothPath(marks.points.outline);
  if (edge) twice(layer, edge, "edge", wide, marks.isOpen("outline"));
  drawHead(layer, marks, head, wide);
  const isReference = marks.group !== "outline";
  marks.here.forEach((point, i) => drawPoint(layer, point, isReference ? "reference" : "edge", i, i === marks.chosen, wide, marks.isOpen(marks.group)));
}
