// How much of the window the bars take, for the style sheet: what gets the focus is scrolled clear
// of them, and the plan ends above the bar at the foot, wherever the page is scrolled to.

export function watchBars({ banner, foot, side }) {
  const taken = (bar) => (bar && /sticky|fixed/.test(getComputedStyle(bar).position) ? bar.offsetHeight : 0);
  // In a low window only the danger stays at the foot.
  const below = () => taken(foot) || taken(foot.querySelector("#alarm a"));
  const measure = () => {
    const { style } = document.documentElement;
    style.setProperty("--banner-height", `${taken(banner)}px`);
    style.setProperty("--foot-height", `${below()}px`);
    side.style.setProperty("--room", `${window.innerHeight - below() - side.getBoundingClientRect().top}px`);
  };
  const sizes = new ResizeObserver(measure);
  for (const bar of [banner, foot]) sizes.observe(bar);
  for (const name of ["scroll", "resize"]) window.addEventListener(name, measure, { passive: true });
}
