// Loads the files beside the form's script, and uses them only if their bytes are those of the build (by their hashes). A part of
// presurvey.js.

// In a bundle: import { HASHES, checked, compiled, fetched, imported } from "./beside.js";
// The hashes, put in by the build.
export const HASHES = JSON.parse("@hashes@");

export const beside = (file) => new URL(file, import.meta.url).href;

const preloads = {};

/**
 * Has the browser preload a script from beside this one and check its bytes; a later `import` then gets the checked script. The scripts
 * that it imports itself should be preloaded first, so that they are checked as well.
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

/**
 * Why a file could not be loaded: an Error if waiting does not mend it, because it has other bytes, or is held back by a blocker or a filter
 * (another file comes between two tries at it); a TypeError if it could not be fetched.
 */
export async function reason(file, integrity = HASHES[file]) {
  const comes = (file, more) => fetch(beside(file), { cache: "reload", ...more }).then(({ ok }) => ok, () => false);
  if (await comes(file)) {
    if (!(await comes(file, { integrity }))) return new Error(`${file} was changed`);
  } else if ((await comes("plain.js")) && !(await comes(file))) {
    return new Error(`${file} is held back`);
  }
  return new TypeError(`${file} did not come`);
}

/** Fetches a file of a language; throws unless its bytes are those of the build. */
export async function fetched(file, integrity) {
  const answer = await fetch(beside(file), { integrity }).catch(() => {});
  if (!answer?.ok) throw await reason(file, integrity);
  return answer;
}
// As everywhere:
