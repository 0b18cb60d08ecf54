// What has the focus and lies, wholly or in part, under a bar that stays in place: WCAG 2.2, 2.4.11
// and 2.4.12. Everything that takes the focus is given it, in order, as the Tab key would.
() => {
  const shown = (e) => e.checkVisibility({ visibilityProperty: true }) && e.getClientRects().length > 0;
  const bars = [...document.body.querySelectorAll("*")].filter((e) => /sticky|fixed/.test(getComputedStyle(e).position));
  const controls = [...document.querySelectorAll("a[href], button, input, select, textarea, summary, [tabindex]")];
  const covered = [];
  let focused = 0;
  for (const e of controls) {
    if (e.tabIndex < 0 || e.disabled || !shown(e)) continue;
    e.focus();
    if (document.activeElement !== e) continue;
    focused += 1;
    const box = e.getBoundingClientRect();
    if (box.height > window.innerHeight / 2) continue; // a drawing, which need not fit
    const under = bars.find((bar) => {
      if (bar.contains(e) || !shown(bar)) return false;
      const over = bar.getBoundingClientRect();
      return over.top + 1 < box.bottom && over.bottom - 1 > box.top && over.left + 1 < box.right && over.right - 1 > box.left;
    });
    const out = box.top < -1 || box.bottom > window.innerHeight + 1;
    if (under || out) covered.push(`${e.tagName} ${e.id || e.name || e.textContent.trim().slice(0, 40)} under ${under ? under.className || under.id : "the window's edge"}`);
  }
  return { focused, covered };
};
