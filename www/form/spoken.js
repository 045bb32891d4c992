// The language of a form, with its prerendered markup and its wording. A part of presurvey.js.
import { HASHES, fetched } from "./checked.js";

// The markup in English, put in by the build (see src/form/widget/prerendered); another language has a file of its own.
const MADE = __MADE__;

const fileOf = (language) => `first-${language}.json`;

/** The language of a form: its attribute `language`, else the `lang` of an element around it, if the build has it; else English. */
export function languageOf(host) {
  const said = host.getAttribute("language") || host.closest("[lang]")?.lang;
  const code = said?.toLowerCase().split("-")[0];
  return HASHES[fileOf(code)] ? code : "en";
}

/** The prerendered markup of a form (English until another language has been fetched), and its wording where it is not English. */
export class Spoken {
  made = MADE;
  words;
  /** The words on their way, which two askers share. */
  #coming;

  /** Fetches the markup of a language; English is there already, and stays where another can't be fetched. */
  learn(language) {
    const name = fileOf(language);
    return HASHES[name] && fetched(name, HASHES[name])
      .then((answer) => answer.json())
      .then((made) => (this.made = made))
      .catch(console.error);
  }

  /** Whether the wording that the program needs is there. */
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
