//! Geometry of the estimate's pictures: the ruling of a tape, the outline of the distribution above it, and the length of a bar.
//!
//! The form and the installer's page draw them as SVG; words beside them say what they mean.
//!
//! Every figure here: this program's choice of lines.

use super::Curve;
use alloc::string::{String, ToString};
use model::units::Pence;

/// A tape from zero to a round sum.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Ruler {
    /// The round sum at its end.
    pub end: Pence,
    /// The distance between its ticks.
    pub tick: Pence,
}

impl Ruler {
    /// Where a tape begins, on a sheet 320 wide.
    pub const LEFT: i64 = 10;
    /// How wide a tape is.
    pub const WIDE: i64 = 300;

    /// A tape on which the dearest sum shown leaves a tenth free at the end.
    #[must_use]
    pub fn over(most: Pence) -> Self {
        for thousands in [1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 30, 50] {
            let end = thousands * 100_000;
            if most.0.saturating_add(most.0 / 10) <= end {
                let tick = if thousands <= 3 {
                    10_000
                } else if thousands <= 10 {
                    50_000
                } else {
                    200_000
                };
                return Self { end: Pence(end), tick: Pence(tick) };
            }
        }
        let end = most.up_to(Pence(1_000_000));
        Self { end, tick: Pence((end.0 / 20).max(1)) }
    }

    /// The position of a sum on the sheet.
    #[must_use]
    pub fn at(&self, money: Pence) -> i64 {
        Self::LEFT + part(money.0.clamp(0, self.end.0), self.end.0, Self::WIDE)
    }
}

/// The outline of the distribution as an SVG path that stands on `base` and is `height` high at its highest; empty where the curve has no
/// steps.
#[must_use]
pub fn outline(curve: &Curve, at: impl Fn(Pence) -> i64, base: i64, height: i64) -> String {
    let Some(most) = curve.of_a_thousand.iter().copied().max().filter(|most| *most > 0) else { return String::new() };
    let mut path = String::new();
    let mut to = |letter: char, money: Pence, jobs: u16| {
        path.push(letter);
        path.push_str(&at(money).to_string());
        path.push(' ');
        path.push_str(&(base - i64::from(jobs) * height / i64::from(most)).to_string());
    };
    let step = |at: usize| Pence(curve.from.0 + i64::try_from(at).unwrap_or(0) * curve.step.0);
    to('M', step(0), 0);
    for (place, jobs) in curve.of_a_thousand.iter().enumerate() {
        // The number of jobs in a step is drawn at its middle.
        to('L', Pence(step(place).0 + curve.step.0 / 2), *jobs);
    }
    to('L', step(curve.of_a_thousand.len()), 0);
    path.push('z');
    path
}

/// The length of a bar, where the longest is a hundred; at least one, so that it can be seen.
#[must_use]
pub fn bar(sum: Pence, longest: Pence) -> i64 {
    part(sum.0.max(0), longest.0, 100).clamp(1, 100)
}

/// `sum` as a part of `whole`, scaled to a length, without overflow: the product of two sums may be too great.
fn part(sum: i64, whole: i64, length: i64) -> i64 {
    let part = i128::from(sum) * i128::from(length) / i128::from(whole.max(1));
    i64::try_from(part).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_end_is_round_and_above() {
        assert_eq!(Ruler::over(Pence(125_000)), Ruler { end: Pence(200_000), tick: Pence(10_000) });
        assert_eq!(Ruler::over(Pence(95_000)).end, Pence(200_000));
        assert_eq!(Ruler::over(Pence(0)).end, Pence(100_000));
        let Ruler { end, tick } = Ruler::over(Pence(9_999_999_999));
        assert!(end >= Pence(9_999_999_999) && end.0 / tick.0 <= 21);
    }

    #[test]
    fn the_outline_stands_on_its_base_and_reaches_its_height() {
        let curve = Curve { from: Pence(100_000), step: Pence(10_000), of_a_thousand: alloc::vec![100, 700, 200] };
        let ruler = Ruler::over(Pence(150_000));
        assert_eq!(outline(&curve, |money| ruler.at(money), 54, 35), "M160 54L167 49L182 19L197 44L205 54z");
        assert_eq!(outline(&Curve::default(), |money| ruler.at(money), 54, 35), "");
    }

    #[test]
    fn the_longest_bar_is_whole_and_the_least_is_seen() {
        assert_eq!(bar(Pence(i64::MAX), Pence(i64::MAX)), 100, "no sum is too great for a picture");
        let ruler = Ruler::over(Pence(i64::MAX));
        assert!(ruler.at(Pence(i64::MAX)) > ruler.at(Pence(i64::MAX / 2)));
        assert_eq!([bar(Pence(400), Pence(400)), bar(Pence(100), Pence(400)), bar(Pence(0), Pence(400))], [100, 25, 1]);
    }
}
