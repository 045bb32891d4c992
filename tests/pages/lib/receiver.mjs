// The reference receiver run by PHP's own server; mails are written to files instead of being sent.
import { spawn } from "node:child_process";
import { chmod, copyFile, mkdir, mkdtemp, readFile, readdir, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { freePort } from "./port.mjs";

const SCRIPT = fileURLToPath(new URL("../../../www/receiver/receive.php", import.meta.url));
const ADDRESSES = "'to' => 'enquiries@installer.example', 'from' => 'website@installer.example', ";
const START_WITHIN = 30_000;

/**
 * Starts it with these settings (the inside of a PHP array, as text) on top of addresses of its own, or as it is handed out with
 * `unset`. Returns `{ address, mails(), files(), stop() }`; with `failing` the host's mail program refuses every mail.
 */
export async function receiver(settings = "", { failing = false, unset = false } = {}) {
  const folder = await mkdtemp(join(tmpdir(), "presurvey-receiver-"));
  const [web, mails, kept] = ["web", "mails", "kept"].map((name) => join(folder, name));
  await Promise.all([mkdir(web), mkdir(mails), mkdir(kept)]);
  await copyFile(SCRIPT, join(web, "receive.php"));
  await writeFile(join(web, "receive-settings.php"), `<?php return [${unset ? "" : ADDRESSES}${settings.replaceAll("KEPT", kept)}];`);
  const sendmail = join(folder, "sendmail");
  await writeFile(sendmail, failing ? "#!/bin/sh\nexit 1\n" : `#!/bin/sh\nexec cat > "$(mktemp ${mails}/XXXXXXXX)"\n`);
  await chmod(sendmail, 0o755);
  const port = await freePort();
  const limits = ["upload_max_filesize=8M", "post_max_size=40M", "max_file_uploads=40", "display_errors=0", "log_errors=1"];
  const options = [...limits, `sendmail_path=${sendmail}`].flatMap((option) => ["-d", option]);
  const child = spawn("php", ["-n", ...options, "-S", `127.0.0.1:${port}`, "-t", web], { stdio: ["ignore", "ignore", "pipe"] });
  let said = "";
  await new Promise((ready, fail) => {
    const late = setTimeout(() => fail(new Error(`PHP did not start: ${said}`)), START_WITHIN);
    child.once("error", fail);
    child.stderr.setEncoding("utf8").on("data", (chunk) => {
      said += chunk;
      if (said.includes("started")) (clearTimeout(late), ready());
    });
  });
  const all = async (where) => Promise.all((await readdir(where)).map((name) => readFile(join(where, name), "utf8")));
  return {
    address: `http://127.0.0.1:${port}/receive.php`,
    said: () => said,
    mails: async () => (await all(mails)).map(readMail),
    /** The files in the folder of kept enquiries, by name. */
    files: async () => {
      const found = {};
      for (const name of await readdir(kept)) {
        found[name] = {};
        for (const file of await readdir(join(kept, name))) found[name][file] = await readFile(join(kept, name, file));
      }
      return found;
    },
    stop: async () => {
      const ended = new Promise((done) => child.once("close", done));
      child.kill();
      await ended;
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** A mail taken apart: its headers by name, its text, and its attachments by file name. */
export function readMail(raw) {
  const [head, body] = cut(raw.replaceAll("\r\n", "\n"), "\n\n");
  const headers = readHead(head);
  const boundary = headers["content-type"].match(/boundary="([^"]+)"/)[1];
  const parts = body.split(`--${boundary}`).slice(1, -1).map((part) => {
    const [above, below] = cut(part.trimStart(), "\n\n");
    const headers = readHead(above);
    return { headers, bytes: decoded(below, headers["content-transfer-encoding"]) };
  });
  const named = parts.slice(1).map((part) => [part.headers["content-disposition"].match(/filename="([^"]+)"/)[1], part.bytes]);
  return { headers, lines: head.split("\n").length, text: parts[0].bytes.toString("utf8"), attached: Object.fromEntries(named) };
}

function decoded(text, encoding) {
  if (encoding === "base64") return Buffer.from(text, "base64");
  const ended = text.replace(/\n$/, ""); // the last line feed belongs to the boundary
  if (encoding === "7bit") return Buffer.from(ended, "ascii");
  if (encoding !== "quoted-printable") throw new Error(`nobody writes a mail in ${encoding}`);
  const bytes = ended.replaceAll("=\n", "").replaceAll(/=([0-9A-F]{2})/g, (_, digits) => String.fromCharCode(parseInt(digits, 16)));
  return Buffer.from(bytes, "latin1");
}

const cut = (text, at) => [text.slice(0, text.indexOf(at)), text.slice(text.indexOf(at) + at.length)];

const readHead = (head) =>
  Object.fromEntries(head.replaceAll(/\n[ \t]+/g, " ").split("\n").map((line) => cut(line, ": ")).map(([name, value]) => [name.toLowerCase(), value]));
