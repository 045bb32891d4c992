//! A route as it is laid: each stretch with its reference method, ambient temperature, grouping and insulation, and the place where it
//! passes a wall.
//!
//! Where something was not seen, the cautious value is taken; each figure is a row of [`model::tables::surroundings`] or
//! [`model::tables::rating_factors`].

use super::cable::{all_armoured, kind, takes_armoured};
use crate::calculation::capacity::{CableType, Factors, Method, insulation};
use crate::calculation::sizing::Piece;
use crate::site::{Run, is_ground};
use model::answers::{Along, Answers, OtherPoint};
use model::tables::about::{Published, at_least};
use model::tables::rating_factors::{AIR_70, BURIED_APART, BURIED_OVERLOAD, GROUND_70, GROUPED_TOUCHING};
use model::tables::surroundings::{CAVITY, GROUND, INDOORS, LOFT, OUTDOORS};
use model::units::{Celsius, Count, Metres, Ratio};

/// The surroundings of a route, as far as the answers tell.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Around {
    /// How many loaded circuits run along it together, this one included.
    pub together: Count,
    /// Insulation that surrounds the cable where it passes a wall; `None` where it passes none.
    pub in_wall: Option<Metres>,
    /// Whether armoured cable is taken all the way.
    pub armoured: bool,
}

impl Around {
    /// One circuit alone that passes no wall.
    pub const NOTHING: Self = Self { together: Count::of(1), in_wall: None, armoured: false };

    /// The surroundings by the answers. The cable of another charge point that stays is taken to run the same way, since no other circuit
    /// asked about is loaded for hours; a wall is taken to be passed, and its cavity filled, unless the answers say there is none. Common
    /// practice, no source.
    #[must_use]
    pub fn of(answers: &Answers) -> Self {
        let other = answers.loads.other_point.is(OtherPoint::Kept);
        let through = answers.route.walls.known().is_none_or(|walls| walls.get() > 0);
        Self {
            together: Count::of(if other { 2 } else { 1 }),
            in_wall: through.then_some(CAVITY),
            armoured: all_armoured(answers),
        }
    }

    /// Whether a stretch takes armoured cable here.
    #[must_use]
    pub const fn takes_armoured(&self, along: Along) -> bool {
        self.armoured || takes_armoured(along)
    }
}

/// Ambient temperature along a stretch.
#[must_use]
pub const fn ambient(along: Along) -> Celsius {
    match along {
        Along::Inside => INDOORS,
        Along::LoftOrFloor => LOFT,
        Along::OutsideWall | Along::Fence => OUTDOORS,
        Along::SoftGround | Along::Paving => GROUND,
    }
}

/// The published factors of a stretch for ambient temperature and for grouping; armoured cable is rated as 70 °C here too. In air, circuits
/// are taken to lie side by side, touching; in the ground, to have trenches of their own, at a distance.
#[must_use]
pub const fn published_factors(along: Along) -> (Published<Celsius, Ratio>, Published<Count, Ratio>) {
    if is_ground(along) { (GROUND_70, BURIED_APART) } else { (AIR_70, GROUPED_TOUCHING) }
}

/// A stretch as it is laid.
///
/// Insulation in a loft is taken as thicker than 100 mm until seen: the stricter reference method. A buried cable takes the factor for
/// protection against overload.
#[must_use]
pub fn piece(run: &Run, with_data: bool, around: Around) -> Piece {
    let armoured = around.takes_armoured(run.along);
    let (by_ambient, by_company) = published_factors(run.along);
    // Beyond the last row nothing is tabulated, so no capacity is left.
    let mut factors = Factors {
        ambient: at_least(by_ambient.rows, ambient(run.along)).unwrap_or(Ratio::ZERO),
        grouping: at_least(by_company.rows, around.together).unwrap_or(Ratio::ZERO),
        ..Factors::REFERENCE
    };
    let method = if is_ground(run.along) {
        factors.device = BURIED_OVERLOAD;
        Method::D
    } else if matches!(run.along, Along::LoftOrFloor) && !armoured {
        Method::M101
    } else {
        Method::C
    };
    Piece { cable: kind(armoured, with_data), method, length: run.length, factors }
}

/// Lengths of a route by how they are laid, each summed over its stretches.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Laid {
    /// The whole length.
    pub total: Metres,
    /// In flat cable.
    pub flat: Metres,
    /// In armoured cable.
    pub armoured: Metres,
    /// How many separate runs of armoured cable there are: each needs a gland at both ends.
    pub armoured_runs: u8,
    /// Dug in.
    pub dug: Metres,
    /// Of that, under paving, concrete or tarmac.
    pub under_paving: Metres,
    /// Out of reach from the ground.
    pub high: Metres,
}

/// Sums the lengths of a route by how they are laid, for the estimate and for descriptions. `all_armoured` where armoured cable is taken
/// all the way.
#[must_use]
pub fn laid(runs: impl Iterator<Item = Run>, all_armoured: bool) -> Laid {
    let (mut sum, mut in_armoured) = (Laid::default(), false);
    for Run { along, length, high } in runs {
        let add = |to: &mut Metres, such: bool| {
            if such {
                *to = *to + length;
            }
        };
        let armoured = all_armoured || takes_armoured(along);
        add(&mut sum.total, true);
        add(&mut sum.flat, !armoured);
        add(&mut sum.armoured, armoured);
        add(&mut sum.dug, is_ground(along));
        add(&mut sum.under_paving, matches!(along, Along::Paving));
        add(&mut sum.high, high);
        sum.armoured_runs = sum.armoured_runs.saturating_add(u8::from(armoured && !in_armoured));
        in_armoured = armoured;
    }
    sum
}

/// The piece of cable that passes a wall: alone in its hole, and its length is already counted in the stretches.
#[must_use]
pub fn in_a_wall(cable: CableType, length: Metres) -> Piece {
    let factors = Factors { insulation: insulation(length), ..Factors::REFERENCE };
    Piece { cable, method: Method::C, length: Metres::ZERO, factors }
}

/// A whole route as it is laid: its stretches, and the wall that it passes. The piece in the wall is armoured where any stretch is.
pub fn pieces<R: Iterator<Item = Run>>(
    runs: impl Fn() -> R,
    with_data: bool,
    around: Around,
) -> impl Iterator<Item = Piece> {
    let wall = around.in_wall.map(|length| {
        let armoured = runs().any(|run| around.takes_armoured(run.along));
        in_a_wall(kind(armoured, with_data), length)
    });
    runs().map(move |run| piece(&run, with_data, around)).chain(wall)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::calculation::capacity::{iz, tabulated};
    use model::answers::{Answer, Word};
    use model::units::{Amps, SquareMillimetres};

    #[test]
    fn a_route_is_summed_by_what_it_takes() {
        let run = |along, metres, high| Run { along, length: Metres::of(metres), high };
        let of = [
            run(Along::Inside, 3.0, false),
            run(Along::OutsideWall, 4.0, true),
            run(Along::Paving, 2.0, false),
            run(Along::LoftOrFloor, 1.0, false),
            run(Along::SoftGround, 5.0, false),
        ];
        let metres = Metres::of;
        assert_eq!(
            laid(of.into_iter(), false),
            Laid {
                total: metres(15.0),
                flat: metres(4.0),
                armoured: metres(11.0),
                armoured_runs: 2,
                dug: metres(7.0),
                under_paving: metres(2.0),
                high: metres(4.0),
            }
        );
        assert_eq!(laid(core::iter::empty(), true), Laid::default());
        let all = laid(of.into_iter(), true);
        assert_eq!((all.flat, all.armoured, all.armoured_runs), (metres(0.0), metres(15.0), 1));
    }

    fn capacity(piece: &Piece, size: f64) -> Amps {
        iz(tabulated(piece.cable, piece.method, SquareMillimetres::of(size)).unwrap(), &piece.factors)
    }

    fn along(along: Along, around: Around) -> Piece {
        piece(&Run { along, length: Metres::of(5.0), high: false }, false, around)
    }

    /// Sources: BS 7671 Table 4D5 (47 A; 36 A at 10 mm²), Table 4D4A (49 A; 46 A in the ground), Table 4B1 (0.94 at 35 °C),
    /// Appendix 4, 5.1.1 (0.9, from memory).
    #[test]
    fn each_stretch_has_its_own_surroundings() {
        let iz = |at, size| capacity(&along(at, Around::NOTHING), size).get();
        assert_eq!(iz(Along::Inside, 6.0), 47.0);
        assert!((iz(Along::LoftOrFloor, 10.0) - 36.0 * 0.94).abs() < 1e-9);
        assert_eq!(iz(Along::OutsideWall, 6.0), 49.0);
        assert!((iz(Along::SoftGround, 6.0) - 46.0 * 0.9).abs() < 1e-9);
    }

    /// Sources: BS 7671 Table 4C1 (two, single layer, touching: 0.85), Table 4C2 (two, 0.25 m apart: 0.90, from memory).
    #[test]
    fn a_charge_point_that_stays_is_company_all_the_way() {
        let mut answers = Answers::default();
        answers.loads.other_point = Answer::Known(OtherPoint::Kept);
        let around = Around::of(&answers);
        assert!((capacity(&along(Along::Inside, around), 6.0).get() - 47.0 * 0.85).abs() < 1e-9);
        assert!((capacity(&along(Along::Paving, around), 6.0).get() - 46.0 * 0.9 * 0.9).abs() < 1e-9);
        for alone in [Answer::NotSure, Answer::NotAsked, Answer::Known(OtherPoint::Replaced)] {
            answers.loads.other_point = alone;
            assert_eq!(Around::of(&answers).together, Count::of(1));
        }
        for at in Along::ALL {
            let more = Around { together: Count::of(10), ..Around::NOTHING };
            assert_eq!(capacity(&along(*at, more), 16.0), Amps::ZERO, "no row, no capacity made up");
        }
    }

    /// Source: BS 7671 Table 52.2: 0.88 for 50 mm, times method C.
    #[test]
    fn a_wall_is_passed_unless_none_is() {
        let mut answers = Answers::default();
        let walls = |answers: &Answers, at| {
            let runs = [Run { along: at, length: Metres::of(5.0), high: false }];
            let around = Around::of(answers);
            pieces(|| runs.into_iter(), false, around).skip(1).collect::<alloc::vec::Vec<_>>()
        };
        let inside = walls(&answers, Along::Inside);
        assert_eq!(inside.len(), 1, "not known: one is passed");
        assert!((capacity(&inside[0], 6.0).get() - 47.0 * 0.88).abs() < 1e-9);
        assert_eq!(inside[0].length, Metres::ZERO);
        assert!((capacity(&walls(&answers, Along::Paving)[0], 6.0).get() - 49.0 * 0.88).abs() < 1e-9);
        answers.route.walls = Answer::Known(model::answers::BoundedCount::new(0).unwrap());
        assert_eq!(walls(&answers, Along::Inside), []);
        answers.route.walls = Answer::Known(model::answers::BoundedCount::new(1).unwrap());
        assert_eq!(walls(&answers, Along::Inside).len(), 1);
    }
}
