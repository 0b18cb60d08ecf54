// The part being charted is marked in the index: the first one under the reading line.

export function watchIndex(index) {
  const links = new Map([...index.querySelectorAll("a")].map((a) => [a.hash.slice(1), a]));
  const parts = [...document.querySelectorAll(".part")];
  const inSight = new Set();
  const mark = () => {
    const here = parts.find((part) => inSight.has(part));
    if (!here) return;
    for (const link of links.values()) link.removeAttribute("aria-current");
    links.get(here.id)?.setAttribute("aria-current", "true");
  };
  const seen = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) inSight[isIntersecting ? "add" : "delete"](target);
      mark();
    },
    { rootMargin: "-25% 0px -65% 0px" },
  );
  for (const part of parts) seen.observe(part);
}
