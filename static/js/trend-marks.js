// The marks of one figure. Each kind of data is one stop for the Tab key; arrows go along it, and
// up and down to the nearest mark of the next kind. What a mark says stays until the pointer or
// the keys leave it, may itself be pointed at, and goes away with Escape.

import { Tip } from "./trend-tip.js";

const ALONG = { ArrowLeft: -1, ArrowRight: 1 };
const ACROSS = { ArrowUp: -1, ArrowDown: 1 };

function seriesOf(figure) {
  const series = new Map();
  for (const mark of figure.querySelectorAll(".trend-mark")) {
    // The browser would show the title a second time, beside ours.
    const title = mark.querySelector("title");
    mark.setAttribute("aria-label", title.textContent);
    title.remove();
    mark.tabIndex = -1;
    const { track } = mark.dataset;
    if (!series.has(track)) series.set(track, []);
    series.get(track).push(mark);
  }
  return [...series.values()];
}

function nearest(marks, mark) {
  const day = Date.parse(mark.dataset.day);
  const apart = (other) => Math.abs(Date.parse(other.dataset.day) - day);
  return marks.reduce((best, other) => (apart(other) < apart(best) ? other : best));
}

function goal(key, mark, series) {
  const own = series.findIndex((marks) => marks.includes(mark));
  const marks = series[own];
  if (key === "Home") return marks[0];
  if (key === "End") return marks.at(-1);
  if (key in ALONG) return marks[marks.indexOf(mark) + ALONG[key]] || mark;
  if (key in ACROSS) return nearest(series[own + ACROSS[key]] || marks, mark);
  return null;
}

export function watchMarks(figure) {
  const series = seriesOf(figure);
  // The latest value is what is asked for first.
  for (const marks of series) marks.at(-1).tabIndex = 0;
  const tip = new Tip(figure);
  const markOf = (event) => event.target.closest(".trend-mark");

  figure.addEventListener("keydown", (event) => {
    const mark = markOf(event);
    const next = mark && goal(event.key, mark, series);
    if (!next) return;
    event.preventDefault();
    next.focus();
    tip.show(next);
  });
  figure.addEventListener("focusin", (event) => {
    const mark = markOf(event);
    if (!mark) return;
    for (const other of series.find((marks) => marks.includes(mark))) other.tabIndex = -1;
    mark.tabIndex = 0;
    tip.show(mark);
  });
  figure.addEventListener("focusout", () => tip.hide());
  figure.addEventListener("click", (event) => markOf(event)?.focus());
  figure.addEventListener("pointerover", (event) => {
    const mark = markOf(event);
    if (mark) tip.show(mark);
    else if (tip.holds(event.target)) tip.stay();
  });
  figure.addEventListener("pointerout", (event) => {
    if (markOf(event) || tip.holds(event.target)) tip.hideSoon();
  });
}
