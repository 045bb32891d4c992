//! Puts prerendered markup and the style sheet into the form's script and pages after they were built.

use crate::inline;
use crate::integrity::short_hash;
use crate::machine::Machine;
use anyhow::{Context, Result, bail};
use serde_json::{Map, Value};
use std::fs;
use std::path::Path;
use std::process::Stdio;

/// Puts them into every script and page of a built folder that has a placeholder for them.
///
/// # Errors
/// If the markup can't be made or a file can't be written.
pub fn put_in(machine: &Machine, folder: &Path) -> Result<()> {
    let script = folder.join("presurvey.js");
    if !script.exists() {
        return Ok(()); // this page has no prerendered markup
    }
    let Made { languages: made, declared: constants } = made(machine)?;
    inline::put_in(folder, &machine.repo.join("www/form"), &constants)?;
    let style = machine.repo.join("www/form/form.css");
    let style = fs::read_to_string(&style).with_context(|| format!("reading {}", style.display()))?;
    let style = named(&squeezed(&style));
    fs::write(folder.join("form.css"), &style)?;
    fill(&script, "__MADE__", &made["en"]["script"])?;
    put_languages_beside(folder, &made)?;
    fill(&script, "__STYLE__", &Value::from(style.as_str()))?;
    fill(&folder.join("own-page.js"), "__STYLE__", &Value::from(style))?;
    let plain = made.iter().map(|(code, all)| (code.clone(), all["plain"].clone())).collect();
    fill(&folder.join("plain.js"), "__MADE__", &plain)?;
    for (code, all) in &made {
        for part in ["sketches", "plans"] {
            let text = all[part].as_str().with_context(|| format!("there are no {part}"))?;
            let file = folder.join(format!("{part}-{code}.txt"));
            fs::write(&file, text).with_context(|| format!("writing {}", file.display()))?;
        }
    }
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == "html") {
            let page = fs::read_to_string(&path)?;
            fs::write(&path, declared(&page, &made)?).with_context(|| format!("writing {}", path.display()))?;
        }
    }
    Ok(())
}

/// Writes the files of each further language: its words, and its first screen, which names the hash of the words.
fn put_languages_beside(folder: &Path, made: &Map<String, Value>) -> Result<()> {
    for (code, all) in made {
        let Some(words) = all["words"].as_str() else { continue };
        let file = folder.join(format!("words-{code}.txt"));
        fs::write(&file, words).with_context(|| format!("writing {}", file.display()))?;
        let mut first = all["script"].clone();
        first["language"] = Value::from(code.as_str());
        first["words"] = Value::from(short_hash(&file)?);
        fs::write(folder.join(format!("first-{code}.json")), first.to_string())?;
    }
    Ok(())
}

/// The output of the program `prerender`.
struct Made {
    /// The prerendered markup, by language.
    languages: Map<String, Value>,
    /// The values of the constants that scripts import, by name.
    declared: Map<String, Value>,
}

/// Runs `prerender` and parses what it prints.
fn made(machine: &Machine) -> Result<Made> {
    let output = machine
        .command("cargo")
        .args(["run", "--quiet", "--package", "presurvey-form", "--bin", "prerender"])
        .stderr(Stdio::inherit())
        .output()
        .context("`cargo` could not be started")?;
    if !output.status.success() {
        bail!("the prerendered markup could not be made: see the message above");
    }
    let mut made: Map<String, Value> =
        serde_json::from_slice(&output.stdout).context("what `prerender` printed is not JSON")?;
    let mut part = |name: &str| match made.remove(name) {
        Some(Value::Object(part)) => Ok(part),
        _ => bail!("`prerender` printed no `{name}`"),
    };
    Ok(Made { languages: part("languages")?, declared: part("declared")? })
}

/// Replaces a placeholder, which must occur exactly once in a script, by a value.
fn fill(script: &Path, word: &str, value: &Value) -> Result<()> {
    let text = fs::read_to_string(script).with_context(|| format!("reading {}", script.display()))?;
    match text.matches(word).count() {
        1 => fs::write(script, text.replacen(word, &value.to_string(), 1)).context("writing it back"),
        count => bail!("`{word}` stands {count} times in {}; it is to stand there once", script.display()),
    }
}

/// Prefixes a style sheet's custom properties with the project's name, as the page around the form may have registered the shorter names.
fn named(style: &str) -> String {
    style.replace("--", "--presurvey-")
}

/// A style sheet without comments and line breaks.
fn squeezed(style: &str) -> String {
    let mut kept = String::new();
    for (at, part) in style.split("/*").enumerate() {
        kept.push_str(if at == 0 { part } else { part.split_once("*/").map_or("", |(_, after)| after) });
    }
    kept.lines().map(str::trim).filter(|line| !line.is_empty()).collect::<Vec<_>>().join(" ")
}

/// A page with the prerendered first screen in each of its elements, so that it shows before any script runs, and with a plain form after
/// it for visitors without a script. A page that has a `<form>` around the element itself says there where it posts to.
fn declared(page: &str, made: &Map<String, Value>) -> Result<String> {
    let mut out = String::new();
    let mut rest = page;
    while let Some((before, after)) = rest.split_once("<presurvey-form") {
        let (tag, inside) = after.split_once('>').context("a form's tag in a page has no end")?;
        let inside = inside.split_once("</presurvey-form>").context("a form in a page has no end")?;
        let language = said(tag, "language").or_else(|| said(page, "lang")).and_then(|code| code.get(..2));
        let made = &made[language.filter(|code| made.contains_key(*code)).unwrap_or("en")];
        let text = |at: &str| made.pointer(at).and_then(Value::as_str).with_context(|| format!("`{at}` was not made"));
        let installer = said(tag, "installer").unwrap_or(text("/script/unnamed")?);
        let filled = |markup: &str| {
            let telephone = said(tag, "telephone").unwrap_or_default();
            let markup = ringing(markup, telephone);
            let markup = leading(&markup, said(tag, "privacy").unwrap_or_default());
            markup.replace("{installer}", installer).replace("{telephone}", telephone)
        };
        let (first, mut plain) = (filled(text("/script/first")?), filled(text("/noscript")?));
        if !page.contains("<form") {
            let submit = said(tag, "submit").unwrap_or_default();
            plain = format!("<form method=\"post\" enctype=\"multipart/form-data\" action=\"{submit}\">{plain}</form>");
        }
        out.extend([before, "<presurvey-form", tag, "><template shadowrootmode=\"open\">"]);
        // own-page.js brings the style itself on its page: a linked sheet would only delay the first screen.
        let sheet = if page.contains("own-page.js") { "" } else { "<link rel=\"stylesheet\" href=\"form.css\">" };
        out.extend([sheet, &first, "</template>", inside.0]);
        out.extend(["</presurvey-form><noscript>", &plain, "</noscript>"]);
        rest = inside.1;
    }
    out.push_str(rest);
    Ok(out)
}

/// The markup with the telephone number in every `tel:` link; if there is no number, without those links.
fn ringing(markup: &str, telephone: &str) -> String {
    const RINGS: &str = "href=\"tel:{telephone}\"";
    if !telephone.is_empty() {
        return markup.replace(RINGS, &format!("href=\"tel:{}\"", telephone.replace(' ', "")));
    }
    without_links(markup, RINGS)
}

/// The markup with the address of the installer's privacy notice in its link; if there is none, without that link.
fn leading(markup: &str, privacy: &str) -> String {
    const LEADS: &str = "href=\"{privacy}\"";
    if privacy.starts_with("https://") {
        return markup.replace(LEADS, &format!("href=\"{privacy}\""));
    }
    without_links(markup, LEADS)
}

/// The markup without links that have this attribute.
fn without_links(markup: &str, with: &str) -> String {
    let mut markup = markup.to_owned();
    while let Some(at) = markup.find(with) {
        let begins = markup[..at].rfind("<a ").unwrap_or(at);
        let ends = markup[at..].find("</a>").map_or(markup.len(), |end| at + end + "</a>".len());
        markup.replace_range(begins..ends, "");
    }
    markup
}

/// The value of an attribute as written, at its first occurrence in the tag.
fn said<'a>(tag: &'a str, name: &str) -> Option<&'a str> {
    let (_, after) = tag.split_once(&format!(" {name}=\""))?;
    after.split_once('"').map(|(value, _)| value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setup::stub::Stub;
    use serde_json::json;

    #[test]
    fn a_style_sheet_loses_its_comments_alone() {
        assert_eq!(squeezed("/* a\n b */\n.x {\n  y: z; /* c */\n}\n"), ".x { y: z; }");
    }

    #[test]
    fn custom_properties_bear_the_projects_name() {
        assert_eq!(named(".x { --a: 1; color: var(--a) }"), ".x { --presurvey-a: 1; color: var(--presurvey-a) }");
    }

    #[test]
    fn each_form_of_a_page_is_given_its_screen_and_its_names() {
        let made = json!({"en": {
            "script": {"first": "<p>{installer} {telephone}</p>", "unnamed": "them"},
            "noscript": "<a href=\"{privacy}\">notice</a>",
        }});
        let made = made.as_object().unwrap();
        let page = "<html lang=\"en-GB\"><presurvey-form privacy=\"https://a.invalid/p\" installer=\"A &amp; B\" telephone=\"1\" submit=\"/s\"></presurvey-form>\
            <presurvey-form></presurvey-form>";
        let page = declared(page, made).unwrap();
        assert!(page.contains("<p>A &amp; B 1</p></template></presurvey-form>"), "{page}");
        let form = "<noscript><form method=\"post\" enctype=\"multipart/form-data\" action=";
        let noscript = format!("{form}\"/s\"><a href=\"https://a.invalid/p\">notice</a></form></noscript>");
        assert!(page.contains(&noscript), "{page}");
        assert!(page.contains(&format!("{form}\"\"></form></noscript>")), "without an address no link stands: {page}");
        let within = declared("<form action=\"/s\"><presurvey-form></presurvey-form></form>", made).unwrap();
        assert!(within.ends_with("</presurvey-form><noscript></noscript></form>"), "{within}");
        assert!(page.contains("<presurvey-form><template shadowrootmode=\"open\">"), "{page}");
        assert!(page.contains("<p>them </p>"), "{page}");
        assert!(declared("<presurvey-form>", made).is_err());
    }

    #[test]
    fn a_further_language_lies_in_files_of_its_own_and_on_pages_that_speak_it() {
        let stub = Stub::new("prerendered-languages");
        stub.file("page.html", "");
        let script = |first| json!({"first": first, "unnamed": "x"});
        let made = json!({
            "en": {"script": script("English"), "noscript": "", "words": null},
            "pl": {"script": script("po polsku"), "noscript": "", "words": "pl ltr\n"},
        });
        let made = made.as_object().unwrap();
        put_languages_beside(&stub.path(""), made).unwrap();
        assert_eq!(fs::read_to_string(stub.path("words-pl.txt")).unwrap(), "pl ltr\n");
        let first: Value = serde_json::from_slice(&fs::read(stub.path("first-pl.json")).unwrap()).unwrap();
        assert_eq!((&first["first"], &first["language"]), (&json!("po polsku"), &json!("pl")));
        assert_eq!(first["words"], short_hash(&stub.path("words-pl.txt")).unwrap());
        assert!(!stub.path("first-en.json").exists());
        for (page, expected) in [
            ("<html lang=\"pl\"><presurvey-form></presurvey-form>", "po polsku"),
            ("<html lang=\"pl\"><presurvey-form language=\"en\"></presurvey-form>", "English"),
            ("<html lang=\"en-GB\"><presurvey-form language=\"pl\"></presurvey-form>", "po polsku"),
            ("<html lang=\"de\"><presurvey-form></presurvey-form>", "English"),
        ] {
            assert!(declared(page, made).unwrap().contains(expected), "{page}");
        }
    }

    #[test]
    fn a_word_is_filled_where_it_stands_once() {
        let stub = Stub::new("prerendered-fill");
        stub.file("once.js", "a(__X__)");
        fill(&stub.path("once.js"), "__X__", &json!({"b": "c"})).unwrap();
        assert_eq!(fs::read_to_string(stub.path("once.js")).unwrap(), "a({\"b\":\"c\"})");
        assert!(fill(&stub.path("once.js"), "__X__", &json!(1)).unwrap_err().to_string().contains("0 times"));
    }
}
