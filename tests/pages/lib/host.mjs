// Somebody else's website: a small server with its own origin, pages and strict headers.
import { readFile } from "node:fs/promises";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const KINDS = {
  ".css": "text/css",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".json": "application/json",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** A page of that website around the lines that an installer pastes. */
export const sitePage = (lines) => `<!doctype html><html lang="en-GB"><meta charset="utf-8"><title>Invented site</title>
<meta name="viewport" content="width=device-width, initial-scale=1"><h1>Invented site</h1>
${lines}</html>`;

/**
 * Starts a website at `http://localhost:PORT`, which for browsers is another site than the service's `127.0.0.1`, not only another origin.
 *
 * - `pages`: markup by path, or a function that returns it, given the site's origin;
 * - `headers`: sent with every page, or a function that returns them, given its path;
 * - `folders`: folders by path; their files are served as by an ordinary web server;
 * - `alter(path, bytes)`: returns the bytes to send in place of a file's;
 * - `kinds`: the types that the server knows, by file extension; files of others come as `unknown`;
 * - `nosniff`: whether it tells browsers to keep to the types.
 *
 * Returns `{ origin, requests, stop() }`; `requests` are the paths asked for.
 */
export async function host({ pages = {}, headers = {}, folders = {}, alter = (path, bytes) => bytes, ...more } = {}) {
  const { kinds = KINDS, unknown = "application/octet-stream", nosniff = true } = more;
  const requests = [];
  let origin;
  const server = createServer(async (request, response) => {
    const { pathname } = new URL(request.url, "http://localhost");
    if (pathname === "/favicon.ico") return void response.writeHead(204).end();
    requests.push(pathname);
    const page = pages[pathname];
    if (page !== undefined) {
      response.writeHead(200, { "content-type": KINDS[".html"], ...(typeof headers === "function" ? headers(pathname) : headers) });
      response.end(typeof page === "function" ? page(origin) : page);
      return;
    }
    const place = Object.keys(folders).find((path) => pathname.startsWith(path));
    const inside = place && normalize(pathname.slice(place.length));
    const bytes = inside && !inside.startsWith("..") && (await readFile(join(folders[place], inside)).catch(() => undefined));
    if (!bytes) {
      response.writeHead(404).end();
      return;
    }
    const kind = kinds[extname(pathname)] ?? unknown;
    response.writeHead(200, { "content-type": kind, "cache-control": "no-cache", ...(nosniff && { "x-content-type-options": "nosniff" }) });
    response.end(alter(pathname, bytes));
  });
  await new Promise((ready) => server.listen(0, "localhost", ready));
  origin = `http://localhost:${server.address().port}`;
  const stop = () =>
    new Promise((done) => {
      server.close(done);
      server.closeAllConnections();
    });
  return { origin, requests, stop };
}
