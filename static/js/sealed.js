// What could not be sent is kept on this device, encrypted with a key that only the signed-in
// page holds. Nothing readable is ever written to the browser's storage.

const encoder = new TextEncoder();
const decoder = new TextDecoder();
const toText = (bytes) => btoa(String.fromCharCode(...new Uint8Array(bytes)));
const toBytes = (text) => Uint8Array.from(atob(text), (c) => c.charCodeAt(0));

export class Sealed {
  constructor(form) {
    this.place = `unsent-${form.dataset.draft}`;
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

  async read() {
    const kept = localStorage.getItem(this.place);
    if (!kept || !this.key) return null;
    try {
      const { iv, data } = JSON.parse(kept);
      const plain = await crypto.subtle.decrypt({ name: "AES-GCM", iv: toBytes(iv) }, await this.key, toBytes(data));
      return decoder.decode(plain);
    } catch {
      return null; // another person's, or damaged
    }
  }

  forget() {
    localStorage.removeItem(this.place);
  }
}
