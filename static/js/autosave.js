// The draft saves itself: soon after typing stops, on leaving, and again and again while the
// connection is lost. The page says at all times whether what it shows is saved.

import { Sealed } from "./sealed.js";

const SOON = 1500;
const AT_LATEST = 5000;
const AGAIN = 4000;

export class Autosave {
  constructor(form, { answered }) {
    this.form = form;
    this.answered = answered;
    this.status = document.getElementById("save-status");
    this.notice = document.getElementById("page-notice");
    this.sealed = new Sealed(form);
    this.dirty = false;
    this.stopped = false;
    this.running = null;
    this.sent = this.body();
  }

  body() {
    const data = new URLSearchParams(new FormData(this.form));
    data.delete("press");
    return data.toString();
  }

  changed() {
    if (this.stopped || this.body() === this.sent) return;
    if (!this.dirty) this.since = Date.now();
    this.dirty = true;
    this.say("Not saved yet", "waiting");
    if (this.lost) this.keepSoon();
    const wait = Math.max(0, Math.min(SOON, this.since + AT_LATEST - Date.now()));
    this.later(wait);
  }

  keepSoon() {
    clearTimeout(this.keepTimer);
    this.keepTimer = setTimeout(() => this.sealed.keep(this.body()), 300);
  }

  later(wait) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.save(), wait);
  }

  // One at a time: a save that comes while another runs waits for it.
  async save({ leaving = false } = {}) {
    clearTimeout(this.timer);
    if (this.stopped || (!this.dirty && !leaving)) return;
    if (this.running && !leaving) await this.running;
    if (!this.dirty) return;
    this.running = this.post(this.body(), leaving);
    await this.running;
    this.running = null;
    if (this.dirty && !this.lost && !this.stopped) this.later(SOON);
  }

  async post(body, leaving) {
    this.say("Saving…", "waiting");
    let response;
    try {
      response = await fetch(this.form.action, {
        method: "POST",
        body,
        headers: { "Content-Type": "application/x-www-form-urlencoded", "X-Autosave": "1" },
        credentials: "same-origin",
        redirect: "manual",
        keepalive: leaving,
      });
    } catch {
      return this.failed(body, "No connection: not saved. Kept here; trying again.");
    }
    if (response.type === "opaqueredirect" || response.status === 403) {
      return this.signedOut(body);
    }
    if (response.status >= 500 || response.status === 429) {
      return this.failed(body, "The server did not answer: not saved. Kept here; trying again.");
    }
    const answer = await response.json();
    return response.ok ? this.succeeded(body, answer) : this.refused(body, answer);
  }

  succeeded(body, answer) {
    this.form.elements.version.value = answer.version;
    this.sent = this.body();
    // Typed while this save was under way? Then there is more to send.
    const version = /(^|&)version=\d+/;
    this.dirty = this.sent.replace(version, "") !== body.replace(version, "");
    if (this.dirty) this.sent = "";
    this.lost = false;
    this.notice.replaceChildren();
    this.sealed.forget();
    this.say(`Saved ${answer.saved}`, "saved");
    this.answered(answer);
  }

  async failed(body, words) {
    this.lost = true;
    this.say(words, "lost");
    await this.sealed.keep(body);
    this.later(AGAIN);
  }

  async signedOut(body) {
    await this.failed(body, "You were signed out: not saved. Kept here.");
    this.tell("You were signed out. Sign in again in a new tab; then this page goes on saving.", "/sign-in/", "Sign in", true);
  }

  async refused(body, answer) {
    this.stopped = true;
    await this.sealed.keep(body);
    if (answer.conflict) this.sealed.forget(); // the server keeps the copy
    this.say("Not saved: see the top of the page", "lost");
    this.tell(answer.message, answer.conflict || answer.signed, answer.conflict ? "See both versions" : "Open the signed visit");
    this.notice.scrollIntoView({ block: "center" });
  }

  tell(words, href, label, newTab = false) {
    const box = document.createElement("div");
    box.className = "notice bad";
    const link = document.createElement("a");
    link.href = href;
    link.textContent = label;
    if (newTab) Object.assign(link, { target: "_blank", rel: "noopener" });
    box.append(words, " ", link);
    this.notice.replaceChildren(box);
  }

  say(words, state) {
    if (this.status.textContent !== words) this.status.textContent = words;
    this.status.dataset.state = state;
  }

  // Entries kept from an earlier time that never reached the server are sent first.
  async sendKept() {
    const kept = await this.sealed.read();
    if (kept === null) return;
    const data = new URLSearchParams(kept);
    data.set("csrfmiddlewaretoken", this.form.elements.csrfmiddlewaretoken.value);
    const before = this.answered;
    this.answered = () => {
      sessionStorage.setItem("put-back", "1");
      window.location.reload();
    };
    await this.post(data.toString(), false);
    this.answered = before;
  }

  watch() {
    const changed = () => this.changed();
    this.form.addEventListener("input", changed);
    this.form.addEventListener("change", changed);
    window.addEventListener("online", () => this.dirty && this.save());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.save({ leaving: true });
    });
    window.addEventListener("beforeunload", (event) => {
      if (this.dirty && this.lost && !this.submitting) event.preventDefault();
    });
    this.form.addEventListener("submit", (event) => this.beforeSubmit(event));
    if (sessionStorage.getItem("put-back")) {
      sessionStorage.removeItem("put-back");
      this.say("Entries that had not been sent were put back and saved", "saved");
    }
  }

  // A button of the page: what is unsaved goes first, so the page's version stays current.
  async beforeSubmit(event) {
    if (this.stopped || this.submitting || !(this.dirty || this.running)) return;
    event.preventDefault();
    const button = event.submitter;
    if (this.running) await this.running;
    await this.save();
    if (this.dirty || this.stopped) return; // the page says why
    this.submitting = true;
    this.form.requestSubmit(button);
    this.submitting = false;
  }
}
