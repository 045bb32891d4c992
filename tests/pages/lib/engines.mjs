// The three engines that people's browsers are made of, each driven as far as a journey through the form needs it.
//
// Chromium is driven by playwright. Firefox and WebKit are driven by the standard's own commands, behind the part of
// playwright's interface that `form.mjs` uses, so that the same journey runs in all three. An engine that is not there
// fails the test with what to install: nothing is skipped.
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { PHONE, launch, openPage } from "./browser.mjs";
import { ELEMENT, Refused, overHttp, overSocket } from "./webdriver.mjs";

const PATIENCE = 20_000; // for anything that is waited for
const WHAT_TO_DO = "run `cargo xtask setup`, or on Debian `apt-get install firefox-esr webkit2gtk-driver xvfb`";

/** Each engine's name and how it is started; what is started has `page()` and `stop()`. */
export const ENGINES = { Chromium: chromium, Firefox: firefox, WebKit: webkit };

async function chromium() {
  const browser = await launch();
  return { page: () => openPage(browser, { viewport: PHONE }), stop: () => browser.close() };
}

async function firefox() {
  const program = process.env.FIREFOX || onPath("firefox-esr") || onPath("firefox");
  if (!program) throw new Error(`Firefox was not found: name it by FIREFOX, or ${WHAT_TO_DO}`);
  const profile = await mkdtemp(join(tmpdir(), "presurvey-firefox-"));
  // A free port is its own choice, told in a file; what a page says is wrong goes to standard output.
  const preferences = { "marionette.port": 0, "browser.dom.window.dump.enabled": true, "devtools.console.stdout.content": true };
  const lines = Object.entries(preferences).map(([name, value]) => `user_pref("${name}", ${value});\n`);
  await writeFile(join(profile, "user.js"), lines.join(""));
  const browser = start(program, ["--headless", "--marionette", "--no-remote", "--profile", profile]);
  const tidy = async () => {
    await browser.stop();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  };
  try {
    const port = await until("Firefox's port", async () => Number(await readFile(join(profile, "MarionetteActivePort"), "utf8").catch(() => "")));
    return driven(await overSocket(port, {}), browser, tidy);
  } catch (error) {
    await tidy();
    throw new Error(`Firefox did not start; it printed:\n${browser.output()}`, { cause: error });
  }
}

async function webkit() {
  const program = onPath("WebKitWebDriver");
  const screen = onPath("Xvfb");
  const browser = miniBrowser();
  if (!program || !screen || !browser) {
    const missing = [!program && "WebKitWebDriver", !screen && "Xvfb", !browser && "WebKit's MiniBrowser"].filter(Boolean);
    throw new Error(`${missing.join(", ")} not found: ${WHAT_TO_DO}`);
  }
  const display = start(screen, ["-displayfd", "3", "-screen", "0", "1280x1024x24", "-nolisten", "tcp"], {}, ["pipe"]);
  const port = await freePort();
  let driver;
  const tidy = async () => {
    await driver?.stop();
    await display.stop();
  };
  try {
    const number = await new Promise((settle, fail) => {
      display.child.stdio[3].once("data", (bytes) => settle(String(bytes).trim()));
      display.ended.then(() => fail(new Error(`Xvfb ended: ${display.output()}`)));
    });
    driver = start(program, [`--port=${port}`, "--host=127.0.0.1"], {
      DISPLAY: `:${number}`,
      GDK_BACKEND: "x11",
      // As root, or where user namespaces are barred, its sandbox can't be made; it meets our own pages alone.
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1",
    });
    const origin = `http://127.0.0.1:${port}`;
    await until("WebKit's driver", () => fetch(`${origin}/status`).then((answer) => answer.ok, () => false));
    const args = ["--automation", "--enable-write-console-messages-to-stdout=1"];
    return driven(await overHttp(origin, { "webkitgtk:browserOptions": { binary: browser, args } }), driver, tidy);
  } catch (error) {
    await tidy();
    throw new Error(`WebKit did not start; it printed:\n${driver?.output() ?? ""}`, { cause: error });
  }
}

/** WebKit's own plain browser, which distributions put beside the library. */
function miniBrowser() {
  const folders = ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/libexec", "/usr/lib"];
  const paths = folders.flatMap((folder) => ["4.1", "4.0"].map((version) => `${folder}/webkit2gtk-${version}/MiniBrowser`));
  return [process.env.MINIBROWSER, ...paths].find((path) => path && existsSync(path));
}

function onPath(program) {
  return (process.env.PATH ?? "").split(delimiter).map((folder) => join(folder, program)).find((path) => existsSync(path));
}

/** A program of which all that it prints is kept. */
function start(program, args, env = {}, more = []) {
  const child = spawn(program, args, { env: { ...process.env, ...env }, stdio: ["ignore", "pipe", "pipe", ...more] });
  let output = "";
  const read = (chunk) => (output += chunk);
  child.stdout.setEncoding("utf8").on("data", read);
  child.stderr.setEncoding("utf8").on("data", read);
  const ended = new Promise((done) => child.once("error", done).once("close", done));
  const stop = async () => {
    child.kill("SIGTERM");
    const hard = setTimeout(() => child.kill("SIGKILL"), 5_000);
    await ended;
    clearTimeout(hard);
  };
  return { child, ended, stop, output: () => output };
}

function freePort() {
  return new Promise((settle, fail) => {
    const server = createServer().once("error", fail);
    server.listen(0, "127.0.0.1", () => {
      const { port } = server.address();
      server.close(() => settle(port));
    });
  });
}

/** Asks again and again until the answer is something. */
async function until(what, ask) {
  const end = Date.now() + PATIENCE;
  for (;;) {
    const answer = await ask();
    if (answer) return answer;
    if (Date.now() > end) throw new Error(`${what}: not within ${PATIENCE} ms`);
    await new Promise((later) => setTimeout(later, 30));
  }
}

/** What a driven browser gives to the tests. */
function driven(command, browser, tidy) {
  const page = new Page(command, browser.output);
  return {
    page: async () => page,
    stop: async () => {
      await command("DeleteSession").catch(() => {}); // gone already is as good
      await tidy();
    },
  };
}

/** Writes down, in the page, what goes wrong in it from now on: uncaught errors and refusals of its own policy. */
const LISTEN = () => {
  const note = (text) => (document.documentElement.dataset.problems = `${document.documentElement.dataset.problems ?? ""}${text}\n`);
  addEventListener("error", (event) => note(`uncaught: ${event.message}`));
  addEventListener("unhandledrejection", (event) => note(`uncaught: ${event.reason}`));
  document.addEventListener("securitypolicyviolation", (event) => note(`refused: ${event.violatedDirective} ${event.blockedURI}`));
};

/** The part of playwright's page that the tests use, by the standard's commands. */
class Page {
  #command;
  #output;
  #before = [];

  constructor(command, output) {
    this.#command = command;
    this.#output = output;
  }

  /** What was wrong, as far as it can be told; of itself Firefox writes to the same place. */
  get problems() {
    const printed = this.#output().split("\n").filter((line) => /JavaScript error: http|console\.error: "/.test(line));
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
    return new Locator(this.#page, this.#command, [...this.#steps, 0]);
  }

  last() {
    return new Locator(this.#page, this.#command, [...this.#steps, -1]);
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
