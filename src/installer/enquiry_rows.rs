//! The rows of the list: what a row holds, which rows are shown, and their order, the gravest and longest waiting first.

use engine::assessment::{Asked, Band, Complexity, Gatekeeper, Reason};
use engine::flags::Weight;
use jiff::Timestamp;
use record::enquiry::Reference;

/// One enquiry as the list shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct EnquiryRow {
    /// The key that identifies the enquiry in the service's addresses.
    pub key: String,
    /// The reference that the homeowner was given and reads out on the telephone.
    pub reference: Option<Reference>,
    /// The homeowner's name.
    pub name: String,
    /// The outward half of the postcode; empty if none was given.
    pub outward: String,
    /// When it was received.
    pub received: Timestamp,
    /// How involved the job is.
    pub complexity: Complexity,
    /// The reasons for that class.
    pub reasons: Vec<Reason>,
    /// Whether the class holds only if something to be settled first turns out as expected.
    pub rests: bool,
    /// Its flags, gravest first.
    pub flags: Vec<RowFlag>,
    /// Those who must act first, if they are certain or probable enough to count.
    pub gates: Vec<Gatekeeper>,
    /// When the network operator was asked and when it answered, if that was recorded.
    pub asked: Option<Asked>,
    /// What the homeowner would pay, if it could be estimated.
    pub band: Option<Band>,
    /// Whether the prices are invented.
    pub invented: bool,
    /// How many photos have arrived.
    pub arrived: usize,
    /// How many photos the enquiry lists.
    pub photos: usize,
    /// Whether it was marked as handled.
    pub handled: bool,
    /// Whether answers were corrected.
    pub corrected: bool,
}

/// A flag as the list needs it.
#[derive(Clone, Debug, PartialEq)]
pub struct RowFlag {
    /// Its code.
    pub code: String,
    /// Its weight.
    pub weight: Weight,
    /// Its evidence, if the list carries it.
    pub evidence: Vec<String>,
}

/// Which rows are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Filter {
    /// Those still to be handled.
    #[default]
    Waiting,
    /// Those handled.
    Handled,
    /// All.
    All,
}

impl Filter {
    /// All three, in the order in which they are offered.
    pub const ALL: [Self; 3] = [Self::Waiting, Self::Handled, Self::All];

    /// The last part of the word key that names it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Waiting => "waiting",
            Self::Handled => "handled",
            Self::All => "all",
        }
    }

    fn takes(self, row: &EnquiryRow) -> bool {
        match self {
            Self::Waiting => !row.handled,
            Self::Handled => row.handled,
            Self::All => true,
        }
    }
}

/// The rows to show, in order. A search covers handled rows too, as somebody on the telephone may ask about any of them.
#[must_use]
pub fn shown<'a>(rows: &'a [EnquiryRow], shown: Filter, search: &str) -> Vec<&'a EnquiryRow> {
    let sought = squeezed(search);
    let mut kept: Vec<&EnquiryRow> =
        rows.iter().filter(|row| if sought.is_empty() { shown.takes(row) } else { matches(row, &sought) }).collect();
    kept.sort_by_key(|row| gravity(row));
    kept
}

/// The sort key: unhandled before handled, then graver class, settled before unsettled, graver flag, longer wait.
fn gravity(row: &EnquiryRow) -> (bool, u8, bool, Option<Weight>, Timestamp, &str) {
    let gravest = row.flags.iter().map(|flag| flag.weight).min();
    // `None` would sort first, but a row without a flag comes after those with one.
    let weight = gravest.or(Some(Weight::WorthKnowing));
    let rests = row.rests && row.complexity != Complexity::LookFirst;
    (row.handled, row.complexity.in_a_list(), rests, weight, row.received, &row.key)
}

/// Whether a row matches a search: by reference, also in parts as it is read out, or by name or outward postcode if the reference is lost.
fn matches(row: &EnquiryRow, sought: &str) -> bool {
    let reference = row.reference.as_ref().map(|reference| squeezed(reference.as_str())).unwrap_or_default();
    reference.contains(sought) || squeezed(&row.name).contains(sought) || squeezed(&row.outward).starts_with(sought)
}

fn squeezed(text: &str) -> String {
    text.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_uppercase).collect()
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;

    pub(crate) fn row(key: &str, complexity: Complexity) -> EnquiryRow {
        EnquiryRow {
            key: key.to_owned(),
            reference: Reference::read("BCDF-GHJK"),
            name: "Invented Person".to_owned(),
            outward: "ZZ1".to_owned(),
            received: "2026-07-14T08:00:00Z".parse().unwrap(),
            complexity,
            reasons: Vec::new(),
            rests: false,
            flags: Vec::new(),
            gates: Vec::new(),
            asked: None,
            band: None,
            invented: true,
            arrived: 0,
            photos: 0,
            handled: false,
            corrected: false,
        }
    }

    fn keys(rows: &[&EnquiryRow]) -> String {
        rows.iter().map(|row| row.key.as_str()).collect::<Vec<_>>().join(" ")
    }

    #[test]
    fn gravest_first_then_the_longest_wait_and_handled_last() {
        let flagged = |weight| RowFlag { code: "x".into(), weight, evidence: Vec::new() };
        let mut rows = vec![
            row("easy", Complexity::Straightforward),
            row("handled", Complexity::LookFirst),
            row("look", Complexity::LookFirst),
            row("gate-new", Complexity::DependsOnOthers),
            row("gate-old", Complexity::DependsOnOthers),
            row("gate-flagged", Complexity::DependsOnOthers),
            row("outside", Complexity::NotCovered),
            row("easy-if", Complexity::Straightforward),
        ];
        rows[1].handled = true;
        rows[4].received = "2026-07-01T08:00:00Z".parse().unwrap();
        rows[5].flags = vec![flagged(Weight::Stop)];
        (rows[7].flags, rows[7].rests) = (vec![flagged(Weight::SettleBeforeBooking)], true);
        let waiting = "look gate-flagged gate-old gate-new easy easy-if outside";
        assert_eq!(keys(&shown(&rows, Filter::All, "")), [waiting, "handled"].join(" "));
        assert_eq!(keys(&shown(&rows, Filter::Waiting, "")), waiting);
        assert_eq!(keys(&shown(&rows, Filter::Handled, "")), "handled");
    }

    #[test]
    fn a_reference_is_found_however_much_of_it_was_heard() {
        let mut rows = vec![row("a", Complexity::Straightforward), row("b", Complexity::Straightforward)];
        rows[1].reference = Reference::read("2346 QRTV");
        rows[1].handled = true;
        rows[1].name = "Other Name".into();
        for heard in ["2346-qrtv", "46 qr", "qrtv", "other n"] {
            assert_eq!(keys(&shown(&rows, Filter::Waiting, heard)), "b", "{heard}");
        }
        assert_eq!(keys(&shown(&rows, Filter::Waiting, "zz1")), "a b");
        assert_eq!(keys(&shown(&rows, Filter::Waiting, "nothing like it")), "");
        assert_eq!(keys(&shown(&rows, Filter::Waiting, " - ")), "a");
    }
}
