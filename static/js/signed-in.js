// After signing in again elsewhere, this page's token is stale: the page is fetched again
// and its token taken over, if it is the same person. The sealing key tells: it is their own.

export const SAME = "same";
export const OTHER = "other";
const NOBODY = "nobody";

export async function renew(form) {
  const response = await fetch(window.location.href, { credentials: "same-origin", redirect: "manual" }).catch(() => null);
  if (!response?.ok) return NOBODY;
  const fresh = new DOMParser().parseFromString(await response.text(), "text/html").getElementById(form.id);
  if (!fresh) return NOBODY;
  if (fresh.dataset.sealingKey !== form.dataset.sealingKey) return OTHER;
  const token = fresh.elements.csrfmiddlewaretoken.value;
  for (const input of document.querySelectorAll('input[name="csrfmiddlewaretoken"]')) input.value = token;
  return SAME;
}
