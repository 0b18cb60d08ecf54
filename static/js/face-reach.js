// How far out a finding reaches: the span of its two boxes and of what was painted at its hours,
// from the stoma's edge or, for damage that begins away from it, from the ring that was touched.
// An hour that is taken off takes its rings along.

import { RING_MM } from "./face-geometry.js";
import { hoursOf, numberIn, part } from "./face-marks.js";

const boxesOf = (row) => [part(row, "inner_mm"), part(row, "outer_mm")];
const NOTHING = { typed: ["", ""], rings: [] };

export class Reach {
  constructor() {
    this.rows = new WeakMap();
  }

  // What is typed by hand is kept from then on.
  typedInto(box) {
    const row = box.closest("[data-row]");
    if (row && boxesOf(row).includes(box)) this.rows.delete(row);
  }

  of(row) {
    if (!this.rows.has(row)) this.rows.set(row, { typed: boxesOf(row).map((box) => box.value), rings: [] });
    return this.rows.get(row);
  }

  // Whether its first box says that it begins away from the stoma.
  isAway(row) {
    return numberIn({ value: this.of(row).typed[0] }) > 0;
  }

  add(row, hour, out, away) {
    const { typed, rings } = this.of(row);
    const ticked = hoursOf(row);
    const from = away || this.isAway(row) ? out - RING_MM : 0;
    this.set(row, { typed, rings: [...rings.filter(([h]) => ticked.includes(h)), [hour, out, from]] });
  }

  remove(row, hour) {
    const { typed, rings } = this.of(row);
    this.set(row, { typed, rings: rings.filter(([h]) => h !== hour) });
  }

  clear(row) {
    this.set(row, NOTHING);
  }

  set(row, reach) {
    this.rows.set(row, reach);
    const [inner, outer] = boxesOf(row);
    const [from, to] = reach.typed;
    const outs = reach.rings.map(([, out]) => out);
    const ins = reach.rings.map(([, , began]) => began);
    inner.value = ins.length ? Math.min(numberIn({ value: from }) ?? Infinity, ...ins) : from;
    outer.value = outs.length ? Math.max(numberIn({ value: to }) ?? 0, ...outs) : to;
  }
}
