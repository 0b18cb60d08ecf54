// The marks on a photo: points in pixels of the stored picture, which of them is chosen, and every
// step back. A point is [x, y, wide]; wide is how many of its pixels one pixel of the screen covers.

const FULL = { card: 4, line: 2, outline: 90 };

export const copy = (marks) => JSON.parse(JSON.stringify(marks));

export class PhotoMarks {
  constructor({ size, stored, changed }) {
    this.size = size;
    const { proposed, ...points } = stored;
    this.points = { card: [], line: [], outline: [], ...points };
    // Of each group what the computer proposed: {token, confirmed}.
    this.proposed = { ...proposed };
    this.group = "card";
    this.chosen = -1;
    this.past = [];
    this.changed = changed;
  }

  get here() {
    return this.points[this.group];
  }

  get full() {
    return FULL[this.group];
  }

  // Proposed, and not yet confirmed: it does not count.
  isOpen(group) {
    return Boolean(this.proposed[group]) && !this.proposed[group].confirmed;
  }

  propose(points, token) {
    this.remember();
    this.points[this.group] = points;
    this.proposed[this.group] = { token, confirmed: false };
    this.chosen = 0;
    this.changed();
  }

  // What is less than a pixel of the screen is not seen: no point is surer than the eye on it.
  confirm(wide) {
    this.remember();
    this.points[this.group] = this.here.map(([x, y, own]) => [x, y, Math.max(own, wide)]);
    this.proposed[this.group].confirmed = true;
    this.changed();
  }

  remember() {
    this.past.push({ points: copy(this.points), proposed: copy(this.proposed), group: this.group, chosen: this.chosen });
    if (this.past.length > 200) this.past.shift();
  }

  undo() {
    const before = this.past.pop();
    if (!before) return false;
    Object.assign(this, before);
    this.changed();
    return true;
  }

  within([x, y]) {
    const clamp = (v, most) => Math.min(Math.max(v, 0), most);
    return [clamp(x, this.size[0]), clamp(y, this.size[1])];
  }

  // Where the new point lengthens the edge least: points may come in any order.
  place(point) {
    const points = this.here;
    if (this.group !== "outline" || points.length < 3) return points.length;
    const far = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1]);
    const longer = points.map((p, i) => {
      const next = points[(i + 1) % points.length];
      return far(p, point) + far(point, next) - far(p, next);
    });
    return longer.indexOf(Math.min(...longer)) + 1;
  }

  // ``index`` where it is known which point it follows.
  add(at, wide, index) {
    if (this.here.length >= this.full) return false;
    this.remember();
    const [x, y] = this.within(at);
    index ??= this.place([x, y]);
    this.here.splice(index, 0, [x, y, wide]);
    this.chosen = index;
    this.changed();
    return true;
  }

  move(index, at, wide) {
    const [x, y] = this.within(at);
    this.here[index] = [x, y, wide];
    this.chosen = index;
    this.changed();
  }

  nudge(dx, dy, wide) {
    const point = this.here[this.chosen];
    if (!point) return false;
    this.remember();
    this.move(this.chosen, [point[0] + dx, point[1] + dy], wide);
    return true;
  }

  choose(step) {
    const count = this.here.length;
    if (!count) return;
    this.chosen = this.chosen < 0 ? 0 : (this.chosen + step + count) % count;
    this.changed();
  }

  remove() {
    if (!this.here[this.chosen]) return false;
    this.remember();
    this.here.splice(this.chosen, 1);
    this.chosen = Math.min(this.chosen, this.here.length - 1);
    this.changed();
    return true;
  }

  clear() {
    if (!this.here.length) return;
    this.remember();
    this.points[this.group] = [];
    delete this.proposed[this.group];
    this.chosen = -1;
    this.changed();
  }

  turnTo(group) {
    if (group === this.group) return;
    this.group = group;
    this.chosen = this.here.length - 1;
    this.changed();
  }
}
