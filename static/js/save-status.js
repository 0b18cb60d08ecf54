// Whether the page is saved, in words at the foot; what needs a decision, on top.

import { say } from "./say.js";

export class SaveStatus {
  constructor() {
    this.line = document.getElementById("save-status");
    this.notice = document.getElementById("page-notice");
    this.line.textContent = `Saves by itself. ${this.line.textContent}`;
  }

  say(words, state) {
    say(this.line, words);
    this.line.dataset.state = state;
  }

  // Saved is only said in green where every entry was taken.
  saved(at, wrong) {
    if (!wrong) return this.say(`Saved ${at}`, "saved");
    return this.say(`Saved ${at}, ${wrong} ${wrong === 1 ? "entry" : "entries"} to correct`, "correct");
  }

  tell(words, href, label, newTab = false) {
    if (this.notice.dataset.words === words) return; // said already: no second scroll
    const link = document.createElement("a");
    link.href = href;
    link.textContent = label;
    if (newTab) Object.assign(link, { target: "_blank", rel: "noopener" });
    this.show(words, [words, " ", link]);
  }

  // Several lines, and buttons: words -> what a press does.
  list(words, lines, buttons) {
    const list = document.createElement("ul");
    for (const line of lines) list.append(Object.assign(document.createElement("li"), { textContent: line }));
    const actions = Object.assign(document.createElement("div"), { className: "actions" });
    for (const [label, act] of Object.entries(buttons)) {
      const button = Object.assign(document.createElement("button"), { type: "button", className: "button small", textContent: label });
      button.addEventListener("click", act);
      actions.append(button);
    }
    this.show(words, [words, list, actions]);
  }

  show(words, content) {
    const box = document.createElement("div");
    box.className = "notice bad";
    box.append(...content);
    this.notice.replaceChildren(box);
    this.notice.dataset.words = words;
    this.notice.scrollIntoView({ block: "center" });
  }

  clear() {
    this.notice.replaceChildren();
    delete this.notice.dataset.words;
  }
}
