// `<presurvey-form>`: shows the first screen at once and works it; the program behind it is fetched meanwhile and draws
// every screen that follows. Reads and writes nothing outside its own shadow root.

import { Screen, dress } from "./screen.js"; // put in here by the build

const NAME = "presurvey-form";

// Put in by the build: the markup in English (see src/widget/beforehand); another language has a file of its own.
const MADE = __MADE__;
// In a bundle: import { HASHES, checked, compiled, fetched, imported } from "./beside.js";
// And the hashes of the files beside this script.
const HASHES = JSON.parse("@hashes@");
// As everywhere:

// A link of ours leads elsewhere than to the first screen; the first form of the page takes it.
const ours = "#presurvey-";
let opened = location.hash.startsWith(ours) ? location.hash : history.state?.presurvey;
addEventListener("hashchange", () => location.hash.startsWith(ours) && location.reload());

// In a bundle:
const beside = (file) => new URL(file, import.meta.url).href;

const preloads = {};

/**
 * Has the browser fetch a script from beside this one and check its bytes; `import` is then given what was checked. What a
 * script imports itself is asked for first, so that it is checked as well.
 */
const checked = (file, address = beside(file)) =>
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

const imported = (file) => checked(file).then(() => import(beside(file)));

/** Why a file was not to be had: it is there with other bytes, which no waiting mends, or it did not come. */
async function reason(file, integrity = HASHES[file]) {
  const comes = (more) => fetch(beside(file), { cache: "reload", ...more }).then(({ ok }) => ok, () => false);
  if ((await comes()) && !(await comes({ integrity }))) return new Error(`${file} was changed`);
  return new TypeError(`${file} did not come`);
}
// As everywhere:

// Where a page asks for it, markup goes through a policy of this name; only this script's own does.
const plainly = { createHTML: (text) => text };
let policy;
const trusted = (markup) => (policy ??= globalThis.trustedTypes?.createPolicy("presurvey", plainly) ?? plainly).createHTML(markup);

/** As JSON, even where an old library has taught lists to write themselves otherwise. */
const written = (value) =>
  JSON.stringify(value, function (name) {
    return this[name];
  });

// In a bundle:
/** What a language's files hold: only what was built is given out. */
async function fetched(file, integrity) {
  const answer = await fetch(beside(file), { integrity }).catch(() => {});
  if (!answer?.ok) throw await reason(file, integrity);
  return answer;
}
// As everywhere:

/** Does this once the page has been painted; a hidden page is given no frame, then a moment is enough. */
function afterPaint(work) {
  let done = false;
  const once = () => done || ((done = true), work());
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, 300);
}

// The program, shared by all forms of the page.

// In a bundle:
// What its script imports.
const IMPORTED = ["store.js", "assess.js", "late.js"];
let tries = 0;
// As everywhere:

let glue; // once it is there
let coming;

const program = () => (coming ??= load().catch((problem) => ((coming = undefined), Promise.reject(problem))));

async function load() {
  make();
  // In a bundle: const loaded = await imported("form.js");
  // A browser may remember that a script did not come: another address asks again.
  const address = beside(tries++ ? `form.js?try=${tries}` : "form.js");
  await Promise.all([...IMPORTED.map((file) => checked(file)), checked("form.js", address)]);
  const loaded = await import(address);
  // As everywhere:
  await loaded.default({ module_or_path: await make() });
  return (glue = loaded);
}

let making;
// In a bundle:
let asked = document.querySelector(NAME)?.program; // by own-page.js
// As everywhere:

/** Asks for the program itself, before all else: on a slow line it is what takes longest. */
function make() {
  if (!making) (making = compiled("form_bg.wasm")).catch(() => (making = undefined)); // told where it is used
  return making;
}

// In a bundle:
/** A program, compiled while it comes; nothing of it runs before all its bytes were checked. */
async function compiled(file) {
  // The least program there is: where WebAssembly is refused it is refused too, before anything is fetched.
  new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0));
  const integrity = HASHES[file];
  try {
    // The browser itself checks only what has come in full, and compiles after that; where nothing can be hashed (no secure
    // connection) that has to do.
    const { subtle } = crypto;
    const coming = (subtle && asked) || fetch(beside(file), subtle ? {} : { integrity });
    asked = undefined;
    const answer = await coming;
    if (!answer.ok) throw new TypeError();
    const bytes = answer.clone().arrayBuffer();
    const streams = answer.headers.get("content-type") === "application/wasm";
    const making = streams ? WebAssembly.compileStreaming(answer) : bytes.then((bytes) => WebAssembly.compile(bytes));
    making.catch(() => {}); // changed bytes may be no program at all: that they were changed is told first
    const found = subtle && new Uint8Array(await subtle.digest("SHA-384", await bytes));
    if (found && `sha384-${btoa(String.fromCharCode(...found))}` !== integrity) {
      console.error(`presurvey: ${file} is not what was built: its integrity is not ${integrity}`);
      throw new Error(`${file} was changed`);
    }
    return await making;
  } catch (problem) {
    throw problem instanceof TypeError ? await reason(file) : problem;
  }
}
// As everywhere:

/** Whether it will never come here: no network mends that. */
const isRefused = (problem) => !(problem instanceof TypeError);

const stores = () => imported("store.js");

/** A draft's lines by name. */
const parsed = (lines) => Object.fromEntries(JSON.parse(lines ?? "[]"));

class PresurveyForm extends HTMLElement {
  /** What is shown: the panel, the first screen, or the program's place. */
  #shown;
  /** The program, as long as it runs here. */
  #running;
  /** The draft to go on from. */
  #lines;
  /** The device's store. */
  #kept;
  /** The draft as the store had it last from here. */
  #knew;
  /** The first screen at work, while it is shown. */
  #screen;
  /** Whether a press of the main button waits for the program. */
  #waits = false;
  /** The markup in its language, and with which hash its words come. */
  #made = MADE;
  /** Its words, where it speaks another language than English. */
  #words;

  connectedCallback() {
    if (!this.#shown) this.#speak();
    else if (this.#lines !== undefined && !this.#running && this.#shown.matches(".program")) this.#begin(false);
  }

  disconnectedCallback() {
    // Moved, it is back before this runs.
    setTimeout(() => {
      if (this.isConnected || !this.#running) return;
      this.#lines = this.#running.end();
      this.#running = undefined;
    });
  }

  /** What lies in localStorage under this name says that there is a draft (see store.js, which keeps it). */
  get #mark() {
    const config = this.getAttribute("config") ?? "";
    return `presurvey ${this.#version} ${URL.canParse(config, document.baseURI) ? new URL(config, document.baseURI) : config}`;
  }

  /** The version of drafts. */
  get #version() {
    return this.#made.first.match(/data-version="(\w+)"/)[1];
  }

  /** The device's store, once its script is here. */
  async #store() {
    const { Store } = await stores();
    return (this.#kept ??= new Store(this.getAttribute("config") ?? ""));
  }

  /** The language it speaks: what it says itself, else what is around it, if that is one of ours. */
  get language() {
    const said = this.getAttribute("language") || this.closest("[lang]")?.lang;
    const code = said?.toLowerCase().split("-")[0];
    return HASHES[`first-${code}.json`] ? code : "en";
  }

  /** Starts once the first screen has come in its language; where that does not come, in English. */
  #speak() {
    const name = `first-${this.language}.json`;
    if (!HASHES[name]) return this.#start();
    make();
    fetched(name, HASHES[name])
      .then((answer) => answer.json())
      .then((made) => (this.#made = made))
      .catch(console.error)
      .then(() => this.#shown || (this.isConnected && this.#start()));
  }

  async #fetchWords() {
    const { language, words } = this.#made;
    if (words) this.#words ??= await (await fetched(`words-${language}.txt`, words)).text();
  }

  #start() {
    trusted(""); // where the page refuses it, what stands inside the element stays
    const shadow = this.shadowRoot ?? this.attachShadow({ mode: "open" });
    // In a frame of ours a linked sheet has dressed what stands in the page; another would have it all laid out again.
    if (!shadow.querySelector("link")?.sheet && !dress(shadow)) {
      // In a bundle: shadow.append(Object.assign(document.createElement("style"), { textContent: STYLE }));
      shadow.append(Object.assign(document.createElement("link"), { rel: "stylesheet", href: beside("form.css") }));
      // As everywhere:
    }
    let begun;
    try {
      begun = localStorage.getItem(this.#mark);
    } catch {
      // A screen that is at work already may have been answered: it stays, and the database is asked behind it.
      if (shadow.querySelector(".form")?.screen) return this.#open();
      // Refused: the database is asked. Nothing is shown before it has answered, so that nothing changes then.
      this.#show(document.createElement("div"));
      this.#read().then(() => this.#open(this.#lines));
      return;
    }
    if (opened) this.#follow(begun);
    else this.#open(begun);
  }

  /** Hands a link to the script that reads it; that goes on with a draft, or leaves the form as it is. */
  #follow(begun) {
    const mine = opened;
    opened = undefined;
    this.#show(document.createElement("div"));
    const door = {
      host: this,
      version: this.#version,
      begun: Boolean(begun),
      show: (next) => this.#show(next),
      begin: (lines) => {
        this.#lines = this.#knew = lines;
        this.#go(false);
      },
      plainly: () => this.#open(begun),
    };
    const first = ["store.js", "fragment.js", "elsewhere.js"].map((file) => checked(file));
    Promise.all(first)
      .then(() => imported("links.js"))
      .then(({ open }) => open(door, mine))
      .catch(() => this.#open(begun));
  }

  /** Shows what comes first: a half-done form is offered before a new one. */
  #open(begun) {
    make();
    if (begun) this.#showBegun();
    else this.#showFirst();
    // What waits to be sent goes by itself.
    if (/^queued$|\["queued","yes"\]/.test(begun)) this.#shown.querySelector("[data-does=on]").click();
    afterPaint(() => {
      this.#tell("presurvey-ready");
      for (const part of [program(), this.#fetchWords()]) part.catch(() => {}); // told when the first screen is left
      if (!begun) this.#lookAgain();
    });
  }

  /** A device that stopped at once may have lost the mark and kept the draft: it is offered as long as nothing was touched. */
  async #lookAgain() {
    const screen = this.#shown;
    const { draft } = await this.#store().then((store) => store.read()).catch(() => ({}));
    if (!draft || this.#shown !== screen || this.#lines !== undefined || this.#waits || !this.isConnected) return;
    this.#lines = this.#knew = draft;
    this.#showBegun();
  }

  /** Asks the device for its draft. */
  async #read() {
    try {
      const { draft } = await (await this.#store()).read();
      this.#lines = this.#knew = draft;
    } catch {
      // The store's script did not come: there is nothing to be had now.
    }
  }

  /** Puts this in the place of what is shown. */
  #show(next) {
    // On pages of our own the first screen was in the page before this script.
    const before = this.#shown ?? this.shadowRoot.querySelector(".form");
    if (before === next) {
      // It stands there already.
    } else if (before) {
      before.replaceWith(next);
    } else {
      this.shadowRoot.append(next);
    }
    this.#shown = next;
  }

  /** Markup as an element, its places filled as text. */
  #filled(markup) {
    const template = document.createElement("template");
    template.innerHTML = trusted(markup);
    const says = (name) => this.getAttribute(name)?.trim();
    const places = { installer: says("installer") || this.#made.unnamed, telephone: says("telephone") ?? "" };
    const texts = document.createTreeWalker(template.content, NodeFilter.SHOW_TEXT);
    while (texts.nextNode()) {
      const text = texts.currentNode;
      text.data = text.data.replace(/\{(\w+)\}/g, (gap, name) => places[name] ?? gap);
    }
    // An installer who gives no number is not rung.
    for (const link of template.content.querySelectorAll('[href="tel:{telephone}"]')) {
      if (places.telephone) link.href = `tel:${places.telephone.replaceAll(" ", "")}`;
      else link.remove();
    }
    return document.importNode(template.content.firstElementChild, true);
  }

  // A half-done form.

  #showBegun() {
    const panel = this.#filled(this.#made.begun);
    panel.addEventListener("click", async ({ target }) => {
      const does = target.closest("[data-does]")?.dataset.does;
      if (does === "again") {
        this.#clear();
        this.#showFirst();
        this.#focusTitle();
      } else if (does === "on") {
        await this.#read();
        if (this.#lines) return this.#go(false);
        this.#showFirst(); // it is gone meanwhile
        this.#focusTitle();
      }
    });
    this.#show(panel);
  }

  /** Throws away what the device keeps of this form. */
  #clear() {
    this.#lines = this.#knew = undefined;
    this.#note();
    this.#store()
      .then((store) => store.drop())
      .catch(() => {}); // it will be offered again
  }

  // The first screen.

  #showFirst() {
    // On pages of our own it stands in the page, and may be at work there already (see own-page.js).
    const declared = this.#shown ? undefined : this.shadowRoot.querySelector(`.form[data-version]:lang(${this.language})`);
    const form = declared ?? this.#filled(this.#made.first);
    this.#show(form);
    const screen = (this.#screen = form.screen ?? new Screen(form));
    screen.changed = () => this.#changed();
    screen.left = () => this.#leave();
    this.#tell("presurvey-step", { kind: "screen", step: "hazard" });
    if (screen.touched) this.#changed();
    if (screen.goesOn) this.#leave();
  }

  #changed() {
    this.#waits = false;
    this.#say();
    const draft = this.#draft();
    // A version and a step alone are nothing to come back to.
    if (Object.keys(parsed(draft)).length > 2) this.#keep(draft);
    else this.#clear();
  }

  /** Says how far the program is, where a press of the main button waits for it. */
  #say(absent = false) {
    const set = (what, shown) => this.#shown.querySelectorAll(what).forEach((one) => (one.hidden = !shown));
    set(".waiting", this.#waits && !absent);
    set(".absent", this.#waits && absent);
    this.#shown.querySelector(".main")?.classList.toggle("pressed", this.#waits && !absent);
  }

  /** The draft as the program writes it; lines that are not of this screen stay as they were. */
  #draft() {
    const signs = this.#screen.ticked("hazard");
    const alone = signs.find((input) => input.matches("[data-alone]"))?.value;
    const chosen = (name) => this.#screen.ticked(name)[0]?.value;
    const given = alone === "not-sure" ? alone : alone ? [] : signs.map((input) => input.value);
    const lines = { version: this.#shown.dataset.version, ...parsed(this.#lines) };
    const said = { signs: signs.length ? given : undefined, when: chosen("hazard-when"), place: chosen("hazard-place") };
    for (const [name, value] of Object.entries(said)) {
      lines[`answer hazard.${name}`] = value && written(value);
    }
    lines.step = "screen hazard";
    return written(Object.entries(lines).filter(([, value]) => value !== undefined));
  }

  /** Keeps a draft on the device. */
  #keep(lines) {
    this.#lines = lines;
    this.#note(Object.entries(parsed(lines)).filter(([name]) => name !== "version"));
    this.#store()
      .then(async (store) => {
        if (this.#running || this.#lines !== lines) return; // there is something newer
        const kept = store.keep(this.#knew, lines);
        this.#knew = lines;
        this.#note();
        await kept;
      })
      .catch(() => {}); // the note is there
  }

  /** Notes changes where the store finds them, until its script is here and has noted them itself. */
  #note(changes) {
    try {
      const name = `${this.#mark} first`;
      if (changes) localStorage.setItem(name, written([...changes, ["kept", `${Date.now()}`]]));
      else localStorage.removeItem(name);
      if (changes) localStorage.setItem(this.#mark, "begun");
    } catch {
      // Refused: then it has to wait for the store.
    }
  }

  /** Ticks what a draft says. */
  #restore(lines) {
    const given = (name) => JSON.parse(parsed(lines)[`answer hazard.${name}`] ?? "null");
    const signs = given("signs");
    const words = Array.isArray(signs) ? (signs.length ? signs : ["none"]) : [signs];
    for (const input of this.#screen.inputs("hazard")) input.checked = words.includes(input.value);
    this.#lines = lines;
    this.#screen.update();
    for (const name of ["when", "place"]) {
      for (const input of this.#screen.inputs(`hazard-${name}`)) input.checked = input.value === given(name);
      this.#screen.update();
    }
  }

  #leave() {
    this.#lines = this.#draft();
    this.#go(true);
  }

  // The program takes over.

  /** Goes on with the program, now or when it has come. */
  async #go(leaves) {
    if (glue && !this.#words === !this.#made.words) return this.#begin(leaves);
    this.#waits = true;
    this.#say();
    const shown = this.#shown;
    const again = () => this.#waits && shown === this.#shown && this.#go(leaves);
    try {
      await Promise.all([program(), this.#fetchWords()]);
    } catch (problem) {
      if (!this.#waits || shown !== this.#shown) return;
      if (isRefused(problem) && (await this.#goPlain(leaves))) return;
      this.#tell("presurvey-failed", { reason: "unreachable" });
      this.#say(true);
      addEventListener("online", again, { once: true });
      const button = this.#shown.querySelector("[data-does=try]");
      if (button) button.onclick = again;
      return;
    }
    if (!this.#waits || shown !== this.#shown) return;
    if (this.isConnected) return this.#begin(leaves);
    this.#waits = false; // taken out of the page meanwhile
    this.#say();
  }

  #begin(leaves) {
    this.#waits = false;
    this.#screen = undefined; // it is done with
    const place = document.createElement("div");
    place.className = "program";
    this.#show(place);
    this.#running = glue.begin(this, place, this.#lines, leaves, this.#words);
  }

  /** Goes on without the program. Returns whether that could be. */
  async #goPlain(leaves) {
    this.#tell("presurvey-failed", { reason: "refused" });
    if (!leaves) {
      // A half-done form: its first screen again, for the plain form follows from there.
      const lines = this.#lines;
      this.#waits = false;
      this.#showFirst();
      this.#restore(lines);
      this.#focusTitle();
      return true;
    }
    const plain = await imported("plain.js").catch(() => undefined);
    plain?.begin({
      host: this,
      language: this.#made.language,
      lines: Object.entries(parsed(this.#lines)),
      advice: this.#shown.querySelector(".emergency"),
      show: (next) => this.#show(next),
      filled: (markup) => this.#filled(markup),
      store: () => this.#store(),
      keep: (lines) => this.#keep(written(lines)),
      clear: () => this.#clear(),
      tell: (name, detail) => this.#tell(name, detail),
    });
    return plain !== undefined;
  }

  #focusTitle() {
    this.#shown.querySelector("h2")?.focus();
    this.scrollIntoView();
  }

  /** Tells the page around; nothing personal. */
  #tell(name, detail) {
    this.dispatchEvent(new CustomEvent(name, { bubbles: true, composed: true, detail }));
  }
}

// Another version may have been here before: then its form stays.
if (!customElements.get(NAME)) customElements.define(NAME, PresurveyForm);
