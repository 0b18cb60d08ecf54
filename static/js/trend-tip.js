// What one mark says, beside it. Meets WCAG 2.2, 1.4.13: dismissible, hoverable, persistent.

const PATIENCE = 300; // ms to get from a mark to what it says
const APART = 6; // px

export class Tip {
  constructor(figure) {
    this.figure = figure;
    this.box = document.createElement("p");
    this.box.className = "trend-tip";
    this.box.setAttribute("role", "tooltip");
    this.box.hidden = true;
    figure.append(this.box);
    this.waiting = 0;
    document.addEventListener("keydown", (event) => {
      if (event.key === "Escape") this.hide();
    });
  }

  holds(element) {
    return this.box.contains(element);
  }

  show(mark) {
    this.stay();
    this.box.textContent = mark.getAttribute("aria-label");
    this.box.hidden = false;
    this.place(mark.getBoundingClientRect());
  }

  // Above the mark, within the figure; below it where there is no room above in the window.
  place(at) {
    const frame = this.figure.getBoundingClientRect();
    const box = this.box.getBoundingClientRect();
    const middle = at.left + at.width / 2 - frame.left - box.width / 2;
    const left = Math.max(0, Math.min(middle, frame.width - box.width));
    const above = at.top - frame.top - box.height - APART;
    const hidden = at.top - box.height - APART < covered();
    this.box.style.left = `${left}px`;
    this.box.style.top = `${hidden ? at.bottom - frame.top + APART : above}px`;
  }

  stay() {
    clearTimeout(this.waiting);
  }

  hide() {
    this.stay();
    this.box.hidden = true;
  }

  // Back to the mark that has the keys, if one has; else away.
  hideSoon() {
    this.stay();
    this.waiting = setTimeout(() => {
      const focused = document.activeElement?.closest?.(".trend-mark");
      if (focused && this.figure.contains(focused) && !this.box.hidden) this.show(focused);
      else this.hide();
    }, PATIENCE);
  }
}

// The patient's banner stays at the top of the window.
function covered() {
  return document.querySelector(".patient-banner")?.getBoundingClientRect().bottom || 0;
}
