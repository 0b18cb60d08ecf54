// Entries kept from an earlier time that never reached the server are sent first; until they are
// in, nothing can be typed over them. They go under the id and turn of the page that kept them.

import { inWords } from "./kept-words.js";

const AGAIN = 4000;
const PUT_BACK = "put-back";

export const withToken = (form, body) => {
  const data = new URLSearchParams(body);
  data.set("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
  return data.toString();
};

export async function putBack(saving) {
  const { form, posting, sealed, status } = saving;
  if (sessionStorage.getItem(PUT_BACK)) {
    sessionStorage.removeItem(PUT_BACK);
    status.say("Unsent entries were restored and saved", "saved");
  }
  const copies = await sealed.earlier();
  if (!copies.length) return;
  form.inert = true;
  status.say("Restoring unsent entries…", "waiting");
  let isNew = false;
  let known = null;
  let late = null;
  for (const { place, body } of copies) {
    const response = await posting.send(withToken(form, body)).catch(() => null);
    if (!response) return again(saving);
    if (response.status === 409) late = await response.json();
    if (response.ok) {
      known = await response.json();
      isNew ||= known.version !== Number(form.elements.version.value);
    }
    // Stored, or kept by the server as a second version.
    if (response.ok || response.status === 409) sealed.forget(place);
  }
  if (isNew) return reload();
  form.inert = false;
  if (late) return saving.refused(late);
  const left = await sealed.earlier();
  if (left.length) return tell(saving, left);
  // It had arrived after all, and the page shows it.
  status.saved(known.saved, Object.keys(known.errors).length);
}

function again(saving) {
  saving.status.say("No connection: unsent entries are still kept here; trying again.", "lost");
  setTimeout(() => putBack(saving), AGAIN);
}

function reload() {
  sessionStorage.setItem(PUT_BACK, "1");
  window.location.reload();
}

// The server takes it no more: shown in words, so that it can be entered by hand.
function tell({ form, sealed, status }, copies) {
  const lines = copies.flatMap(({ body }) => inWords(form, body));
  status.say("Not everything is saved: see the top of the page", "lost");
  status.list("Entries kept on this device could not be restored. They are still kept; these differ from the page:", lines, {
    "Try again": () => window.location.reload(),
    "I have entered it: delete it": () => {
      for (const { place } of copies) sealed.forget(place);
      status.clear();
      status.say("Deleted the entries kept here", "saved");
    },
  });
}
