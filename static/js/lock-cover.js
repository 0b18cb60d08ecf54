// What lies over a locked page. The page beneath is neither seen, nor read out, nor reached by a
// key; it keeps its place, its focus and all that was typed.

export class LockCover {
  constructor() {
    this.address = "/sign-in/locked/";
    this.on = false;
  }

  put() {
    this.on = true;
    this.focused = document.activeElement;
    this.title = document.title;
    document.title = "Locked";
    this.beneath = [...document.body.children].filter((one) => !one.inert);
    for (const one of this.beneath) one.inert = true;
    document.documentElement.classList.add("lock-covered");
    this.box = document.createElement("div");
    this.box.className = "lock-cover";
    document.body.append(this.box);
    this.say("Locking…");
  }

  take() {
    this.on = false;
    this.box.remove();
    for (const one of this.beneath) one.inert = false;
    document.documentElement.classList.remove("lock-covered");
    document.title = this.title;
    this.focused?.focus({ preventScroll: true });
  }

  // Words, and what can be done: ask the server again, sign in in a new tab.
  say(words, { again, signIn } = {}) {
    const inner = document.createElement("main");
    inner.append(Object.assign(document.createElement("h1"), { textContent: "Locked" }));
    inner.append(Object.assign(document.createElement("p"), { className: "lead", role: "status", textContent: words }));
    const actions = Object.assign(document.createElement("div"), { className: "actions" });
    if (signIn) actions.append(Object.assign(document.createElement("a"), { href: "/sign-in/", target: "_blank", rel: "noopener", className: "button primary", textContent: "Sign in" }));
    if (again) {
      const button = Object.assign(document.createElement("button"), { type: "button", className: "button", textContent: "Try again" });
      button.addEventListener("click", () => again());
      actions.append(button);
    }
    inner.append(actions);
    this.box.replaceChildren(inner);
    actions.firstElementChild?.focus();
  }

  // The server's own form. Somebody else signs in in a new tab: this page stays where it is.
  show(screen, unlock) {
    const inner = document.createElement("main");
    inner.append(document.adoptNode(screen));
    this.box.replaceChildren(inner);
    for (const words of inner.querySelectorAll("[data-covered]")) words.hidden = false;
    const form = inner.querySelector("#unlock-form");
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      unlock(new FormData(form));
    });
    inner.querySelector("#switch-form").target = "_blank";
    this.password = form.elements.password;
    this.password.focus();
  }

  wrong(words) {
    let line = this.box.querySelector("#lock-wrong");
    if (!line) {
      line = Object.assign(document.createElement("p"), { id: "lock-wrong", className: "notice bad", role: "alert" });
      this.box.querySelector("#unlock-form").prepend(line);
    }
    line.textContent = words;
    this.password.value = "";
    this.password.focus();
  }
}
