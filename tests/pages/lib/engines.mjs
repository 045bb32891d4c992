// The three browser engines in common use, each driven as far as a journey through the form needs.
//
// Chromium is driven by playwright, Firefox and WebKit by WebDriver, behind those parts of playwright's interface that `form.mjs` uses, so
// that the same journey runs in all three. If an engine is missing the test fails and says what to install: nothing is skipped.
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { launch, openPage } from "./browser.mjs";
import { newPage, until } from "./driven.mjs";
import { freePort } from "./port.mjs";
import { overHttp, overSocket } from "./webdriver.mjs";

const WHAT_TO_DO = "run `cargo xtask setup`, or on Debian `apt-get install firefox-esr webkit2gtk-driver xvfb`";

/**
 * Each engine's name and how to start it; a started engine has `page()` and `stop()`.
 *
 * A page is as large as a phone's and has nothing stored on the device; opening it closes the one before.
 */
export const ENGINES = { Chromium: chromium, Firefox: firefox, WebKit: webkit };

async function chromium() {
  const browser = await launch();
  const page = async () => {
    await browser.contexts()[0]?.close();
    return openPage(browser);
  };
  return { page, stop: () => browser.close() };
}

async function firefox() {
  const program = process.env.FIREFOX || onPath("firefox-esr") || onPath("firefox");
  if (!program) throw new Error(`Firefox was not found: name it by FIREFOX, or ${WHAT_TO_DO}`);
  const profile = await mkdtemp(join(tmpdir(), "presurvey-firefox-"));
  // Firefox chooses a free port and writes it to a file; messages of pages go to standard output.
  const preferences = {
    "marionette.port": 0,
    "browser.dom.window.dump.enabled": true,
    "devtools.console.stdout.content": true,
    "toolkit.legacyUserProfileCustomizations.stylesheets": true, // loads the style sheet written below
    "ui.useOverlayScrollbars": 1, // they take no room, as on a phone
  };
  const lines = Object.entries(preferences).map(([name, value]) => `user_pref("${name}", ${value});\n`);
  await writeFile(join(profile, "user.js"), lines.join(""));
  // Its window can't be narrower than 450 pixels, which is wider than a phone.
  await mkdir(join(profile, "chrome"));
  await writeFile(join(profile, "chrome/userChrome.css"), ":root, body { min-width: 0 !important; min-height: 0 !important; }\n");
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
  // As high as the form's longest screen, so that a picture can show all of it.
  const display = start(screen, ["-displayfd", "3", "-screen", "0", "1280x8000x24", "-nolisten", "tcp"], {}, ["pipe"]);
  const port = await freePort();
  const settings = await mkdtemp(join(tmpdir(), "presurvey-webkit-"));
  // Its window is at least as wide as its tool bar: nothing in that gets any room, so that the window can be as narrow as a phone.
  await mkdir(join(settings, "gtk-3.0"));
  await writeFile(join(settings, "gtk-3.0/gtk.css"), "* { min-width: 0; padding: 0; margin: 0; border-width: 0; font-size: 1px; }\n");
  let driver;
  const tidy = async () => {
    await driver?.stop();
    await display.stop();
    await rm(settings, { recursive: true, force: true });
  };
  try {
    const number = await new Promise((settle, fail) => {
      display.child.stdio[3].once("data", (bytes) => settle(String(bytes).trim()));
      display.ended.then(() => fail(new Error(`Xvfb ended: ${display.output()}`)));
    });
    driver = start(program, [`--port=${port}`, "--host=127.0.0.1"], {
      DISPLAY: `:${number}`,
      GDK_BACKEND: "x11",
      XDG_CONFIG_HOME: settings,
      // As root, or without user namespaces, its sandbox can't be made; only the project's own pages are opened in it.
      WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS: "1",
    });
    const origin = `http://127.0.0.1:${port}`;
    await until("WebKit's driver", () => fetch(`${origin}/status`).then((answer) => answer.ok, () => false));
    const args = ["--automation", "--enable-write-console-messages-to-stdout=1"];
    // A session of its own for each page: what the page before stores as it goes would arrive in the next one's storage.
    const begin = () => overHttp(origin, { "webkitgtk:browserOptions": { binary: browser, args } });
    return driven(await begin(), driver, tidy, begin);
  } catch (error) {
    await tidy();
    throw new Error(`WebKit did not start; it printed:\n${driver?.output() ?? ""}`, { cause: error });
  }
}

/** The path of WebKit's minimal browser, which distributions put beside the library. */
function miniBrowser() {
  const folders = ["/usr/lib/x86_64-linux-gnu", "/usr/lib/aarch64-linux-gnu", "/usr/libexec", "/usr/lib"];
  const paths = folders.flatMap((folder) => ["4.1", "4.0"].map((version) => `${folder}/webkit2gtk-${version}/MiniBrowser`));
  return [process.env.MINIBROWSER, ...paths].find((path) => path && existsSync(path));
}

function onPath(program) {
  return (process.env.PATH ?? "").split(delimiter).map((folder) => join(folder, program)).find((path) => existsSync(path));
}

/** Starts a program and keeps everything that it prints. */
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

/** The interface that the tests get of a driven browser. */
function driven(command, browser, tidy, begin) {
  let page;
  return {
    page: async () => {
      if (!page || !begin) return (page = await newPage(command, browser.output, page));
      await command("DeleteSession");
      command = await begin();
      return (page = await newPage(command, browser.output));
    },
    stop: async () => {
      await command("DeleteSession").catch(() => {}); // it is no error if the session is gone already
      await tidy();
    },
  };
}
