// For the page around an iframe with frame.html in it: makes the frame as tall as the form, and brings its top into
// view when another screen begins. Take it from the same place as frame.html: it believes that origin alone.
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
  if (said.step && frame.getBoundingClientRect().top < 0) frame.scrollIntoView();
});

// A frame that was ready before this script has told its height already: it is asked to tell it again.
for (const frame of frames()) {
  if (URL.canParse(frame.src) && new URL(frame.src).origin === home) frame.contentWindow.postMessage({ presurvey: "how tall" }, "*");
}
