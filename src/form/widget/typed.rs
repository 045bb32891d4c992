//! What was typed into a field: read into an answer where it can be, kept as typed where it can't (yet).

use model::answers::{Given, Kind, Length, LengthUnit, Postcode, Rows, ShortText, in_digits, thousandths};
use model::units::Ratio;

/// Reads a typed answer; `Given::Nothing` for an empty field, `None` for what can't be read.
#[must_use]
pub fn read(kind: Kind, text: &str, unit: LengthUnit) -> Option<Given> {
    let text = text.trim();
    if text.is_empty() {
        return Some(Given::Nothing);
    }
    match kind {
        Kind::PostcodeLine => Postcode::new(text).map(|postcode| Given::Line(postcode.as_str().into())),
        Kind::Line => ShortText::new(text).map(|line| Given::Line(line.as_str().into())),
        Kind::Figure(_) => number(text).map(Given::Figure),
        Kind::Distance => {
            let value = Ratio::new(number(text)?).ok()?;
            Some(Given::Distance(Length { value, unit }))
        }
        Kind::Stretches => Rows::read(text).given(),
        Kind::One(_) | Kind::Any(_) | Kind::YesNo | Kind::Count(..) | Kind::Day => None,
    }
}

/// Reads a plain decimal number; ten digits at most, so that the division is rounded correctly.
fn number(text: &str) -> Option<f64> {
    thousandths(text).map(|all| all as f64 / 1000.0)
}

/// A field's text for an answer that was not typed in this field (a draft from elsewhere).
#[must_use]
pub fn shown(given: &Given) -> String {
    match given {
        Given::Line(line) => line.clone(),
        Given::Figure(number) => in_digits(*number),
        Given::Distance(length) => in_digits(length.value.get()),
        Given::Stretches(stretches) => Rows::of(stretches).write(),
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
        let given = read(Kind::Distance, " 14 ", LengthUnit::Paces).unwrap();
        assert_eq!(given, Given::Distance(Length { value: Ratio::of(14.0), unit: LengthUnit::Paces }));
        assert_eq!(shown(&given), "14");
        assert_eq!(read(Kind::Distance, "about ten", LengthUnit::Paces), None);
        assert_eq!(read(Kind::PostcodeLine, "zz1 1aa", LengthUnit::Metres), Some(Given::Line("ZZ1 1AA".into())));
        assert_eq!(read(Kind::PostcodeLine, "", LengthUnit::Metres), Some(Given::Nothing));
    }
}
