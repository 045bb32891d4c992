//! Sizes of protective conductors and meter tails.
//!
//! Sources: the tables of [`model::tables::bonding`].

use model::tables::about::at_least;
use model::tables::bonding::{
    BONDING_LEAST, BONDING_MOST, BONDING_SHARE, CPC_AS_LINE, CPC_HALF_ABOVE, EARTHING_ASKED, TAILS, main_bonding,
};
use model::tables::conductor_resistance::COPPER_AT_20C;
use model::units::{Amps, MaterialFactor, Ratio, Seconds, SquareMillimetres};

/// The adiabatic equation: √(I²t)/k, the least cross-section that a fault of this current and time leaves unharmed.
///
/// # Source
/// BS 7671 regulation 543.1.3; worked in T. Linsley, *Basic Electrical Installation Work* (Newnes, edition not kept), p. 250–251.
#[must_use]
pub fn adiabatic(fault: Amps, time: Seconds, k: MaterialFactor) -> SquareMillimetres {
    fault.heats(time, k)
}

/// Protective conductor by its line conductor, of the same material: Table 54.7.
#[must_use]
pub fn by_line(line: SquareMillimetres) -> SquareMillimetres {
    if line <= CPC_AS_LINE {
        line
    } else if line <= CPC_HALF_ABOVE {
        CPC_AS_LINE
    } else {
        line * HALF
    }
}

/// Supply neutral of a home's service of up to 100 A, hardly ever larger: common practice, no source.
pub const SUPPLY_NEUTRAL: SquareMillimetres = SquareMillimetres::of(35.0);

/// Table 54.7's "half of the line", seen in T. Linsley, Basic Electrical Installation Work (Newnes, edition not kept), p. 250.
const HALF: Ratio = Ratio::of(0.5);

/// Main bonding without PME: half of the earthing conductor, at least 6 mm², and it need not exceed 25 mm².
#[must_use]
pub fn bonding_without_pme(earthing: SquareMillimetres) -> SquareMillimetres {
    (earthing * BONDING_SHARE).max(BONDING_LEAST).min(BONDING_MOST)
}

/// Earthing conductor by the tails, to Table 54.7; where PME applies, also at least main bonding and the size that distributors often ask
/// for.
#[must_use]
pub fn earthing_conductor(tails: SquareMillimetres, pme_neutral: Option<SquareMillimetres>) -> SquareMillimetres {
    match pme_neutral {
        Some(neutral) => by_line(tails).max(main_bonding(neutral)).max(EARTHING_ASKED),
        None => by_line(tails),
    }
}

/// The next size at or above `least` in which cable is made; `None` above the last row of the table of conductors.
#[must_use]
pub fn made(least: SquareMillimetres) -> Option<SquareMillimetres> {
    COPPER_AT_20C.rows.iter().map(|(size, _)| *size).find(|size| *size >= least)
}

/// Meter tails by the main fuse; `None` for a fuse above the last row.
#[must_use]
pub fn tails(fuse: Amps) -> Option<SquareMillimetres> {
    at_least(TAILS.rows, fuse)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_sides_of_each_step() {
        let size = SquareMillimetres::of;
        for (line, protective) in [(10.0, 10.0), (16.0, 16.0), (25.0, 16.0), (35.0, 16.0), (50.0, 25.0)] {
            assert_eq!(by_line(size(line)), size(protective), "{line}");
        }
        for (earthing, bonding) in [(6.0, 6.0), (16.0, 8.0), (50.0, 25.0), (70.0, 25.0)] {
            assert_eq!(bonding_without_pme(size(earthing)), size(bonding), "{earthing}");
        }
        for (least, size_) in [(8.0, Some(10.0)), (10.0, Some(10.0)), (10.1, Some(16.0)), (35.1, None)] {
            assert_eq!(made(size(least)), size_.map(size), "{least}");
        }
        for (fuse, size_) in
            [(60.0, Some(16.0)), (63.0, Some(16.0)), (80.0, Some(16.0)), (100.0, Some(25.0)), (125.0, None)]
        {
            assert_eq!(tails(Amps::of(fuse)), size_.map(size), "{fuse}");
        }
    }
}
