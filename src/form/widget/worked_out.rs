//! What was worked out for the homeowner, in plain text: it stands in an enquiry's plain text beside what was answered.

use super::parts::{class, likely, range, with};
use super::speech::Speech;
use model::answers::Answers;
use record::{FlagView, ViewModel};
use wording::form as words;

/// The class of the job, what the homeowner was shown of the price, and the flags, a hazard first. `shown` is in the language of `speech`;
/// where it is `None`, the text says that nothing was worked out.
pub fn worked_out(shown: Option<&ViewModel>, answers: &Answers, speech: &Speech) -> String {
    let mut text = String::new();
    let mut line = |parts: &[&str]| text.extend(parts.iter().copied().chain(["\n"]));
    let Some(shown) = shown else {
        line(&[&speech.say(words::SUMMARY_NOT_WORKED_OUT)]);
        return text;
    };
    let (class, conditions) = class(shown, speech);
    line(&[&speech.say(words::SUMMARY_CLASS), ": ", &class]);
    conditions.iter().for_each(|condition| line(&["- ", condition]));
    let range = range(shown, speech);
    let none = speech.say(words::SUMMARY_PRICE_NONE);
    line(&[&speech.say(words::SUMMARY_PRICE), ": ", range.as_ref().unwrap_or(&none)]);
    if range.is_some() {
        let figure = match shown.band {
            Some(band) => [&*likely(band, speech), "."].concat().into(),
            None => speech.say(words::BAND_FROM_MEANS),
        };
        line(&[&figure, " ", &speech.say(with(answers)), " ", &speech.say(words::BAND_ESTIMATE)]);
        if shown.invented {
            line(&[&speech.say(words::BAND_INVENTED)]);
        }
    }
    let mut flags: Vec<&FlagView> = shown.flags.iter().chain(&shown.less).collect();
    flags.sort_by_key(|flag| !flag.code.starts_with("hazard"));
    if !flags.is_empty() {
        line(&["\n", &speech.say(words::FLAGS_TITLE)]);
        flags.iter().for_each(|flag| line(&["- ", &speech.filled(&flag.text, &[])]));
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::assess;
    use model::config::{Config, FormPart, PriceShown, demo_config, demo_setup};
    use std::rc::Rc;

    const PLAIN: &str = include_str!("../../../tests/homes/easy-detached/answers.json");
    const LOOPED: &str = include_str!("../../../tests/homes/looped-terrace/answers.json");
    const SCORCHED: &str = include_str!("../../../tests/homes/scorched-head/answers.json");

    fn text(answers: &str, config: &Config) -> String {
        let answers: Answers = serde_json::from_str(answers).unwrap();
        let part = FormPart::read(serde_json::to_string(config).unwrap()).unwrap();
        let speech = Speech::new(Some(Rc::new(part)), "".into(), "".into());
        worked_out(Some(&ViewModel::of(&assess(&answers, config), config)), &answers, &speech)
    }

    #[test]
    fn class_price_and_flags_are_said_as_the_result_page_says_them() {
        let text = text(PLAIN, &demo_config());
        let lines: Vec<&str> = text.lines().collect();
        assert!(lines[0].starts_with("How involved the job looks: A straightforward job"), "{text}");
        let price = lines.iter().position(|line| line.starts_with("Price shown to the homeowner: £")).unwrap();
        assert!(lines[price].contains(" to £"), "{text}");
        assert!(
            lines[price + 1].starts_with("Most likely near £") && lines[price + 1].ends_with("not a quotation."),
            "{text}"
        );
        assert_eq!(lines[price + 2], "Invented for a demonstration: not real prices.");
        assert_eq!(&lines[price + 3..=price + 4], ["", "What to know beforehand"]);
        assert!(lines[price + 5..].iter().all(|line| line.starts_with("- ")) && lines.len() > price + 6, "{text}");
        assert!(!text.contains(['{', '}']), "{text}");
    }

    #[test]
    fn no_more_of_the_price_is_said_than_a_visitor_may_see() {
        let mut setup = demo_setup();
        setup.prices_shown.straightforward = PriceShown::From;
        let from = text(PLAIN, &setup.publish());
        assert!(from.contains(": From £") && from.contains("often it is more"), "{from}");
        assert_eq!(from.matches('£').count(), from.lines().filter(|line| line.contains(": From £")).count(), "{from}");
        setup.prices_shown.straightforward = PriceShown::Nothing;
        let none = text(PLAIN, &setup.publish());
        assert!(none.contains("Price shown to the homeowner: none\n") && !none.contains('£'), "{none}");
    }

    #[test]
    fn a_hazard_is_the_first_flag() {
        for hazard in [r#"{"signs":["buzzing"],"place":"meter","when":"long-ago"}"#, r#"{"signs":"not-sure"}"#] {
            let mut home: serde_json::Value = serde_json::from_str(LOOPED).unwrap();
            home["hazard"] = serde_json::from_str(hazard).unwrap();
            let answers: Answers = serde_json::from_value(home.clone()).unwrap();
            let config = demo_config();
            let flags = assess(&answers, &config).flags;
            let hazard = flags.iter().find(|flag| flag.code.starts_with("hazard")).unwrap();
            let says = wording::flags_homeowner::EN.find(&format!("flag-{}", hazard.code)).unwrap();
            let text = text(&home.to_string(), &config);
            let (_, list) = text.split_once("What to know beforehand\n- ").unwrap();
            assert!(list.starts_with(says.split('{').next().unwrap()), "{text}");
        }
        let scorched = text(SCORCHED, &demo_config());
        assert!(scorched.starts_with("How involved the job looks: Somebody trained should look first\n"), "{scorched}");
    }

    #[test]
    fn that_nothing_was_worked_out_is_said() {
        let text = worked_out(None, &Answers::default(), &Speech::default());
        assert!(text.contains("worked out") && text.lines().count() == 1, "{text}");
    }
}
