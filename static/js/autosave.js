// The draft saves itself: soon after typing stops, on leaving, and again and again while the
// connection is lost. The page says at all times whether what it shows is saved.

import { Posting } from "./posting.js";
import { SaveStatus } from "./save-status.js";
import { Sealed } from "./sealed.js";
import { OTHER, SAME, renew } from "./signed-in.js";

const SOON = 1500;
const AT_LATEST = 5000;
const AGAIN = 4000;

const OUT = "You were signed out: not saved. Kept here.";
const REFUSED = "Not saved: see the top of the page";

// Buttons that decide on the plan shown on the screen.
const ON_THE_PLAN = new Set(["accept-rest", "sign"]);

const leadsTo = ({ conflict, signed, discarded }) => {
  if (conflict) return [conflict, "See both versions"];
  return signed ? [signed, "Open the signed visit"] : [discarded, "See what you typed"];
};

export class Autosave {
  constructor(form, { answered, plan }) {
    this.form = form;
    this.answered = answered;
    this.plan = plan;
    this.status = new SaveStatus();
    this.posting = new Posting(form);
    this.sealed = new Sealed(form, this.posting.page);
    this.dirty = false;
    this.stopped = false;
    this.running = null;
    this.settled();
  }

  // What the page holds is what the server holds.
  settled() {
    this.stored = this.posting.entries();
    this.planned = this.posting.charted();
  }

  changed() {
    this.plan.waits(this.posting.charted() !== this.planned);
    if (this.stopped || this.posting.entries() === this.stored) return;
    if (!this.dirty) this.since = Date.now();
    this.dirty = true;
    this.status.say("Not saved yet", "waiting");
    if (this.lost || !navigator.onLine) this.keepSoon();
    this.later(Math.max(0, Math.min(SOON, this.since + AT_LATEST - Date.now())));
  }

  keepSoon() {
    clearTimeout(this.keepTimer);
    this.keepTimer = setTimeout(() => this.dirty && this.keep(), 300);
  }

  keep() {
    return this.sealed.keep(this.posting.kept());
  }

  later(wait) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.save(), wait);
  }

  // One at a time: a save that comes while another runs waits until none does.
  async save() {
    clearTimeout(this.timer);
    while (this.running) await this.running;
    if (this.stopped || !this.dirty) return;
    this.running = this.post().catch((error) => this.broken(error)).finally(() => { this.running = null; });
    await this.running;
    if (this.dirty && !this.lost && !this.stopped) this.later(SOON);
  }

  // Something in the page itself went wrong. It goes on saving.
  broken(error) {
    this.status.say("This page could not show the answer: please reload it", "lost");
    reportError(error);
  }

  // The page may be gone before a running save is answered: what came after it goes behind it.
  leave() {
    if (this.stopped || !this.dirty) return;
    if (!this.running) this.save();
    else if (this.posting.entries() !== this.sent) this.posting.send(this.posting.body()).catch(() => this.keep());
  }

  async post() {
    this.status.say("Saving…", "waiting");
    this.sent = this.posting.entries();
    this.sentCharted = this.posting.charted();
    const response = await this.posting.send(this.posting.body()).catch(() => null);
    if (!response) return this.failed("No connection: not saved. Kept here; trying again.");
    if (response.type === "opaqueredirect" || response.status === 403) return this.signedOut(response.headers.get("Asks-Why"));
    const answer = await response.json().catch(() => null);
    if (answer && response.ok) return this.succeeded(answer);
    if (answer && response.status === 409) return this.refused(answer);
    return this.failed("The server did not answer: not saved. Kept here; trying again.");
  }

  succeeded(answer) {
    this.form.elements.version.value = answer.version;
    this.stored = this.sent;
    this.planned = this.sentCharted;
    // Typed while this save was under way? Then there is more to send.
    this.dirty = this.posting.entries() !== this.sent;
    this.lost = false;
    this.renewed = false;
    this.status.clear();
    this.sealed.forget();
    this.status.saved(answer.saved, Object.keys(answer.errors).length);
    this.answered(answer);
    this.plan.waits(this.posting.charted() !== this.planned);
  }

  // Kept is what the page holds now, not what was sent: on leaving, a send that is cut off here
  // may still have arrived, and what is already stored is no difference.
  async failed(words) {
    this.lost = true;
    this.status.say(words, "lost");
    await this.keep();
    this.later(AGAIN);
  }

  // closed: the page that asks why, where the reason for a restricted record has run out.
  async signedOut(closed) {
    const who = await renew(this.form);
    if (who === SAME && !this.renewed) {
      this.renewed = true;
      await this.failed("Signed in again: saving.");
      return this.later(0);
    }
    this.renewed = false;
    await this.failed(OUT);
    if (who === OTHER) this.status.tell("Someone else is signed in on this browser. This page was not saved; sign in as yourself, then saving continues.", "/sign-in/", "Sign in", true);
    else if (closed) this.status.tell("This record asks for a reason again. Give it in a new tab; then this page continues saving.", closed, "Give the reason", true);
    else this.status.tell("You were signed out. Sign in again in a new tab; then this page continues saving.", "/sign-in/", "Sign in", true);
  }

  // The server kept what was sent: to choose from, or beside the visit that was signed or discarded.
  refused(answer) {
    this.stopped = true;
    this.sealed.forget();
    this.status.say(REFUSED, "lost");
    this.status.tell(answer.message, ...leadsTo(answer));
  }

  watch() {
    const changed = () => this.changed();
    this.form.addEventListener("input", changed);
    this.form.addEventListener("change", changed);
    document.addEventListener("locking", (event) => event.detail.wait(this.beforeLock()));
    document.addEventListener("unlocked", () => this.dirty && this.save());
    window.addEventListener("online", () => this.dirty && this.save());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.leave();
      else if (this.lost) this.save();
    });
    window.addEventListener("beforeunload", (event) => {
      if (this.dirty && this.lost && !this.submitting) event.preventDefault();
    });
    this.form.addEventListener("submit", (event) => this.beforeSubmit(event));
  }

  // What cannot go out now is kept, and goes out when the screen is unlocked.
  async beforeLock() {
    if (this.dirty) await this.keep();
    await this.saveAll();
  }

  // A button of the page: what is unsaved goes first, so that nothing is decided about a plan
  // that the last entries have changed.
  async beforeSubmit(event) {
    const button = event.submitter;
    if (button?.value === "save" || button?.value === "plan") {
      // Enter in a box, or the button: saved without leaving the place one is at.
      event.preventDefault();
      return this.save();
    }
    const seen = this.plan.seen();
    const isNew = () => ON_THE_PLAN.has(button?.value) && this.plan.now() !== seen;
    if (this.stopped || this.submitting || !(this.dirty || this.running || isNew())) return this.posting.next();
    event.preventDefault();
    await this.saveAll();
    if (this.dirty || this.stopped) return; // the page says why
    if (isNew()) return this.plan.tellChanged();
    this.submit(button);
  }

  // Whatever is typed while it saves is saved too.
  async saveAll() {
    do await this.save();
    while (this.dirty && !this.lost && !this.stopped);
  }

  // The plan may have been redrawn, and its button with it.
  submit(button) {
    const there = button?.isConnected === false ? this.form.querySelector(`button[name="press"][value="${button.value}"]`) : button;
    if (there === null) return;
    this.submitting = true;
    this.form.requestSubmit(there);
    this.submitting = false;
  }
}
