//! The geometry of the drive seen from above: charge point, car, inlet and leads, in whole units of the drawing's view box.
//!
//! A lead is drawn along the path that [`engine::calculation::reach`] measures: straight to the near end of the car, then along its side.

use super::strokes;
use engine::calculation::reach::{CAR, DOWN_AND_UP, HALF_WIDTH, TO_WING, needed};
use model::answers::Inlet;
use model::units::Metres;

/// The view box of the drawing.
pub const SHEET: &str = "0 0 320 150";
/// How far from the left the charge point is, and the furthest right that anything is drawn.
const SPOT: i64 = 24;
const RIGHT: f64 = 306.0;
/// How far from the top the middle of the car is.
const MIDDLE: i64 = 72;
/// The largest scale, in units to a metre.
const MOST: f64 = 36.0;
/// Room left behind the car for leads that go round it, in metres.
const BEHIND: f64 = 1.2;

/// A lead as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Lead {
    /// Its SVG path.
    pub line: String,
    /// Where it ends.
    pub end: (i64, i64),
    /// Whether it reaches the inlet.
    pub reaches: bool,
}

/// The drive as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drive {
    /// The car's outline.
    pub car: String,
    /// Its windows: the windscreen is towards the nose.
    pub glass: String,
    /// Where the word for its nose stands.
    pub nose: (i64, i64),
    /// Where its inlet is.
    pub inlet: (i64, i64),
    /// The leads, in the order given.
    pub leads: Vec<Lead>,
    /// How far from the left the ground between charge point and car begins and ends.
    pub between: (i64, i64),
}

/// The corner points of a lead's path to the inlet, in metres from the charge point: how far towards the car, and how far to the side of
/// its middle line.
fn way(inlet: Inlet, nose_in: bool, to_car: f64) -> Vec<(f64, f64)> {
    let (length, half, wing) = (CAR.get(), HALF_WIDTH.get(), TO_WING.get());
    let at_nose = matches!(inlet, Inlet::Front | Inlet::FrontLeft | Inlet::FrontRight);
    let left = matches!(inlet, Inlet::FrontLeft | Inlet::RearLeft);
    let near = at_nose == nose_in;
    let mut points = vec![(0.0, 0.0), (to_car, 0.0)];
    match inlet {
        Inlet::Front | Inlet::Rear if near => {}
        Inlet::Front | Inlet::Rear => {
            points.extend([(to_car, half), (to_car + length, half), (to_car + length, 0.0)]);
        }
        _ => {
            // With the nose towards the spot the driver's left is below on the sheet.
            let side = if left == nose_in { half } else { -half };
            let along = if near { wing } else { length - wing };
            points.extend([(to_car, side), (to_car + along, side)]);
        }
    }
    points
}

/// The beginning of a path, cut off after `length` metres.
fn cut(points: &[(f64, f64)], mut length: f64) -> Vec<(f64, f64)> {
    let mut kept: Vec<(f64, f64)> = points.iter().take(1).copied().collect();
    for pair in points.windows(2) {
        let ((x, y), (to_x, to_y)) = (pair[0], pair[1]);
        // Every piece runs straight across or straight along.
        let long = (to_x - x).abs() + (to_y - y).abs();
        if long > length {
            let share = if long > 0.0 { length / long } else { 0.0 };
            kept.push((x + (to_x - x) * share, y + (to_y - y) * share));
            break;
        }
        length -= long;
        kept.push((to_x, to_y));
    }
    kept
}

impl Drive {
    /// Lays out the drawing. `inlet` must be one of the six places round the car, `to_car` is the distance from the charge point to the
    /// car, and `leads` are the lengths of the leads to draw.
    #[must_use]
    pub fn of(inlet: Inlet, nose_in: bool, to_car: Metres, leads: &[Metres]) -> Self {
        let room = to_car.get() + CAR.get() + BEHIND;
        let scale = ((RIGHT - SPOT as f64) / room).min(MOST);
        let unit = |metres: f64| libm::round(metres * scale) as i64;
        let (from, to, half) =
            (SPOT + unit(to_car.get()), SPOT + unit(to_car.get() + CAR.get()), unit(HALF_WIDTH.get()));
        let place = |(x, y): (f64, f64), off: i64| {
            let sign = |value: f64| {
                if value > 0.0 {
                    1
                } else if value < 0.0 {
                    -1
                } else {
                    0
                }
            };
            let across = SPOT + unit(x);
            // A lead keeps clear of the car and of the other leads.
            let clear = if across <= from {
                -off
            } else if across >= to {
                off
            } else {
                0
            };
            ((across + clear).clamp(SPOT, RIGHT as i64 + 8), MIDDLE + unit(y) + sign(y) * off)
        };
        let points = way(inlet, nose_in, to_car.get());
        let needs = needed(inlet, to_car).map(|[nose, tail]| if nose_in { nose } else { tail });
        let end = points[points.len() - 1];
        let drawn = (0..).zip(leads).map(|(nth, lead)| {
            let reaches = needs.is_some_and(|needs| *lead >= needs);
            let off = 5 + 5 * (nth % 4);
            let mut kept =
                if reaches { points.clone() } else { cut(&points, lead.get() - DOWN_AND_UP.get().min(lead.get())) };
            let mut line = strokes(&[("M", SPOT), (" ", MIDDLE)]);
            let mut last = (SPOT, MIDDLE);
            for point in kept.drain(1..) {
                last = place(point, off);
                line.push_str(&strokes(&[("L", last.0), (" ", last.1)]));
            }
            if reaches {
                last = place(end, 0);
                line.push_str(&strokes(&[("L", last.0), (" ", last.1)]));
            }
            Lead { line, end: last, reaches }
        });
        let (nose, tail) = if nose_in { (from, to) } else { (to, from) };
        let part = |share: i64| nose + (tail - nose) * share / 100;
        let (top, foot) = (MIDDLE - half, MIDDLE + half);
        let round = (half / 2).min((to - from) / 4);
        let (before, after, under, over) = (from + round, to - round, top + round, foot - round);
        let mut car =
            strokes(&[("M", before), (" ", top), ("H", after), ("Q", to), (" ", top), (" ", to), (" ", under)]);
        car.push_str(&strokes(&[("V", over), ("Q", to), (" ", foot), (" ", after), (" ", foot), ("H", before)]));
        car.push_str(&strokes(&[("Q", from), (" ", foot), (" ", from), (" ", over), ("V", under)]));
        car.push_str(&strokes(&[("Q", from), (" ", top), (" ", before), (" ", top)]));
        let (inset, wide, narrow) = (half / 5, part(28), part(40));
        let mut glass = strokes(&[("M", wide), (" ", top + inset), ("L", narrow), (" ", top + 2 * inset)]);
        glass.push_str(&strokes(&[("V", foot - 2 * inset), ("L", wide), (" ", foot - inset), ("V", top + inset)]));
        glass.push_str(&strokes(&[("M", part(86)), (" ", top + 2 * inset), ("V", foot - 2 * inset)]));
        Self {
            car,
            glass,
            nose: (part(14), MIDDLE),
            inlet: place(end, 0),
            leads: drawn.collect(),
            between: (SPOT, from),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::calculation::reach::PLACES;

    fn long(points: &[(f64, f64)]) -> f64 {
        points.windows(2).map(|pair| (pair[1].0 - pair[0].0).abs() + (pair[1].1 - pair[0].1).abs()).sum()
    }

    #[test]
    fn what_is_drawn_is_as_long_as_the_rule_says() {
        for inlet in PLACES {
            for to_car in [0.0, 0.1, 3.0, 1000.0] {
                let needs = needed(inlet, Metres::of(to_car)).unwrap();
                for (nose_in, needs) in [(true, needs[0]), (false, needs[1])] {
                    let drawn = long(&way(inlet, nose_in, to_car)) + DOWN_AND_UP.get();
                    assert!((drawn - needs.get()).abs() < 1e-9, "{inlet:?} {nose_in} {to_car}: {drawn} {needs}");
                }
            }
        }
    }

    #[test]
    fn everything_stays_on_the_sheet() {
        for inlet in PLACES {
            for nose_in in [true, false] {
                for to_car in [0.0, 0.1, 2.0, 1000.0] {
                    let leads = [0.0, 0.1, 5.0, 7.5, 50.0].map(Metres::of);
                    let drive = Drive::of(inlet, nose_in, Metres::of(to_car), &leads);
                    let lines: Vec<&String> = drive.leads.iter().map(|lead| &lead.line).collect();
                    for path in [&drive.car, &drive.glass].into_iter().chain(lines) {
                        for number in path.split(|letter: char| !letter.is_ascii_digit() && letter != '-') {
                            let number: i64 = if number.is_empty() { 0 } else { number.parse().unwrap() };
                            assert!((0..=320).contains(&number), "{number} in {path}");
                        }
                    }
                    assert!(drive.leads[4].reaches == (to_car < 40.0), "{inlet:?} {to_car}");
                }
            }
        }
    }

    #[test]
    fn left_is_the_drivers_left_and_a_turned_car_has_it_on_the_other_side() {
        let at = |inlet, nose_in| Drive::of(inlet, nose_in, Metres::of(1.0), &[]).inlet;
        let (nose_in, tail_in) = (at(Inlet::FrontLeft, true), at(Inlet::FrontLeft, false));
        assert!(nose_in.1 > MIDDLE && tail_in.1 < MIDDLE);
        assert!(nose_in.0 < tail_in.0, "and at the near end where the nose points to the spot");
        assert_eq!(at(Inlet::Front, true).1, MIDDLE);
    }

    #[test]
    fn a_lead_that_is_too_short_ends_on_its_way() {
        let drive = Drive::of(Inlet::Rear, true, Metres::of(1.0), &[Metres::of(5.0), Metres::of(10.0)]);
        assert!(!drive.leads[0].reaches && drive.leads[1].reaches);
        assert_eq!(drive.leads[1].end, drive.inlet);
        assert!(drive.leads[0].end.0 < drive.inlet.0);
        assert_eq!(cut(&[(0.0, 0.0), (2.0, 0.0), (2.0, 3.0)], 3.0), [(0.0, 0.0), (2.0, 0.0), (2.0, 1.0)]);
    }
}
