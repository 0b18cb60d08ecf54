// What could not be sent is kept on this device, encrypted with a key that only the signed-in
// page holds. Nothing readable is ever written to the browser's storage. Each open page has a
// place of its own, under a name that differs from person to person: no one writes over, or
// takes away, what another page or another person left.

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const toText = (bytes) => btoa(String.fromCharCode(...new Uint8Array(bytes)));
const toBytes = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

export class Sealed {
  constructor(form, page) {
    this.places = `unsent-${form.dataset.sealingPlace}-`;
    this.place = this.places + page;
    this.key = crypto.subtle
      ? crypto.subtle.importKey("raw", toBytes(form.dataset.sealingKey), "AES-GCM", false, ["encrypt", "decrypt"])
      : null; // plain HTTP to another machine: the page still retries, it only cannot keep
  }

  async keep(body) {
    if (!this.key) return;
    const iv = crypto.getRandomValues(new Uint8Array(12));
    const data = await crypto.subtle.encrypt({ name: "AES-GCM", iv }, await this.key, encoder.encode(body));
    localStorage.setItem(this.place, JSON.stringify({ iv: toText(iv), data: toText(data) }));
  }

  // What earlier pages of the same person and draft left. What cannot be read stays where it is.
  async earlier() {
    if (!this.key) return [];
    const places = Object.keys(localStorage).filter((p) => p.startsWith(this.places) && p !== this.place);
    const copies = await Promise.all(places.map(async (place) => ({ place, body: await this.read(place) })));
    return copies.filter(({ body }) => body !== null);
  }

  async read(place) {
    try {
      const { iv, data } = JSON.parse(localStorage.getItem(place));
      const plain = await crypto.subtle.decrypt({ name: "AES-GCM", iv: toBytes(iv) }, await this.key, toBytes(data));
      return decoder.decode(plain);
    } catch {
      return null; // damaged
    }
  }

  forget(place = this.place) {
    localStorage.removeItem(place);
  }
}
