// Writes a draft's lines as text and reads them; src/record/enquiry/draft_lines.rs declares them. A part of the scripts that import it.
import { DRAFT_VERSION, LINE_VERSION } from "./declared.js";

/** A value as JSON, even where an old library of the page has given arrays a `toJSON` of their own. */
export const written = (value) => JSON.stringify(value, function (name) { return this[name]; });

/** A draft's lines by name, without the version; empty where the text is no draft of this version. */
export function linesOf(text) {
  try {
    const lines = new Map(JSON.parse(text));
    return lines.get(LINE_VERSION) === DRAFT_VERSION && lines.delete(LINE_VERSION) ? lines : new Map();
  } catch {
    return new Map();
  }
}

/** The text of a draft with these lines, the version first. */
export const textOf = (lines) => written([[LINE_VERSION, DRAFT_VERSION], ...lines]);

/** The name of a form on this site: the absolute address of its config, or the text unchanged where it is no address. */
export const formOf = (config) => URL.canParse(config, document.baseURI) ? new URL(config, document.baseURI).href : config;

/**
 * The key in localStorage that says whether there is a draft of this form: "begun", or "queued" while it waits to be sent. A page can read
 * it at once, without the store's script. Keys that begin with this one and a space hold changes that are not in the database yet.
 */
export const markOf = (form) => `presurvey ${DRAFT_VERSION} ${form}`;
