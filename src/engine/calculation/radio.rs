//! The radio signal at the spot, from a router indoors: ITU-R P.1238 (site-general) with floors and walls between.
//!
//! A rough model: shadowing alone scatters by 10 dB indoors (ns-3 Buildings module, design document). Its result says whether a measurement
//! is worth making, never that a link will hold.

use model::answers::choices::words;
use model::tables::about::at;
use model::tables::radio as table;
use model::units::{Count, Decibels, Level, Megahertz, Metres};

words! {
    /// Kinds of building that the model tells apart.
    pub enum Building {
        /// A home.
        Residential => "residential",
        /// An office.
        Office => "office",
        /// A shop or hall.
        Commercial => "commercial",
    }
}

words! {
    /// Kinds of wall.
    pub enum Wall {
        /// Wood.
        Wood => "wood",
        /// An outside wall with windows.
        WithWindows => "with-windows",
        /// Concrete without windows.
        Concrete => "concrete",
        /// Stone.
        Stone => "stone",
        /// An inside wall.
        Inside => "inside",
    }
}

words! {
    /// How good a signal is.
    pub enum Signal {
        /// Good.
        Good => "good",
        /// Marginal.
        Marginal => "marginal",
        /// Weak: a data cable, a bridge or mobile data is planned.
        Weak => "weak",
    }
}

impl Wall {
    /// The loss of a signal through it.
    #[must_use]
    pub const fn loss(self) -> Decibels {
        match self {
            Self::Wood => table::WALL_WOOD,
            Self::WithWindows => table::WALL_WINDOWS,
            Self::Concrete => table::WALL_CONCRETE,
            Self::Stone => table::WALL_STONE,
            Self::Inside => table::WALL_INSIDE,
        }
    }
}

impl Building {
    /// The key of its rows in the tables.
    #[must_use]
    pub const fn row(self) -> Count {
        Count::of(self as u32 + 1)
    }
}

/// Loss between router and spot: 20 log₁₀ f + N log₁₀ d + Lf(n) − 28 dB, f in MHz, d in metres; nearer than one metre as at one.
///
/// # Source
/// ITU-R P.1238 (older editions), seen in the ns-3 Buildings module's design document (CTTC).
#[must_use]
pub fn loss(frequency: Megahertz, distance: Metres, building: Building, floors: Count) -> Decibels {
    let of = |rows: &[(Count, Decibels)]| at(rows, building.row()).unwrap_or(Decibels::ZERO).get();
    let between = match floors.get() {
        0 => 0.0,
        more => of(table::FIRST_FLOOR.rows) + of(table::FURTHER_FLOOR.rows) * f64::from(more - 1),
    };
    let spread = of(table::DISTANCE.rows) * libm::log10(distance.get().max(1.0));
    let loss = 20.0 * libm::log10(frequency.get()) + spread + between - 28.0;
    Decibels::new(loss).unwrap_or(Decibels::ZERO) // below some 25 MHz the model would give a gain
}

/// The level that arrives of the level sent, after the loss on the way and that of each wall.
#[must_use]
pub fn arrives(sent: Level, loss: Decibels, walls: impl Iterator<Item = Wall>) -> Level {
    walls.fold(sent.after(loss), |level, wall| level.after(wall.loss()))
}

/// How good a level is.
#[must_use]
pub fn verdict(level: Level) -> Signal {
    if level >= table::GOOD {
        Signal::Good
    } else if level >= table::MARGINAL {
        Signal::Marginal
    } else {
        Signal::Weak
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exactly_on_a_threshold_is_the_better_one() {
        assert_eq!(verdict(Level::of(-67.0)), Signal::Good);
        assert_eq!(verdict(Level::of(-67.001)), Signal::Marginal);
        assert_eq!(verdict(Level::of(-75.0)), Signal::Marginal);
        assert_eq!(verdict(Level::of(-75.001)), Signal::Weak);
    }

    #[test]
    fn nearer_than_a_metre_is_as_at_one() {
        let at = |metres| loss(Megahertz::of(2400.0), Metres::of(metres), Building::Residential, Count::of(0));
        assert_eq!(at(0.0), at(1.0));
    }
}
