// The draft saves itself: soon after typing stops, on leaving, and again and again while the
// connection is lost. The page says at all times whether what it shows is saved.

import { SaveStatus } from "./save-status.js";
import { Sealed } from "./sealed.js";
import { OTHER, SAME, renew } from "./signed-in.js";

const SOON = 1500;
const AT_LATEST = 5000;
const AGAIN = 4000;
const KEEPALIVE_MOST = 60000; // browsers refuse more than 64 KiB

const OUT = "You were signed out: not saved. Kept here.";
const REFUSED = "Not saved: see the top of the page";

export class Autosave {
  constructor(form, { answered }) {
    this.form = form;
    this.answered = answered;
    this.status = new SaveStatus();
    this.sealed = new Sealed(form);
    this.dirty = false;
    this.stopped = false;
    this.running = null;
    this.sent = this.body();
  }

  body(version = this.form.elements.version.value) {
    const data = new URLSearchParams(new FormData(this.form));
    data.delete("press");
    data.set("version", version);
    return data.toString();
  }

  changed() {
    if (this.stopped || this.body() === this.sent) return;
    if (!this.dirty) this.since = Date.now();
    this.dirty = true;
    this.status.say("Not saved yet", "waiting");
    if (this.lost || !navigator.onLine) this.keepSoon();
    this.later(Math.max(0, Math.min(SOON, this.since + AT_LATEST - Date.now())));
  }

  keepSoon() {
    clearTimeout(this.keepTimer);
    this.keepTimer = setTimeout(() => this.dirty && this.sealed.keep(this.body()), 300);
  }

  later(wait) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.save(), wait);
  }

  // One at a time: a save that comes while another runs waits for it.
  async save() {
    clearTimeout(this.timer);
    if (this.running) await this.running;
    if (this.stopped || !this.dirty) return;
    this.running = this.post(this.body());
    await this.running;
    this.running = null;
    if (this.dirty && !this.lost && !this.stopped) this.later(SOON);
  }

  // The page may be gone before a running save is answered: what came after it is sent behind it,
  // for the version that one makes.
  leave() {
    if (this.stopped || !this.dirty) return;
    if (!this.running) this.save();
    else if (this.body() !== this.posted) this.send(this.body(Number(this.form.elements.version.value) + 1)).catch(() => this.sealed.keep(this.body()));
  }

  send(body) {
    this.posted = body;
    return fetch(this.form.action, {
      method: "POST",
      body,
      headers: { "Content-Type": "application/x-www-form-urlencoded", "X-Autosave": "1" },
      credentials: "same-origin",
      redirect: "manual",
      keepalive: body.length < KEEPALIVE_MOST, // outlives the page
    });
  }

  async post(body) {
    this.status.say("Saving…", "waiting");
    const response = await this.send(body).catch(() => null);
    if (!response) return this.failed("No connection: not saved. Kept here; trying again.");
    if (response.type === "opaqueredirect" || response.status === 403) return this.signedOut();
    const answer = await response.json().catch(() => null);
    if (answer && response.ok) return this.succeeded(body, answer);
    if (answer && response.status === 409) return this.refused(body, answer);
    if (response.status === 404) return this.refused(body, { message: "This draft is not there any more: somebody discarded it. What you typed is still on this page.", signed: "/" }, "Start page");
    return this.failed("The server did not answer: not saved. Kept here; trying again.");
  }

  succeeded(body, answer) {
    this.form.elements.version.value = answer.version;
    this.sent = this.body();
    // Typed while this save was under way? Then there is more to send.
    const version = /(^|&)version=\d+/;
    this.dirty = this.sent.replace(version, "") !== body.replace(version, "");
    if (this.dirty) this.sent = "";
    this.lost = false;
    this.renewed = false;
    this.status.clear();
    this.sealed.forget();
    this.status.say(`Saved ${answer.saved}`, "saved");
    this.answered(answer);
  }

  // Kept is what the page holds now, not what was sent: on leaving, a send that is cut off here
  // may have arrived all the same, and what is stored already is no difference.
  async failed(words) {
    this.lost = true;
    this.status.say(words, "lost");
    await this.sealed.keep(this.body());
    this.later(AGAIN);
  }

  async signedOut() {
    const who = await renew(this.form);
    if (who === SAME && !this.renewed) {
      this.renewed = true;
      await this.failed("Signed in again: saving.");
      return this.later(0);
    }
    this.renewed = false;
    await this.failed(OUT);
    if (who === OTHER) this.status.tell("Somebody else is signed in in this browser. What is on this page was not saved; sign in as yourself, then it goes on saving.", "/sign-in/", "Sign in", true);
    else this.status.tell("You were signed out. Sign in again in a new tab; then this page goes on saving.", "/sign-in/", "Sign in", true);
  }

  async refused(body, answer, label) {
    this.stopped = true;
    await this.sealed.keep(body);
    if (answer.conflict) this.sealed.forget(); // the server keeps the copy
    this.status.say(REFUSED, "lost");
    this.status.tell(answer.message, answer.conflict || answer.signed, label || (answer.conflict ? "See both versions" : "Open the signed visit"));
  }

  // Entries kept from an earlier time that never reached the server are sent first; until they
  // are in, nothing can be typed over them.
  async sendKept() {
    const kept = await this.sealed.read();
    if (kept === null) return;
    const data = new URLSearchParams(kept);
    data.set("csrfmiddlewaretoken", this.form.elements.csrfmiddlewaretoken.value);
    this.form.inert = true;
    this.status.say("Putting back what had not been sent…", "waiting");
    const response = await this.send(data.toString()).catch(() => null);
    if (response?.ok) {
      this.sealed.forget();
      sessionStorage.setItem("put-back", "1");
      window.location.reload();
    } else if (response?.status === 409) {
      this.form.inert = false;
      await this.refused(kept, await response.json());
    } else {
      this.status.say("No connection: what had not been sent is still kept here; trying again.", "lost");
      setTimeout(() => this.sendKept(), AGAIN);
    }
  }

  watch() {
    const changed = () => this.changed();
    this.form.addEventListener("input", changed);
    this.form.addEventListener("change", changed);
    window.addEventListener("online", () => this.dirty && this.save());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.leave();
      else if (this.lost) this.save();
    });
    window.addEventListener("beforeunload", (event) => {
      if (this.dirty && this.lost && !this.submitting) event.preventDefault();
    });
    this.form.addEventListener("submit", (event) => this.beforeSubmit(event));
    if (sessionStorage.getItem("put-back")) {
      sessionStorage.removeItem("put-back");
      this.status.say("Entries that had not been sent were put back and saved", "saved");
    }
  }

  // A button of the page: what is unsaved goes first, so the page's version stays current.
  async beforeSubmit(event) {
    const button = event.submitter;
    if (button?.value === "save" || button?.value === "plan") {
      // Enter in a box, or the button: saved without leaving the place one is at.
      event.preventDefault();
      return this.save();
    }
    if (this.stopped || this.submitting || !(this.dirty || this.running)) return;
    event.preventDefault();
    await this.save();
    if (this.dirty || this.stopped) return; // the page says why
    this.submitting = true;
    this.form.requestSubmit(button);
    this.submitting = false;
  }
}
