//! The tape: a scale drawn as a ruled strip with ticks, on which a band is filled. Geometry is here, drawing in `parts`.

use engine::assessment::Band;
use model::units::Pence;

/// An amount to whole pounds: an estimate is never said to the penny.
#[must_use]
pub fn pounds(amount: Pence) -> String {
    let whole = if amount < Pence(0) { -50 } else { 50 };
    Pence((amount.0.saturating_add(whole) / 100).saturating_mul(100)).to_string()
}

/// A tape's scale: its two ends, and the distance between its ticks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// Left end.
    pub from: Pence,
    /// Right end.
    pub to: Pence,
    /// The amount between two ticks.
    pub tick: Pence,
}

/// Ticks that a person counts in: from £50 to £10,000.
const TICKS: [i64; 8] = [5_000, 10_000, 25_000, 50_000, 100_000, 250_000, 500_000, 1_000_000];

impl Scale {
    /// One scale that covers several bands, so that they can be compared; `None` if there are none.
    #[must_use]
    pub fn over<'a>(bands: impl Iterator<Item = &'a Band> + Clone) -> Option<Self> {
        let least = bands.clone().map(|band| band.low.min(band.plainest)).min()?;
        let most = bands.map(|band| band.high).max()?;
        let span = (most.0 - least.0).max(1);
        let tick = Pence(TICKS.into_iter().find(|tick| span / tick <= 8).unwrap_or(TICKS[TICKS.len() - 1]));
        let to = most.up_to(tick);
        let from = least.down_to(tick);
        Some(Self { from, to: if to > from { to } else { from + tick }, tick })
    }

    /// The position of an amount on a tape of this width, in the same unit; amounts beyond an end are put at that end.
    #[must_use]
    pub fn at(&self, amount: Pence, width: f64) -> f64 {
        let share = (amount - self.from).as_f64() / (self.to - self.from).as_f64();
        libm::round(share.clamp(0.0, 1.0) * width * 10.0) / 10.0
    }

    /// The positions of the ticks on a tape of this width, both ends included.
    #[must_use]
    pub fn ticks(&self, width: f64) -> Vec<f64> {
        let count = ((self.to.0 - self.from.0) / self.tick.0.max(1)).clamp(1, 40);
        (0..=count).map(|at| self.at(Pence(self.from.0 + at * self.tick.0), width)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn band(low: i64, likely: i64, high: i64, plainest: i64) -> Band {
        Band {
            low: Pence(low),
            likely: Pence(likely),
            high: Pence(high),
            vat: Pence(0),
            charge_point: Pence(0),
            plainest: Pence(plainest),
            before_vat: None,
        }
    }

    #[test]
    fn several_bands_share_one_scale() {
        let bands = [band(90_000, 102_000, 125_000, 85_000), band(140_000, 190_000, 310_000, 85_000)];
        let scale = Scale::over(bands.iter()).unwrap();
        // £850 to £3,100 is over eight ticks of £250, so it is ruled in £500.
        assert_eq!(scale, Scale { from: Pence(50_000), to: Pence(350_000), tick: Pence(50_000) });
        assert_eq!(scale.at(scale.from, 200.0), 0.0);
        assert_eq!(scale.at(scale.to, 200.0), 200.0);
        assert!(scale.at(Pence(102_000), 200.0) < scale.at(Pence(190_000), 200.0));
    }

    #[test]
    fn an_estimate_is_said_in_whole_pounds() {
        assert_eq!(pounds(Pence(254_590)), "£2,546");
        assert_eq!(pounds(Pence(877)), "£9");
        assert_eq!(pounds(Pence(30)), "£0");
        assert_eq!(pounds(Pence(-250)), "-£3");
        assert_eq!(pounds(Pence(100_000_000_049)), "£1,000,000,000");
        assert_eq!(pounds(Pence(i64::MAX)), "£92,233,720,368,547,758");
        assert_eq!(pounds(Pence(i64::MIN)), "-£92,233,720,368,547,758");
    }

    #[test]
    fn a_band_without_width_still_has_a_tape() {
        let scale = Scale::over([band(100_000, 100_000, 100_000, 100_000)].iter()).unwrap();
        assert!(scale.to > scale.from);
        assert!(scale.ticks(200.0).len() >= 2);
        assert_eq!(Scale::over([].iter()), None);
    }
}
