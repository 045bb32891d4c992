// The web servers in common use, with a website of their own: nginx and Apache as installed, run for a test on a free port with a
// configuration written for it. No service of the system is touched.
import { spawn } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { chmod, cp, mkdir, mkdtemp, readdir, rm, writeFile } from "node:fs/promises";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { freePort } from "./port.mjs";

const START_WITHIN = 30_000; // in milliseconds

/** Where Debian, and others, put Apache's modules. */
const MODULES = ["/usr/lib/apache2/modules", "/usr/lib64/httpd/modules", "/usr/libexec/apache2"];

/** The path of a server, which may lie where only root's `PATH` leads. */
function programOf(...names) {
  const folders = [...(process.env.PATH ?? "").split(delimiter), "/usr/sbin"];
  const found = folders.flatMap((folder) => names.map((name) => join(folder, name))).find((path) => existsSync(path));
  if (!found) throw new Error(`${names[0]} was not found: run \`cargo xtask setup\`, or on Debian \`apt-get install nginx-light apache2-bin\``);
  return found;
}

/** A website's folder: these folders by name, and these pages by file name, in such a folder too; all of which anybody may read. */
async function siteFolder(pages, folders) {
  const folder = await mkdtemp(join(tmpdir(), "presurvey-site-"));
  const web = join(folder, "web");
  await mkdir(web);
  for (const [name, from] of Object.entries(folders)) await cp(from, join(web, name), { recursive: true, preserveTimestamps: true });
  for (const [name, text] of Object.entries(pages)) await writeFile(join(web, name), text);
  // A server that root starts reads files as somebody else.
  await chmod(folder, 0o755);
  for (const entry of await readdir(web, { recursive: true, withFileTypes: true })) {
    await chmod(join(entry.parentPath, entry.name), entry.isDirectory() ? 0o755 : 0o644);
  }
  await chmod(web, 0o755);
  return { folder, web };
}

/** Starts a server in the foreground and waits until it takes connections. */
async function started(program, args, port, folder) {
  const child = spawn(program, args, { stdio: ["ignore", "pipe", "pipe"] });
  let printed = "";
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding("utf8").on("data", (chunk) => (printed += chunk));
  const log = join(folder, "error.log");
  const said = () => printed + (existsSync(log) ? readFileSync(log, "utf8") : "");
  let over = false;
  const ended = new Promise((done) => child.once("error", done).once("close", done)).then(() => (over = true));
  const stop = async () => {
    child.kill("SIGTERM");
    await ended;
    await rm(folder, { recursive: true, force: true });
  };
  const answers = () =>
    new Promise((done) => {
      const socket = connect(port, "127.0.0.1", () => done(true)).once("error", () => done(false));
      socket.once("connect", () => socket.destroy());
    });
  for (const late = Date.now() + START_WITHIN; !(await answers()); await new Promise((next) => setTimeout(next, 50))) {
    if (!over && Date.now() < late) continue;
    const why = said();
    await stop();
    throw new Error(`${program} did not start; it said:\n${why}`);
  }
  return { origin: `http://localhost:${port}`, said, stop };
}

/**
 * Starts nginx for a website.
 *
 * - `pages`, `folders`: what is on it, by file name;
 * - `types`: the server's own types, as lines of its configuration (a stock one includes its `mime.types`);
 * - `lines`: what was pasted into its `server`.
 *
 * Returns `{ origin, said(), stop() }`; `said` returns its warnings and errors, those about its configuration among them.
 */
export async function nginx({ pages = {}, folders = {}, types = "include /etc/nginx/mime.types;", lines = "" }) {
  const program = programOf("nginx");
  const { folder, web } = await siteFolder(pages, folders);
  const port = await freePort();
  const temporary = ["client_body", "proxy", "fastcgi", "uwsgi", "scgi"].map((name) => `${name}_temp_path ${folder}/${name};`);
  // As it comes with Debian; and with what sites of their own add: headers, and files that are kept for a month.
  const config = `daemon off; master_process off; pid ${folder}/pid; error_log ${folder}/error.log warn;
events { worker_connections 64; }
http {
  sendfile on; tcp_nopush on; types_hash_max_size 2048;
  ${types}
  default_type application/octet-stream;
  access_log off; ${temporary.join(" ")}
  gzip on;
  server {
    listen 127.0.0.1:${port};
    root ${web};
    index index.html;
    add_header X-Content-Type-Options nosniff always;
    location / { try_files $uri $uri/ =404; }
    location ~* \\.(js|css|txt|json|wasm)$ { expires 30d; }
${lines}
  }
}
`;
  await writeFile(join(folder, "nginx.conf"), config);
  return started(program, ["-p", folder, "-e", "stderr", "-c", join(folder, "nginx.conf")], port, folder);
}

/**
 * Starts Apache for a website.
 *
 * - `pages`, `folders`: what is on it, by file name; a folder brings its `.htaccess` along;
 * - `types`: the server's own types, as lines of a `mime.types`;
 * - `modules`: those that it has beside the ones it can't do without;
 * - `allows`: what a `.htaccess` may say.
 *
 * Returns `{ origin, said(), stop() }`.
 */
export async function apache({ pages = {}, folders = {}, types = "", modules = [], allows = "All" }) {
  const program = programOf("apache2", "httpd");
  const place = MODULES.find((path) => existsSync(path));
  const { folder, web } = await siteFolder(pages, folders);
  const port = await freePort();
  await writeFile(join(folder, "mime.types"), types);
  const load = ["mpm_event", "authz_core", "dir", ...modules].map((name) => `LoadModule ${name}_module ${place}/mod_${name}.so`);
  // As it comes with Debian; and with what sites of their own add: headers, and files that are kept for a month.
  const config = `ServerRoot ${folder}
${load.join("\n")}
Listen 127.0.0.1:${port}
ServerName localhost
PidFile ${folder}/pid
DefaultRuntimeDir ${folder}
Mutex file:${folder}
ErrorLog ${folder}/error.log
LogLevel warn
<IfModule mod_mime.c>
  TypesConfig ${folder}/mime.types
</IfModule>
DocumentRoot ${web}
DirectoryIndex index.html
<Directory ${web}>
  AllowOverride ${allows}
  Require all granted
</Directory>
<IfModule mod_filter.c>
  <IfModule mod_deflate.c>
    AddOutputFilterByType DEFLATE text/html text/plain text/xml text/css text/javascript application/javascript application/json
  </IfModule>
</IfModule>
<IfModule mod_headers.c>
  Header always set X-Content-Type-Options nosniff
</IfModule>
<IfModule mod_expires.c>
  ExpiresActive On
  ExpiresDefault "access plus 1 month"
</IfModule>
`;
  await writeFile(join(folder, "apache.conf"), config);
  if (process.getuid() === 0) await writeFile(join(folder, "apache.conf"), `User nobody\nGroup nogroup\n`, { flag: "a" });
  return started(program, ["-D", "FOREGROUND", "-f", join(folder, "apache.conf")], port, folder);
}
