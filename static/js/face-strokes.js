// What a stroke on the clock face does to the form, and how it is taken back. A row that a stroke
// leaves without hours, and in which nothing else was entered, goes by itself.

import { BANDS, boxesOf, hoursOf, rowsOf } from "./face-marks.js";
import { Reach } from "./face-reach.js";
import { ANSWER, choose } from "./rows.js";

// What painting itself fills in, besides the hours.
const PAINTED = /-(kind|inner_mm|outer_mm|remove)$/;

const questionOf = ({ dataset: { layer } }) => ANSWER[layer] || BANDS[layer]?.answer;
const noneOf = (holder) => holder.querySelector('input[value="none"]');
const isFilled = (control) => (["checkbox", "radio"].includes(control.type) ? control.checked && control.value !== "" : control.value !== "");

function isBlank(row) {
  const controls = [...row.querySelectorAll("input:not([type=hidden]), select, textarea")];
  return controls.every((control) => PAINTED.test(control.name) || !isFilled(control));
}

export class Strokes {
  constructor(form) {
    this.form = form;
    this.past = [];
    this.reach = new Reach();
    form.addEventListener("input", ({ target }) => this.reach.typedInto(target));
  }

  // The answer given to the question above, before a stroke gives it.
  answerOf(holder) {
    const question = questionOf(holder);
    return question && [question[0], this.form.querySelector(`input[name="${question[0]}"]:checked`)?.value ?? ""];
  }

  rowWithReach(holder) {
    return holder.dataset.layer === "finding" ? holder.closest("[data-row]") : null;
  }

  // ``made``: the row came with this stroke; ``answer`` is the one from before it came.
  begin(holder, made) {
    const boxes = [...boxesOf(holder), noneOf(holder)].filter(Boolean).map((box) => [box, box.checked]);
    const row = this.rowWithReach(holder);
    this.past.push({ holder, boxes, made: Boolean(made), answer: made?.answer ?? this.answerOf(holder), reach: row && this.reach.of(row) });
  }

  // ``away``: the damage begins at the ring that was touched, not at the stoma's edge.
  mark(holder, hour, out, on, away) {
    boxesOf(holder).find((box) => Number(box.value) === hour).checked = on;
    const row = this.rowWithReach(holder);
    if (on) this.answer(holder);
    if (!row) return;
    if (on) this.reach.add(row, hour, out, away);
    else if (hoursOf(holder).length) this.reach.remove(row, hour);
    else this.reach.clear(row);
  }

  // All round says nothing about how far out: that stays unchanged.
  all(holder, on) {
    for (const box of boxesOf(holder)) box.checked = on;
    const row = this.rowWithReach(holder);
    if (on) this.answer(holder);
    else if (row) this.reach.clear(row);
  }

  // A stroke answers the question above it too.
  answer(holder) {
    if (noneOf(holder)) noneOf(holder).checked = false;
    const question = questionOf(holder);
    if (question) choose(this.form, ...question);
  }

  // Whether the holder is still there after the stroke.
  end(holder) {
    const row = holder.closest("[data-row]");
    if (!row || hoursOf(holder).length || !isBlank(row)) return true;
    this.past.at(-1).gone = { row, parent: row.parentElement, next: row.nextElementSibling };
    row.remove();
    const first = this.past.find((stroke) => stroke.made && stroke.holder === holder);
    if (first && !rowsOf(this.form, holder.dataset.layer).length) choose(this.form, ...first.answer);
    return false;
  }

  // What the strokes go to afterwards; null where it went with its row, undefined where none is left.
  undo() {
    const before = this.past.pop();
    if (!before) return undefined;
    const { holder, gone } = before;
    if (gone) gone.parent.insertBefore(gone.row, gone.next?.parentElement === gone.parent ? gone.next : null);
    for (const [box, checked] of before.boxes) box.checked = checked;
    if (before.reach) this.reach.set(holder.closest("[data-row]"), before.reach);
    if (before.answer) choose(this.form, ...before.answer);
    if (!before.made) return holder;
    holder.closest("[data-row]").remove();
    return null;
  }
}
