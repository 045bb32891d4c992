//! How sure, in words: each word stands for a stated range. The ranges are our own choice: common practice, no source.

use super::words::{fill, say};
use model::units::Probability;
use wording::{Key, triage as key};

/// The words with the probability each begins at, surest first: common practice, no source.
pub const RANGES: [(Probability, Key); 5] = [
    (Probability::of(0.95), key::SURE_CERTAIN),
    (Probability::of(0.70), key::SURE_PROBABLY),
    (Probability::of(0.30), key::SURE_EITHER),
    (Probability::of(0.05), key::SURE_PROBABLY_NOT),
    (Probability::of(0.0), key::SURE_HARDLY),
];

/// The word for a probability: of the range that holds it.
#[must_use]
pub fn word(probability: Probability) -> &'static str {
    let (_, key) = RANGES
        .iter()
        .find(|(from, _)| probability >= *from)
        .expect("the last range begins at zero, and a probability is never less");
    say(*key)
}

/// Of a hundred such homes (arithmetic); never rounded to none or all where it is neither.
#[must_use]
pub fn in_a_hundred(probability: Probability) -> u8 {
    let p = probability.get();
    let rounded = libm::round(p * 100.0);
    let kept = if p > 0.0 && p < 1.0 { rounded.clamp(1.0, 99.0) } else { rounded };
    kept as u8
}

/// The word with its figure: "probably, 85 in 100"; certainty needs no figure.
#[must_use]
pub fn word_and_figure(probability: Probability) -> String {
    if probability == Probability::CERTAIN {
        return say(key::SURE_KNOWN).to_owned();
    }
    fill(key::SURE_FIGURE, &[("word", word(probability)), ("n", &in_a_hundred(probability).to_string())])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_word_holds_from_its_own_edge() {
        for (p, key) in [
            (1.0, key::SURE_CERTAIN),
            (0.95, key::SURE_CERTAIN),
            (0.949, key::SURE_PROBABLY),
            (0.7, key::SURE_PROBABLY),
            (0.5, key::SURE_EITHER),
            (0.3, key::SURE_EITHER),
            (0.29, key::SURE_PROBABLY_NOT),
            (0.04, key::SURE_HARDLY),
            (0.0, key::SURE_HARDLY),
        ] {
            assert_eq!(word(Probability::of(p)), say(key), "{p}");
        }
    }

    #[test]
    fn a_small_chance_is_not_shown_as_none_nor_a_great_one_as_all() {
        assert_eq!(in_a_hundred(Probability::of(0.001)), 1);
        assert_eq!(in_a_hundred(Probability::of(0.999)), 99);
        assert_eq!(in_a_hundred(Probability::NEVER), 0);
        assert_eq!(in_a_hundred(Probability::CERTAIN), 100);
    }

    #[test]
    fn the_ranges_fall_without_a_gap() {
        assert!(RANGES.windows(2).all(|pair| pair[0].0 > pair[1].0));
        assert_eq!(RANGES[RANGES.len() - 1].0, Probability::NEVER);
    }
}
