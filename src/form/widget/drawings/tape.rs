//! The tape: a ruled strip from nought to a round sum, with the price band filled in and its ends labelled.

use crate::widget::el::{El, drawing, el, path};
use crate::widget::speech::Speech;
use engine::assessment::Band;
use engine::price::Ruler;
use model::units::Pence;
use wording::form as words;
use yew::AttrValue;

/// How far from the left of the drawing the tape begins, in units of the view box.
const LEFT: i64 = Ruler::LEFT;
/// How wide the drawing is, how wide a sum under the tape is at most, and the gap that is left between two of them.
const SHEET: i64 = 320;
const LABEL: i64 = 60;
const GAP: i64 = 8;

/// The price band on a tape. The sum at the tape's end rarely changes, so that the band is seen to narrow.
#[must_use]
pub fn tape(band: &Band, curve: &str, speech: &Speech) -> El {
    let ruler = Ruler::over(band.high.max(band.plainest));
    let Ruler { end, tick: Pence(tick) } = ruler;
    let at = |money: Pence| ruler.at(money);
    let (low, likely, high, plainest) = (at(band.low), at(band.likely), at(band.high), at(band.plainest));
    let shown = [band.low, band.likely, band.high, band.plainest, end].map(|sum| speech.money(sum));
    let text = speech.fill(
        words::TAPE_TEXT,
        &[("low", &shown[0]), ("likely", &shown[1]), ("high", &shown[2]), ("plainest", &shown[3]), ("end", &shown[4])],
    );
    let [(low_at, low_anchor), (high_at, high_anchor)] = ends(low, high);
    let ticks = (0..=end.0 / tick).fold(String::new(), |mut path, place| {
        let x = at(Pence(place * tick)).to_string();
        let deep = if place % 5 == 0 { "v9" } else { "v5" };
        path.extend(["M", &x, " 56", deep]);
        path
    });
    let plainest_anchor = if plainest < 160 { "start" } else { "end" };
    let label = |class, x: String, y, anchor, text: AttrValue| {
        el("text").class(class).attr("x", x.into()).set("y", y).set("text-anchor", anchor).text(text)
    };
    let stretch = el("rect").class("stretch").attr("x", low.to_string().into()).set("y", "56").set("height", "22");
    drawing("tape", "0 0 320 110", speech.say(words::TAPE_TITLE), text)
        .with(path("curve", AttrValue::from(curve.to_owned())))
        .with(stretch.attr("width", (high - low).max(2).to_string().into()))
        .with(path("line", ["M10 56h300v22h-300z", &ticks].concat().into()))
        .with(path("line strong", ["M", &likely.to_string(), " 18v64"].concat().into()))
        .with(path("line dotted", ["M", &plainest.to_string(), " 16v62"].concat().into()))
        .with(label(
            "small",
            plainest.to_string(),
            "11",
            plainest_anchor,
            speech.fill(words::TAPE_PLAINEST, &[("plainest", &shown[3])]),
        ))
        .with(label("ends", low_at.to_string(), "100", low_anchor, shown[0].clone().into()))
        .with(label("ends", high_at.to_string(), "100", high_anchor, shown[2].clone().into()))
}

/// The position and the text anchor of the labels at the band's ends: outside the band where there is room, else inside, and never on top
/// of each other.
fn ends(low: i64, high: i64) -> [(i64, &'static str); 2] {
    let low = low.min(SHEET - LABEL - GAP);
    let (low_at, low_anchor, low_ends) = if low > LABEL { (low, "end", low) } else { (LEFT, "start", LEFT + LABEL) };
    let begins = high.max(low_ends + GAP);
    let (high_at, high_anchor) =
        if begins <= SHEET - LABEL { (begins, "start") } else { (high.max(low_ends + GAP + LABEL).min(SHEET), "end") };
    [(low_at, low_anchor), (high_at, high_anchor)]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn labels_stay_at_their_ends_on_the_sheet_and_off_each_other() {
        let spans = |(at, anchor): (i64, &str)| if anchor == "end" { (at - LABEL, at) } else { (at, at + LABEL) };
        // The band ends before the last tenth of the tape, and begins anywhere before that.
        for high in LEFT + 2..=LEFT + Ruler::WIDE * 10 / 11 {
            for low in LEFT..high {
                let [lower, higher] = ends(low, high).map(spans);
                assert!(lower.0 >= 0 && higher.1 <= SHEET, "{low} {high}: {lower:?} {higher:?}");
                assert!(lower.1 + GAP <= higher.0, "{low} {high}: {lower:?} {higher:?}");
            }
        }
        assert_eq!(ends(197, 280), [(197, "end"), (280, "end")]);
        assert_eq!(ends(180, 241), [(180, "end"), (241, "start")]);
    }
}
