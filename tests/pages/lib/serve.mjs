// The real service for a test: `presurvey serve --demo` on a free port, its data in a temporary folder.
import { spawn } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = fileURLToPath(new URL("../../..", import.meta.url));
const START_WITHIN = 30_000; // in milliseconds; on a busy machine storing the demo's data takes seconds
const STOP_WITHIN = 10_000;

const target = () => resolve(ROOT, process.env.CARGO_TARGET_DIR || "target");

/** The path of the native program: given by PRESURVEY_BIN, or where `cargo build` puts it. */
export const programPath = () => process.env.PRESURVEY_BIN || join(target(), "debug/presurvey");

/** The folder of the built pages: given by PRESURVEY_PAGES, or `dist`. */
export const pagesPath = () => process.env.PRESURVEY_PAGES || join(ROOT, "dist");

/**
 * Parses what the service prints when it is ready: the homeowner's address, then the installer's, then the password. Returns nothing as
 * long as one of them is missing.
 */
export function readStart(text, chosen) {
  const [form, triage] = text.match(/https?:\/\/[^\s"'<>]+/g) ?? [];
  const password = chosen ?? text.match(/password\b[^:\n]*:\s*(\S+)/i)?.[1];
  return form && triage && password ? { form, triage, password } : undefined;
}

/**
 * Starts the service and waits until it has printed its addresses.
 *
 * Returns `{ form, triage, password, origin, data, output(), stop(), kill() }`; call `stop` in `after`; `kill` is a power cut. With `data`
 * the folder is the caller's and stays when the service stops (to start it again on the same data). With `setup`, the path of a file, the
 * service runs for that installer instead of as the demo.
 */
export async function serve({ data, setup, args = [], env = {} } = {}) {
  for (const path of [programPath(), pagesPath()]) {
    if (!existsSync(path)) throw new Error(`${path} is not there: run \`cargo xtask test\`, or build it first`);
  }
  const own = data === undefined;
  const chosen = setup && "an invented password";
  const folder = own ? await mkdtemp(join(tmpdir(), "presurvey-pages-")) : data;
  const child = spawn(
    programPath(),
    ["serve", ...(setup ? ["--setup", setup] : ["--demo"]), "--listen", "127.0.0.1:0", "--data", folder, "--pages", pagesPath(), ...args],
    { env: { ...process.env, ...(chosen && { PRESURVEY_PASSWORD: chosen }), ...env }, stdio: ["ignore", "pipe", "pipe"] },
  );
  let output = "";
  const ended = new Promise((done) => child.once("close", (code, signal) => done({ code, signal })));
  const stop = async () => {
    if (child.exitCode === null && child.signalCode === null) {
      child.kill("SIGTERM");
      const hard = setTimeout(() => child.kill("SIGKILL"), STOP_WITHIN);
      await ended;
      clearTimeout(hard);
    }
    if (own) await rm(folder, { recursive: true, force: true });
  };
  try {
    const start = await new Promise((ready, fail) => {
      const late = setTimeout(() => fail(new Error(`no addresses within ${START_WITHIN} ms`)), START_WITHIN);
      const settle = (how, value) => (clearTimeout(late), how(value));
      const read = (chunk) => {
        output += chunk;
        const start = readStart(output, chosen);
        if (start && output.endsWith("\n")) settle(ready, start);
      };
      child.stdout.setEncoding("utf8").on("data", read);
      child.stderr.setEncoding("utf8").on("data", read);
      child.once("error", (error) => settle(fail, error));
      ended.then(({ code, signal }) => settle(fail, new Error(`the service ended (${code ?? signal})`)));
    });
    return { ...start, origin: new URL(start.form).origin, data: folder, output: () => output, stop, kill: () => (child.kill("SIGKILL"), ended) };
  } catch (error) {
    await stop();
    throw new Error(`${error.message}; it printed:\n${output}`);
  }
}

/** The published config in the format that today's form asks for. */
export const publishedBy = (service) => fetch(`${service.origin}/api/config`, { headers: { accept: "application/json;format=4" } });
