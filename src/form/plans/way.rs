//! The geometry of the route's drawing, in whole units of its view box.
//!
//! The form does not ask which way a cable turns at a corner, so no turn is drawn: the route is rolled out straight, from the board at the
//! left to the charge point at the right. Lengths are to scale; heights only show what each stretch runs along.

use super::strokes;
use model::answers::Along;
use model::units::Metres;

/// The view box of the drawing.
pub const SHEET: &str = "0 0 320 172";
/// How far from the left the route begins and ends.
const LEFT: i64 = 28;
const RIGHT: i64 = 292;
/// How far from the top the ground is.
const GROUND: i64 = 94;
/// How far from the top the tape measure begins.
const TAPE: i64 = 134;

/// One stretch to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bit {
    /// What it runs along, where that was answered.
    pub along: Option<Along>,
    /// Its length.
    pub length: Metres,
    /// Whether it is out of reach from the ground.
    pub high: bool,
}

/// One stretch as drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// The cable, as an SVG path.
    pub line: String,
    /// Whether the cable lies in the ground.
    pub buried: bool,
    /// What it runs along, as an SVG path.
    pub marks: String,
    /// The area of the stretch, as an SVG path: it is tinted while the stretch is worked on.
    pub area: String,
    /// How far from the left its number stands, if there is room for it.
    pub number: Option<i64>,
}

/// The whole route as drawn.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Way {
    /// Its stretches.
    pub drawn: Vec<Drawn>,
    /// The walls that it passes through, as an SVG path.
    pub walls: String,
    /// The cable from the last stretch to the charge point, as an SVG path.
    pub end: String,
    /// The tape measure and its ticks, as an SVG path.
    pub tape: String,
}

/// Whether a stretch is indoors; `None` where what it runs along was not answered.
const fn indoors(along: Option<Along>) -> Option<bool> {
    match along {
        None => None,
        Some(along) => Some(matches!(along, Along::Inside | Along::LoftOrFloor)),
    }
}

/// How far from the top the cable of a stretch is drawn.
const fn level(bit: &Bit) -> i64 {
    match bit.along {
        Some(Along::LoftOrFloor) => 26,
        Some(Along::SoftGround | Along::Paving) => 110,
        Some(Along::Fence) => 74,
        _ if bit.high => 50,
        _ => 66,
    }
}

/// Adds a straight stroke to a path.
fn stroke(path: &mut String, from: (i64, i64), to: (i64, i64)) {
    path.push_str(&strokes(&[("M", from.0), (" ", from.1), ("L", to.0), (" ", to.1)]));
}

/// Adds evenly spaced upright strokes between `from` and `to`: the `first` that far from the beginning, then one at each `step`.
fn uprights(path: &mut String, (from, to): (i64, i64), (first, step): (i64, i64), (top, foot): (i64, i64)) {
    let mut x = from + first;
    while x < to {
        stroke(path, (x, top), (x, foot));
        x += step;
    }
}

/// What a stretch runs along, in a few strokes.
fn marks(along: Option<Along>, from: i64, to: i64) -> String {
    let mut path = String::new();
    let mut level = |y| stroke(&mut path, (from, y), (to, y));
    let over = (from, to);
    match along {
        Some(Along::Inside | Along::LoftOrFloor) => [36, GROUND].into_iter().for_each(level),
        Some(Along::OutsideWall) => [38, 46, 54, 62, 70, 78, 86, GROUND].into_iter().for_each(level),
        Some(Along::Fence) => [72, 86, GROUND].into_iter().for_each(level),
        Some(Along::SoftGround) | None => level(GROUND),
        Some(Along::Paving) => [GROUND, 100].into_iter().for_each(level),
    }
    match along {
        // Joists over the ceiling.
        Some(Along::LoftOrFloor) => uprights(&mut path, over, (6, 12), (30, 36)),
        // Bricks in their bond.
        Some(Along::OutsideWall) => {
            for (navigation, top) in [38, 46, 54, 62, 70, 78, 86].into_iter().enumerate() {
                let first = if navigation % 2 == 0 { 4 } else { 10 };
                uprights(&mut path, over, (first, 12), (top, top + 8));
            }
        }
        Some(Along::Fence) => uprights(&mut path, over, (3, 6), (66, GROUND)),
        Some(Along::SoftGround) => {
            uprights(&mut path, over, (6, 14), (89, GROUND));
            uprights(&mut path, over, (8, 14), (87, GROUND));
            uprights(&mut path, over, (10, 14), (90, GROUND));
        }
        Some(Along::Paving) => uprights(&mut path, over, (8, 16), (GROUND, 100)),
        Some(Along::Inside) | None => {}
    }
    path
}

/// The metres between two ticks of the tape measure: 1, 2 or 5 times a power of ten, so large that there are twelve ticks at most.
fn tick(total: Metres) -> f64 {
    let mut tick = 0.1;
    for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(24) {
        if total.get() / tick <= 12.0 {
            break;
        }
        tick *= factor;
    }
    tick
}

impl Way {
    /// Lays out the drawing of a route of these stretches.
    #[must_use]
    pub fn of(bits: &[Bit]) -> Self {
        let total: Metres = bits.iter().map(|bit| bit.length).sum();
        let at = |metres: f64| {
            let share = if total > Metres::ZERO { metres / total.get() } else { 0.0 };
            LEFT + libm::round(share.clamp(0.0, 1.0) * (RIGHT - LEFT) as f64) as i64
        };
        let mut way = Self::default();
        let (mut gone, mut here, mut height, mut inside) = (0.0, LEFT, 66, Some(true));
        for bit in bits {
            gone += bit.length.get();
            let (to, next) = (at(gone), level(bit));
            let line = strokes(&[("M", here), (" ", height), ("V", next), ("H", to)]);
            let now = indoors(bit.along);
            if now.is_some() && inside.is_some() && now != inside {
                way.wall(here);
            }
            let area = strokes(&[("M", here), (" ", 16), ("H", to.max(here + 2)), ("V", TAPE + 16), ("H", here)]);
            way.drawn.push(Drawn {
                line,
                buried: matches!(bit.along, Some(Along::SoftGround | Along::Paving)),
                marks: marks(bit.along, here, to),
                area,
                number: (to - here >= 16).then_some((here + to) / 2),
            });
            (here, height, inside) = (to, next, now);
        }
        // The charge point is outside or in a garage, so a route whose last stretch is indoors ends with a wall.
        if inside == Some(true) && !bits.is_empty() {
            way.wall(here);
        }
        way.end = strokes(&[("M", here), (" ", height), ("V", 66), ("H", here + 6)]);
        way.measure(total, at);
        way
    }

    fn wall(&mut self, x: i64) {
        for side in [x - 2, x + 2] {
            stroke(&mut self.walls, (side, 20), (side, GROUND));
        }
    }

    fn measure(&mut self, total: Metres, at: impl Fn(f64) -> i64) {
        self.tape = strokes(&[("M", LEFT), (" ", TAPE), ("H", RIGHT), ("V", TAPE + 16), ("H", LEFT), ("V", TAPE)]);
        let tape = &mut self.tape;
        let tick = tick(total);
        for nth in 0..=12_i32 {
            let metres = f64::from(nth) * tick;
            if metres > total.get() {
                break;
            }
            let deep = if nth % 5 == 0 { 9 } else { 5 };
            stroke(tape, (at(metres), TAPE), (at(metres), TAPE + deep));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::answers::Word;

    fn bit(along: Along, metres: f64) -> Bit {
        Bit { along: Some(along), length: Metres::of(metres), high: false }
    }

    /// Every point of a path; panics at an unknown command.
    fn points(path: &str) -> Vec<(i64, i64)> {
        let spaced = path.replace(' ', ",").replace('z', "");
        let (mut at, mut all) = ((0, 0), Vec::new());
        let begins: Vec<usize> =
            spaced.match_indices(|letter: char| letter.is_ascii_uppercase()).map(|(at, _)| at).collect();
        let ends = begins.iter().skip(1).copied().chain([spaced.len()]);
        let parts = begins.iter().zip(ends).map(|(from, to)| (spaced.as_bytes()[*from] as char, &spaced[from + 1..to]));
        for (command, numbers) in parts {
            let numbers: Vec<i64> = numbers.split(',').map(|number| number.parse().unwrap()).collect();
            at = match (command, &numbers[..]) {
                ('M' | 'L', [x, y]) => (*x, *y),
                ('H', [x]) => (*x, at.1),
                ('V', [y]) => (at.0, *y),
                other => panic!("{other:?} in {path}"),
            };
            all.push(at);
        }
        all
    }

    fn every_point(way: &Way) -> Vec<(i64, i64)> {
        let mut paths = vec![&way.walls, &way.end, &way.tape];
        for drawn in &way.drawn {
            paths.extend([&drawn.line, &drawn.marks, &drawn.area]);
        }
        paths.into_iter().flat_map(|path| points(path)).collect()
    }

    #[test]
    fn every_route_stays_on_its_sheet() {
        let mixed = |count: usize, metres: f64| -> Vec<Bit> {
            (0..count).map(|at| Bit { high: at % 3 == 0, ..bit(Along::ALL[at % 6], metres) }).collect()
        };
        let nobody_said = Bit { along: None, length: Metres::of(4.0), high: false };
        for bits in [
            vec![],
            mixed(1, 0.0),
            mixed(6, 0.0),
            mixed(1, 0.1),
            mixed(6, 0.1),
            mixed(1, 1000.0),
            mixed(50, 1000.0),
            mixed(50, 0.001),
            vec![bit(Along::Inside, 0.1), bit(Along::Paving, 1000.0), bit(Along::Fence, 0.0)],
            vec![nobody_said, bit(Along::Inside, f64::MAX / 100.0)],
        ] {
            let way = Way::of(&bits);
            assert_eq!(way.drawn.len(), bits.len());
            for (x, y) in every_point(&way) {
                assert!((4..=316).contains(&x) && (4..=160).contains(&y), "{x} {y} of {bits:?}");
            }
        }
    }

    #[test]
    fn lengths_are_to_scale_and_the_line_never_breaks() {
        let way = Way::of(&[bit(Along::Inside, 2.0), bit(Along::OutsideWall, 4.0), bit(Along::Paving, 2.0)]);
        let lines: Vec<Vec<(i64, i64)>> = way.drawn.iter().map(|drawn| points(&drawn.line)).collect();
        let long: Vec<i64> = lines.iter().map(|line| line[2].0 - line[0].0).collect();
        assert_eq!(long, [66, 132, 66]);
        for pair in lines.windows(2) {
            assert_eq!(pair[0][2], pair[1][0]);
        }
        assert_eq!(points(&way.end)[0], lines[2][2]);
        assert_eq!(way.drawn.iter().map(|drawn| drawn.buried).collect::<Vec<_>>(), [false, false, true]);
        assert_eq!(points(&way.walls).len(), 4, "one wall, of two strokes, on the way out");
    }

    #[test]
    fn a_wall_is_passed_where_one_goes_out_or_in() {
        let walls = |bits: &[Bit]| points(&Way::of(bits).walls).len() / 4;
        assert_eq!(walls(&[bit(Along::Inside, 2.0)]), 1, "one wall between the last stretch and the charge point");
        assert_eq!(walls(&[bit(Along::Paving, 2.0)]), 1, "one wall between the board and the first stretch");
        assert_eq!(walls(&[bit(Along::Inside, 2.0), bit(Along::Fence, 2.0), bit(Along::LoftOrFloor, 2.0)]), 3);
        let open = Bit { along: None, length: Metres::of(1.0), high: false };
        assert_eq!(
            walls(&[bit(Along::Inside, 2.0), open]),
            0,
            "no wall where it is not known what the stretch runs along"
        );
    }

    #[test]
    fn the_tape_has_a_few_ticks_at_round_metres() {
        for (total, wanted) in
            [(0.1, 0.1), (1.2, 0.1), (2.0, 0.2), (12.0, 1.0), (13.0, 2.0), (61.0, 10.0), (1000.0, 100.0)]
        {
            let tick = tick(Metres::of(total));
            assert!((tick / wanted - 1.0).abs() < 1e-9, "{total}: {tick}");
        }
    }
}
