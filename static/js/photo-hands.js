// Hands on the photo: pointer, finger and keyboard.

const TAP = 8; // px of the screen: moved less than this, it was a tap
const ON_IT = 10; // a tap so near chooses the point that is there
const ARROWS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };

export class PhotoHands {
  constructor(svg, marks, { wide, zoom, show }) {
    Object.assign(this, { svg, marks, wide, zoom, show });
    this.held = null;
  }

  watch() {
    const { svg } = this;
    svg.addEventListener("pointerdown", (event) => this.down(event));
    svg.addEventListener("pointermove", (event) => this.moved(event));
    svg.addEventListener("pointerup", (event) => this.up(event));
    svg.addEventListener("pointercancel", () => { this.held = null; });
    svg.addEventListener("keydown", (event) => this.key(event));
  }

  at({ clientX, clientY }) {
    const { x, y } = new DOMPoint(clientX, clientY).matrixTransform(this.svg.getScreenCTM().inverse());
    return [x, y];
  }

  // The nearest of the points whose handle lies under the finger.
  nearest(at) {
    const far = this.marks.here.map(([x, y]) => Math.hypot(x - at[0], y - at[1]) / this.wide());
    const least = Math.min(...far);
    return { index: far.indexOf(least), far: least };
  }

  down(event) {
    if (event.button !== 0 || !event.isPrimary) return;
    const at = this.at(event);
    const { index, far } = this.nearest(at);
    const onHandle = event.target.dataset?.index !== undefined;
    this.held = { start: [event.clientX, event.clientY], index: onHandle ? index : -1, far, dragged: false, point: this.marks.here[index] };
    if (onHandle) {
      this.held.off = [this.held.point[0] - at[0], this.held.point[1] - at[1]];
      this.svg.setPointerCapture(event.pointerId);
    }
  }

  moved(event) {
    const { held } = this;
    if (!held) return;
    if (!held.dragged && Math.hypot(event.clientX - held.start[0], event.clientY - held.start[1]) < TAP) return;
    if (!held.dragged && held.index >= 0) this.marks.remember();
    held.dragged = true;
    if (held.index < 0) return;
    const [x, y] = this.at(event);
    this.marks.move(held.index, [x + held.off[0], y + held.off[1]], this.wide());
  }

  up(event) {
    const { held } = this;
    this.held = null;
    if (!held || held.dragged) return;
    this.svg.focus({ preventScroll: true });
    if (held.index >= 0 && (held.far <= ON_IT || this.marks.here.length >= this.marks.full)) {
      this.marks.chosen = held.index;
      this.marks.changed();
    } else this.marks.add(this.at(event), this.wide());
  }

  // A new point from the keyboard begins beside the chosen one and follows it, wherever the arrows
  // then take it; the first one begins in the middle of what is seen.
  addBeside() {
    const chosen = this.marks.here[this.marks.chosen];
    const box = this.svg.parentElement.getBoundingClientRect();
    const middle = this.at({ clientX: box.left + box.width / 2, clientY: box.top + box.height / 2 });
    const at = chosen ? [chosen[0] + 12 * this.wide(), chosen[1]] : middle;
    this.marks.add(at, this.wide(), this.marks.chosen + 1);
    this.show();
  }

  nudge(dx, dy, far = 1) {
    const step = this.wide() * far;
    if (this.marks.nudge(dx * step, dy * step, this.wide())) this.show();
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) {
      if (event.key === "z" && !event.altKey) this.done(event, () => this.marks.undo());
      return;
    }
    const arrow = ARROWS[event.key];
    if (arrow) return this.done(event, () => this.nudge(...arrow, event.shiftKey ? 10 : 1));
    const acts = {
      " ": () => this.addBeside(),
      PageDown: () => this.chooseNext(1),
      PageUp: () => this.chooseNext(-1),
      Delete: () => this.marks.remove(),
      Backspace: () => this.marks.remove(),
      "+": () => this.zoom(2),
      "-": () => this.zoom(0.5),
    };
    if (acts[event.key]) this.done(event, acts[event.key]);
  }

  chooseNext(step) {
    this.marks.choose(step);
    this.show();
  }

  done(event, act) {
    event.preventDefault();
    act();
  }
}
