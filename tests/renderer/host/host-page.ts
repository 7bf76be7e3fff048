/** A page that is nothing but its host: browser-host.test.ts talks to it through `window`. */
import { makeHost } from "../../../renderer/document/host/make-host.ts";

declare global {
  interface Window {
    host: ReturnType<typeof makeHost>;
  }
}

window.host = makeHost();
// The test asks for it and sees the refusal; here nobody does.
window.host.catch(() => {});
