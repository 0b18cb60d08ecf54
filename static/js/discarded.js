// What this device kept of a draft that was discarded goes to the server, which keeps it beside the
// draft; then the page shows it.

import { Posting } from "./posting.js";
import { withToken } from "./put-back.js";
import { Sealed } from "./sealed.js";

const form = document.getElementById("kept-form");
const posting = new Posting(form);
const sealed = new Sealed(form, posting.page);

let sent = 0;
for (const { place, body } of await sealed.earlier()) {
  const response = await posting.send(withToken(form, body)).catch(() => null);
  if (response?.status !== 409) continue;
  sealed.forget(place);
  sent += 1;
}
if (sent) window.location.reload();
