//! Reads a price list in CSV into a setup: columns by their headings, units inferred from headings and cells, and a remark on every cell.
//!
//! The price of a drum or a pack is divided by what it holds. If a line gives only the usual figure, the low and the high one keep their
//! proportion to it.

use super::report::{Became, Report};
use super::written::{self, Bare};
use encoding_rs::{UTF_8, WINDOWS_1252};
use engine::assessment::BillUnit;
use model::answers::Word;
use model::config::{CostLine, Item, Setup, ThreeMinutes, ThreePence};
use model::units::{Minutes, Pence};
use std::borrow::Cow;
use wording::triage;

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Item,
    Unit,
    Time(End, Bare),
    Cost(End),
    Source,
}

/// One of the three figures of a range.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum End {
    Low,
    Likely,
    High,
}

/// The headings that are understood, in lower case.
const HEADINGS: &str =
    "item; unit; low, likely or high with minutes, hours or time; low, likely or high with cost; source";

/// Why a file could not be read as a price list at all.
#[derive(Debug, thiserror::Error)]
pub enum NotAList {
    /// It can't be read as CSV.
    #[error("this is not CSV: {0}")]
    NotCsv(#[from] csv::Error),
    /// There is no column for the item.
    #[error("line 1: no column for the item; the headings may be: {HEADINGS}")]
    NoItem,
    /// Two columns have the same meaning.
    #[error("line 1: {heading:?} stands twice, or says the same as another heading")]
    Twice {
        /// The second of them.
        heading: String,
    },
}

/// A setup with a price list read into it.
#[derive(Clone, Debug, PartialEq)]
pub struct Brought {
    /// The setup with the lines that were taken.
    pub setup: Setup,
    /// A remark on every cell: whether it was taken, supposed or left.
    pub report: Report,
}

/// Reads a price list into a setup.
///
/// # Errors
/// [`NotAList`] if nothing can be read; faults of single lines are in the report instead.
pub fn bring(file: &[u8], setup: &Setup) -> Result<Brought, NotAList> {
    let mut report = Report::default();
    let text = decoded(file, &mut report);
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(delimiter(&text))
        .flexible(true)
        .has_headers(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let headings: Vec<String> = reader.headers()?.iter().map(str::to_owned).collect();
    let mut columns: Vec<Option<Column>> = Vec::new();
    for heading in &headings {
        let column = column(heading);
        if column.is_none() && !heading.is_empty() {
            report.not_understood(Some(1), "heading", heading, HEADINGS);
        }
        if column.is_some_and(|column| columns.contains(&Some(column))) {
            return Err(NotAList::Twice { heading: heading.clone() });
        }
        columns.push(column);
    }
    if !columns.contains(&Some(Column::Item)) {
        return Err(NotAList::NoItem);
    }

    let mut setup = setup.clone();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                report.say(error.position().map(csv::Position::line), "line", Became::NotUnderstood, error.to_string());
                continue;
            }
        };
        let line = record.position().map(csv::Position::line);
        if record.iter().all(str::is_empty) {
            continue;
        }
        for cell in record.iter().skip(columns.len()).filter(|cell| !cell.is_empty()) {
            report.not_understood(line, "a cell beyond the headings", cell, "nothing");
        }
        let cells: Vec<(Column, &str)> =
            columns.iter().copied().zip(record.iter()).filter_map(|(c, cell)| Some((c?, cell))).collect();
        take_line(line, &cells, &mut setup, &mut report);
    }
    Ok(Brought { setup, report })
}

/// The text of the file. Spreadsheets write UTF-8, UTF-16 with a byte order mark, or their older Windows-1252.
fn decoded<'a>(file: &'a [u8], report: &mut Report) -> Cow<'a, str> {
    let (text, _, broken) = UTF_8.decode(file);
    if !broken {
        return text;
    }
    report.say(None, "file", Became::Supposed, "it is not UTF-8, so it was read as Latin-1 (Windows-1252)");
    WINDOWS_1252.decode_without_bom_handling(file.strip_prefix(b"\xef\xbb\xbf").unwrap_or(file)).0
}

/// The delimiter between cells: of tab, semicolon and comma the one that is most frequent in the first line.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or_default();
    let count = |sign: u8| first.bytes().filter(|byte| *byte == sign).count();
    // `max_by_key` returns the last of equals: the comma if none of them occurs.
    *[b'\t', b';', b','].iter().max_by_key(|sign| count(**sign)).unwrap_or(&b',')
}

fn words_of(text: &str) -> Vec<String> {
    let small = text.to_lowercase();
    small.split(|c: char| !c.is_alphanumeric()).filter(|word| !word.is_empty()).map(str::to_owned).collect()
}

fn column(heading: &str) -> Option<Column> {
    let mut words = words_of(heading);
    if words.ends_with(&["ex".into(), "vat".into()]) || words.ends_with(&["excl".into(), "vat".into()]) {
        words.truncate(words.len() - 2);
    }
    let mut end = None;
    words.retain(|word| {
        let said = match word.as_str() {
            "low" | "least" => End::Low,
            "likely" | "usual" => End::Likely,
            "high" | "most" => End::High,
            _ => return true,
        };
        let first = end.is_none();
        end = Some(said);
        !first
    });
    let at = end.unwrap_or(End::Likely);
    match (words.iter().map(String::as_str).collect::<Vec<_>>().as_slice(), end) {
        (["item"] | ["work"] | ["work", "item"], None) => Some(Column::Item),
        (["unit"] | ["per"], None) => Some(Column::Unit),
        (["source"], None) => Some(Column::Source),
        (["minutes"] | ["mins"], _) => Some(Column::Time(at, Bare::Minutes)),
        (["hours"] | ["hrs"], _) => Some(Column::Time(at, Bare::Hours)),
        (["time"] | ["labour"], _) => Some(Column::Time(at, Bare::Unsaid)),
        (["cost"] | ["cost", "price"] | ["trade", "price"] | ["materials"], _) => Some(Column::Cost(at)),
        _ => None,
    }
}

/// The unit that an item is counted in.
#[must_use]
pub fn unit_of(item: Item) -> BillUnit {
    use Item::{
        CableFence, CableInside, CableLoft, CableOutside, ClampCable, DataCable, Duct, HardGround, HighAccess,
        LargerCable, Supports, TrenchPaving, TrenchSoft,
    };
    match item {
        CableInside | CableLoft | CableOutside | CableFence | Supports | TrenchSoft | TrenchPaving | HighAccess
        | LargerCable | DataCable | ClampCable | Duct | HardGround => BillUnit::Metre,
        _ => BillUnit::Each,
    }
}

/// The item with this name, as files write it or as the installer's page names it.
fn item(text: &str) -> Option<Item> {
    let given = words_of(text).join(" ");
    Item::ALL.iter().copied().find(|item| {
        let named = triage::EN.find(&["item-", item.word()].concat()).unwrap_or_default();
        [item.word(), named].iter().any(|name| words_of(name).join(" ") == given)
    })
}

/// The quantity of the item's unit that a line's figures are for.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Per {
    count: f64,
    unit: BillUnit,
    /// Whether it is a drum or a pack: these have a price, but no working time.
    bought: bool,
}

const UNITS: &str = "each, m, per 10 m, 100 m drum or pack of 10";

fn per(text: &str) -> Option<Per> {
    // Separates a number from its unit, as in "100m".
    let spaced = text.char_indices().fold(String::new(), |mut spaced, (at, c)| {
        let before = text[..at].chars().next_back();
        if c.is_alphabetic() && before.is_some_and(|before| before.is_ascii_digit()) {
            spaced.push(' ');
        }
        spaced.push(c);
        spaced
    });
    let (mut count, mut unit, mut bought) = (None, None, false);
    for word in spaced.to_lowercase().split(|c: char| c.is_whitespace() || c == '/').filter(|word| !word.is_empty()) {
        match word {
            "per" | "of" | "a" | "one" | "the" => {}
            "each" | "ea" | "no" | "no." | "nr" | "item" | "pair" | "piece" | "pieces" => unit = Some(BillUnit::Each),
            "m" | "metre" | "metres" | "meter" | "meters" | "lm" => unit = Some(BillUnit::Metre),
            "drum" | "reel" | "coil" => {
                bought = true;
                unit = Some(BillUnit::Metre);
            }
            "pack" | "box" | "bag" => {
                bought = true;
                unit = Some(BillUnit::Each);
            }
            number => {
                let number: f64 =
                    Some(number).filter(|text| text.bytes().all(|b| b.is_ascii_digit() || b == b'.'))?.parse().ok()?;
                // This program's choice: more is a slip.
                if count.replace(number).is_some() || !(number > 0.0 && number <= 10_000.0) {
                    return None;
                }
            }
        }
    }
    if bought && count.is_none() {
        return None; // the size of the drum or pack is not given
    }
    Some(Per { count: count.unwrap_or(1.0), unit: unit?, bought })
}

fn take_line(line: Option<u64>, cells: &[(Column, &str)], setup: &mut Setup, report: &mut Report) {
    let of = |wanted: Column| {
        cells.iter().find(|(column, cell)| *column == wanted && !cell.is_empty()).map(|(_, cell)| *cell)
    };
    let named = of(Column::Item).unwrap_or_default();
    let Some(item) = item(named).filter(|item| !matches!(item, Item::ChargePoint | Item::CallOut)) else {
        let words: Vec<&str> = Item::ALL
            .iter()
            .filter(|item| !matches!(item, Item::ChargePoint | Item::CallOut))
            .map(|item| item.word())
            .collect();
        report.not_understood(line, "item", named, &words.join(", "));
        return;
    };
    let Some(per) = per_of(item, of(Column::Unit), line, report) else { return };
    let at = place(setup, item);
    let mut taken = Vec::new();
    if let Some(three) = times(cells, per, setup.costs[at].minutes, line, report) {
        let [low, likely, high] = three.map(|minutes| Minutes::new(minutes).unwrap_or(Minutes::ZERO));
        let rounded = |minutes: f64| {
            Minutes::new((minutes * 100.0).round() / 100.0)
                .map_or_else(|_| String::new(), |minutes| minutes.to_string())
        };
        taken.push(format!("time {}", shown(three.map(rounded))));
        setup.costs[at].minutes = ThreeMinutes { low, likely, high };
    }
    if let Some(three) = costs(cells, per, setup.costs[at].cost, line, report) {
        let [low, likely, high] = three.map(Pence::rounded);
        taken.push(format!("cost {}", shown([low, likely, high].map(|money| money.to_string()))));
        setup.costs[at].cost = ThreePence { low, likely, high };
    }

    if taken.is_empty() {
        report.say(line, item.word(), Became::NotUnderstood, "no figure of this line was taken");
        return;
    }
    setup.costs[at].source = of(Column::Source).map_or_else(|| "the installer's price list".to_owned(), str::to_owned);
    let unit = match per.unit {
        BillUnit::Each => "each",
        BillUnit::Metre => "a metre",
    };
    report.say(line, item.word(), Became::Taken, format!("{}, {unit}", taken.join("; ")));
}

/// The quantity that the line's figures are for: one of the item's unit if it names none; `None` if what it names does not fit the item.
fn per_of(item: Item, unit: Option<&str>, line: Option<u64>, report: &mut Report) -> Option<Per> {
    let own = unit_of(item);
    let Some(text) = unit else { return Some(Per { count: 1.0, unit: own, bought: false }) };
    let per = per(text).filter(|per| per.unit == own);
    if per.is_none() {
        let allowed = format!("{UNITS}; {} is counted in {}", item.word(), own.word());
        report.not_understood(line, "unit", text, &allowed);
    }
    per
}

/// The line's times in minutes for one unit; `None` if it gives none that can be taken.
fn times(
    cells: &[(Column, &str)],
    per: Per,
    old: ThreeMinutes,
    line: Option<u64>,
    report: &mut Report,
) -> Option<[f64; 3]> {
    let mut times = [None; 3];
    for (column, cell) in cells.iter().filter(|(_, cell)| !cell.is_empty()) {
        let Column::Time(end, bare) = *column else { continue };
        match written::time(cell, bare) {
            _ if per.bought => {
                report.not_understood(
                    line,
                    "time",
                    cell,
                    "nothing beside a drum or a pack: a time stands on a line of its own unit",
                );
            }
            Some(time) => times[end as usize] = Some(time.get() / per.count),
            None => report.not_understood(line, "time", cell, written::TIMES),
        }
    }
    three(times, [old.low, old.likely, old.high].map(Minutes::get), line, "time", report)
        .filter(|three| ascends(*three, line, "time", report))
}

/// The line's costs in pence for one unit; `None` if it gives none that can be taken.
fn costs(
    cells: &[(Column, &str)],
    per: Per,
    old: ThreePence,
    line: Option<u64>,
    report: &mut Report,
) -> Option<[f64; 3]> {
    let mut costs = [None; 3];
    for (column, cell) in cells.iter().filter(|(_, cell)| !cell.is_empty()) {
        let Column::Cost(end) = *column else { continue };
        match written::pence(cell) {
            Some(pence) => costs[end as usize] = Some(pence / per.count),
            None => report.not_understood(line, "cost", cell, written::MONEY),
        }
    }
    three(costs, [old.low, old.likely, old.high].map(Pence::as_f64), line, "cost", report)
        .filter(|three| ascends(*three, line, "cost", report))
}

/// The position of an item's line in the setup; if there is none the default line is added.
fn place(setup: &mut Setup, item: Item) -> usize {
    if let Some(at) = setup.costs.iter().position(|line| line.item == item) {
        return at;
    }
    let line = model::config::default_lines().into_iter().find(|line| line.item == item);
    setup.costs.push(line.unwrap_or_else(|| CostLine {
        item,
        minutes: ThreeMinutes::default(),
        cost: ThreePence::default(),
        source: String::new(),
    }));
    setup.costs.len() - 1
}

/// Low, likely and high from what was given; a figure that was left out changes in the same proportion as the usual one.
fn three(
    given: [Option<f64>; 3],
    old: [f64; 3],
    line: Option<u64>,
    about: &str,
    report: &mut Report,
) -> Option<[f64; 3]> {
    if given.iter().all(Option::is_none) {
        return None;
    }
    if given.iter().all(Option::is_some) {
        return Some(given.map(Option::unwrap_or_default));
    }
    let likely = given[End::Likely as usize].unwrap_or(old[1]);
    let moved = if old[1] > 0.0 { likely / old[1] } else { 1.0 };
    let of = |at: usize| {
        if at == 1 {
            likely
        } else if old[1] > 0.0 {
            old[at] * moved
        } else {
            likely
        }
    };
    let made = [0, 1, 2].map(|at| given[at].unwrap_or_else(|| of(at)));
    let left: Vec<&str> = ["low", "likely", "high"]
        .into_iter()
        .zip(given)
        .filter(|(_, given)| given.is_none())
        .map(|(name, _)| name)
        .collect();
    report.say(
        line,
        about,
        Became::Supposed,
        format!("{} not given: moved as the likely figure moved", left.join(" and ")),
    );
    Some(made)
}

fn ascends(three: [f64; 3], line: Option<u64>, about: &str, report: &mut Report) -> bool {
    let right = three[0] <= three[1] && three[1] <= three[2];
    if !right {
        report.not_understood(
            line,
            about,
            &three.map(|figure| figure.to_string()).join(", "),
            "low, likely, high ascending",
        );
    }
    right
}

fn shown([low, likely, high]: [String; 3]) -> String {
    format!("{low}, {likely}, {high}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use model::config::{check_setup, demo_setup};

    fn brought(text: &str) -> Brought {
        bring(text.as_bytes(), &demo_setup()).unwrap()
    }

    fn line(setup: &Setup, item: Item) -> &CostLine {
        setup.costs.iter().find(|line| line.item == item).unwrap()
    }

    #[test]
    fn a_drum_is_divided_down_to_a_metre_and_low_and_high_move_along() {
        let before = line(&demo_setup(), Item::CableInside).cost;
        assert_eq!((before.low, before.likely, before.high), (Pence(250), Pence(320), Pence(420)));
        let made = brought("Item,Unit,Cost\ncable inside,100 m drum,£640.00\n");
        // £6.40 a metre is twice the £3.20 that stood there.
        assert_eq!(
            line(&made.setup, Item::CableInside).cost,
            ThreePence { low: Pence(500), likely: Pence(640), high: Pence(840) }
        );
        assert_eq!(line(&made.setup, Item::CableInside).minutes, line(&demo_setup(), Item::CableInside).minutes);
        assert_eq!((made.report.count(Became::Taken), made.report.count(Became::Supposed)), (1, 1), "{}", made.report);
        assert_eq!(check_setup(&made.setup), []);
    }

    #[test]
    fn three_figures_in_any_order_of_columns_with_units_in_cells_or_headings() {
        let made = brought(
            "High time;Low time;Time;Item;Low cost ex VAT;Likely cost ex VAT;High cost ex VAT;Per;Source\n\
             2h;45 min;1h 20;Fixing and connecting the charge point;£6;£9.50;1,000;each;my own van\n",
        );
        let made_line = line(&made.setup, Item::FixPoint);
        assert_eq!(
            made_line.minutes,
            ThreeMinutes { low: Minutes::of(45.0), likely: Minutes::of(80.0), high: Minutes::of(120.0) }
        );
        assert_eq!(made_line.cost, ThreePence { low: Pence(600), likely: Pence(950), high: Pence(100_000) });
        assert_eq!(made_line.source, "my own van");
        assert_eq!(made.report.0.len(), 1, "{}", made.report);
    }

    #[test]
    fn nothing_is_dropped_without_a_word() {
        let made = brought(
            "item,unit,cost,colour,minutes\n\
             cable-inside,m,£3 inc VAT,blue,6\n\
             unheard-of thing,each,£3,,\n\
             drill-wall,m,£3,,\n\
             glands,each,,,\n\
             fix-point,each,£3,,soon,beyond\n\
             charge-point,each,£400,,\n\
             cable-outside,100 m drum,£500,,6\n",
        );
        let says: Vec<String> = made.report.0.iter().map(ToString::to_string).collect();
        let told = |line: u64, part: &str| {
            let start = format!("line {line}, ");
            assert!(
                says.iter().any(|says| says.starts_with(&start) && says.contains(part)),
                "{line} {part}: {says:#?}"
            );
        };
        told(1, "\"colour\"");
        told(2, "£3 inc VAT");
        told(2, "time 4 min, 6 min, 11 min"); // low and high as they stood to it
        told(3, "unheard-of thing");
        told(4, "counted in each");
        told(5, "no figure of this line was taken");
        told(6, "\"soon\"");
        told(6, "\"beyond\"");
        told(7, "\"charge-point\"");
        told(8, "nothing beside a drum");
        told(8, "cost");
        assert_eq!(line(&made.setup, Item::CableInside).cost, line(&demo_setup(), Item::CableInside).cost);
        assert_eq!(line(&made.setup, Item::CableOutside).cost.likely, Pence(500));
        assert_eq!(check_setup(&made.setup), []);
    }

    #[test]
    fn figures_out_of_order_are_left_as_they_were() {
        let made = brought("item,low minutes,likely minutes,high minutes\nglands,40,30,50\n");
        assert_eq!(line(&made.setup, Item::Glands), line(&demo_setup(), Item::Glands));
        assert!(made.report.to_string().contains("ascending"));
    }

    #[test]
    fn a_spreadsheets_own_set_of_characters_is_read() {
        let made = bring(b"item,cost\nglands,\xa312.00\n", &demo_setup()).unwrap();
        assert_eq!(line(&made.setup, Item::Glands).cost.likely, Pence(1_200));
        assert!(made.report.to_string().contains("Latin-1"));
        let marked: Vec<u8> = "\u{feff}item,cost\nglands,£12.00\n".encode_utf16().flat_map(u16::to_le_bytes).collect();
        let other = bring(&marked, &demo_setup()).unwrap();
        assert_eq!(other.setup, made.setup);
        assert!(!other.report.to_string().contains("Latin-1"));
        let mixed = bring(b"\xef\xbb\xbfitem,cost\nglands,\xa312.00\n", &demo_setup()).unwrap();
        assert_eq!(mixed.setup, made.setup);
        let with_mark = bring("\u{feff}item\tcost\nglands\t£12\n".as_bytes(), &demo_setup()).unwrap();
        assert_eq!(line(&with_mark.setup, Item::Glands).cost.likely, Pence(1_200));
    }

    #[test]
    fn a_file_without_items_and_a_heading_twice_are_refused() {
        assert!(matches!(bring(b"", &demo_setup()), Err(NotAList::NoItem)));
        assert!(matches!(bring(b"colour\nred\n", &demo_setup()), Err(NotAList::NoItem)));
        assert!(matches!(bring(b"item,cost,cost price\n", &demo_setup()), Err(NotAList::Twice { .. })));
    }

    #[test]
    fn units_are_read_as_they_are_written() {
        let metres = |count, bought| Some(Per { count, unit: BillUnit::Metre, bought });
        for (text, wanted) in [
            ("m", metres(1.0, false)),
            ("per metre", metres(1.0, false)),
            ("per 10 m", metres(10.0, false)),
            ("100m drum", metres(100.0, true)),
            ("drum of 50 m", metres(50.0, true)),
            ("£/m", None),
            ("each", Some(Per { count: 1.0, unit: BillUnit::Each, bought: false })),
            ("pack of 10", Some(Per { count: 10.0, unit: BillUnit::Each, bought: true })),
            ("drum", None),
            ("yard", None),
            ("0 m", None),
            ("10 20 m", None),
            ("", None),
        ] {
            assert_eq!(per(text), wanted, "{text}");
        }
    }

    /// Every bill counts an item in the unit that price lists are read in.
    #[test]
    fn an_item_is_counted_in_the_unit_of_the_bill() {
        let homes = include_str!("../../tests/homes/two-hundred.jsonl");
        let config = model::config::demo_config();
        let mut met = std::collections::BTreeSet::new();
        for home in homes.lines().take(120) {
            let home: serde_json::Value = serde_json::from_str(home).unwrap();
            let answers = serde_json::from_value(home.get("answers").unwrap_or(&home).clone()).unwrap();
            for bill in engine::assess(&answers, &config).work {
                assert_eq!(bill.unit, unit_of(bill.item), "{}", bill.item.word());
                met.insert(bill.item);
            }
        }
        assert!(met.len() > 20, "{met:?}");
    }
}
