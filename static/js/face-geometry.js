// Where things lie on the drawn clock face: the same functions as
// clinic/visits/presenters/face_geometry.py; a browser test holds the two together.

export const STOMA_RADIUS = 58;
export const LUMEN_RADIUS = 8;
const PER_MM = 2.3;
export const SKIN_MM = 50;
export const SKIN_RADIUS = STOMA_RADIUS + SKIN_MM * PER_MM;
export const RING_MM = 10;
export const MELTED_RADII = [SKIN_RADIUS + 2, SKIN_RADIUS + 9];
export const LEAK_RADII = [SKIN_RADIUS + 9, SKIN_RADIUS + 16];
export const LABEL_TURN = 0.35;
export const UNSAID_MM = 10;

// Half a hundredth goes up, as in Python's twin: their own roundings differ there.
const round = (value) => Math.floor(value * 100 + 0.5) / 100 + 0;

// Where the lumen is drawn, or null where its place was not recorded.
export function lumenSpot(place, hour, across, along, turned) {
  if (place === "centre") return [0, 0];
  if (!place || !hour) return null;
  const angle = ((30 * hour - turned) * Math.PI) / 180;
  const edge = 1 / Math.hypot(Math.sin(angle) / across, Math.cos(angle) / along);
  return at(hour, place === "off_centre" ? edge / 2 : edge);
}

export function at(hour, radius) {
  const angle = (30 * hour * Math.PI) / 180;
  return [round(radius * Math.sin(angle)), round(-radius * Math.cos(angle))];
}

export const radiusOf = (mm) => STOMA_RADIUS + Math.min(mm, SKIN_MM) * PER_MM;

// Six significant digits, as Python's :g writes them.
const g = (value) => String(Number(value.toPrecision(6)));
const text = (point) => `${g(point[0])} ${g(point[1])}`;

function ringPath(inner, outer) {
  return [outer, inner]
    .map((r) => `M ${text(at(12, r))} A ${g(r)} ${g(r)} 0 1 1 ${text(at(6, r))} A ${g(r)} ${g(r)} 0 1 1 ${text(at(12, r))} Z`)
    .join(" ");
}

function runPath(first, last, inner, outer) {
  const span = ((last - first + 12) % 12) + 1;
  const begin = first - 0.5;
  const end = begin + span;
  const large = span > 6 ? 1 : 0;
  return (
    `M ${text(at(begin, inner))} L ${text(at(begin, outer))} ` +
    `A ${g(outer)} ${g(outer)} 0 ${large} 1 ${text(at(end, outer))} ` +
    `L ${text(at(end, inner))} A ${g(inner)} ${g(inner)} 0 ${large} 0 ${text(at(begin, inner))} Z`
  );
}

const after = (hour, steps = 1) => ((hour - 1 + steps + 12) % 12) + 1;

function arcs(hours) {
  const set = new Set(hours);
  if (set.size === 12) return [[12, 11]];
  const runs = [];
  for (let h = 1; h <= 12; h += 1) {
    if (!set.has(h) || set.has(after(h, -1))) continue;
    let end = h;
    while (set.has(after(end))) end = after(end);
    runs.push([h, end]);
  }
  return runs;
}

export function hoursPath(hours, inner, outer) {
  if (hours.length === 12) return ringPath(inner, outer);
  return arcs(hours).map(([first, last]) => runPath(first, last, inner, outer)).join(" ");
}

export function middleHour(hours) {
  if (hours.length === 12) return 12;
  const [first, last] = arcs(hours)[0];
  return first + ((last - first + 12) % 12) / 2;
}

export function hoursWords(hours) {
  if (!hours.length) return "none";
  if (hours.length === 12) return "all round";
  const runs = arcs(hours).map(([a, b]) => (a === b ? `${a}` : `${a} to ${b}`));
  const last = runs.pop();
  return `${runs.length ? `${runs.join(", ")} and ` : ""}${last} o'clock`;
}
