// `<presurvey-form>`: shows the first screen at once and works it; the program behind it is fetched meanwhile and draws
// every screen that follows. Reads and writes nothing outside its own shadow root.
//
// What is imported here, the build puts into this script: for a stranger it is one file. Each part is a file here:
import { beside, checked, imported } from "./checked.js";
import { EVENT_FAILED, EVENT_READY, EVENT_STEP, FAILURE_BLOCKED, FAILURE_UNREACHABLE, LINE_QUEUED } from "./declared.js";
import { linesOf, textOf } from "./draft-lines.js";
import { filled, trusted } from "./filled.js";
import { linesOnLeaving } from "./first-answers.js";
import { HalfDone } from "./half-done.js";
import { glue, isBlocked, make, program } from "./program.js";
import { Screen, dress } from "./screen.js";
import { Spoken, languageOf } from "./spoken.js";
import { ABSENT, WAITS, afterPaint, sayWaiting } from "./waiting.js";

const NAME = "presurvey-form";

// A link of ours leads elsewhere than to the first screen; the first form of the page takes it.
const ours = "#presurvey-";
let opened = location.hash.startsWith(ours) ? location.hash : history.state?.presurvey;
addEventListener("hashchange", () => location.hash.startsWith(ours) && location.reload());

class PresurveyForm extends HTMLElement {
  /** What is shown: the panel, the first screen, or the program's place. */
  #shown;
  /** The program, as long as it runs here. */
  #running;
  /** What is half done. */
  #draft;
  /** The first screen at work, while it is shown. */
  #screen;
  /** Whether a press of the main button waits for the program. */
  #waits = false;
  /** Its language. */
  #spoken = new Spoken();

  connectedCallback() {
    if (!this.#shown) this.#speak();
    else if (this.#draft.lines !== undefined && this.#shown.matches(".program")) this.#begin(false);
  }

  disconnectedCallback() {
    // Moved, it is back before this runs.
    setTimeout(() => {
      if (this.isConnected || !this.#running) return;
      this.#draft.lines = this.#running.end();
      this.#running = undefined;
    });
  }

  /** The language it speaks. */
  get language() {
    return languageOf(this);
  }

  // What comes first.

  /** Starts once the first screen has come in its language. */
  #speak() {
    this.#draft = new HalfDone(this.getAttribute("config") ?? "");
    const learning = this.#spoken.learn(this.language);
    if (!learning) return this.#start();
    make();
    learning.then(() => this.#shown || (this.isConnected && this.#start()));
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
      begun = this.#draft.noted();
    } catch {
      // A screen that is at work already may have been answered: it stays, and the database is asked behind it.
      if (shadow.querySelector(".form")?.screen) return this.#open();
      // Refused: the database is asked. Nothing is shown before it has answered, so that nothing changes then.
      this.#show(document.createElement("div"));
      this.#read().then(() => this.#open(this.#draft.lines));
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
      begun: Boolean(begun),
      show: (next) => this.#show(next),
      begin: (lines) => {
        this.#draft.takeUp(lines);
        this.#go(false);
      },
      plainly: () => this.#open(begun),
    };
    const first = ["store.js", "fragment.js", "share.js"].map((file) => checked(file));
    Promise.all(first)
      .then(() => imported("links.js"))
      .then(({ open }) => open(door, mine))
      .catch(() => this.#open(begun));
  }

  /** Shows what comes first: a half-done form (`begun`: what is noted of it, or its draft) is offered before a new one. */
  #open(begun) {
    make();
    if (begun) this.#showBegun();
    else this.#showFirst();
    // What waits to be sent goes by itself.
    if (begun === "queued" || linesOf(begun).has(LINE_QUEUED)) this.#shown.querySelector("[data-does=on]").click();
    afterPaint(() => {
      this.#tell(EVENT_READY);
      for (const part of [program(), this.#spoken.fetchWords()]) part.catch(() => {}); // told when the first screen is left
      if (!begun) this.#lookAgain();
    });
  }

  /** A device that stopped at once may have lost the note and kept the draft: it is offered as long as nothing was touched. */
  async #lookAgain() {
    const screen = this.#shown;
    const draft = await this.#draft.found().catch(() => {});
    if (!draft || this.#shown !== screen || this.#draft.lines !== undefined || this.#waits || !this.isConnected) return;
    this.#draft.takeUp(draft);
    this.#showBegun();
  }

  /** Takes up what the device has; where the store's script does not come, there is nothing to be had now. */
  #read() {
    return this.#draft.found().then((draft) => this.#draft.takeUp(draft), () => {});
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

  #filled(markup) {
    return filled(markup, this, this.#spoken.made.unnamed);
  }

  // A half-done form.

  #showBegun() {
    const panel = this.#filled(this.#spoken.made.begun);
    const anew = () => {
      this.#showFirst();
      this.#focusTitle();
    };
    panel.addEventListener("click", async ({ target }) => {
      const does = target.closest("[data-does]")?.dataset.does;
      if (does === "again") {
        this.#draft.clear();
        anew();
      } else if (does === "on") {
        await this.#read();
        if (this.#draft.lines) this.#go(false);
        else anew(); // it is gone meanwhile
      }
    });
    this.#show(panel);
  }

  // The first screen.

  #showFirst() {
    // On pages of our own it stands in the page, and may be at work there already (see own-page.js).
    const declared = this.#shown ? undefined : this.shadowRoot.querySelector(`.form[data-version]:lang(${this.language})`);
    const form = declared ?? this.#filled(this.#spoken.made.first);
    this.#show(form);
    const screen = (this.#screen = form.screen ?? new Screen(form));
    screen.changed = () => this.#changed();
    screen.left = () => this.#leave();
    this.#tell(EVENT_STEP, { kind: "screen", step: "hazard" });
    if (screen.touched) this.#changed();
    if (screen.goesOn) this.#leave();
  }

  #changed() {
    this.#wait(false);
    const lines = linesOnLeaving(this.#screen, this.#draft.lines);
    // A step alone is nothing to come back to.
    if (lines.size > 1) this.#draft.keep(textOf(lines));
    else this.#draft.clear();
  }

  #leave() {
    this.#draft.lines = textOf(linesOnLeaving(this.#screen, this.#draft.lines));
    this.#go(true);
  }

  // The program takes over.

  #wait(waits) {
    this.#waits = waits;
    sayWaiting(this.#shown, waits && WAITS);
  }

  /** Goes on with the program, now or when it has come. `leaves`: the first screen was answered and is left. */
  async #go(leaves) {
    if (glue && this.#spoken.hasWords) return this.#begin(leaves);
    this.#wait(true);
    const shown = this.#shown;
    const isOver = () => !this.#waits || shown !== this.#shown;
    try {
      await Promise.all([program(), this.#spoken.fetchWords()]);
    } catch (problem) {
      if (isOver() || (isBlocked(problem) && (await this.#goPlain(leaves)))) return;
      this.#tell(EVENT_FAILED, { reason: FAILURE_UNREACHABLE });
      sayWaiting(shown, ABSENT, () => isOver() || this.#go(leaves));
      return;
    }
    if (isOver()) return;
    if (this.isConnected) this.#begin(leaves);
    else this.#wait(false); // taken out of the page meanwhile
  }

  #begin(leaves) {
    this.#waits = false;
    this.#screen = undefined; // it is done with
    const place = Object.assign(document.createElement("div"), { className: "program" });
    this.#show(place);
    this.#running = glue.begin(this, place, this.#draft.handOn(), leaves, this.#spoken.words);
  }

  /** Goes on without the program. Returns whether that could be. */
  async #goPlain(leaves) {
    this.#tell(EVENT_FAILED, { reason: FAILURE_BLOCKED });
    const plain = await imported("plain.js").catch(() => {});
    if (!plain) return false;
    const draft = this.#draft;
    if (leaves) {
      plain.begin({
        host: this,
        language: this.#spoken.made.language,
        draft,
        advice: this.#shown.querySelector(".emergency"),
        show: (next) => this.#show(next),
        filled: (markup) => this.#filled(markup),
        tell: (name, detail) => this.#tell(name, detail),
      });
    } else {
      // A half-done form: its first screen again, for the plain form follows from there.
      const { lines } = draft;
      this.#waits = false;
      this.#showFirst();
      plain.tick(this.#screen, lines);
      draft.lines = lines;
      this.#focusTitle();
    }
    return true;
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
