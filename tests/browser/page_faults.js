// What is wrong with the page in front of us, as lines of words; an empty list where nothing is.
// WCAG 2.2: 1.1.1, 1.3.1, 1.4.3, 1.4.10, 2.4.2, 2.5.8 and 4.1.2, as far as a script can see.
({ touch }) => {
  const faults = [];
  const what = (e) => `<${e.tagName.toLowerCase()}${e.id ? ` #${e.id}` : ""}> ${(e.name || e.textContent || "").trim().slice(0, 40)}`;
  const all = (selector) => [...document.querySelectorAll(selector)];
  const shown = (e) => e.checkVisibility({ visibilityProperty: true, opacityProperty: false }) && e.getClientRects().length > 0;
  const named = (e) => (e.getAttribute("aria-label") || "").trim() || (e.getAttribute("aria-labelledby") || "").split(" ").some((id) => document.getElementById(id)?.textContent.trim());

  // Frame
  const wide = document.documentElement.scrollWidth;
  if (wide > window.innerWidth) {
    const widest = all("body *").filter((e) => shown(e) && e.getBoundingClientRect().right > window.innerWidth + 1 && !e.closest(".table-wrap"));
    faults.push(`scrolls sideways: ${wide} px, because of ${widest.slice(0, 3).map(what)}`);
  }
  if (!document.documentElement.lang) faults.push("no language");
  if (!document.title.trim()) faults.push("no title");
  if (all("h1").length !== 1) faults.push(`${all("h1").length} h1`);
  if (all("main").length !== 1) faults.push(`${all("main").length} main`);
  const ids = all("[id]").map((e) => e.id);
  for (const id of new Set(ids.filter((id, i) => ids.indexOf(id) !== i))) faults.push(`id twice: ${id}`);
  for (const name of ["aria-describedby", "aria-labelledby", "aria-controls", "for"]) {
    for (const e of all(`[${name}]`)) {
      const missing = e.getAttribute(name).split(" ").filter((id) => id && !document.getElementById(id));
      if (missing.length) faults.push(`${name} of ${what(e)} leads nowhere: ${missing}`);
    }
  }

  // Names
  for (const e of all("input:not([type=hidden]), select, textarea")) {
    if (![...(e.labels || [])].some((l) => l.textContent.trim()) && !named(e)) faults.push(`no label: ${what(e)}`);
  }
  for (const e of all("button, a[href], summary").filter(shown)) {
    const inside = e.textContent.trim() || [...e.querySelectorAll("img[alt]")].some((i) => i.alt.trim());
    if (!inside && !named(e)) faults.push(`no name: ${what(e)}`);
  }
  for (const e of all("img:not([alt])")) faults.push(`no alt: ${e.src}`);
  for (const e of all("svg[role=img]")) if (!named(e)) faults.push(`no name: ${what(e)}`);
  for (const e of all("fieldset")) if (!e.querySelector(":scope > legend")?.textContent.trim()) faults.push(`no legend: ${what(e)}`);

  // Contrast of text on its ground
  const parse = (colour) => colour.match(/[\d.]+/g).map(Number);
  const linear = (v) => (v / 255 <= 0.04045 ? v / 255 / 12.92 : ((v / 255 + 0.055) / 1.055) ** 2.4);
  const light = ([r, g, b]) => 0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b);
  const over = ([r, g, b, a = 1], under) => [r, g, b].map((v, i) => v * a + under[i] * (1 - a));
  const groundOf = (e) => {
    const layers = [];
    for (let at = e; at; at = at.parentElement) layers.push(parse(getComputedStyle(at).backgroundColor));
    return layers.reverse().reduce((under, layer) => over(layer, under), [255, 255, 255]);
  };
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const seen = new Set();
  while (walker.nextNode()) {
    const e = walker.currentNode.parentElement;
    if (!walker.currentNode.textContent.trim() || seen.has(e) || e.closest("svg, script, noscript, template, option") || !shown(e)) continue;
    seen.add(e);
    const style = getComputedStyle(e);
    const ground = groundOf(e);
    const [a, b] = [light(over(parse(style.color), ground)), light(ground)].sort((x, y) => y - x);
    const size = parseFloat(style.fontSize);
    const needed = size >= 24 || (size >= 18.66 && style.fontWeight >= 700) ? 3 : 4.5;
    const ratio = (a + 0.05) / (b + 0.05);
    if (ratio < needed) faults.push(`contrast ${ratio.toFixed(2)}: ${what(e)}`);
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
