// For a page that has frame.html in an iframe: makes the iframe as tall as the form, scrolls its top into view when another screen begins,
// and dispatches the form's events on the iframe, from where they reach the document. Must be loaded from the same origin as frame.html: it
// accepts messages from that origin only.
import { EVENTS } from "./declared.js";

const LEAST = 200;
const MOST = 20_000;
const home = new URL(import.meta.url).origin;

const frames = () => [...document.querySelectorAll("iframe")];

addEventListener("message", ({ origin, source, data }) => {
  const said = data?.presurvey;
  if (origin !== home || !said) return;
  const frame = frames().find((one) => one.contentWindow === source);
  if (!frame) return;
  if (Number.isFinite(said.height)) frame.style.height = `${Math.min(MOST, Math.max(LEAST, Math.ceil(said.height)))}px`;
  if (EVENTS.includes(said.event)) frame.dispatchEvent(new CustomEvent(said.event, { bubbles: true, composed: true, detail: said.detail }));
  if (said.step && frame.getBoundingClientRect().top < 0) frame.scrollIntoView();
});

// A frame that was loaded before this script has sent its height already: it is asked to send it again.
for (const frame of frames()) {
  if (URL.canParse(frame.src) && new URL(frame.src).origin === home) frame.contentWindow.postMessage({ presurvey: "how tall" }, "*");
}
