// Every event of ours that a page can hear, as the page hears it.

/** Begins to note them, from the page's first moment on. */
export async function listen(page) {
  await page.addInitScript(() => {
    const heard = [];
    const send = EventTarget.prototype.dispatchEvent;
    EventTarget.prototype.dispatchEvent = function (event) {
      if (event.type.startsWith("presurvey")) {
        const { type, detail, bubbles, composed, cancelable } = event;
        heard.push({ type, detail: detail === null ? null : structuredClone(detail), bubbles, composed, cancelable });
      }
      return send.call(this, event);
    };
    Object.defineProperty(globalThis, "heardSoFar", { value: () => heard });
  });
}

/** What was heard so far. */
export const heard = (page) => page.evaluate(() => globalThis.heardSoFar());

const KINDS = ["screen", "question", "result", "contact", "sent"];
const COMPLEXITIES = ["straightforward", "more-involved", "depends-on-others", "look-first"];

// What each event may tell. A step's name is one of the form's own, in small letters and hyphens: no room for an answer.
const TELLS = {
  "presurvey-ready": {},
  "presurvey-step": { kind: (word) => KINDS.includes(word), step: (word) => /^[a-z-]*$/.test(word) },
  "presurvey-result": { complexity: (word) => COMPLEXITIES.includes(word), band: (there) => typeof there === "boolean" },
  "presurvey-sent": {},
  "presurvey-failed": { reason: (word) => /^[a-z-]+$/.test(word) },
};

/** What is wrong with these events, in a sentence each: another name, something told that is not theirs to tell. */
export function tellTales(events) {
  return events.flatMap(({ type, detail, bubbles, composed, cancelable }) => {
    const may = TELLS[type];
    if (!may) return [`${type} is no event of the form's`];
    const told = Object.entries(detail ?? {});
    const wrong = told.filter(([name, value]) => !may[name]?.(value)).map(([name, value]) => `${type} tells ${name}: ${value}`);
    const missing = Object.keys(may).filter((name) => !(name in (detail ?? {}))).map((name) => `${type} lacks ${name}`);
    return [...wrong, ...missing, ...(bubbles && composed && !cancelable ? [] : [`${type} does not reach the page`])];
  });
}
