// Shows that the program is being loaded, or can't be, in the notices that each panel and the first screen have. A part of presurvey.js.

export const WAITS = ".waiting";
export const ABSENT = ".absent";

/**
 * Shows one of the notices of the element `shown`, or none: that a press of the main button waits for the program (`WAITS`), or that it
 * can't be loaded (`ABSENT`). `again` is called when the network is back, or when the button to try again is pressed.
 */
export function sayWaiting(shown, what, again) {
  for (const place of [WAITS, ABSENT]) shown.querySelectorAll(place).forEach((one) => (one.hidden = place !== what));
  shown.querySelector(".main")?.classList.toggle("pressed", what === WAITS);
  if (!again) return;
  addEventListener("online", again, { once: true });
  const button = shown.querySelector("[data-does=try]");
  if (button) button.onclick = again;
}

/** Calls `work` once the page has been painted; on a hidden page, which gets no animation frame, after a moment. */
export function afterPaint(work) {
  let done = false;
  const once = () => done || ((done = true), work());
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 300);
}
