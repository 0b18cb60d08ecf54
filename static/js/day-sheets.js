/* Sets the day's sheets one request at a time and says how many are ready; then fetches the file
   by the form itself. Without this script the form does the same in longer steps. */
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
  let ready = 0;
  tell(`0 of ${sheets.length} sheets are ready.`, 0, sheets.length);
  for (const sheet of sheets) {
    const problem = await ask(sheet);
    if (problem) {
      button.disabled = false;
      tell(`${problem} ${ready} of ${sheets.length} sheets are ready.`, ready, sheets.length);
      return;
    }
    ready += 1;
    tell(`${ready} of ${sheets.length} sheets are ready.`, ready, sheets.length);
  }
  button.disabled = false;
  form.submit();
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
    return "The connection was lost. Press the button to go on.";
  }
}

function tell(words, value, most) {
  box.querySelector("[role=status]").textContent = words;
  const bar = box.querySelector("progress");
  bar.max = most;
  bar.value = value;
}
