//! The markup of the route builder: the drawing of the route, a row of fields for each stretch, the total length and what it involves
//! (armoured cable, digging, work at height).

use super::rolled_out::rolled_out;
use super::route::{Route, field};
use super::way::Bit;
use super::{Speech, button, list, of_class, tenths};
use engine::design::laid::laid;
use engine::site::{Run, is_ground};
use model::answers::{Along, LengthUnit, StretchRow, StretchRowChange, Word, thousandths};
use model::units::Metres;
use record::markup::Tag;
use wording::{Key, plans as words};

/// The whole route builder. `complains` is the id of the error message that fields still to be filled in refer to.
pub fn view(route: &Route, complains: Option<&str>) -> Tag {
    let Route { speech, rows, .. } = route;
    let bit = |row: &StretchRow| Bit { along: row.along, length: route.metres(row), high: row.high };
    let bits: Vec<Bit> = rows.0.iter().map(bit).collect();
    let runs = bits
        .iter()
        .filter_map(|Bit { along, length, high }| along.map(|along| Run { along, length: *length, high: *high }));
    let sum = laid(runs, false);
    let metres = |length| speech.metres(tenths(length));
    let total = metres(sum.total);
    let said: Vec<String> = rows.0.iter().enumerate().map(|(at, row)| name(at, row, speech)).collect();
    let line = |key: Key, length: Metres| {
        let places = [("metres", &*metres(length)), ("paving", &*metres(sum.under_paving))];
        (length > Metres::ZERO).then(|| speech.fill(key, &places))
    };
    let dug = match sum.under_paving {
        Metres::ZERO => words::LAID_DUG,
        all if all == sum.dug => words::LAID_DUG_PAVED,
        _ => words::LAID_DUG_PAVING,
    };
    let means = [
        line(words::LAID_FLAT, sum.flat),
        line(words::LAID_ARMOURED, sum.armoured),
        line(dug, sum.dug),
        line(words::LAID_HIGH, sum.high),
    ];
    let in_order = Tag::new("ol").all(rows.0.iter().zip(&said).enumerate().map(|(at, (row, said))| {
        let one = One { route, at, n: speech.fill(words::STRETCH_N, &[("n", &(at + 1).to_string())]), said };
        one.view(row, complains)
    }));
    let told = of_class("p", "aside").attr("role", "status").text(told(route, &total));
    of_class("div", "stretches")
        .with(of_class("div", "seen").with(rolled_out(&bits, route.at, &said.join("; "), total.clone(), speech)))
        .with(in_order)
        .with(told)
        .with(of_class("p", "total").text(in_all(route, &total)))
        .with(list(means.into_iter().flatten()))
}

/// The name of the stretch at an index: its number and, once they are filled in, what it runs along and its length.
fn name(at: usize, row: &StretchRow, speech: &Speech) -> String {
    let n = (at + 1).to_string();
    match row.along {
        Some(along) if !row.length.is_empty() => {
            let along = speech.made(&["along-", along.word()]);
            let length = [&*row.length, " ", &speech.made(&["unit-", row.unit().word()])].concat();
            speech.fill(words::STRETCH_NAME, &[("n", &n), ("along", &along), ("length", &length)])
        }
        _ => speech.fill(words::STRETCH_N, &[("n", &n)]),
    }
}

/// The total length in metres, and also in the unit of the rows where all have the same one.
fn in_all(route: &Route, total: &str) -> String {
    let Route { speech, rows, .. } = route;
    let said: Vec<&StretchRow> = rows.0.iter().filter(|row| !row.is_blank()).collect();
    if said.is_empty() || said.iter().any(|row| row.stretch().is_none()) {
        return speech.fill(words::STRETCH_TOTAL_OPEN, &[("metres", total)]);
    }
    let unit = said[0].unit();
    if unit == LengthUnit::Metres || said.iter().any(|row| row.unit() != unit) {
        return speech.fill(words::STRETCH_TOTAL, &[("metres", total)]);
    }
    let count = speech.number(said.iter().filter_map(|row| thousandths(&row.length)).sum());
    let unit = speech.made(&["unit-", unit.word()]);
    speech.fill(words::STRETCH_TOTAL_IN, &[("metres", total), ("count", &count), ("unit", &unit)])
}

/// The announcement of the last change to the list, for a screen reader.
fn told(route: &Route, total: &str) -> String {
    let key = match route.did {
        Some(StretchRowChange::AddAfter) => words::STRETCH_DID_ADD,
        Some(StretchRowChange::Earlier | StretchRowChange::Later) => words::STRETCH_DID_MOVE,
        Some(StretchRowChange::Split) => words::STRETCH_DID_SPLIT,
        Some(StretchRowChange::TakeOut) => words::STRETCH_DID_OUT,
        _ => return String::new(),
    };
    let [n, next, all] = [route.at + 1, route.at + 2, route.rows.0.len()].map(|number| number.to_string());
    let did = route.speech.fill(key, &[("n", &n), ("next", &next), ("all", &all)]);
    [&*did, " ", &in_all(route, total)].concat()
}

/// One row: its index, the words for its number (`n`) and its full name (`said`).
struct One<'a> {
    route: &'a Route,
    at: usize,
    n: String,
    said: &'a str,
}

impl One<'_> {
    /// The row's fields and buttons.
    fn view(&self, row: &StretchRow, complains: Option<&str>) -> Tag {
        let open = complains.filter(|_| row.stretch().is_none() && !row.is_blank());
        let speech = &self.route.speech;
        let now = (self.route.at == self.at).then_some("now");
        let along = self
            .choice("along", words::STRETCH_ALONG, row.along.map_or("", Along::word))
            .with(option("", speech.say(words::STRETCH_CHOOSE)))
            .all(Along::WORDS.iter().map(|word| option(word, speech.made(&["option-route-mostly-", word]))));
        let length = self
            .control("input", "length", words::STRETCH_LENGTH)
            .attr("class", "narrow")
            .attr("type", "text")
            .attr("inputmode", "decimal")
            .attr("autocomplete", "off")
            .attr("maxlength", "12")
            .attr("value", &row.length);
        let unit = self
            .choice("unit", words::STRETCH_UNIT, row.unit().word())
            .all(LengthUnit::WORDS.iter().map(|word| option(word, speech.made(&["unit-", word]))));
        // Only a stretch that is not in the ground can be out of reach.
        let high = row.along.is_some_and(|along| !is_ground(along)).then(|| {
            let tick = self.control("input", "high", words::STRETCH_HIGH).attr("type", "checkbox");
            let tick = tick.maybe("checked", row.high.then_some("checked"));
            of_class("label", "choice").with(tick).with(Tag::new("span").text(speech.say(words::STRETCH_HIGH)))
        });
        let does = [
            ("earlier", StretchRowChange::Earlier, words::STRETCH_EARLIER),
            ("later", StretchRowChange::Later, words::STRETCH_LATER),
            ("split", StretchRowChange::Split, words::STRETCH_SPLIT),
            ("add", StretchRowChange::AddAfter, words::STRETCH_ADD),
            ("out", StretchRowChange::TakeOut, words::STRETCH_OUT),
        ]
        .map(|(what, change, key)| self.does(what, &change, &speech.say(key)));
        let wrong = |control: Tag, wrong: bool| {
            let open = open.filter(|_| wrong);
            control.maybe("aria-invalid", open.map(|_| "true")).maybe("aria-describedby", open)
        };
        Tag::new("li")
            .attr("data-at", &self.at.to_string())
            .maybe("class", now)
            .with(Tag::new("strong").text(&*self.n))
            .with(wrong(along, row.along.is_none()))
            .with(of_class("div", "field").with(wrong(length, row.along.is_some())).with(unit))
            .with(Tag::new("div").all(high))
            .with(of_class("div", "does").all(does))
    }

    /// A control of the row, with its id and its label.
    fn control(&self, name: &str, what: &str, label: Key) -> Tag {
        Tag::new(name)
            .attr("id", &field(self.at, what))
            .attr("data-says", what)
            .attr("aria-label", &[&*self.n, ": ", &self.route.speech.say(label)].concat())
    }

    /// A drop-down list of the row, with the chosen value.
    fn choice(&self, what: &str, label: Key, chosen: &str) -> Tag {
        self.control("select", what, label).attr("value", chosen)
    }

    /// A button that changes the list at this row. One that can do nothing now is disabled but stays, so that it can keep the focus.
    fn does(&self, what: &str, change: &StretchRowChange, text: &str) -> Tag {
        button(what, text.to_owned())
            .attr("id", &field(self.at, what))
            .attr("aria-label", &[self.said, ": ", text].concat())
            .maybe("aria-disabled", (!self.route.rows.may(self.at, change)).then_some("true"))
    }
}

fn option(word: &str, text: String) -> Tag {
    Tag::new("option").attr("value", word).text(text)
}

#[cfg(test)]
mod tests {
    use super::super::{Route, Speech, written};
    use model::units::Ratio;
    use wording::{Words, form, plans};

    /// In English, with three quarters of a metre in a pace.
    fn route(text: &str, roughly: [&str; 3]) -> Route {
        let words = written(Words::new(plans::EN), Words::new(form::EN));
        let mut route = Route::new(Speech::new(words, "en-GB".into()), Ratio::of(0.75));
        route.take_up(text, roughly);
        route
    }

    /// 4 m inside, 8 paces along a wall out of reach, 2 m under paving.
    const THREE: &str = "inside metres - 4\noutside-wall paces high 8\npaving metres - 2\n";
    const NOTHING: [&str; 3] = [""; 3];

    #[test]
    fn a_route_shows_its_rows_its_drawing_its_total_and_what_it_means() {
        let html = route(THREE, NOTHING).view(None).html();
        assert_eq!(html.matches("class=\"now\"").count(), 1, "one row is marked as worked on");
        for wanted in [
            "aria-label=\"Stretch 3, under paving, 2 metres: Move earlier\"",
            "aria-label=\"Stretch 2: Length\"",
            "role=\"status\"",
            "<title>The way of the cable</title>",
            "Stretch 2, along an outside wall, 8 paces; Stretch 3",
            ">12 m in all<",
            "4 m inside",
            "armoured cable for 8 m",
            "2 m to dig, under paving",
            "6 m out of reach",
        ] {
            assert!(html.contains(wanted), "{wanted} in {html}");
        }
        let first = html.split("s-0-earlier").nth(1).unwrap().split('>').next().unwrap();
        assert!(first.contains("aria-disabled=\"true\""), "the first row can't be moved up: {first}");
        assert_eq!(html.matches("type=\"checkbox\"").count(), 2, "a stretch in the ground is not out of reach");
    }

    #[test]
    fn a_total_is_said_in_what_all_was_measured_in_and_an_open_one_says_so() {
        let roughly = route("", ["fence", "10", "paces"]).view(None).html();
        assert!(roughly.contains("7.5 m in all (10 paces)"), "{roughly}");
        assert!(route("", NOTHING).view(None).html().contains("one stretch is still open"));
    }

    #[test]
    fn an_open_stretch_is_told_at_its_own_field() {
        let mut route = route(THREE, NOTHING);
        assert!(route.change(1, "length", "a few"));
        let html = route.view(Some("e-route-stretches")).html();
        assert_eq!(html.matches("aria-invalid").count(), 1);
        let field = html.split("id=\"s-1-length\"").nth(1).unwrap().split('>').next().unwrap();
        assert!(
            field.contains("aria-describedby=\"e-route-stretches\"") && field.contains("value=\"a few\""),
            "{field}"
        );
        assert!(!route.view(None).html().contains("aria-invalid"));
    }

    #[test]
    fn what_is_done_to_a_row_is_followed_and_said_aloud() {
        let mut route = route(THREE, NOTHING);
        assert!(!route.change(0, "earlier", "") && !route.change(9, "out", "") && !route.change(0, "no-such", ""));
        assert!(!route.change(0, "length", "4"), "setting the same value is no change");
        assert_eq!(route.written(), THREE);
        for (at, what, focus, said) in [
            (1, "earlier", "s-0-earlier", "It is now stretch 1 of 3."),
            (0, "split", "s-0-split", "Split in two: stretches 1 and 2."),
            (3, "add", "s-4-along", "Stretch 5 is new."),
            (4, "out", "s-3-along", "Taken out. Stretches left: 4."),
            (2, "later", "s-3-later", "It is now stretch 4 of 4."),
        ] {
            assert!(route.change(at, what, ""), "{what}");
            assert_eq!(route.focus(), focus);
            assert!(route.view(None).html().contains(said), "{what}");
        }
        let lines = "outside-wall paces high 4\noutside-wall paces high 4\npaving metres - 2\ninside metres - 4\n";
        assert_eq!(route.written(), lines);
        assert!(
            route.change(3, "high", "yes") && route.change(3, "unit", "bricks") && route.change(3, "along", "paving")
        );
        assert!(route.written().ends_with("paving bricks - 4\n"), "a stretch in the ground is not out of reach");
        route.take_up("fence feet - 3\n", NOTHING);
        assert!(
            !route.view(None).html().contains("It is now"),
            "a change to the earlier list is not announced for this one"
        );
    }
}
