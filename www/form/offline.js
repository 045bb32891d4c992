// The service worker of the build's own pages: it lets the page open without a network.
//
// It caches all files of one build together. An update waits until no page is open that was loaded with the files of the build before, so
// that no page ever runs on files of two builds. It also caches the last config. Requests that send something pass through untouched.

// Put in by the build: the page's files by their addresses, each with its hash.
const FILES = __FILES__;

const HERE = new URL("./", location);
const said = new URL(location).searchParams;
const CONFIG = new URL(said.get("config") ?? "", HERE).href;
const LANGUAGE = said.get("language");
const PATIENCE = 4_000; // milliseconds to wait for a newer config before the cached one is used

const OURS = `presurvey ${HERE.pathname} `;

/** The name of this build's cache, made from its list of files: another list is another build. */
async function cacheName() {
  const bytes = await crypto.subtle.digest("SHA-256", new TextEncoder().encode(JSON.stringify([FILES, CONFIG, LANGUAGE])));
  return OURS + [...new Uint8Array(bytes, 0, 8)].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

const addressOf = (name) => new URL(name, HERE).href;
/** The key of a file in the cache: its address and its hash. */
const keyOf = (name) => `${addressOf(name)}?${encodeURIComponent(FILES[name])}`;

/** The name of the file of this build that a request asks for, if any; a page's query is ignored. */
function fileOf({ mode, url }) {
  const asked = mode === "navigate" ? url.replace(/[?#].*/, "") : url;
  return Object.keys(FILES).find((name) => addressOf(name) === asked);
}

addEventListener("install", (event) => event.waitUntil(install()));

/** Whether a file belongs to another language than this page's: such a file is not cached. */
function isForeign(name) {
  const [, code, page] = name.match(/^(?:first|words|sketches|plans)-(\w+)\.|^(\w\w)\.html$/) ?? [];
  return (code ?? page ?? LANGUAGE) !== LANGUAGE;
}

/** Caches every file of this build, or none: on a site that is half uploaded, files of another build do not match their hashes. */
async function install() {
  const name = await cacheName();
  const isNew = !(await caches.has(name));
  const cache = await caches.open(name);
  try {
    const files = Object.keys(FILES).filter((file) => !isForeign(file));
    await Promise.all(files.map((file) => keepFile(cache, file)));
  } catch (error) {
    if (isNew) await caches.delete(name);
    throw error;
  }
  await newConfig(cache, CONFIG).catch(() => {}); // it can be had later as well
}

async function keepFile(cache, name) {
  // A file that the build before had with the same bytes is not fetched again.
  const file =
    (await caches.match(keyOf(name))) ?? (await fetch(addressOf(name), { integrity: FILES[name], cache: "no-cache" }));
  if (!file.ok) throw new TypeError(`${name}: ${file.status}`);
  await cache.put(keyOf(name), file);
}

addEventListener("activate", (event) => event.waitUntil(dropOld()));

async function dropOld() {
  const mine = await cacheName();
  const old = (await caches.keys()).filter((name) => name.startsWith(OURS) && name !== mine);
  await Promise.all(old.map((name) => caches.delete(name)));
}

addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const name = fileOf(request);
  if (name) event.respondWith(give(request, name));
  else if (request.url === CONFIG) event.respondWith(config(request));
});

async function give(request, name) {
  const cache = await caches.open(await cacheName());
  return (await cache.match(keyOf(name))) ?? fetch(request);
}

/** The newest config; the cached one where the newest can't be fetched soon. */
async function config(request) {
  const cache = await caches.open(await cacheName());
  const last = () => cache.match(CONFIG);
  const now = newConfig(cache, request);
  const late = new Promise((yes) => setTimeout(yes, PATIENCE)).then(last);
  const first = Promise.race([now.catch(last), late]);
  return (await first) ?? now;
}

async function newConfig(cache, request) {
  const answer = await fetch(request);
  if (!answer.ok) throw new TypeError(`${CONFIG}: ${answer.status}`);
  await cache.put(CONFIG, answer.clone());
  return answer;
}
