// The draft of one form, from its first screen on until the program takes it over. A part of presurvey.js.
import { imported } from "./checked.js";
import { LINE_KEPT } from "./declared.js";
import { formOf, linesOf, markOf, written } from "./draft-lines.js";

/** What is half done in a form: its draft as it is here, and on the device. `config` is the address of its config. */
export class HalfDone {
  /** The draft to go on from, as text. */
  lines;
  /** The draft as the store had it last from here. */
  #knew;
  /** The device's store. */
  #store;
  #config;
  #mark;

  constructor(config) {
    this.#config = config;
    this.#mark = markOf(formOf(config));
  }

  /** What stands noted of it, without waiting: "begun", "queued", or nothing. Throws where the browser refuses to say. */
  noted() {
    return localStorage.getItem(this.#mark);
  }

  /** The device's store, once its script is here. */
  async store() {
    const { Store } = await imported("store.js");
    return (this.#store ??= new Store(this.#config));
  }

  /** The draft that lies on the device now. */
  async found() {
    return (await (await this.store()).read()).draft;
  }

  /** Takes up a draft that is on the device. */
  takeUp(lines) {
    this.lines = this.#knew = lines;
  }

  /** Hands the draft on to who keeps it from now on. */
  handOn() {
    const { lines } = this;
    this.lines = undefined;
    return lines;
  }

  /** Keeps a draft on the device, unless there is a newer one by then, or it was handed on. */
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
      .catch(() => {}); // the note is there
  }

  /** Throws away what the device keeps of it. */
  clear() {
    this.takeUp();
    this.#note();
    this.store()
      .then((store) => store.drop())
      .catch(() => {}); // it will be offered again
  }

  /** Notes changes where the store finds them, until its script is here and has noted them itself. */
  #note(changes) {
    try {
      const name = `${this.#mark} first`;
      if (changes) localStorage.setItem(name, written([...changes, [LINE_KEPT, `${Date.now()}`]]));
      else localStorage.removeItem(name);
      if (changes) localStorage.setItem(this.#mark, "begun");
    } catch {
      // Refused: then it has to wait for the store.
    }
  }
}
