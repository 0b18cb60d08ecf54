// What is wrong with the page in front of us, as lines of words; an empty list where nothing is.
// axe-core's rules (WCAG 2.2 A and AA, and good practice; of them `rules` alone where given), then
// what it has no rule for.
async ({ rules, touch }) => {
  const faults = [];
  const what = (e) => `<${e.tagName.toLowerCase()}${e.id ? ` #${e.id}` : ""}> ${(e.name || e.textContent || "").trim().slice(0, 40)}`;
  const all = (selector) => [...document.querySelectorAll(selector)];
  const shown = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: false }) && e.getClientRects().length > 0;

  // Contrast is by far the slowest rule. Words alike in colour, grounds, size and weight have the
  // same, so that one of each look is measured.
  const LOOK = "data-look";
  for (const e of all(`[${LOOK}]`)) e.removeAttribute(LOOK);
  const looks = new Set();
  const seen = new Set();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const grounds = new Map([[null, ""]]);
  const groundOf = (e) => {
    if (!grounds.has(e)) {
      const { backgroundColor, backgroundImage, opacity } = getComputedStyle(e);
      grounds.set(e, `${groundOf(e.parentElement)} ${backgroundColor}${backgroundImage}${opacity}`.replaceAll(" rgba(0, 0, 0, 0)none1", ""));
    }
    return grounds.get(e);
  };
  while (walker.nextNode()) {
    const e = walker.currentNode.parentElement;
    if (seen.has(e) || !walker.currentNode.textContent.trim() || !shown(e)) continue;
    seen.add(e);
    const { color, fontSize, fontWeight } = getComputedStyle(e);
    const look = [color, fontSize, fontWeight, groundOf(e)].join();
    if (!looks.has(look)) e.setAttribute(LOOK, "");
    looks.add(look);
  }
  axe.configure({ rules: [{ id: "color-contrast", selector: `[${LOOK}]` }] });

  const only = rules
    ? { type: "rule", values: rules }
    : { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] };
  // What lies under a bar depends on where the page is scrolled to; test_bars.py looks at that.
  const bars = all("body *").filter((e) => /sticky|fixed/.test(getComputedStyle(e).position));
  for (const bar of bars) bar.style.position = "static";
  const { violations } = await axe.run(document, { runOnly: only, resultTypes: ["violations"], preload: false });
  for (const bar of bars) bar.style.position = "";
  for (const { id, nodes } of violations) {
    for (const node of nodes) faults.push(`${id}: ${node.target.join(" ")}: ${[...node.any, ...node.all, ...node.none].map((check) => check.message).join("; ")}`);
  }

  const wide = document.documentElement.scrollWidth;
  if (wide > window.innerWidth) {
    const widest = all("body *").filter((e) => shown(e) && e.getBoundingClientRect().right > window.innerWidth + 1 && !e.closest(".table-wrap"));
    faults.push(`scrolls sideways: ${wide} px, because of ${widest.slice(0, 3).map(what)}`);
  }
  if (!rules) {
    if (all("h1").length !== 1) faults.push(`${all("h1").length} h1`);
    const ids = all("[id]").map((e) => e.id);
    for (const id of new Set(ids.filter((id, i) => ids.indexOf(id) !== i))) faults.push(`id twice: ${id}`);
    for (const name of ["aria-describedby", "aria-labelledby", "aria-controls", "for"]) {
      for (const e of all(`[${name}]`)) {
        const missing = e.getAttribute(name).split(" ").filter((id) => id && !document.getElementById(id));
        if (missing.length) faults.push(`${name} of ${what(e)} leads nowhere: ${missing}`);
      }
    }
    for (const e of all("fieldset")) if (!e.querySelector(":scope > legend")?.textContent.trim()) faults.push(`no legend: ${what(e)}`);
  }

  // Targets: 44 px both ways where fingers go. A choice is hit by its whole label.
  if (touch) {
    for (const e of all("button, input:not([type=hidden], [type=file]), select, textarea, summary, a.button, nav a")) {
      const target = e.matches("[type=checkbox], [type=radio]") ? e.closest("label") || e : e;
      const clipped = target.closest(".visually-hidden") || getComputedStyle(target).clipPath === "inset(50%)";
      if (!shown(target) || clipped || target.closest("[inert]")) continue;
      const { width, height } = target.getBoundingClientRect();
      if (Math.min(width, height) < 43.5) faults.push(`small target ${Math.round(width)} × ${Math.round(height)}: ${what(e)}`);
    }
  }
  return faults;
};
