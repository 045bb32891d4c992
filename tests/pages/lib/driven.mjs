// A page in a browser that is driven by the standard's commands, with the part of playwright's interface that the tests use.
import { writeFile } from "node:fs/promises";
import { PHONE } from "./browser.mjs";
import { ELEMENT, Refused } from "./webdriver.mjs";

const PATIENCE = 20_000; // for anything that is waited for

/** Asks again and again until the answer is something. */
export async function until(what, ask) {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const answer = await ask();
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`${what}: not within ${PATIENCE} ms`);
    await new Promise((later) => setTimeout(later, 30));
  }
}

/** Writes down, in the page, what goes wrong in it from now on: uncaught errors and refusals of its own policy. */
const LISTEN = () => {
  const note = (text) => (document.documentElement.dataset.problems = `${document.documentElement.dataset.problems ?? ""}${text}\n`);
  addEventListener("error", (event) => note(`uncaught: ${event.message}`));
  addEventListener("unhandledrejection", (event) => note(`uncaught: ${event.reason}`));
  document.addEventListener("securitypolicyviolation", (event) => note(`refused: ${event.violatedDirective} ${event.blockedURI}`));
};

/** Takes away all that the page's origin keeps on the device; called where nothing of it is in use. */
const FORGET = async () => {
  localStorage.clear();
  sessionStorage.clear();
  for (const worker of await navigator.serviceWorker.getRegistrations()) await worker.unregister();
  for (const name of await caches.keys()) await caches.delete(name);
  for (const { name } of await indexedDB.databases()) {
    await new Promise((done, fail) => Object.assign(indexedDB.deleteDatabase(name), { onsuccess: done, onerror: fail, onblocked: fail }));
  }
};

/** Another page in a browser of which one page is used: what the one before it kept on the device is gone. */
export async function newPage(command, output, before) {
  await before?.forget();
  const page = new Page(command, output);
  await page.setViewportSize(PHONE);
  return page;
}

/** The part of playwright's page that the tests use, by the standard's commands. */
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

  /** What was wrong, as far as it can be told; of itself Firefox writes to the same place. */
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
   * Makes the window as large as leaves this much to the page, around the middle of the screen. Xvfb's pointer stands there, and
   * without a window manager the keyboard belongs to the window under the pointer: elsewhere WebKit's page has no focus to show.
   */
  async setViewportSize({ width, height }) {
    const [across, down, wide, high] = await this.evaluate(() => [outerWidth - innerWidth, outerHeight - innerHeight, screen.width, screen.height]);
    const size = { width: width + across, height: height + down };
    const [x, y] = [wide - size.width, high - size.height].map((left) => Math.max(0, Math.floor(left / 2)));
    await this.#command("SetWindowRect", { ...size, x, y });
    const wanted = `${width} x ${height}`;
    await until(`a page of ${wanted}`, async () => (await this.evaluate(() => `${innerWidth} x ${innerHeight}`)) === wanted);
  }

  /** A picture of what is to be seen. */
  async screenshot({ path }) {
    await writeFile(path, Buffer.from(await this.#command("TakeScreenshot", { full: false }), "base64"));
  }

  /** What the function gives, called in the page. */
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

/** The standard's characters for keys that write none (WebDriver, "Keyboard actions"). */
const KEYS = { Tab: "\uE004", Enter: "\uE006", Shift: "\uE008", ArrowUp: "\uE013", ArrowDown: "\uE015", Space: " " };

class Keyboard {
  #command;

  constructor(command) {
    this.#command = command;
  }

  #strike(actions) {
    return this.#command("PerformActions", { actions: [{ type: "key", id: "keys", actions }] });
  }

  /** Presses a key by its name, or several together: `Shift+Tab`. */
  press(together) {
    const keys = together.split("+").map((name) => KEYS[name] ?? name);
    const down = keys.map((value) => ({ type: "keyDown", value }));
    const up = keys.toReversed().map((value) => ({ type: "keyUp", value }));
    return this.#strike([...down, ...up]);
  }

  /** Types a text, key by key. */
  type(text) {
    return this.#strike([...text].flatMap((value) => ["keyDown", "keyUp"].map((type) => ({ type, value }))));
  }
}

/** Finds what the selectors name, each within what the one before it found; the first goes into open shadow roots. */
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

/** What a locator does in the page to what it has found, by name. */
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

  /** Does something with the element by the browser's own input; again, where the page has just drawn it anew. */
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
