// Records every event of the form that a page can listen to, as the page receives it.
import { readFile } from "node:fs/promises";

/** Starts recording, from the page's first moment on. */
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

/** The events recorded so far. */
export const heard = (page) => page.evaluate(() => globalThis.heardSoFar());

// What each event may carry, from the package's manifest. A step's name is an id of the form in lower-case letters and hyphens, which
// leaves no room for an answer.
const manifest = JSON.parse(await readFile(new URL("../../../www/npm/custom-elements.json", import.meta.url), "utf8"));
const KINDS = { boolean: (there) => typeof there === "boolean", string: (word) => /^[a-z-]*$/.test(word) };

/** A check for each name in a type such as `CustomEvent<{ kind: "a" | "b"; step: string }>`. */
function checksOf(type) {
  const fields = type.match(/\{ (.*) \}/)?.[1].split("; ") ?? [];
  return Object.fromEntries(
    fields.map((field) => {
      const [name, kind] = field.split(": ");
      return [name, KINDS[kind] ?? ((word) => kind.split(" | ").includes(JSON.stringify(word)))];
    }),
  );
}

const { events } = manifest.modules[0].declarations[0];
const TELLS = Object.fromEntries(events.map(({ name, type }) => [name, checksOf(type.text)]));

/**
 * What is wrong with these events, one sentence each: an unknown name, a detail that the manifest does not allow or
 * that is missing, an event that does not reach the page.
 */
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
