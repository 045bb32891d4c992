// The store of the form on the device: its draft as text, and its photos. Used by presurvey.js and by the form's program.
//
// A draft is a list of lines, each a name and a value, declared in src/record/enquiry/draft_lines.rs. Pages with the same draft (two tabs,
// two elements) each write the lines that they changed and leave the others alone. A change is first noted in localStorage, synchronously,
// so that it survives if the page goes away at once, and written into the database right after.
//
// The database's schema never changes, and the key of a draft has its version in it: scripts of different versions may be on one site, and
// none may lock another out or overwrite a draft that it can't read.

import {
  DRAFT_VERSION, DRAFT_VERSION_BEFORE, LINE_ANSWER, LINE_DAYS, LINE_KEPT, LINE_LATE, LINE_QUEUED, LINE_REFERENCE, LINE_SECRETS,
  LINE_VERSION,
} from "./declared.js";
import { formOf, linesOf, markOf, textOf, written } from "./draft-lines.js";

const DAY = 86_400_000;
const DAYS = 30; // for a draft that does not have the installer's own number yet
const BORN = Date.UTC(2026, 10, 1); // no draft of this version is older: an earlier time was written by a wrong clock

let opening;

const open = () => opening ??= new Promise((yes, no) => {
  const asked = indexedDB.open("presurvey", 1);
  asked.onupgradeneeded = () => {
    asked.result.createObjectStore("drafts");
    asked.result.createObjectStore("photos");
  };
  asked.onsuccess = () => {
    const forget = () => opening = undefined;
    asked.result.onclose = forget;
    asked.result.onversionchange = () => (asked.result.close(), forget());
    yes(asked.result);
  };
  asked.onerror = asked.onblocked = () => no(asked.error);
}).catch((error) => { opening = undefined; throw error; });

/**
 * Runs one transaction: `work` gets the object store and a function that sets the result. Resolves to the result once the transaction is
 * complete; rejects if it is aborted.
 */
async function transact(store, mode, work) {
  const database = await open();
  return new Promise((yes, no) => {
    // Strict: complete only when it is on the disk, because the battery may be about to run out.
    const transaction = database.transaction(store, mode, { durability: "strict" });
    let answer;
    work(transaction.objectStore(store), (value) => answer = value);
    transaction.oncomplete = () => yes(answer);
    transaction.onabort = () => no(transaction.error);
  });
}

/** Resolves once the answer just given has been painted; on a hidden page, which gets no animation frame, after a moment. */
const painted = () =>
  new Promise((go) => {
    requestAnimationFrame(() => setTimeout(go));
    setTimeout(go, 100);
  });

const troubleOf = (error) => error?.name === "QuotaExceededError" ? "full" : "refused";

/** The lines of today's version for a draft of the version before, which had all answers in one line; empty for anything else. */
function fromBefore(text) {
  try {
    const lines = new Map(JSON.parse(text));
    if (lines.get(LINE_VERSION) !== DRAFT_VERSION_BEFORE) return new Map();
    for (const [topic, fields] of Object.entries(JSON.parse(lines.get("answers")))) {
      if (topic === "as_of") continue;
      for (const [field, given] of Object.entries(fields)) lines.set(`${LINE_ANSWER} ${topic}.${field}`, written(given));
    }
    lines.delete(LINE_VERSION);
    lines.delete("answers");
    return lines;
  } catch {
    return new Map();
  }
}

// In a bundle: import { at } from "./beside.js";
// As everywhere:
/** The time by the server's clock, from the headers of this script's own file, in milliseconds; undefined where it can't be fetched. */
async function dateElsewhere() {
  try {
    // In a bundle: const answer = await fetch(at("form_bg.wasm"), { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(5_000) });
    const answer = await fetch(import.meta.url, { method: "HEAD", cache: "no-store", signal: AbortSignal.timeout(5_000) });
    // As everywhere:
    return Date.parse(answer.headers.get("date")) || undefined;
  } catch {
    return undefined;
  }
}

/**
 * Decides what to do with a draft by its age: keep it as it is (undefined), change these lines (an empty list where no clock can be
 * trusted, so that it is kept for now), or delete it (null).
 *
 * `date` is the time by the server's clock, if there is one. Without it a draft may only seem too old because this device's clock is wrong,
 * so it is deleted only if it is still unchanged and too old at another visit, a day or more after the first.
 */
function judge(lines, date) {
  const now = date ?? Date.now();
  const kept = Number(lines.get(LINE_KEPT));
  const noticed = Number(lines.get(LINE_LATE));
  if (kept < BORN || (date && kept > now + DAY)) return [[LINE_KEPT, `=${now}`], [LINE_LATE, null]];
  if (kept > now + DAY) return []; // it seems to be from the future: its age can't be told
  if (!(now - kept > (Number(lines.get(LINE_DAYS)) || DAYS) * DAY)) return undefined;
  if (date) return null;
  if (!noticed) return [[LINE_LATE, String(now)]];
  return now - noticed > DAY ? null : [];
}

/**
 * Applies changes to lines (null removes a line). The secrets stay as they were first drawn. The time of the last change only moves
 * forward, because a clock that was set back must not make a draft look old, except where it is corrected (a value with "=").
 */
function put(changes, lines) {
  for (const [name, value] of changes) {
    const before = lines.get(name);
    // Changes that earlier builds noted include the version.
    if (value === null || name === LINE_VERSION) lines.delete(name);
    else if (name === LINE_KEPT) lines.set(name, value[0] === "=" ? value.slice(1) : String(Math.max(value, before ?? 0)));
    else if (name !== LINE_SECRETS || !before) lines.set(name, value);
  }
  return lines;
}

/** Asks the browser not to delete the data when storage runs short; only where it does not ask the user about that. */
async function last() {
  try {
    const silent = navigator.userAgentData || (await navigator.permissions.query({ name: "persistent-storage" })).state === "granted";
    if (silent) await navigator.storage.persist();
  } catch {
    // The data is kept as long as there is room.
  }
}

/** The store of one form; `form` is the address of its config, which tells the forms on one site apart. */
export class Store {
  #old; // the form's name in the keys of the version before
  #form;
  #key;
  #mark;
  #journal;
  #channel;
  #heard;
  #changes = new Map(); // changes that are not in the database yet
  #noted;
  #running;
  #waiting;

  constructor(form) {
    this.#old = form;
    this.#form = formOf(form);
    this.#key = `${DRAFT_VERSION} ${this.#form}`;
    this.#mark = markOf(this.#form);
    this.#journal = `${this.#mark} ${Math.random()}`;
  }

  /** Reads the draft, including changes that pages noted before they went away: `{ draft, trouble }`, as `keep` returns it. */
  async read() {
    try {
      for (const key of this.#journals()) {
        this.#change(JSON.parse(localStorage.getItem(key)));
        localStorage.removeItem(key);
      }
    } catch {
      // There is no access to localStorage.
    }
    this.#note();
    const found = await this.#write();
    let what = judge(linesOf(found.draft));
    if (what === undefined) return found;
    what = judge(linesOf(found.draft), await dateElsewhere());
    if (what === null) return { trouble: await this.drop() };
    this.#change(what ?? []); // by the server's clock it may not be too old
    return this.#write();
  }

  /**
   * Stores a draft: `mine` as it is now, `knew` as this page stored it last. Resolves to `{ draft, trouble, unread }`: the draft with the
   * changes of other pages, "full" or "refused" where the device does not store it, and whether it could not even be read.
   */
  keep(knew, mine) {
    const [before, now] = [linesOf(knew), linesOf(mine)];
    const names = [...new Set([...before.keys(), ...now.keys()])].filter((name) => before.get(name) !== now.get(name));
    this.#change(names.map((name) => [name, now.get(name) ?? null]));
    this.#change([[LINE_KEPT, String(Date.now())], [LINE_LATE, null]]); // its age starts anew
    this.#note();
    this.#markAs(now); // at once: a page that is opened next sends what is queued, and leaves alone what was called off
    // One transaction at a time; changes made meanwhile are written together in the next.
    if (!this.#running) return this.#run();
    return this.#waiting ??= this.#running.then(() => {
      this.#waiting = undefined;
      return this.#run();
    });
  }

  /** Deletes the draft and its photos. Resolves to "refused" where the browser gives no access to them. */
  async drop() {
    this.#changes.clear();
    const forget = () => {
      try {
        for (const key of [this.#mark, ...this.#journals()]) localStorage.removeItem(key);
      } catch {
        // There is no access to localStorage.
      }
    };
    forget();
    try {
      await transact("drafts", "readwrite", (drafts) => {
        for (const key of [this.#key, `${this.#old} `]) drafts.delete(key);
      });
      await transact("photos", "readwrite", (photos) => {
        for (const form of [this.#form, this.#old]) photos.delete(IDBKeyRange.bound(`${form} `, `${form} \uffff`));
      });
      this.#tell();
    } catch {
      return "refused";
    } finally {
      forget(); // a transaction that was running meanwhile has set the mark again
    }
  }

  /** A photo's bytes, if the device has them. */
  photo(name) {
    return transact("photos", "readonly", (photos, answer) => {
      for (const form of [this.#old, this.#form]) {
        photos.get(`${form} ${name}`).onsuccess = ({ target }) => target.result && answer(target.result);
      }
    }).catch(() => undefined);
  }

  /** Stores a photo's bytes. Resolves to "full" or "refused" where the device does not store them. */
  async keepPhoto(name, blob) {
    try {
      await transact("photos", "readwrite", (photos) => photos.put(blob, `${this.#form} ${name}`));
      last();
    } catch (error) {
      return troubleOf(error);
    }
  }

  /** Deletes a photo's bytes. */
  dropPhoto(name) {
    return transact("photos", "readwrite", (photos) => {
      for (const form of [this.#form, this.#old]) photos.delete(`${form} ${name}`);
    }).catch(() => undefined);
  }

  /** Calls `heard` with the draft (undefined where it was deleted) whenever another page may have changed it. */
  listen(heard) {
    this.#heard = async () => {
      const found = await this.#write();
      if (!found.unread) heard(found.draft);
    };
    try {
      this.#channel = new BroadcastChannel(this.#mark);
      this.#channel.onmessage = this.#heard;
    } catch {
      // Without a channel, changes of other pages are read when this one becomes visible again.
    }
    document.addEventListener("visibilitychange", this);
  }

  /** Stops listening. */
  close() {
    this.#channel?.close();
    document.removeEventListener("visibilitychange", this);
  }

  handleEvent() {
    if (!document.hidden) this.#heard();
  }

  #tell() {
    try {
      // A channel does not receive its own messages, so this page's own is used to send.
      const channel = this.#channel ?? new BroadcastChannel(this.#mark);
      channel.postMessage("");
      if (channel !== this.#channel) channel.close();
    } catch {
      // See `listen`.
    }
  }

  #change(changes) {
    for (const [name, value] of changes) this.#changes.set(name, value);
  }

  #journals() {
    return Object.keys(localStorage).filter((key) => key.startsWith(`${this.#mark} `));
  }

  /** Notes in localStorage, at once, the changes that are not in the database yet. */
  #note() {
    try {
      if (this.#changes.size) localStorage.setItem(this.#journal, written([...this.#changes]));
      else localStorage.removeItem(this.#journal);
      this.#noted = true;
    } catch {
      this.#noted = false;
    }
  }

  #run() {
    // The change is noted, so the screen may be painted first.
    return this.#running = painted().then(() => this.#write()).finally(() => this.#running = undefined);
  }

  /** Writes the pending changes into the database, and reads the whole draft. */
  async #write() {
    const changes = new Map(this.#changes);
    let trouble;
    let unread;
    const lines = await this.#exchange(changes).catch((error) => {
      if (!this.#noted) trouble = troubleOf(error);
      // A database that can't be written may still be readable.
      return this.#exchange(new Map()).catch(() => {
        unread = true;
        return new Map();
      });
    });
    // Noted changes come on top: those of other pages that are not in the database yet, and those made here meanwhile.
    try {
      for (const key of this.#journals()) put(JSON.parse(localStorage.getItem(key)), lines);
    } catch {
      // There is no access to localStorage.
    }
    put(this.#changes, lines);
    this.#markAs(lines);
    return { draft: lines.size ? textOf(lines) : undefined, trouble, unread };
  }

  /** Sets the mark, by which a page that is opened knows without waiting whether there is a draft, and whether it is queued. */
  #markAs(lines) {
    try {
      if (lines.size) localStorage.setItem(this.#mark, lines.get(LINE_QUEUED) ? "queued" : "begun");
      else localStorage.removeItem(this.#mark);
    } catch {
      // Without the mark, a page that is opened has to wait for the database.
    }
  }

  async #exchange(changes) {
    const lines = await transact("drafts", changes.size ? "readwrite" : "readonly", (drafts, answer) => {
      const kept = drafts.get(this.#key);
      drafts.get(`${this.#old} `).onsuccess = ({ target }) => {
        const lines = kept.result ? linesOf(kept.result) : fromBefore(target.result);
        answer(lines);
        if (!changes.size) return;
        drafts.put(textOf(put(changes, lines)), this.#key);
        if (lines.has(LINE_REFERENCE)) drafts.delete(`${this.#old} `); // sent: nothing of it is left behind
      };
    });
    for (const [name, value] of changes) {
      if (this.#changes.get(name) === value) this.#changes.delete(name);
    }
    if (changes.size) {
      this.#note();
      this.#tell();
    }
    return lines;
  }
}
