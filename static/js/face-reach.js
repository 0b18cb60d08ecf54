// How far out a finding reaches: the span of its two boxes and of the rings
// that were painted at its hours. An hour that is taken off takes its rings along.

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

  add(row, hour, out) {
    const { typed, rings } = this.of(row);
    const ticked = hoursOf(row);
    this.set(row, { typed, rings: [...rings.filter(([h]) => ticked.includes(h)), [hour, out]] });
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
    inner.value = outs.length ? Math.min(numberIn({ value: from }) ?? Infinity, ...outs.map((out) => out - RING_MM)) : from;
    outer.value = outs.length ? Math.max(numberIn({ value: to }) ?? 0, ...outs) : to;
  }
}
