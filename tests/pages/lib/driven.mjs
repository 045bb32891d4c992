// A page in a browser driven by WebDriver, with those parts of playwright's page interface that the tests use.
import { writeFile } from "node:fs/promises";
import { PHONE } from "./browser.mjs";
import { ELEMENT, Refused } from "./webdriver.mjs";

const PATIENCE = 20_000; // how long to wait for anything, in milliseconds

/** Repeats `ask` until it returns something truthy, and returns that; fails after a time limit, naming `what`. */
export async function until(what, ask) {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const answer = await ask();
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`${what}: not within ${PATIENCE} ms`);
    await new Promise((later) => setTimeout(later, 30));
  }
}

/** Runs in the page: from now on records uncaught errors and refusals of the content security policy. */
const LISTEN = () => {
  const note = (text) => (document.documentElement.dataset.problems = `${document.documentElement.dataset.problems ?? ""}${text}\n`);
  addEventListener("error", (event) => note(`uncaught: ${event.message}`));
  addEventListener("unhandledrejection", (event) => note(`uncaught: ${event.reason}`));
  document.addEventListener("securitypolicyviolation", (event) => note(`refused: ${event.violatedDirective} ${event.blockedURI}`));
};

/** Runs in the page: deletes everything that its origin stores on the device; called while none of it is in use. */
const FORGET = async () => {
  localStorage.clear();
  sessionStorage.clear();
  for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
  for (const name of await caches.keys()) await caches.delete(name);
  for (const { name } of await indexedDB.databases()) {
    await new Promise((done, fail) => Object.assign(indexedDB.deleteDatabase(name), { onsuccess: done, onerror: fail, onblocked: fail }));
  }
};

/** A new page in a browser that has only one: what the page before it stored on the device is deleted. */
export async function newPage(command, output, before) {
  await before?.forget();
  const page = new Page(command, output);
  await page.setViewportSize(PHONE);
  return page;
}

/** The part of playwright's page that the tests use, implemented by WebDriver commands. */
class Page {
  #command;
  #output;
  #heard;
  #before = [];
  keyboard;

  constructor(command, output) {
    this.#command = command;
    this.#output = output;
    this.#heard = output().length;
    this.keyboard = new Keyboard(command);
  }

  /** The problems of the page, as far as they can be known; Firefox's own messages, which come in the same output, are left out. */
  get problems() {
    const printed = this.#output().slice(this.#heard).split("\n").filter((line) => /JavaScript error: http|console\.error: "/.test(line));
    return this.#noted().then((noted) => [...printed, ...this.#before, ...noted]);
  }

  async #noted() {
    const text = await this.evaluate(() => document.documentElement.dataset.problems ?? "");
    return text.split("\n").filter(Boolean);
  }

  async #go(name, parameters) {
    this.#before.push(...(await this.#noted()));
    await this.#command(name, parameters);
    await this.evaluate(LISTEN);
  }

  goto(url) {
    return this.#go("Navigate", { url });
  }

  reload() {
    return this.#go("Refresh");
  }

  async forget() {
    const { origin, protocol } = new URL(await this.evaluate(() => location.href));
    if (!protocol.startsWith("http")) return;
    await this.#go("Navigate", { url: `${origin}/nothing-is-here` });
    await this.evaluate(FORGET);
  }

  /**
   * Resizes the window so that the page has this size, centred on the screen. Xvfb's pointer is there, and without a window manager the
   * window under the pointer has the keyboard: elsewhere WebKit's page would show no focus.
   */
  async setViewportSize({ width, height }) {
    const [across, down, wide, high] = await this.evaluate(() => [outerWidth - innerWidth, outerHeight - innerHeight, screen.width, screen.height]);
    const size = { width: width + across, height: height + down };
    const [x, y] = [wide - size.width, high - size.height].map((left) => Math.max(0, Math.floor(left / 2)));
    await this.#command("SetWindowRect", { ...size, x, y });
    const wanted = `${width} x ${height}`;
    await until(`a page of ${wanted}`, async () => (await this.evaluate(() => `${innerWidth} x ${innerHeight}`)) === wanted);
  }

  /** Takes a picture of the visible part of the page. */
  async screenshot({ path }) {
    await writeFile(path, Buffer.from(await this.#command("TakeScreenshot", { full: false }), "base64"));
  }

  /** Calls a function in the page and returns its result. */
  async evaluate(work, given) {
    const script = `const done = arguments[arguments.length - 1];
      Promise.resolve().then(() => (${work})(arguments[0])).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
    const { value, error } = await this.#command("ExecuteAsyncScript", { script, args: [given ?? null] });
    if (error !== undefined) throw new Error(`in the page: ${error}`);
    return value;
  }

  waitForFunction(work, given) {
    return until(String(work), () => this.evaluate(work, given));
  }

  locator(selector) {
    return new Locator(this, this.#command, [selector]);
  }
}

/** WebDriver's code points for keys that type no character ("Keyboard actions"). */
const KEYS = { Tab: "\uE004", Enter: "\uE006", Shift: "\uE008", ArrowUp: "\uE013", ArrowDown: "\uE015", Space: " " };

class Keyboard {
  #command;

  constructor(command) {
    this.#command = command;
  }

  #strike(actions) {
    return this.#command("PerformActions", { actions: [{ type: "key", id: "keys", actions }] });
  }

  /** Presses a key by its name, or several keys together: `Shift+Tab`. */
  press(together) {
    const keys = together.split("+").map((name) => KEYS[name] ?? name);
    const down = keys.map((value) => ({ type: "keyDown", value }));
    const up = keys.toReversed().map((value) => ({ type: "keyUp", value }));
    return this.#strike([...down, ...up]);
  }

  /** Types a text key by key. */
  type(text) {
    return this.#strike([...text].flatMap((value) => ["keyDown", "keyUp"].map((type) => ({ type, value }))));
  }
}

/**
 * Runs in the page: finds elements by a list of selectors, each inside what the one before found; the first also
 * searches open shadow roots.
 */
const FIND = (selectors) => {
  const everywhere = (root, selector) => [
    ...root.querySelectorAll(selector),
    ...[...root.querySelectorAll("*")].filter((one) => one.shadowRoot).flatMap((one) => everywhere(one.shadowRoot, selector)),
  ];
  return selectors.reduce(
    (found, step) => (typeof step === "number" ? found.slice(step).slice(0, 1) : found.flatMap((one) => everywhere(one, step))),
    [document],
  );
};

/** What a locator can do in the page with the elements that it found, by name. */
const DEEDS = {
  count: (found) => found.length,
  visible: (found) => found.length > 0 && found[0].checkVisibility() && found[0].getBoundingClientRect().height > 0,
  text: ([one]) => one.textContent,
  shown: ([one]) => one.innerText,
  checked: ([one]) => one.checked,
  value: ([one]) => one.value,
  element: ([one]) => (one.scrollIntoView({ block: "center" }), one),
};

class Locator {
  #page;
  #command;
  #steps;

  constructor(page, command, steps) {
    this.#page = page;
    this.#command = command;
    this.#steps = steps;
  }

  locator(selector) {
    return new Locator(this.#page, this.#command, [...this.#steps, selector]);
  }

  first() {
    return this.nth(0);
  }

  last() {
    return this.nth(-1);
  }

  nth(at) {
    return new Locator(this.#page, this.#command, [...this.#steps, at]);
  }

  #ask(deed, more) {
    const work = `({ steps, more }) => { const found = (${FIND})(steps); return (${deed})(found, more); }`;
    return this.#page.evaluate(work, { steps: this.#steps, more: more ?? null });
  }

  waitFor() {
    return until(`${this.#steps} to be seen`, () => this.#ask(DEEDS.visible));
  }

  count() {
    return this.#ask(DEEDS.count);
  }

  evaluateAll(work) {
    return this.#ask(work);
  }

  async evaluate(work, given) {
    await this.waitFor();
    return this.#ask(`([one], given) => (${work})(one, given)`, given);
  }

  isVisible() {
    return this.#ask(DEEDS.visible);
  }

  async textContent() {
    await this.waitFor();
    return this.#ask(DEEDS.text);
  }

  async innerText() {
    await this.waitFor();
    return this.#ask(DEEDS.shown);
  }

  async getAttribute(name) {
    await this.waitFor();
    return this.#ask(([one], name) => one.getAttribute(name), name);
  }

  /** Acts on the element by the browser's own input; tries again if the page has just redrawn the element. */
  async #touch(deed) {
    await until(`${this.#steps} to be touched`, async () => {
      if ((await this.count()) === 0) return false;
      try {
        const element = await this.#ask(DEEDS.element);
        await deed(element[ELEMENT]);
        return true;
      } catch (error) {
        const passing = ["stale element reference", "element click intercepted", "element not interactable", "no such element"];
        if (error instanceof Refused && passing.includes(error.error)) return false;
        throw error;
      }
    });
  }

  click() {
    return this.#touch((id) => this.#command("ElementClick", { id }));
  }

  async check() {
    await this.waitFor();
    if (await this.#ask(DEEDS.checked)) return;
    await this.click();
    await until(`${this.#steps} to be checked`, () => this.#ask(DEEDS.checked));
  }

  async fill(text) {
    await this.#touch(async (id) => {
      await this.#command("ElementClear", { id });
      await this.#command("ElementSendKeys", { id, text });
    });
    await until(`${this.#steps} to hold ${text}`, async () => (await this.#ask(DEEDS.value)) === text);
  }

  async selectOption(value) {
    await this.locator(`option[value="${value}"]`).click();
    await until(`${this.#steps} to be at ${value}`, async () => (await this.#ask(DEEDS.value)) === value);
  }
}
