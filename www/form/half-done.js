// The draft of one form while the page's script has it: from the first screen until the form's program takes it over. A part of
// presurvey.js.
import { imported } from "./checked.js";
import { LINE_KEPT } from "./declared.js";
import { formOf, linesOf, markOf, written } from "./draft-lines.js";

/** The draft of a form, in this script and on the device. `config` is the address of the form's config. */
export class HalfDone {
  /** The draft to continue from, as text. */
  lines;
  /** The draft as it was last stored from here. */
  #knew;
  /** The store on the device. */
  #store;
  #config;
  #mark;

  constructor(config) {
    this.#config = config;
    this.#mark = markOf(formOf(config));
  }

  /** Whether the device has a draft, without waiting: "begun", "queued", or nothing. Throws where the browser refuses access. */
  noted() {
    const mark = localStorage.getItem(this.#mark);
    if (mark === "") this.clear(); // the page before this one went away before it could
    return mark;
  }

  /** The store on the device; its script is loaded first. */
  async store() {
    const { Store } = await imported("store.js");
    return (this.#store ??= new Store(this.#config));
  }

  /** The draft that is on the device now. */
  async found() {
    return (await (await this.store()).read()).draft;
  }

  /** Continues from a draft that is on the device. */
  takeUp(lines) {
    this.lines = this.#knew = lines;
  }

  /** Returns the draft and gives it up: the caller stores it from now on. */
  handOn() {
    const { lines } = this;
    this.lines = undefined;
    return lines;
  }

  /** Stores a draft on the device, unless there is a newer one by then, or it was handed on. */
  keep(lines) {
    this.lines = lines;
    this.#note(linesOf(lines));
    this.store()
      .then(async (store) => {
        if (this.lines !== lines) return;
        const kept = store.keep(this.#knew, lines);
        this.#knew = lines;
        this.#note();
        await kept;
      })
      .catch(() => {}); // the change is noted in localStorage
  }

  /** Deletes the draft from the device. An empty mark says so until it is done. */
  clear() {
    this.takeUp();
    this.#note();
    try {
      localStorage.setItem(this.#mark, "");
    } catch {
      // Access is refused: there is no mark.
    }
    this.store()
      .then((store) => store.drop())
      .catch(() => {}); // the draft will be offered again
  }

  /** Notes changes in localStorage, where the store finds them once its script is loaded. */
  #note(changes) {
    try {
      const name = `${this.#mark} first`;
      if (changes) localStorage.setItem(name, written([...changes, [LINE_KEPT, `${Date.now()}`]]));
      else localStorage.removeItem(name);
      if (changes) localStorage.setItem(this.#mark, "begun");
    } catch {
      // Access is refused: the change is stored once the store is loaded.
    }
  }
}
