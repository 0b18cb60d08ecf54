// The clock face as an input. It has no data of its own: it ticks the checkboxes of the form and
// draws what they say, so that a page without scripts holds the very same fields.

import * as geometry from "./face-geometry.js";
import { addRow, choose } from "./rows.js";

const SVG = "http://www.w3.org/2000/svg";
const BANDS = {
  separation: { letter: "S", words: "Skin join separated", radii: [geometry.STOMA_RADIUS, geometry.STOMA_RADIUS + 9], fill: "separation", answer: ["stoma-junction", "separated"] },
  bulge: { letter: "B", words: "Bulge", radii: [geometry.SKIN_RADIUS - 42, geometry.SKIN_RADIUS], fill: "bulge", answer: ["abdomen-bulge", "present"] },
  erosion: { letter: "M", words: "Barrier melted", radii: geometry.BARRIER_RADII, fill: "erosion_band" },
  leak: { letter: "L", words: "Leak under the barrier", radii: geometry.BARRIER_RADII, fill: "leak" },
};
const SYMPTOMS = [["itch", "itch"], ["pain", "pain"], ["burning", "burning"], ["moist", "weeping"], ["product_outline", "edge copies a product"], ["enlarging", "growing quickly"]];

const boxesOf = (holder) => [...holder.querySelectorAll('input[type="checkbox"]')].filter((box) => /^\d+$/.test(box.value));
const hoursOf = (holder) => boxesOf(holder).filter((box) => box.checked).map((box) => Number(box.value)).sort((a, b) => a - b);
const numberIn = (input) => (input && input.value.trim() !== "" && Number.isFinite(Number(input.value.replace(",", "."))) ? Number(input.value.replace(",", ".")) : null);

export class ClockFace {
  constructor(form) {
    this.form = form;
    this.card = document.getElementById("face");
    this.svg = this.card.querySelector("svg[role=application]");
    this.cursor = { hour: 6, out: geometry.RING_MM };
    this.past = [];
    this.active = null;
  }

  start() {
    this.buildTools();
    for (const hidden of this.card.querySelectorAll(".face-palette")) hidden.hidden = false;
    this.watchPointer();
    this.watchKeys();
    this.card.querySelector("[data-face=undo]").addEventListener("click", () => this.undo());
    this.card.querySelector("[data-face=all]").addEventListener("click", () => this.setAll(true));
    this.card.querySelector("[data-face=none]").addEventListener("click", () => this.setAll(false));
    this.form.addEventListener("focusin", (event) => this.follow(event.target));
    this.form.addEventListener("input", () => this.draw());
    this.addPaintButtons();
    this.narrow = window.matchMedia("(max-width: 62rem)");
    this.narrow.addEventListener("change", () => this.place());
    this.place();
    this.draw();
  }

  // On a narrow screen the face stands in the skin part, where fingers need it.
  place() {
    const skin = document.querySelector("#skin .part-body");
    const side = document.querySelector(".chart-side");
    if (this.narrow.matches) skin.prepend(this.card);
    else side.prepend(this.card);
  }

  // --- what can be marked -----------------------------------------------------------------
  buildTools() {
    const kinds = document.querySelector('template[data-row-template="finding"]').content.querySelector('select[name$="-kind"]');
    const select = document.createElement("select");
    select.id = "face-kind";
    select.setAttribute("aria-label", "What to mark on the clock face");
    const group = (label, options) => {
      const element = document.createElement("optgroup");
      element.label = label;
      for (const [value, text] of options) element.append(new Option(text, value));
      select.append(element);
    };
    select.append(new Option("What to mark…", ""));
    group("Skin", [...kinds.options].filter((o) => o.value).map((o) => [`finding:${o.value}`, o.text]));
    group("Stoma and abdomen", [["crease", "Crease, scar or dip"], ["bulge", "Bulge"], ["separation", "Skin join separated"]]);
    group("Used barrier", [["erosion", "Barrier melted"], ["leak", "Leak under the barrier"]]);
    select.addEventListener("input", (event) => {
      event.stopPropagation();
      if (select.value) this.choose(select.value);
    });
    select.addEventListener("change", (event) => event.stopPropagation());
    this.select = select;
    this.card.querySelector(".face-tools").prepend(select);
  }

  addPaintButtons() {
    for (const holder of this.form.querySelectorAll("[data-layer]:not([data-layer=finding], [data-layer=crease])")) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "button small quiet paint";
      button.textContent = "Mark on the clock face";
      button.addEventListener("click", () => { this.activate(holder); this.svg.focus(); this.svg.scrollIntoView({ block: "center" }); });
      holder.append(button);
    }
  }

  choose(value) {
    const [layer, kind] = value.split(":");
    if (BANDS[layer]) this.activate(this.form.querySelector(`[data-layer="${layer}"]`));
    else this.activate(this.rowFor(layer, kind));
    this.svg.focus({ preventScroll: true });
  }

  rowFor(layer, kind) {
    const rows = [...this.form.querySelectorAll(`[data-rows="${layer}"] [data-row]`)].filter((row) => !this.isGone(row));
    const same = rows.find((row) => layer === "finding" && row.querySelector('[name$="-kind"]').value === kind);
    const empty = rows.find((row) => hoursOf(row).length === 0 && (layer === "crease" || !row.querySelector('[name$="-kind"]').value));
    const row = same || empty || addRow(this.form, layer);
    if (kind) row.querySelector('[name$="-kind"]').value = kind;
    return row.querySelector("[data-layer]");
  }

  isGone(row) {
    const remove = row.querySelector('[name$="-remove"]');
    return Boolean(remove && remove.checked);
  }

  follow(target) {
    const row = target.closest("[data-row]");
    const holder = target.closest("[data-layer]") || (row && row.querySelector("[data-layer]"));
    if (holder && holder !== this.active) this.activate(holder);
  }

  activate(holder) {
    this.active = holder;
    for (const old of this.form.querySelectorAll(".painting")) old.classList.remove("painting");
    (holder.closest("[data-row]") || holder).classList.add("painting");
    const layer = holder.dataset.layer;
    const kind = layer === "finding" ? holder.closest("[data-row]").querySelector('[name$="-kind"]') : null;
    this.select.value = kind ? (kind.value ? `finding:${kind.value}` : "") : layer;
    const name = kind ? (kind.selectedOptions[0]?.value ? kind.selectedOptions[0].text : "this finding") : this.select.selectedOptions[0]?.text;
    this.card.querySelector(".face-now").textContent = `Marking: ${name}.`;
  }

  // --- painting ---------------------------------------------------------------------------
  remember() {
    const holder = this.active;
    const row = holder.closest("[data-row]");
    const inputs = [...boxesOf(holder), ...holder.querySelectorAll('input[value="none"]')];
    const boxes = inputs.map((box) => [box, box.checked]);
    const reach = row ? [...row.querySelectorAll('[name$="-inner_mm"], [name$="-outer_mm"]')].map((input) => [input, input.value]) : [];
    this.past.push({ holder, boxes, reach });
  }

  undo() {
    const before = this.past.pop();
    if (!before) return;
    for (const [box, checked] of before.boxes) box.checked = checked;
    for (const [input, value] of before.reach) input.value = value;
    this.activate(before.holder);
    this.tell();
  }

  tell() {
    this.active.dispatchEvent(new Event("input", { bubbles: true }));
  }

  paint(hour, out, on) {
    const box = boxesOf(this.active).find((b) => Number(b.value) === hour);
    box.checked = on;
    const none = this.active.querySelector('input[value="none"]');
    if (on && none) none.checked = false;
    if (on) this.answer();
    if (on && this.active.dataset.layer === "finding") this.reach(out);
  }

  answer() {
    const layer = this.active.dataset.layer;
    if (BANDS[layer]?.answer) choose(this.form, ...BANDS[layer].answer);
    if (layer === "finding") choose(this.form, "skin-state", "findings");
    if (layer === "crease") choose(this.form, "abdomen-creases", "present");
  }

  reach(out) {
    const row = this.active.closest("[data-row]");
    const inner = row.querySelector('[name$="-inner_mm"]');
    const outer = row.querySelector('[name$="-outer_mm"]');
    const from = numberIn(inner);
    const to = numberIn(outer);
    inner.value = from === null ? out - geometry.RING_MM : Math.min(from, out - geometry.RING_MM);
    outer.value = to === null ? out : Math.max(to, out);
  }

  isPainted(hour, out) {
    if (!hoursOf(this.active).includes(hour)) return false;
    if (this.active.dataset.layer !== "finding") return true;
    const to = numberIn(this.active.closest("[data-row]").querySelector('[name$="-outer_mm"]'));
    return to === null || out <= to;
  }

  setAll(on) {
    if (!this.ready()) return;
    this.remember();
    for (const box of boxesOf(this.active)) box.checked = on;
    if (on) {
      const none = this.active.querySelector('input[value="none"]');
      if (none) none.checked = false;
      this.answer();
      if (this.active.dataset.layer === "finding" && numberIn(this.active.closest("[data-row]").querySelector('[name$="-outer_mm"]')) === null) this.reach(geometry.RING_MM);
    }
    this.tell();
  }

  ready() {
    if (this.active && this.form.contains(this.active)) return true;
    this.card.querySelector(".face-now").textContent = "First choose what to mark.";
    this.select.focus();
    return false;
  }

  watchPointer() {
    let stroke = null;
    const cellAt = (event) => document.elementFromPoint(event.clientX, event.clientY)?.closest?.("[data-hour]");
    const touch = (cell) => {
      const hour = Number(cell.dataset.hour);
      const out = Number(cell.dataset.out);
      this.paint(hour, out, stroke.on);
      this.cursor = { hour, out };
      this.draw();
      this.sayCursor();
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
      if (!stroke) return;
      const cell = cellAt(event);
      if (cell && this.svg.contains(cell)) touch(cell);
    });
    for (const name of ["pointerup", "pointercancel"]) {
      window.addEventListener(name, () => {
        if (stroke) this.tell();
        stroke = null;
      });
    }
  }

  watchKeys() {
    const step = geometry.RING_MM;
    const moves = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
    this.svg.addEventListener("keydown", (event) => {
      if (moves[event.key]) {
        const [turn, out] = moves[event.key];
        this.cursor.hour = ((this.cursor.hour - 1 + turn + 12) % 12) + 1;
        this.cursor.out = Math.min(geometry.SKIN_MM, Math.max(step, this.cursor.out + out));
      } else if (event.key === " " || event.key === "Enter") {
        this.paintAtCursor();
      } else if (event.key === "Backspace" || (event.key === "z" && (event.ctrlKey || event.metaKey))) {
        this.undo();
      } else if (event.key === "Escape" && this.active) {
        this.active.querySelector("input").focus();
      } else return;
      event.preventDefault();
      this.draw();
      this.sayCursor();
    });
    this.svg.addEventListener("focus", () => { this.draw(); this.sayCursor(); });
    this.svg.addEventListener("blur", () => this.draw());
  }

  paintAtCursor() {
    if (!this.ready()) return;
    const { hour, out } = this.cursor;
    this.remember();
    this.paint(hour, out, !this.isPainted(hour, out));
    this.tell();
    this.sayCursor();
  }

  sayCursor() {
    const { hour, out } = this.cursor;
    const marked = this.active && this.isPainted(hour, out) ? "marked" : "not marked";
    this.svg.setAttribute("aria-valuetext", `${hour} o'clock, ${out - geometry.RING_MM} to ${out} mm out, ${marked}`);
    if (this.active) this.card.querySelector(".face-now").textContent = `Marking: ${this.select.selectedOptions[0]?.text || "this finding"}. At ${hour} o'clock, ${out - geometry.RING_MM} to ${out} mm out, ${marked}.`;
  }

  // --- drawing ----------------------------------------------------------------------------
  layers() {
    const found = [];
    const rows = [...this.form.querySelectorAll('[data-rows="finding"] [data-row]')].filter((row) => !this.isGone(row));
    rows.forEach((row, index) => {
      const hours = hoursOf(row.querySelector("[data-layer]"));
      const kind = row.querySelector('[name$="-kind"]');
      if (hours.length && kind.value) found.push(this.finding(row, kind, hours, String(index + 1)));
    });
    for (const [layer, band] of Object.entries(BANDS)) {
      const hours = hoursOf(this.form.querySelector(`[data-layer="${layer}"]`));
      if (hours.length) found.push({ fill: band.fill, path: geometry.hoursPath(hours, ...band.radii), number: band.letter, spot: geometry.at(geometry.middleHour(hours), (band.radii[0] + band.radii[1]) / 2), words: `${band.words}, ${geometry.hoursWords(hours)}` });
    }
    return found;
  }

  finding(row, kind, hours, number) {
    const from = numberIn(row.querySelector('[name$="-inner_mm"]'));
    const to = numberIn(row.querySelector('[name$="-outer_mm"]'));
    const inner = geometry.radiusOf(from ?? 0);
    const outer = geometry.radiusOf(to ?? (from ?? 0) + geometry.UNSAID_MM);
    const extras = SYMPTOMS.filter(([name]) => row.querySelector(`[name$="-${name}"]`)?.value === "yes").map(([, word]) => word);
    const reach = to === null ? "how far out not recorded" : `${from ?? "up"} to ${to} mm out`;
    return {
      fill: kind.value,
      path: geometry.hoursPath(hours, inner, outer),
      number,
      spot: geometry.at(geometry.middleHour(hours), (inner + outer) / 2),
      words: `${kind.selectedOptions[0].text}, ${geometry.hoursWords(hours)}, ${reach}${extras.length ? `; ${extras.join(", ")}` : ""}`,
      unsure: to === null,
    };
  }

  creases() {
    return [...this.form.querySelectorAll('[data-rows="crease"] [data-row]')].filter((row) => !this.isGone(row)).map((row) => hoursOf(row.querySelector("[data-layer]"))).filter((hours) => hours.length);
  }

  draw() {
    const layers = this.layers();
    const creases = this.creases();
    const make = (name, attributes, text) => {
      const element = document.createElementNS(SVG, name);
      for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
      if (text !== undefined) element.textContent = text;
      return element;
    };
    this.svg.querySelector(".face-patches").replaceChildren(
      ...layers.map((l) => make("path", { d: l.path, fill: `url(#face-${l.fill})`, "fill-rule": "evenodd", stroke: "#222", "stroke-width": "1.4", ...(l.unsure ? { "stroke-dasharray": "5 4" } : {}) })),
    );
    this.svg.querySelector(".face-creases").replaceChildren(
      ...creases.flat().map((hour) => {
        const [x1, y1] = geometry.at(hour, geometry.STOMA_RADIUS);
        const [x2, y2] = geometry.at(hour, geometry.SKIN_RADIUS);
        return make("line", { x1, y1, x2, y2 });
      }),
    );
    const marks = [...layers, ...creases.map((hours) => ({ number: "C", spot: geometry.at(geometry.middleHour(hours), geometry.SKIN_RADIUS - 10), words: `Crease, ${geometry.hoursWords(hours)}` }))];
    this.svg.querySelector(".face-numbers").replaceChildren(
      ...marks.map((m) => {
        const group = make("g", {});
        group.append(make("circle", { cx: m.spot[0], cy: m.spot[1], r: 11, fill: "#fff", stroke: "#111", "stroke-width": 1.4 }), make("text", { x: m.spot[0], y: m.spot[1], dy: 5.2, fill: "#111" }, m.number));
        return group;
      }),
    );
    this.drawCursor();
    this.list(marks);
  }

  drawCursor() {
    const cell = this.svg.querySelector(`[data-hour="${this.cursor.hour}"][data-out="${this.cursor.out}"]`);
    this.svg.querySelector(".face-cursor").setAttribute("d", document.activeElement === this.svg ? cell.getAttribute("d") : "");
  }

  list(marks) {
    const items = marks.map((m) => {
      const item = document.createElement("li");
      item.dataset.mark = m.number;
      item.textContent = m.words;
      return item;
    });
    this.card.querySelector(":scope > .face-words").replaceChildren(...items);
    this.svg.querySelector("desc").textContent = marks.map((m) => m.words).join("; ") || "Nothing is marked on it";
  }
}
