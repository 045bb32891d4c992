//! The drawing of the drive from above: the charge point on its wall, the car, its inlet, and how far each lead reaches.

use super::drive::{Drive, SHEET};
use super::{Speech, label, of_class, path, sheet, strokes};
use model::answers::Inlet;
use model::units::Metres;
use record::markup::Tag;
use wording::plans as words;

/// The position of car and leads that is drawn.
pub struct Standing<'a> {
    /// Where the inlet is: one of the six places.
    pub inlet: Inlet,
    /// Whether the car's nose points to the charge point.
    pub nose_in: bool,
    /// The distance from the charge point to the car.
    pub to_car: Metres,
    /// The lengths of the leads.
    pub leads: &'a [Metres],
    /// Whether a public footway lies between home and car.
    pub footway: bool,
}

/// Draws the drive; `said` describes it in words, for a screen reader.
#[must_use]
pub fn from_above(standing: &Standing<'_>, said: String, speech: &Speech) -> Tag {
    let Standing { inlet, nose_in, to_car, leads, footway } = standing;
    let drive = Drive::of(*inlet, *nose_in, *to_car, leads);
    let dot = |(x, y): (i64, i64), class, size| {
        of_class("circle", class).attr("cx", &x.to_string()).attr("cy", &y.to_string()).attr("r", size)
    };
    let wall = path("line", "M14 4V146 M14 20L4 30 M14 50L4 60 M14 80L4 90 M14 110L4 120 M14 140L4 150");
    let kerbs = footway.then(|| {
        let (from, to) = drive.between;
        let line = strokes(&[("M", from + 5), (" ", 18), ("V", 132), ("M", to - 3), (" ", 18), ("V", 132)]);
        [path("line dotted", &line), label(((from + to) / 2, 12), "middle", speech.say(words::REACH_FOOTWAY_LABEL))]
    });
    let drawn = drive.leads.iter().zip(*leads).flat_map(|(lead, length)| {
        let short = !lead.reaches || *footway;
        let line = path(if short { "line run buried" } else { "line run" }, &lead.line);
        let (x, y) = lead.end;
        let end = (!lead.reaches).then(|| {
            let beside = (x, y + if y < 72 { -8 } else { 17 });
            [dot(lead.end, "line lit", "3"), label(beside, "middle", speech.metres(*length))]
        });
        [line].into_iter().chain(end.into_iter().flatten())
    });
    sheet("plan above", SHEET, speech.say(words::REACH_TITLE), said)
        .with(wall)
        .all(kerbs.into_iter().flatten())
        .with(path("line tint", &drive.car))
        .with(path("line faint", &drive.glass))
        .all(drawn)
        .with(path("line lit", "M14 62h10v20h-10z"))
        .with(dot(drive.inlet, "line plug", "5"))
        .with(label((drive.nose.0, drive.nose.1 + 4), "middle", speech.say(words::REACH_NOSE_LABEL)))
        .with(label((22, 147), "start", speech.say(words::WAY_POINT)))
}
