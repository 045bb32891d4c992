//! Reads the text of a typed field as an answer, and writes an answer as the text of its field. A text that is no answer (yet) stays in the
//! form's state as typed.

use model::answers::{
    AnswerKind, Length, LengthUnit, Postcode, RawAnswer, ShortText, StretchRows, in_digits, thousandths,
};
use model::units::Ratio;

/// Reads a typed text as a raw answer of a question's kind; `unit` is that of a distance. `RawAnswer::Nothing` for an empty field, `None`
/// for a text that can't be read.
#[must_use]
pub fn read(kind: AnswerKind, text: &str, unit: LengthUnit) -> Option<RawAnswer> {
    let text = text.trim();
    if text.is_empty() {
        return Some(RawAnswer::Nothing);
    }
    match kind {
        AnswerKind::PostcodeLine => Postcode::new(text).map(|postcode| RawAnswer::Line(postcode.as_str().into())),
        AnswerKind::Line => ShortText::new(text).map(|line| RawAnswer::Line(line.as_str().into())),
        AnswerKind::Figure(_) => number(text).map(RawAnswer::Figure),
        AnswerKind::Distance => {
            let value = Ratio::new(number(text)?).ok()?;
            Some(RawAnswer::Distance(Length { value, unit }))
        }
        AnswerKind::Stretches => StretchRows::read(text).given(),
        AnswerKind::One(_) | AnswerKind::Any(_) | AnswerKind::YesNo | AnswerKind::Count(..) | AnswerKind::Day => None,
    }
}

/// Reads a decimal number of at most three decimals and ten digits, so that the division is rounded correctly.
fn number(text: &str) -> Option<f64> {
    thousandths(text).map(|all| all as f64 / 1000.0)
}

/// The text that a field shows for an answer that was not typed into it here but came from a draft.
#[must_use]
pub fn shown(given: &RawAnswer) -> String {
    match given {
        RawAnswer::Line(line) => line.clone(),
        RawAnswer::Figure(number) => in_digits(*number),
        RawAnswer::Distance(length) => in_digits(length.value.get()),
        RawAnswer::Stretches(stretches) => StretchRows::of(stretches).write(),
        _ => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_read_as_people_write_them() {
        for (text, value) in
            [("12", 12.0), ("12.5", 12.5), ("12,5", 12.5), ("0.1", 0.1), (".75", 0.75), ("9999999.999", 9_999_999.999)]
        {
            assert_eq!(number(text), Some(value), "{text}");
        }
        for text in ["", ".", "twelve", "-1", "1e9", "12345678", "1.2.3", "1.2345"] {
            assert_eq!(number(text), None, "{text}");
        }
    }

    #[test]
    fn a_distance_keeps_its_unit() {
        let given = read(AnswerKind::Distance, " 14 ", LengthUnit::Paces).unwrap();
        assert_eq!(given, RawAnswer::Distance(Length { value: Ratio::of(14.0), unit: LengthUnit::Paces }));
        assert_eq!(shown(&given), "14");
        assert_eq!(read(AnswerKind::Distance, "about ten", LengthUnit::Paces), None);
        assert_eq!(
            read(AnswerKind::PostcodeLine, "zz1 1aa", LengthUnit::Metres),
            Some(RawAnswer::Line("ZZ1 1AA".into()))
        );
        assert_eq!(read(AnswerKind::PostcodeLine, "", LengthUnit::Metres), Some(RawAnswer::Nothing));
    }
}
