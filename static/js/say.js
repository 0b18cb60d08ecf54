// Words that a screen reader speaks as they change: what is the same is left untouched, since a
// live place that is written again is spoken again.

export function say(place, words) {
  if (place.textContent !== words) place.textContent = words;
}

// A live list: of its items only those whose words are new are put in, and so spoken.
export function sayList(list, items) {
  const old = [...list.children];
  const kept = items.map((item) => {
    const at = old.findIndex((was) => was.textContent === item.textContent);
    if (at < 0) return item;
    const [was] = old.splice(at, 1);
    Object.assign(was.dataset, item.dataset);
    return was;
  });
  for (const gone of old) gone.remove();
  kept.forEach((item, at) => list.children[at] !== item && list.insertBefore(item, list.children[at] ?? null));
}
