// Asks the server for the sizes after every change, and shows them or what is wrong beside its step.

const SOON = 350;
const NOTHING = "The sizes appear here once the known size and the edge are marked, what the computer proposed is confirmed, and step 1 is answered.";

export class PhotoFigures {
  constructor(form, place) {
    this.form = form;
    this.place = place;
    this.asked = 0;
  }

  askSoon(isReady) {
    clearTimeout(this.timer);
    const turn = ++this.asked; // answers to earlier questions no longer count
    this.place.setAttribute("aria-busy", String(isReady));
    if (isReady) this.timer = setTimeout(() => this.ask(turn), SOON);
    else this.say(NOTHING);
  }

  async ask(turn) {
    const answer = await fetch(this.form.action || window.location.href, {
      method: "POST",
      body: new URLSearchParams(new FormData(this.form)),
      headers: { "X-Measure": "1" },
      credentials: "same-origin",
      redirect: "manual",
    }).then((response) => (response.ok ? response.json() : null)).catch(() => null);
    if (turn !== this.asked) return;
    this.place.setAttribute("aria-busy", "false");
    if (!answer) return this.say("The sizes could not be worked out: no answer, or you were signed out. Your marks are still here.");
    this.showErrors(answer.errors);
    if (answer.html) this.place.innerHTML = answer.html;
    else this.say("No sizes yet: see the message beside the steps.");
  }

  say(words) {
    const line = document.createElement("p");
    line.className = "nothing";
    line.textContent = words;
    this.place.replaceChildren(line);
  }

  showErrors(errors) {
    for (const old of this.form.querySelectorAll(".measure-error")) old.remove();
    for (const wrapper of this.form.querySelectorAll(".has-error")) wrapper.classList.remove("has-error");
    for (const old of this.form.querySelectorAll(".field-error")) old.remove();
    for (const [name, messages] of Object.entries(errors)) {
      const wrapper = document.getElementById(name === "marks" ? "marks-errors" : `div_id_${name}`);
      if (!wrapper) continue;
      wrapper.classList.add("has-error");
      for (const message of messages) {
        const line = document.createElement("p");
        line.className = "field-error measure-error";
        line.textContent = message;
        wrapper.append(line);
      }
    }
  }
}
