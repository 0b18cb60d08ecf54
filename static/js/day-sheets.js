/* Sets the day's sheets in small requests and says how many are ready; then fetches the file by the
   form itself. Without this script the form does the same in longer steps. */

import { say } from "./say.js";

/* Sheets asked for at a time: a server of several processes sets them side by side, and others want
   theirs. */
const AT_A_TIME = 2;
const form = document.getElementById("day-sheets");
const box = document.getElementById("sheets-progress");

if (form) form.addEventListener("submit", prepare);

async function prepare(event) {
  const sheets = [...form.querySelectorAll("input[name=sheet]:checked")].map((one) => one.value);
  if (!sheets.length) return; // the page that comes back says what is missing
  event.preventDefault();
  const button = form.querySelector("button");
  button.disabled = true;
  box.hidden = false;
  const problem = await setAll(sheets);
  button.disabled = false;
  if (!problem) form.submit();
}

/* "" once all are set, else why one is not; none is begun after that. */
async function setAll(sheets) {
  const waiting = [...sheets];
  let ready = 0;
  let problem = "";
  const count = () => tell(`${problem} ${ready} of ${sheets.length} sheets are ready.`.trim(), ready, sheets.length);
  const lane = async () => {
    while (waiting.length && !problem) {
      const met = await ask(waiting.shift());
      if (met) problem ||= met;
      else ready += 1;
      count();
    }
  };
  count();
  await Promise.all(Array.from({ length: AT_A_TIME }, lane));
  return problem;
}

/* "" once the sheet is set, else why not, in words. */
async function ask(sheet) {
  const body = new FormData();
  body.set("sheet", sheet);
  body.set("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
  try {
    const answer = await fetch(form.dataset.ready, { method: "POST", body, redirect: "error" });
    if (answer.ok) return "";
    const told = await answer.json().catch(() => ({}));
    return told.message ?? "A sheet could not be made. Press the button to try again.";
  } catch {
    return "The connection was lost. Press the button to continue.";
  }
}

function tell(words, value, most) {
  say(box.querySelector("[role=status]"), words);
  const bar = box.querySelector("progress");
  bar.max = most;
  bar.value = value;
}
