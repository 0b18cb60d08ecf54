// Locking the screen without losing the page. It is covered at once, in every tab; what waits to
// be saved goes out; then the server locks the session and opens no page until the password is
// typed. The page lies unchanged beneath, and belongs to whom it was shown to.

import { LockCover } from "./lock-cover.js";

const SAVES_AT_MOST = 4000;

const form = document.getElementById("lock-form");
const tabs = new BroadcastChannel("lock");
const person = form?.dataset.person;

function post(to, fields) {
  return fetch(to, { method: "POST", body: new URLSearchParams(fields), credentials: "same-origin", redirect: "manual" }).catch(() => null);
}

// The server's own page of the lock, of the person who is signed in now; null without one.
async function lockPage() {
  const response = await fetch(cover.address, { credentials: "same-origin", redirect: "manual" }).catch(() => null);
  if (!response) throw new Error("away");
  if (!response.ok) return null;
  return new DOMParser().parseFromString(await response.text(), "text/html").getElementById("lock-screen");
}

// What saves by itself does it now; but a server that is slow or away holds up no lock.
async function lettingSave() {
  const saves = [];
  document.dispatchEvent(new CustomEvent("locking", { detail: { wait: (save) => saves.push(save) } }));
  await Promise.race([Promise.allSettled(saves), new Promise((done) => { setTimeout(done, SAVES_AT_MOST); })]);
}

async function lock() {
  if (cover.on) return;
  cover.put();
  tabs.postMessage({ locked: person });
  await lettingSave();
  const answer = await post(form.action, new FormData(form));
  if (answer?.type !== "opaqueredirect") return cover.say("Covered, but not locked: the clinic's server was not reached. Stay at the computer, or close the browser.", { again: lockAgain });
  await show();
}

async function lockAgain() {
  cover.take();
  await lock();
}

async function show(words = "") {
  const screen = await lockPage().catch(() => undefined);
  if (screen === undefined) return cover.say("The clinic's server was not reached.", { again: show });
  if (!screen || screen.dataset.person !== person) {
    return cover.say(screen ? "Someone else is signed in on this computer. This page waits for the person it was shown to." : "Signed out. Sign in again in a new tab; then come back to this page.", { again: show, signIn: !screen });
  }
  cover.show(screen, unlock);
  if (words) cover.wrong(words);
}

async function unlock(entries) {
  const answer = await post(cover.address, entries);
  if (!answer) return cover.wrong("The clinic's server was not reached. Try again.");
  // Signed in again in another tab: the form is an old one.
  if (answer.status === 403) return show("Type your password again.");
  if (answer.type !== "opaqueredirect") {
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    return cover.wrong(page.querySelector(".field-error")?.textContent.trim() || "This is not your password.");
  }
  // Led on: unlocked, or signed out after too many wrong passwords. The lock's page tells.
  const token = entries.get("csrfmiddlewaretoken");
  if (!(await lockPage().catch(() => null))) return show();
  unlocked(token);
  tabs.postMessage({ unlocked: person, token });
}

function unlocked(token) {
  for (const input of document.querySelectorAll('input[name="csrfmiddlewaretoken"]')) input.value = token;
  cover.take();
  document.dispatchEvent(new CustomEvent("unlocked"));
}

const cover = new LockCover();

if (form) {
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    lock();
  });
  document.addEventListener("keydown", (event) => {
    if (!(event.altKey && event.shiftKey && event.code === "KeyL")) return;
    event.preventDefault();
    lock();
  });
  tabs.addEventListener("message", ({ data }) => {
    if (data.locked === person && !cover.on) {
      cover.put();
      lettingSave().then(() => show());
    }
    if (data.unlocked === person && cover.on) unlocked(data.token);
  });
}
