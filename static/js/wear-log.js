// The grid of the wear log by keyboard. It reads nothing itself: the server says what each row
// means, and its words are shown beside the fields. Rows appear as one types.

import { freshRow } from "./fresh-row.js";
import { sendWhenSignedIn } from "./wear-sending.js";

const QUIET = 150; // ms without a key before the server is asked
const EMPTY_ROWS = 3;
const STILL_ON = /^(o|on|open|still on|-)$/i;

const form = document.getElementById("enter");
const list = document.getElementById("wear-rows");
const template = document.getElementById("wear-row");
const save = document.getElementById("wear-save");

const rows = () => [...list.children];
const box = (row, column) => row.querySelector(`[data-column="${column}"]`);
const given = (row) => row.querySelector('[name^="given-"]');
const empty = (row) =>
  !("stored" in row.dataset) && !box(row, "off").value.trim() && !box(row, "why").value.trim() &&
  (!box(row, "on").value.trim() || box(row, "on").value === given(row).value);

// --- Rows -----------------------------------------------------------------------------------
function addRow() {
  const row = freshRow(template);
  list.append(row);
  return row;
}

function keepSpare() {
  let spare = 0;
  for (const row of rows().reverse()) {
    if (!empty(row)) break;
    spare += 1;
  }
  for (; spare < EMPTY_ROWS; spare += 1) addRow();
}

function trim() {
  const spare = rows().filter((row) => empty(row) && !box(row, "on").value);
  spare.slice(EMPTY_ROWS).forEach((row) => row.remove());
}

// The day the last one came off is filled in in the next row, to be seen and changed. "=" is the
// server's word for that day, until its answer puts the day itself there.
function fillNext(row, day) {
  const next = row.nextElementSibling;
  if (!next || "stored" in next.dataset || "cleared" in next.dataset) return;
  const on = box(next, "on");
  if (on.value.trim() && on.value !== given(next).value) return;
  if (on === document.activeElement && on.value.trim()) return;
  if (on.value === day) return;
  on.value = given(next).value = day;
  if (day !== "=") ask(); // that this row does not count yet is the server's to say
}

// --- Asking the server -----------------------------------------------------------------------
let timer = 0;
let asked = 0;
let shown = 0; // the newest answer shown; an older one that arrives late is let go

function ask() {
  clearTimeout(timer);
  timer = setTimeout(read, QUIET);
}

async function read() {
  clearTimeout(timer);
  const turn = (asked += 1);
  const data = new URLSearchParams(new FormData(form));
  for (const name of ["paste", "rule-exceptions"]) data.delete(name);
  let answer;
  try {
    const response = await fetch(form.dataset.read, { method: "POST", body: data, redirect: "error" });
    if (!response.ok) throw new Error(response.status);
    answer = await response.json();
  } catch {
    if (turn === asked) say(["The rows cannot be checked just now. They stay as typed; Save checks them too."]);
    return;
  }
  if (turn < shown) return;
  shown = turn;
  for (const row of rows()) show(row, answer.rows[row.dataset.key]);
  say(answer.cautions);
  count(answer.count);
}

function show(row, said) {
  if (!said) return;
  for (const column of ["on", "off", "why"]) {
    const field = box(row, column);
    const problem = said.problems[column];
    // A row still being typed is not scolded for what comes next.
    const early = problem && row.contains(document.activeElement) && !field.value.trim();
    const words = document.getElementById(`read-${column}-${row.dataset.key}`);
    const text = document.createElement("span");
    text.textContent = early ? "" : problem || said.said[column] || "";
    if (problem) text.className = "field-error";
    words.replaceChildren(text);
    field.toggleAttribute("aria-invalid", false);
    if (problem && !early) field.setAttribute("aria-invalid", "true");
  }
  row.classList.toggle("has-error", Boolean(row.querySelector("[aria-invalid]")));
  row.querySelector(".wear-worn").textContent = said.worn;
  const uncounted = row.querySelector(".wear-uncounted");
  uncounted.textContent = said.uncounted;
  uncounted.hidden = !said.uncounted;
  const on = box(row, "on");
  if (on.value === "=" && said.on && on !== document.activeElement) on.value = given(row).value = said.on;
  if (said.off && !said.problems.off) fillNext(row, said.off);
}

function say(lines) {
  const place = document.getElementById("wear-cautions");
  if (lines.join() === [...place.children].map((p) => p.textContent).join()) return;
  place.replaceChildren(...lines.map((line) => {
    const p = document.createElement("p");
    p.className = "caution";
    p.textContent = line;
    return p;
  }));
}

// Why nothing was sent: beside the button that was pressed, and read out.
function stopped(why) {
  const place = document.getElementById("wear-stopped");
  place.hidden = false;
  place.textContent = why;
}

function count(number) {
  const words = number === 1 ? "1 row" : `${number} rows`;
  document.getElementById("wear-count").textContent = number ? `${words} ready to save` : "";
}

// --- Keys ------------------------------------------------------------------------------------
// As in a spreadsheet: Tab goes right; Enter goes down, to the column in which the run began.
let began = "on";
let tabbed = false;

function goTo(row, column) {
  const field = row && box(row, column);
  if (!field) return save.focus();
  field.focus();
  field.select();
  began = column;
}

// A run that starts beside a first day filled in by the page began with that day.
function startOf(field) {
  const row = field.closest(".wear-row");
  const standsFilled = box(row, "on").value && box(row, "on").value === given(row).value;
  return field.dataset.column === "off" && standsFilled ? "on" : field.dataset.column;
}

function down(field) {
  const row = field.closest(".wear-row");
  if (empty(row)) return save.focus();
  const off = box(row, "off").value.trim();
  if (off && !STILL_ON.test(off)) fillNext(row, "=");
  keepSpare();
  const next = row.nextElementSibling;
  // A first day that is already filled in need not be passed.
  const filled = next && began === "on" && box(next, "on").value.trim() && box(next, "on").value === given(next).value;
  goTo(next, filled ? "off" : began);
  if (filled) began = "on";
  read();
}

function key(event) {
  const field = event.target.closest("[data-column]");
  tabbed = event.key === "Tab";
  if (!field || event.altKey || event.isComposing) return;
  const row = field.closest(".wear-row");
  if (event.key === "Enter") {
    event.preventDefault();
    if (event.ctrlKey || event.metaKey) form.requestSubmit(save);
    else down(field);
  } else if (event.key === "ArrowDown" && row.nextElementSibling) {
    event.preventDefault();
    goTo(row.nextElementSibling, field.dataset.column);
  } else if (event.key === "ArrowUp" && row.previousElementSibling) {
    event.preventDefault();
    goTo(row.previousElementSibling, field.dataset.column);
  }
}

// Several lines pasted into a field go through the paste box: one way in, one preview.
function paste(event) {
  const text = event.clipboardData.getData("text");
  if (!event.target.closest("[data-column]") || !/[\n\t]/.test(text.trim())) return;
  event.preventDefault();
  form.querySelector("#wear-paste").value = text;
  form.requestSubmit(form.querySelector('button[value="paste"]'));
}

let dirty = form?.querySelector('.notice:not([hidden])') !== null;

if (form) {
  form.classList.add("scripted");
  trim();
  keepSpare();
  form.addEventListener("keydown", key);
  form.addEventListener("paste", paste);
  form.addEventListener("input", (event) => {
    dirty = true;
    const field = event.target.closest("[data-column]");
    if (field?.dataset.column === "on") {
      const row = field.closest(".wear-row");
      given(row).value = "";
      // A day that somebody took out is not put back.
      row.toggleAttribute("data-cleared", !field.value.trim());
    }
    keepSpare();
    ask();
  });
  form.addEventListener("focusin", (event) => {
    const field = event.target.closest("[data-column]");
    if (field && !tabbed) began = startOf(field);
  });
  form.addEventListener("focusout", ask);
  sendWhenSignedIn(form, stopped, () => { dirty = false; });
  addEventListener("beforeunload", (event) => { if (dirty) event.preventDefault(); });
  // Where typing goes on: the first row that is not finished.
  const first = rows().find((row) => !box(row, "off").value) ?? rows()[0];
  if (!form.querySelector(".notice:not([hidden])")) {
    goTo(first, box(first, "on").value ? "off" : "on");
    began = "on";
  }
}
