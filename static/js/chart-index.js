// The part being charted is marked in the index: the one across the reading line, a quarter down
// the window; or the one that was asked for, as long as it is near the top.

export function watchIndex(index) {
  const links = new Map([...index.querySelectorAll("a")].map((a) => [a.hash.slice(1), a]));
  const parts = [...document.querySelectorAll(".part")];
  const across = new Set();
  let asked = null;

  const isNearTop = (part) => {
    const { top } = part.getBoundingClientRect();
    return top >= 0 && top < window.innerHeight * 0.4;
  };
  const mark = () => {
    if (asked && !isNearTop(asked)) asked = null;
    const here = asked || parts.find((part) => across.has(part));
    if (!here) return;
    for (const link of links.values()) link.removeAttribute("aria-current");
    links.get(here.id)?.setAttribute("aria-current", "true");
  };

  const line = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) across[isIntersecting ? "add" : "delete"](target);
      mark();
    },
    { rootMargin: "-25% 0px -74% 0px" },
  );
  for (const part of parts) line.observe(part);
  window.addEventListener("hashchange", () => {
    asked = parts.find((part) => part.id === window.location.hash.slice(1)) || null;
    mark();
  });
}
