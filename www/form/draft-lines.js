// A draft as text, and back: named lines, as src/enquiry/draft_lines.rs declares them. A part of the scripts that import it.
import { DRAFT_VERSION, LINE_VERSION } from "./declared.js";

/** As JSON, even where an old library of the page's has taught lists to write themselves otherwise. */
export const written = (value) => JSON.stringify(value, function (name) { return this[name]; });

/** A draft's lines by name, without its version; none where it is no draft of this version. */
export function linesOf(text) {
  try {
    const lines = new Map(JSON.parse(text));
    return lines.get(LINE_VERSION) === DRAFT_VERSION && lines.delete(LINE_VERSION) ? lines : new Map();
  } catch {
    return new Map();
  }
}

/** Lines as text, the version first. */
export const textOf = (lines) => written([[LINE_VERSION, DRAFT_VERSION], ...lines]);

/** The form that a config's address names, which tells forms on one site apart: the whole address; what is none, as it is. */
export const formOf = (config) => URL.canParse(config, document.baseURI) ? new URL(config, document.baseURI).href : config;

/**
 * The name in localStorage under which it stands that there is a draft of this form: "begun", or "queued" while it waits to be
 * sent. So a page can know it at once, without the store's script. What begins with it and a space are changes that are noted.
 */
export const markOf = (form) => `presurvey ${DRAFT_VERSION} ${form}`;
