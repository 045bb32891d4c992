//! The list: what a row holds, which rows are shown, and in which order: gravest and longest waiting first.

use engine::assessment::{Asked, Band, Complexity, Gatekeeper, Reason};
use engine::flags::Weight;
use jiff::Timestamp;
use record::enquiry::Reference;

/// One enquiry as the list shows it.
#[derive(Clone, Debug, PartialEq)]
pub struct EnquiryRow {
    /// Its name in addresses.
    pub key: String,
    /// What the homeowner reads out.
    pub reference: Option<Reference>,
    /// Who asks.
    pub name: String,
    /// Outward half of the postcode; empty where it was not said.
    pub outward: String,
    /// When it was received.
    pub received: Timestamp,
    /// How involved.
    pub complexity: Complexity,
    /// Why.
    pub reasons: Vec<Reason>,
    /// Whether that holds only if something that is settled first turns out as expected.
    pub rests: bool,
    /// Its flags, gravest first.
    pub flags: Vec<RowFlag>,
    /// Who must act first: only those that count.
    pub gates: Vec<Gatekeeper>,
    /// When the network operator was asked and answered, where that was recorded.
    pub asked: Option<Asked>,
    /// What the homeowner would pay, if anything can be said.
    pub band: Option<Band>,
    /// Whether the prices are invented.
    pub invented: bool,
    /// Photos that have arrived.
    pub arrived: usize,
    /// Photos that belong to it.
    pub photos: usize,
    /// Whether it was marked as handled.
    pub handled: bool,
    /// Whether answers were corrected.
    pub corrected: bool,
}

/// A flag as the list needs it.
#[derive(Clone, Debug, PartialEq)]
pub struct RowFlag {
    /// Which.
    pub code: String,
    /// How grave.
    pub weight: Weight,
    /// What was seen, where the list carries it.
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
    /// The three, in the order they are offered.
    pub const ALL: [Self; 3] = [Self::Waiting, Self::Handled, Self::All];

    /// As a word key ends.
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

/// The rows to show, in order. A search looks through all, handled or not: someone is on the telephone.
#[must_use]
pub fn shown<'a>(rows: &'a [EnquiryRow], shown: Filter, search: &str) -> Vec<&'a EnquiryRow> {
    let sought = squeezed(search);
    let mut kept: Vec<&EnquiryRow> =
        rows.iter().filter(|row| if sought.is_empty() { shown.takes(row) } else { matches(row, &sought) }).collect();
    kept.sort_by_key(|row| gravity(row));
    kept
}

/// Smaller is sooner: to be handled before handled, the graver class, what is settled, the graver flag, the longer wait.
fn gravity(row: &EnquiryRow) -> (bool, u8, bool, Option<Weight>, Timestamp, &str) {
    let gravest = row.flags.iter().map(|flag| flag.weight).min();
    // A row without a flag comes after one with: `None` would sort first.
    let weight = gravest.or(Some(Weight::WorthKnowing));
    let rests = row.rests && row.complexity != Complexity::LookFirst;
    (row.handled, row.complexity.in_a_list(), rests, weight, row.received, &row.key)
}

/// By reference, as it is read out in pieces; by name or outward postcode too, for who lost the reference.
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
