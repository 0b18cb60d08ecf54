// The clock face as an input. It has no data of its own: it ticks the checkboxes of the form and
// draws what they say, so that a page without scripts holds the very same fields.

import { drawCursor, drawFace } from "./face-drawing.js";
import * as geometry from "./face-geometry.js";
import { watchKeys, watchPointer } from "./face-hands.js";
import { BANDS, holderOf, hoursOf, numberIn, part, rowsOf } from "./face-marks.js";
import { Strokes } from "./face-strokes.js";
import { addPaintButtons, buildSelect } from "./face-tools.js";
import { addRow } from "./rows.js";
import { say } from "./say.js";

const STEP = geometry.RING_MM;
const CONTROL = "select, input:not([type=hidden], [tabindex='-1'])";

export class ClockFace {
  constructor(form) {
    this.form = form;
    this.card = document.getElementById("face");
    this.svg = this.card.querySelector("svg[role=application]");
    this.back = this.card.querySelector("[data-face=back]");
    this.away = this.card.querySelector("[data-face=away]");
    this.strokes = new Strokes(form);
    this.cursor = { hour: 6, out: STEP };
    this.active = null; // what the strokes go to: the holder of twelve boxes
    this.wanted = ""; // chosen, but its row is only made by the first stroke
    this.made = null; // the row that comes with the stroke under way
  }

  start() {
    this.select = buildSelect(this.card);
    this.card.querySelector(".face-palette").hidden = false;
    this.watchSelect();
    this.watchButtons();
    this.fold();
    watchPointer(this);
    watchKeys(this);
    this.form.addEventListener("focusin", (event) => this.follow(event.target));
    this.form.addEventListener("input", () => this.draw());
    this.draw();
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
    press("away", () => {
      this.away.setAttribute("aria-pressed", String(!this.isAway()));
      this.say();
    });
    press("all", () => this.setAll(true));
    press("none", () => this.setAll(false));
    press("back", () => this.goBack());
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

  // On a phone the face waits until there is something to mark.
  fold() {
    const opener = this.card.querySelector("[data-face=open]");
    const unfold = () => this.unfold();
    opener.addEventListener("click", unfold);
    this.form.addEventListener("input", ({ target }) => target.name === "skin-state" && target.value === "findings" && unfold());
    if (!window.matchMedia("(max-width: 40rem)").matches || this.card.querySelector(":scope > .face-words li")) return;
    opener.hidden = false;
    this.card.classList.add("is-folded");
  }

  unfold() {
    this.card.classList.remove("is-folded");
    this.card.querySelector("[data-face=open]").hidden = true;
  }

  goTo(element) {
    this.unfold();
    element.focus();
    this.svg.scrollIntoView({ block: "center" });
  }

  goBack() {
    (this.active.closest("[data-row]") || this.active).querySelector(CONTROL).focus();
  }

  choose(value) {
    const [layer, kind] = value.split(":");
    const holder = BANDS[layer] ? holderOf(this.form, layer) : this.rowFor(layer, kind)?.querySelector("[data-layer]");
    if (holder) return this.activate(holder);
    this.want(value);
  }

  want(value) {
    this.active = null;
    this.wanted = value;
    this.select.value = value;
    this.back.hidden = true;
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
    this.offerBack(holder.closest(".part"));
    this.say();
  }

  // A way back to the part from which one came to the face.
  offerBack(from) {
    this.back.hidden = from === this.card.closest(".part");
    this.back.textContent = `Back to ${from.querySelector("h2").textContent}`;
  }

  // Ready to take a stroke: a chosen kind gets its row now.
  ready() {
    if (this.active && this.form.contains(this.active)) return true;
    if (!this.wanted) {
      this.active = null;
      this.now("First choose what to mark.");
      this.select.focus();
      return false;
    }
    const [layer, kind] = this.wanted.split(":");
    this.made = { answer: this.strokes.answerOf({ dataset: { layer } }) };
    const row = addRow(this.form, layer);
    if (kind) part(row, "kind").value = kind;
    this.activate(row.querySelector("[data-layer]"));
    return true;
  }

  // --- strokes ----------------------------------------------------------------------------
  begin() {
    if (!this.ready()) return false;
    this.strokes.begin(this.active, this.made);
    this.made = null;
    return true;
  }

  touch(hour, out, on) {
    this.cursor.hour = hour;
    this.cursor.out = out;
    this.strokes.mark(this.active, hour, out, on, this.isAway());
    this.draw();
    this.say();
  }

  end() {
    if (!this.strokes.end(this.active)) this.want(this.select.value);
    this.tell();
  }

  setAll(on) {
    if (!this.begin()) return;
    this.strokes.all(this.active, on);
    this.end();
  }

  undo() {
    const holder = this.strokes.undo();
    if (holder === undefined) return;
    if (holder) this.activate(holder);
    else this.want(this.select.value);
    this.tell();
  }

  // Damage mostly begins at the stoma: only where it does not does this button say so.
  isAway() {
    return this.away.getAttribute("aria-pressed") === "true";
  }

  isPainted(hour, out) {
    if (!this.active || !hoursOf(this.active).includes(hour)) return false;
    if (this.active.dataset.layer !== "finding") return true;
    const row = this.active.closest("[data-row]");
    const [from, to] = [numberIn(part(row, "inner_mm")) ?? 0, numberIn(part(row, "outer_mm"))];
    return out > from && out <= (to ?? from + geometry.UNSAID_MM);
  }

  // --- telling ----------------------------------------------------------------------------
  tell() {
    (this.active || this.form).dispatchEvent(new Event("input", { bubbles: true }));
  }

  draw() {
    drawFace(this.card, this.svg, this.form);
    drawCursor(this.svg, this.cursor);
  }

  now(words) {
    say(this.card.querySelector(".face-now"), words);
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
