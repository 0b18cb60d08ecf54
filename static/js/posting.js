// What the page posts, and how. Every open page has an id of its own and counts its posts: the
// server can then tell an older one that arrives late from somebody else's.

import { newId } from "./ids.js";

const KEEPALIVE_MOST = 60000; // browsers refuse more than 64 KiB
const HOUSEKEEPING = ["csrfmiddlewaretoken", "version", "page", "turn", "press"];

function hidden(form, name, value) {
  const input = document.createElement("input");
  Object.assign(input, { type: "hidden", name, value });
  form.append(input);
  return input;
}

export class Posting {
  constructor(form) {
    this.form = form;
    this.page = newId();
    hidden(form, "page", this.page);
    this.turn = hidden(form, "turn", 0);
  }

  // Whatever leaves the page next, or is kept to leave it later.
  next() {
    this.turn.value = Number(this.turn.value) + 1;
  }

  body() {
    this.next();
    const data = new URLSearchParams(new FormData(this.form));
    data.delete("press");
    return data.toString();
  }

  // To be kept on the device: without the token of this session. One is put in when it is sent.
  kept() {
    const data = new URLSearchParams(this.body());
    data.delete("csrfmiddlewaretoken");
    return data.toString();
  }

  // What somebody entered, to tell whether anything changed.
  entries() {
    const data = new URLSearchParams(new FormData(this.form));
    for (const name of HOUSEKEEPING) data.delete(name);
    return data.toString();
  }

  // Without the decisions: what the plan is worked out from.
  charted() {
    const data = new URLSearchParams(new FormData(this.form));
    for (const name of [...HOUSEKEEPING, ...data.keys()]) {
      if (HOUSEKEEPING.includes(name) || name.startsWith("decision-")) data.delete(name);
    }
    return data.toString();
  }

  send(body) {
    return fetch(this.form.action, {
      method: "POST",
      body,
      headers: { "Content-Type": "application/x-www-form-urlencoded", "X-Autosave": "1" },
      credentials: "same-origin",
      redirect: "manual",
      keepalive: body.length < KEEPALIVE_MOST, // outlives the page
    });
  }
}
