// In which language a form speaks, and with which markup and words. A part of presurvey.js.
import { HASHES, fetched } from "./checked.js";

// The markup in English, put in by the build (see src/form/widget/prerendered); another language has a file of its own.
const MADE = __MADE__;

const fileOf = (language) => `first-${language}.json`;

/** The language a form speaks: what it says itself, else what is around it, if that is one of ours. */
export function languageOf(host) {
  const said = host.getAttribute("language") || host.closest("[lang]")?.lang;
  const code = said?.toLowerCase().split("-")[0];
  return HASHES[fileOf(code)] ? code : "en";
}

/** What a form says: the markup made beforehand (English until another has come), and its words where it is not English. */
export class Spoken {
  made = MADE;
  words;
  /** The words on their way, which two askers share. */
  #coming;

  /** Fetches the markup in a language; nothing to wait for in English. Where it does not come, English stays. */
  learn(language) {
    const name = fileOf(language);
    return HASHES[name] && fetched(name, HASHES[name])
      .then((answer) => answer.json())
      .then((made) => (this.made = made))
      .catch(console.error);
  }

  /** Whether the words are there that the program needs. */
  get hasWords() {
    return !this.words === !this.made.words;
  }

  async fetchWords() {
    const { language, words } = this.made;
    if (!words || this.words) return;
    this.#coming ??= fetched(`words-${language}.txt`, words).then((answer) => answer.text()).finally(() => (this.#coming = undefined));
    this.words = await this.#coming;
  }
}
