//! Times, money and shares as a tradesperson writes them: `1h 20`, `80 min`, `£3.20`, `85p`, `20 %`.
//!
//! A unit is never guessed: a bare number is a time only where the heading or the key says which unit it is in.

use model::units::{Minutes, Pence, Ratio};

/// The unit of a bare number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bare {
    /// Minutes.
    Minutes,
    /// Hours.
    Hours,
    /// No heading or key says it.
    Unsaid,
}

/// How a time may be written, for refusals.
pub const TIMES: &str = "a time with its unit, such as 1h 20, 80 min or 1.5 h";
/// How money may be written, for refusals.
pub const MONEY: &str = "money before VAT, such as £3.20, 1,250 or 85p";
/// How a share may be written, for refusals.
pub const SHARES: &str = "a share, such as 20 % or 0.2";

/// Parses a time in minutes; `bare` is the unit of a bare number. `None` for anything else.
#[must_use]
pub fn time(text: &str, bare: Bare) -> Option<Minutes> {
    let text = text.trim().to_lowercase();
    if let Some((hours, minutes)) = text.split_once(':') {
        let whole = |part: &str| part.bytes().all(|b| b.is_ascii_digit()).then(|| number(part))?;
        let (hours, minutes) = (whole(hours)?, whole(minutes).filter(|minutes| *minutes < 60.0)?);
        return Minutes::new(hours * 60.0 + minutes).ok();
    }
    let (first, rest) = number_and_rest(&text)?;
    let minutes = match (rest.split_whitespace().collect::<String>().as_str(), bare) {
        ("", Bare::Minutes) | ("m" | "min" | "mins" | "minute" | "minutes", _) => first,
        ("", Bare::Hours) | ("h" | "hr" | "hrs" | "hour" | "hours", _) => first * 60.0,
        ("", Bare::Unsaid) => return None,
        (_, _) => {
            // Hours, then minutes: "1h 20", "1 hr 20 min".
            let after =
                ["hours", "hour", "hrs", "hr", "h"].iter().find_map(|unit| rest.trim_start().strip_prefix(unit))?;
            let (minutes, unit) = number_and_rest(after.trim_start())?;
            let of_minutes = ["", "m", "min", "mins", "minute", "minutes"].contains(&unit.trim());
            if !of_minutes || minutes >= 60.0 || first.fract() != 0.0 {
                return None;
            }
            first * 60.0 + minutes
        }
    };
    Minutes::new(minutes).ok()
}

/// Parses money before VAT in pence, with fractions of a penny; `None` for anything else, including money with VAT.
#[must_use]
pub fn pence(text: &str) -> Option<f64> {
    let text = text.trim().to_lowercase();
    let text = ["ex vat", "exc vat", "excl vat", "excl. vat", "ex. vat", "+ vat", "+vat"]
        .iter()
        .find_map(|said| text.strip_suffix(said))
        .unwrap_or(&text)
        .trim();
    let (figure, a_pound) = match (text.strip_prefix('£'), text.strip_suffix('p')) {
        (Some(pounds), None) => (pounds, 100.0),
        (None, Some(pence)) => (pence, 1.0),
        (None, None) => (text, 100.0),
        (Some(_), Some(_)) => return None,
    };
    Some(number(&without_thousands(figure.trim())?)? * a_pound)
}

/// Parses money in whole pence; `None` for anything else.
#[must_use]
pub fn money(text: &str) -> Option<Pence> {
    pence(text).map(Pence::rounded)
}

/// Parses a share, with a per-cent sign or as a number up to one, into a ratio; `None` for anything else.
#[must_use]
pub fn share(text: &str) -> Option<Ratio> {
    let text = text.trim();
    let share = match text.strip_suffix('%') {
        Some(percent) => number(percent.trim())? / 100.0,
        None => number(text).filter(|share| *share <= 1.0)?,
    };
    Ratio::new(share).ok()
}

/// A plain decimal number that is not negative and of no more digits than anybody writes; `None` for anything else.
fn number(text: &str) -> Option<f64> {
    // This program's choice.
    let plain = !text.is_empty() && text.len() <= 12 && text.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    plain.then(|| text.parse().ok())?
}

fn number_and_rest(text: &str) -> Option<(f64, &str)> {
    let end = text.find(|c: char| !c.is_ascii_digit() && c != '.').unwrap_or(text.len());
    Some((number(&text[..end])?, &text[end..]))
}

/// A figure without the commas between its thousands; `None` where a comma stands anywhere else, for it may be a decimal one.
fn without_thousands(text: &str) -> Option<String> {
    let (whole, part) = text.split_once('.').map_or((text, None), |(whole, part)| (whole, Some(part)));
    let mut groups = whole.split(',');
    let first = groups.next()?;
    let rest: Vec<&str> = groups.collect();
    let right = rest.iter().all(|group| group.len() == 3) && (rest.is_empty() || (1..=3).contains(&first.len()));
    right.then(|| [first, &rest.concat(), &part.map_or(String::new(), |part| format!(".{part}"))].concat())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_read_as_they_are_written() {
        for (text, minutes) in [
            ("1h 20", 80.0),
            ("1 h 20 min", 80.0),
            ("1hr20", 80.0),
            ("80 min", 80.0),
            ("80 MINS", 80.0),
            ("1.5 h", 90.0),
            ("1:20", 80.0),
            ("0.5min", 0.5),
        ] {
            assert_eq!(time(text, Bare::Unsaid), Some(Minutes::of(minutes)), "{text}");
        }
        assert_eq!(time("80", Bare::Minutes), Some(Minutes::of(80.0)));
        assert_eq!(time("1.5", Bare::Hours), Some(Minutes::of(90.0)));
        for text in ["80", "", "an hour", "1h 80", "1.5h 20", "-5 min", "1:75", "5 days", "1h 20 s", "nan", "1e3 min"] {
            assert_eq!(time(text, Bare::Unsaid), None, "{text}");
        }
    }

    #[test]
    fn money_is_read_before_vat_alone() {
        for (text, wanted) in [
            ("£3.20", 320),
            ("3.20", 320),
            ("85p", 85),
            ("£1,250", 125_000),
            ("1,250.50 ex VAT", 125_050),
            ("£4 + VAT", 400),
        ] {
            assert_eq!(money(text), Some(Pence(wanted)), "{text}");
        }
        assert_eq!(pence("0.5p"), Some(0.5));
        for text in ["", "£", "£3.20 inc VAT", "3,20", "12,50.00", "-£3", "£3p", "three", "$5", "1,2345"] {
            assert_eq!(money(text), None, "{text}");
        }
    }

    #[test]
    fn a_share_is_a_percentage_or_at_most_one() {
        for (text, wanted) in [("20 %", 0.2), ("20%", 0.2), ("0.2", 0.2), ("1", 1.0), ("150%", 1.5)] {
            assert_eq!(share(text), Some(Ratio::of(wanted)), "{text}");
        }
        for text in ["20", "", "%", "-5%"] {
            assert_eq!(share(text), None, "{text}");
        }
    }
}
