// Before the form leaves: is anybody still signed in? A diary half typed is not lost to a session
// that ran out while the paper was being deciphered.

const SIGNED_OUT = "Nothing was saved: you are signed out, or the connection was lost. Sign in in another tab, then press the button here again; what you typed is still here.";
const SOMEBODY_ELSE = "Nothing was saved: someone else is signed in now. Sign in as yourself in another tab, then press the button here again.";

async function answers(form) {
  const data = new URLSearchParams({ csrfmiddlewaretoken: form.elements.csrfmiddlewaretoken.value });
  const response = await fetch(form.dataset.read, { method: "POST", body: data, redirect: "manual" }).catch(() => null);
  return Boolean(response?.ok);
}

// After signing in again the token is another: the page is fetched again for the new one.
async function whyNot(form) {
  if (await answers(form)) return "";
  const response = await fetch(form.dataset.page, { redirect: "manual" }).catch(() => null);
  if (!response?.ok) return SIGNED_OUT;
  const fresh = new DOMParser().parseFromString(await response.text(), "text/html").getElementById(form.id);
  if (!fresh) return SIGNED_OUT;
  if (fresh.dataset.who !== form.dataset.who) return SOMEBODY_ELSE;
  const token = fresh.elements.csrfmiddlewaretoken.value;
  for (const input of document.querySelectorAll('input[name="csrfmiddlewaretoken"]')) input.value = token;
  return "";
}

export function sendWhenSignedIn(form, say, leaving) {
  let cleared = false;
  form.addEventListener("submit", async (event) => {
    if (cleared) {
      leaving();
      return;
    }
    event.preventDefault();
    const why = await whyNot(form);
    if (why) {
      say(why);
      return;
    }
    cleared = true;
    form.requestSubmit(event.submitter);
    cleared = false;
  });
}
