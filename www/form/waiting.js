// The wait for the program, on whatever is shown meanwhile: it has places for what is said of it. A part of presurvey.js.

export const WAITS = ".waiting";
export const ABSENT = ".absent";

/**
 * Says how far the program is: a press of the main button waits for it (`WAITS`), or it does not come (`ABSENT`), or nothing.
 * What does not come is tried `again` when there is a network, or at the press of a button.
 */
export function sayWaiting(shown, what, again) {
  for (const place of [WAITS, ABSENT]) shown.querySelectorAll(place).forEach((one) => (one.hidden = place !== what));
  shown.querySelector(".main")?.classList.toggle("pressed", what === WAITS);
  if (!again) return;
  addEventListener("online", again, { once: true });
  const button = shown.querySelector("[data-does=try]");
  if (button) button.onclick = again;
}

/** Does this once the page has been painted; a hidden page is given no frame, then a moment is enough. */
export function afterPaint(work) {
  let done = false;
  const once = () => done || ((done = true), work());
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 300);
}
