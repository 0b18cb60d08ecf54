// What the computer proposes to mark: asked for by a press, drawn as a proposal, and counted only
// once somebody has confirmed it.

import { say } from "./say.js";

const NO_ANSWER = "The computer could not look: no answer, or you were signed out. Your marks are still here.";
const THINGS = {
  card: {
    ask: "Find the corners for me",
    looking: "Looking for the card …",
    open: "Proposed by the computer, not counted yet. Check each corner: where the card's straight edges would meet, beyond the round corner. Drag what is off, then confirm.",
    confirm: "These corners are right",
  },
  outline: {
    ask: "Find the edge for me",
    looking: "Looking for the stoma's edge …",
    open: "Proposed by the computer, not counted yet. Check the whole way round: where stoma and skin meet. Drag what is off, then confirm.",
    confirm: "This edge is right",
  },
};

export class PhotoProposal {
  constructor(form, marks, { wide, show }) {
    Object.assign(this, { form, marks, wide, show });
    const part = (name) => document.getElementById(`measure-${name}`);
    Object.assign(this, { box: part("proposal"), words: part("proposal-words"), heard: part("proposal-heard"), ask: part("propose"), confirmButton: part("confirm") });
    this.asked = 0;
  }

  // ``isAsked``: nothing is looked for where a ruler is marked, or before it is said what lies there.
  redraw(isAsked) {
    const thing = THINGS[this.marks.group];
    if (this.group !== this.marks.group) say(this.heard, "");
    this.group = this.marks.group;
    this.ask.hidden = !thing || !isAsked;
    this.box.hidden = !thing || !this.marks.isOpen(this.marks.group);
    if (!thing) return;
    this.ask.textContent = thing.ask;
    this.confirmButton.textContent = thing.confirm;
    say(this.words, this.box.hidden ? "" : thing.open);
  }

  // A single point on the edge was set in the stoma's middle, to say where to look.
  async find() {
    const { marks } = this;
    const what = marks.group;
    const turn = ++this.asked;
    const near = what === "outline" && marks.here.length === 1 ? marks.here[0] : null;
    const body = new URLSearchParams({ csrfmiddlewaretoken: this.form.elements.csrfmiddlewaretoken.value, what });
    if (near) body.set("x", near[0]), body.set("y", near[1]);
    this.ask.disabled = true;
    say(this.heard, THINGS[what].looking);
    const answer = await fetch(this.form.dataset.propose, { method: "POST", body, credentials: "same-origin", redirect: "manual" })
      .then((response) => (response.ok ? response.json() : null)).catch(() => null);
    this.ask.disabled = false;
    if (turn !== this.asked || what !== marks.group) return say(this.heard, "");
    say(this.heard, answer ? answer.words : NO_ANSWER);
    if (!answer?.points.length) return;
    marks.propose(answer.points, answer.token);
    this.show();
  }

  confirm() {
    this.marks.confirm(this.wide());
    say(this.heard, "Confirmed. You can still move every point.");
  }

  decline() {
    this.marks.clear();
    say(this.heard, "Taken away. Mark by hand.");
  }
}
