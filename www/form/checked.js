// Files from beside the form's script, run and shown only where their bytes are those that were built. A part of presurvey.js.

// In a bundle: import { HASHES, checked, compiled, fetched, imported } from "./beside.js";
// The hashes, put in by the build.
export const HASHES = JSON.parse("@hashes@");

export const beside = (file) => new URL(file, import.meta.url).href;

const preloads = {};

/**
 * Has the browser fetch a script from beside this one and check its bytes; `import` is then given what was checked. What a
 * script imports itself is asked for first, so that it is checked as well.
 */
export const checked = (file, address = beside(file)) =>
  (preloads[address] ??= new Promise((done, fail) => {
    const link = document.createElement("link");
    if (!link.relList.supports("modulepreload")) return done(); // a browser that can't check it
    const then = (settle) => () => (link.remove(), settle());
    Object.assign(link, { rel: "modulepreload", href: address, integrity: HASHES[file], onload: then(done), onerror: then(fail) });
    document.head.append(link);
  }).catch(async () => {
    preloads[address] = undefined;
    throw await reason(file);
  }));

export const imported = (file) => checked(file).then(() => import(beside(file)));

/** Why a file was not to be had: it is there with other bytes, which no waiting mends, or it did not come (a TypeError). */
export async function reason(file, integrity = HASHES[file]) {
  const comes = (more) => fetch(beside(file), { cache: "reload", ...more }).then(({ ok }) => ok, () => false);
  if ((await comes()) && !(await comes({ integrity }))) return new Error(`${file} was changed`);
  return new TypeError(`${file} did not come`);
}

/** What a language's files hold: only what was built is given out. */
export async function fetched(file, integrity) {
  const answer = await fetch(beside(file), { integrity }).catch(() => {});
  if (!answer?.ok) throw await reason(file, integrity);
  return answer;
}
// As everywhere:
