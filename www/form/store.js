// What the form keeps on the device: its draft as text, and its photos. Used by the start script and by the program alike.
//
// A draft is a list of lines, each a name and a value, which src/enquiry/draft_lines.rs declares. Pages with the same draft (two
// tabs, two elements) each put in the lines that they changed and leave the others as they are. A change is noted in localStorage
// before anything is waited for, so that it outlives a page that goes away at once, and put into the database right after.
//
// The database keeps its first shape for ever, and a draft lies under a key with its version in it: scripts of different
// versions may stand on one site, and none may shut another out or write over what it can't read.

import {
  DRAFT_VERSION, DRAFT_VERSION_BEFORE, LINE_ANSWER, LINE_DAYS, LINE_KEPT, LINE_LATE, LINE_QUEUED, LINE_REFERENCE, LINE_SECRETS,
  LINE_VERSION,
} from "./declared.js";
import { formOf, linesOf, markOf, textOf, written } from "./draft-lines.js";

const DAY = 86_400_000;
const DAYS = 30; // for a draft that has not heard the installer's own number
const BORN = Date.UTC(2026, 10, 1); // no draft of this version is older: what says so was written by a wrong clock

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

/** One transaction; `work` is given the object store and a way to answer. Kept is only what the whole transaction kept. */
async function transact(store, mode, work) {
  const database = await open();
  return new Promise((yes, no) => {
    // Strict: on the disk and not only in the system's hands, for a battery may be about to go.
    const transaction = database.transaction(store, mode, { durability: "strict" });
    let answer;
    work(transaction.objectStore(store), (value) => answer = value);
    transaction.oncomplete = () => yes(answer);
    transaction.onabort = () => no(transaction.error);
  });
}

/** Once what was just answered is on the screen; a hidden page is given no frame. */
const painted = () =>
  new Promise((go) => {
    requestAnimationFrame(() => setTimeout(go));
    setTimeout(go, 100);
  });

const troubleOf = (error) => error?.name === "QuotaExceededError" ? "full" : "refused";

/** A draft of the version before, which had all answers in one line, as lines of today. */
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
/** The day by the service's clock, as it answers for this very script; nothing where that can't be had. */
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
 * What is to be done with a draft by how long it has lain here: nothing (undefined), changes (none where it must be left for
 * want of a clock to trust), or away with it (null).
 *
 * `date` is another clock's; without one, what looks late may be due to this device's clock alone, so that it goes only when it
 * still lies untouched and late at another visit, a day or more after the first.
 */
function judge(lines, date) {
  const now = date ?? Date.now();
  const kept = Number(lines.get(LINE_KEPT));
  const noticed = Number(lines.get(LINE_LATE));
  if (kept < BORN || (date && kept > now + DAY)) return [[LINE_KEPT, `=${now}`], [LINE_LATE, null]];
  if (kept > now + DAY) return []; // from what seems the future: there is no telling how long it has lain
  if (!(now - kept > (Number(lines.get(LINE_DAYS)) || DAYS) * DAY)) return undefined;
  if (date) return null;
  if (!noticed) return [[LINE_LATE, String(now)]];
  return now - noticed > DAY ? null : [];
}

/**
 * Puts changes (null: the line is gone) among lines. What makes an enquiry one stays what it was first; the time of the last
 * change goes back only where it was set right ("="), for a clock that was set back must not make a draft look old.
 */
function put(changes, lines) {
  for (const [name, value] of changes) {
    const before = lines.get(name);
    // What earlier builds noted has the version among the changes.
    if (value === null || name === LINE_VERSION) lines.delete(name);
    else if (name === LINE_KEPT) lines.set(name, value[0] === "=" ? value.slice(1) : String(Math.max(value, before ?? 0)));
    else if (name !== LINE_SECRETS || !before) lines.set(name, value);
  }
  return lines;
}

/** Asks the browser to keep what is kept under want of room as well; only where that is silent. */
async function last() {
  try {
    const silent = navigator.userAgentData || (await navigator.permissions.query({ name: "persistent-storage" })).state === "granted";
    if (silent) await navigator.storage.persist();
  } catch {
    // Then it is kept as long as there is room.
  }
}

/** The store of one form: `form` is the address of its config, which tells forms on one site apart. */
export class Store {
  #old; // the form's name in keys of the version before
  #form;
  #key;
  #mark;
  #journal;
  #channel;
  #heard;
  #changes = new Map(); // not in the database yet
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

  /** The draft as it is now, with what pages that are gone had noted last: `{ draft, trouble }`, as `keep` gives it back. */
  async read() {
    try {
      for (const key of this.#journals()) {
        this.#change(JSON.parse(localStorage.getItem(key)));
        localStorage.removeItem(key);
      }
    } catch {
      // Nothing can be noted there.
    }
    this.#note();
    const found = await this.#write();
    let what = judge(linesOf(found.draft));
    if (what === undefined) return found;
    what = judge(linesOf(found.draft), await dateElsewhere());
    if (what === null) return { trouble: await this.drop() };
    this.#change(what ?? []); // by the other clock it may be in its time
    return this.#write();
  }

  /**
   * Keeps a draft: `mine` as it is now, `knew` as this page had it last. Gives back `{ draft, trouble, unread }`: the draft with
   * what other pages put in, "full" or "refused" where this device keeps nothing of it, and whether it could not even be read.
   */
  keep(knew, mine) {
    const [before, now] = [linesOf(knew), linesOf(mine)];
    const names = [...new Set([...before.keys(), ...now.keys()])].filter((name) => before.get(name) !== now.get(name));
    this.#change(names.map((name) => [name, now.get(name) ?? null]));
    this.#change([[LINE_KEPT, String(Date.now())], [LINE_LATE, null]]); // touched: its time begins anew
    this.#note();
    // One transaction at a time; what is changed meanwhile goes together with the next.
    if (!this.#running) return this.#run();
    return this.#waiting ??= this.#running.then(() => {
      this.#waiting = undefined;
      return this.#run();
    });
  }

  /** Throws the draft and its photos away. Gives back "refused" where there was nothing to throw away. */
  async drop() {
    this.#changes.clear();
    const forget = () => {
      try {
        for (const key of [this.#mark, ...this.#journals()]) localStorage.removeItem(key);
      } catch {
        // Nothing was noted there.
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
      forget(); // what was being written meanwhile has left its mark
    }
  }

  /** A photo's bytes, if they are kept. */
  photo(name) {
    return transact("photos", "readonly", (photos, answer) => {
      for (const form of [this.#old, this.#form]) {
        photos.get(`${form} ${name}`).onsuccess = ({ target }) => target.result && answer(target.result);
      }
    }).catch(() => undefined);
  }

  /** Keeps a photo's bytes. Gives back "full" or "refused" where that can't be. */
  async keepPhoto(name, blob) {
    try {
      await transact("photos", "readwrite", (photos) => photos.put(blob, `${this.#form} ${name}`));
      last();
    } catch (error) {
      return troubleOf(error);
    }
  }

  /** Throws a photo's bytes away. */
  dropPhoto(name) {
    return transact("photos", "readwrite", (photos) => {
      for (const form of [this.#form, this.#old]) photos.delete(`${form} ${name}`);
    }).catch(() => undefined);
  }

  /** Calls with the draft (nothing where it was thrown away) when another page may have changed it. */
  listen(heard) {
    this.#heard = async () => {
      const found = await this.#write();
      if (!found.unread) heard(found.draft);
    };
    try {
      this.#channel = new BroadcastChannel(this.#mark);
      this.#channel.onmessage = this.#heard;
    } catch {
      // Then other pages are heard when this one is looked at again.
    }
    document.addEventListener("visibilitychange", this);
  }

  /** Listens no more. */
  close() {
    this.#channel?.close();
    document.removeEventListener("visibilitychange", this);
  }

  handleEvent() {
    if (!document.hidden) this.#heard();
  }

  #tell() {
    try {
      // A channel is not heard by itself: this page's own shall not be.
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

  /** Notes what the database has not got yet; at once, so that nothing is between a change and its note. */
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
    // It is noted: the screen comes first.
    return this.#running = painted().then(() => this.#write()).finally(() => this.#running = undefined);
  }

  /** Puts into the database what it has not got yet, and reads all of it. */
  async #write() {
    const changes = new Map(this.#changes);
    let trouble;
    let unread;
    const lines = await this.#exchange(changes).catch((error) => {
      if (!this.#noted) trouble = troubleOf(error);
      // What can't be added to may still be there to read.
      return this.#exchange(new Map()).catch(() => {
        unread = true;
        return new Map();
      });
    });
    // What is noted stands over it: others' that is not in yet, and what was changed here meanwhile.
    try {
      for (const key of this.#journals()) put(JSON.parse(localStorage.getItem(key)), lines);
    } catch {
      // Nothing can be noted there.
    }
    put(this.#changes, lines);
    const draft = lines.size ? textOf(lines) : undefined;
    try {
      if (draft) localStorage.setItem(this.#mark, lines.get(LINE_QUEUED) ? "queued" : "begun");
      else localStorage.removeItem(this.#mark);
    } catch {
      // Then who opens the page waits for the database.
    }
    return { draft, trouble, unread };
  }

  async #exchange(changes) {
    const lines = await transact("drafts", changes.size ? "readwrite" : "readonly", (drafts, answer) => {
      const kept = drafts.get(this.#key);
      drafts.get(`${this.#old} `).onsuccess = ({ target }) => {
        const lines = kept.result ? linesOf(kept.result) : fromBefore(target.result);
        answer(lines);
        if (!changes.size) return;
        drafts.put(textOf(put(changes, lines)), this.#key);
        if (lines.has(LINE_REFERENCE)) drafts.delete(`${this.#old} `); // sent: nothing of it lies about
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
