// Whether the page is saved, in words at the foot; what needs a decision, on top.

export class SaveStatus {
  constructor() {
    this.line = document.getElementById("save-status");
    this.notice = document.getElementById("page-notice");
  }

  say(words, state) {
    if (this.line.textContent !== words) this.line.textContent = words;
    this.line.dataset.state = state;
  }

  tell(words, href, label, newTab = false) {
    if (this.notice.dataset.words === words) return; // said already: no second scroll
    const box = document.createElement("div");
    box.className = "notice bad";
    const link = document.createElement("a");
    link.href = href;
    link.textContent = label;
    if (newTab) Object.assign(link, { target: "_blank", rel: "noopener" });
    box.append(words, " ", link);
    this.notice.replaceChildren(box);
    this.notice.dataset.words = words;
    this.notice.scrollIntoView({ block: "center" });
  }

  clear() {
    this.notice.replaceChildren();
    delete this.notice.dataset.words;
  }
}
