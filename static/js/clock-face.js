// The clock face as an input. It has no data of its own: it ticks the checkboxes of the form and
// draws what they say, so that a page without scripts holds the very same fields.

import { drawCursor, drawFace } from "./face-drawing.js";
import * as geometry from "./face-geometry.js";
import { BANDS, boxesOf, holderOf, hoursOf, numberIn, part, rowsOf } from "./face-marks.js";
import { addPaintButtons, buildSelect } from "./face-tools.js";
import { addRow, choose } from "./rows.js";

const STEP = geometry.RING_MM;
const MOVES = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, STEP], ArrowDown: [0, -STEP] };

export class ClockFace {
  constructor(form) {
    this.form = form;
    this.card = document.getElementById("face");
    this.svg = this.card.querySelector("svg[role=application]");
    this.cursor = { hour: 6, out: STEP };
    this.past = [];
    this.active = null; // what the strokes go to: the holder of twelve boxes
    this.wanted = ""; // chosen, but its row is only made by the first stroke
  }

  start() {
    this.select = buildSelect(this.card);
    this.card.querySelector(".face-palette").hidden = false;
    this.watchSelect();
    this.watchButtons();
    this.watchPointer();
    this.watchKeys();
    this.form.addEventListener("focusin", (event) => this.follow(event.target));
    this.form.addEventListener("input", () => this.draw());
    this.narrow = window.matchMedia("(max-width: 62rem)");
    this.narrow.addEventListener("change", () => this.place());
    this.place();
    this.draw();
  }

  // On a narrow screen the face stands in the skin part, where fingers need it.
  place() {
    const side = document.querySelector(this.narrow.matches ? "#skin .part-body" : ".chart-side");
    side.prepend(this.card);
  }

  // --- what is being marked ---------------------------------------------------------------
  watchSelect() {
    this.select.addEventListener("input", (event) => {
      event.stopPropagation();
      this.choose(this.select.value);
    });
    this.select.addEventListener("change", (event) => event.stopPropagation());
    // Arrows go through the kinds; only Enter leads on, to the face.
    this.select.addEventListener("keydown", (event) => {
      if (event.key !== "Enter" || !this.select.value) return;
      event.preventDefault();
      this.svg.focus();
    });
  }

  watchButtons() {
    const press = (name, act) => this.card.querySelector(`[data-face=${name}]`).addEventListener("click", act);
    press("undo", () => this.undo());
    press("all", () => this.setAll(true));
    press("none", () => this.setAll(false));
    addPaintButtons(this.form, {
      toBand: (holder) => {
        this.activate(holder);
        this.goTo(this.svg);
      },
      toRows: (kind) => {
        this.choose(kind === "crease" ? "crease" : "");
        this.goTo(kind === "crease" ? this.svg : this.select);
      },
    });
  }

  goTo(element) {
    element.focus();
    this.svg.scrollIntoView({ block: "center" });
  }

  choose(value) {
    const [layer, kind] = value.split(":");
    const holder = BANDS[layer] ? holderOf(this.form, layer) : this.rowFor(layer, kind)?.querySelector("[data-layer]");
    if (holder) return this.activate(holder);
    this.active = null;
    this.wanted = value;
    this.select.value = value;
    this.say();
  }

  // The row of this kind that is there already, or one still empty.
  rowFor(layer, kind) {
    const rows = layer ? rowsOf(this.form, layer) : [];
    const isFree = (row) => hoursOf(row).length === 0 && (!kind || part(row, "kind").value === "");
    return rows.find((row) => kind && part(row, "kind").value === kind) || rows.find(isFree);
  }

  follow(target) {
    const holder = target.closest("[data-layer]") || target.closest("[data-row]")?.querySelector("[data-layer]");
    if (holder && holder !== this.active) this.activate(holder);
  }

  activate(holder) {
    this.active = holder;
    const row = holder.closest("[data-row]");
    const kind = row && part(row, "kind");
    for (const old of this.form.querySelectorAll(".painting")) old.classList.remove("painting");
    (row || holder).classList.add("painting");
    if (kind && !kind.value && this.wanted.startsWith("finding:")) kind.value = this.wanted.split(":")[1];
    this.wanted = "";
    this.select.value = kind ? kind.value && `finding:${kind.value}` : holder.dataset.layer;
    this.say();
  }

  // Ready to take a stroke: a chosen kind gets its row now.
  ready() {
    if (this.active && this.form.contains(this.active)) return true;
    if (this.wanted) {
      const [layer, kind] = this.wanted.split(":");
      const row = addRow(this.form, layer);
      if (kind) part(row, "kind").value = kind;
      this.fresh = row;
      this.activate(row.querySelector("[data-layer]"));
      return true;
    }
    this.active = null;
    this.now("First choose what to mark.");
    this.select.focus();
    return false;
  }

  // --- strokes ----------------------------------------------------------------------------
  remember() {
    const holder = this.active;
    const row = holder.closest("[data-row]");
    const boxes = [...boxesOf(holder), ...holder.querySelectorAll('input[value="none"]')].map((box) => [box, box.checked]);
    const reach = row ? ["inner_mm", "outer_mm"].map((name) => part(row, name)).filter(Boolean).map((input) => [input, input.value]) : [];
    this.past.push({ holder, boxes, reach, fresh: this.fresh });
    this.fresh = null;
  }

  undo() {
    const before = this.past.pop();
    if (!before) return;
    for (const [box, checked] of before.boxes) box.checked = checked;
    for (const [input, value] of before.reach) input.value = value;
    if (before.fresh) {
      this.wanted = this.select.value;
      this.active = null;
      before.fresh.remove();
      this.say();
    } else this.activate(before.holder);
    this.tell();
  }

  tell() {
    (this.active || this.form).dispatchEvent(new Event("input", { bubbles: true }));
  }

  paint(hour, out, on) {
    boxesOf(this.active).find((box) => Number(box.value) === hour).checked = on;
    if (!on) return;
    this.answer();
    if (this.active.dataset.layer === "finding") this.reach(out);
  }

  // A stroke answers the question above it too.
  answer() {
    const none = this.active.querySelector('input[value="none"]');
    if (none) none.checked = false;
    const { layer } = this.active.dataset;
    if (BANDS[layer]?.answer) choose(this.form, ...BANDS[layer].answer);
    if (layer === "finding") choose(this.form, "skin-state", "findings");
    if (layer === "crease") choose(this.form, "abdomen-creases", "present");
  }

  reach(out) {
    const row = this.active.closest("[data-row]");
    const [inner, outer] = [part(row, "inner_mm"), part(row, "outer_mm")];
    const [from, to] = [numberIn(inner), numberIn(outer)];
    inner.value = from === null ? out - STEP : Math.min(from, out - STEP);
    outer.value = to === null ? out : Math.max(to, out);
  }

  isPainted(hour, out) {
    if (!this.active || !hoursOf(this.active).includes(hour)) return false;
    if (this.active.dataset.layer !== "finding") return true;
    const to = numberIn(part(this.active.closest("[data-row]"), "outer_mm"));
    return to === null || out <= to;
  }

  setAll(on) {
    if (!this.ready()) return;
    this.remember();
    for (const box of boxesOf(this.active)) box.checked = on;
    if (on) {
      this.answer();
      const row = this.active.closest("[data-row]");
      if (this.active.dataset.layer === "finding" && numberIn(part(row, "outer_mm")) === null) this.reach(STEP);
    }
    this.tell();
  }

  watchPointer() {
    let stroke = null;
    const touch = ({ dataset }) => {
      this.cursor = { hour: Number(dataset.hour), out: Number(dataset.out) };
      this.paint(this.cursor.hour, this.cursor.out, stroke.on);
      this.draw();
      this.say();
    };
    this.svg.addEventListener("pointerdown", (event) => {
      const cell = event.target.closest("[data-hour]");
      if (!cell) return;
      event.preventDefault();
      if (!this.ready()) return;
      this.remember();
      stroke = { on: !this.isPainted(Number(cell.dataset.hour), Number(cell.dataset.out)) };
      touch(cell);
    });
    window.addEventListener("pointermove", (event) => {
      const cell = stroke && document.elementFromPoint(event.clientX, event.clientY)?.closest("[data-hour]");
      if (cell && this.svg.contains(cell)) touch(cell);
    });
    const end = () => {
      if (stroke) this.tell();
      stroke = null;
    };
    for (const name of ["pointerup", "pointercancel"]) window.addEventListener(name, end);
  }

  watchKeys() {
    this.svg.addEventListener("keydown", (event) => {
      if (!this.pressed(event)) return;
      event.preventDefault();
      this.draw();
      this.say();
    });
    this.svg.addEventListener("focus", () => { this.draw(); this.say(); });
    this.svg.addEventListener("blur", () => this.draw());
  }

  // True where the key was one of the face's own.
  pressed(event) {
    if (MOVES[event.key]) {
      const [turn, out] = MOVES[event.key];
      this.cursor.hour = ((this.cursor.hour - 1 + turn + 12) % 12) + 1;
      this.cursor.out = Math.min(geometry.SKIN_MM, Math.max(STEP, this.cursor.out + out));
    } else if (event.key === " " || event.key === "Enter") this.paintAtCursor();
    else if (event.key === "Backspace" || (event.key === "z" && (event.ctrlKey || event.metaKey))) this.undo();
    else if (event.key === "Escape" && this.active) (this.active.closest("[data-row]") || this.active).querySelector("select, input:not([type=hidden], [tabindex='-1'])").focus();
    else return false;
    return true;
  }

  paintAtCursor() {
    if (!this.ready()) return;
    const { hour, out } = this.cursor;
    this.remember();
    this.paint(hour, out, !this.isPainted(hour, out));
    this.tell();
  }

  // --- telling ----------------------------------------------------------------------------
  draw() {
    drawFace(this.card, this.svg, this.form);
    drawCursor(this.svg, this.cursor);
  }

  now(words) {
    this.card.querySelector(".face-now").textContent = words;
  }

  say() {
    const { hour, out } = this.cursor;
    const chosen = this.active || this.wanted;
    const what = this.select.value ? this.select.selectedOptions[0].text : "this finding";
    const where = `${hour} o'clock, ${out - STEP} to ${out} mm out, ${this.isPainted(hour, out) ? "marked" : "not marked"}`;
    this.svg.setAttribute("aria-valuetext", where);
    if (!chosen) this.now("Choose what to mark, then paint the hours.");
    else if (document.activeElement === this.svg) this.now(`Marking: ${what}. At ${where}.`);
    else this.now(`Marking: ${what}.`);
  }
}
