//! What the JSON Schemas of config and setup state beyond the shape of their types: the bounds that `check` applies, from the same
//! constants.

use super::brand::is_of_a_typeface;
use super::check::{A_FACTOR, A_METRE, A_PIECE, by_the_metre, is_of_an_address, is_of_an_id};
use super::format::came_later;
use super::public::Item;
use super::telling::{MOST_LABEL, MOST_LOCAL, SECRET_BYTES, is_of_a_local_part, is_of_a_webhook_path};
use crate::answers::Word;
pub(super) use crate::answers::schema::not_blank;
use crate::answers::schema::{WHOLE_NUMBERS, described, signs, white};
use crate::units::{Minutes, Pence};
use alloc::format;
use alloc::string::{String, ToString};
use alloc::vec::Vec;
use schemars::Schema;
use serde::Serialize;
use serde_json::{Value, json};

/// Rules between fields, or about days, that both files have and a schema cannot express.
const BEYOND_BOTH: [&str; 8] = [
    WHOLE_NUMBERS,
    "A charge point's device is no less than its current.",
    "A grant's last day is its first day or later.",
    "The last day of a rate of VAT is its first day or later.",
    "No two rates of VAT have a day in common.",
    "There is a rate of VAT for the day of the config or setup, where the installer is registered.",
    "What is printed on a board stands once in the list of devices, capitals and outer spaces aside.",
    "Of the thresholds, signal_good is no more than signal_least; one that is left out has its default.",
];
const BEYOND_A_CONFIG: &str = "Of each line of prices, low, likely and high ascend.";
const BEYOND_A_SETUP: [&str; 6] = [
    "Of each line of costs, low, likely and high ascend.",
    "Minutes that the calibration's factors have multiplied, those of default lines too, are no more than a config's may be.",
    "Where there is mail, mail_to is the address that it is sent to.",
    "Only to a mail server on this machine the encryption is none.",
    "A password of mail has its user beside it.",
    "The address of a webhook stands once.",
];

pub fn beyond_a_config(schema: &mut Schema) {
    describe(schema, &[BEYOND_A_CONFIG]);
}

pub fn beyond_a_setup(schema: &mut Schema) {
    describe(schema, &BEYOND_A_SETUP);
}

fn describe(schema: &mut Schema, own: &[&str]) {
    let what = schema.get("description").and_then(Value::as_str).unwrap_or_default().to_string();
    let beyond: Vec<&str> = BEYOND_BOTH.iter().chain(own).copied().collect();
    schema.insert("description".to_string(), described(&what, &beyond).into());
}

pub fn id() -> String {
    format!("^[{}]*$", signs(is_of_an_id))
}

pub fn page_address() -> String {
    let any = signs(is_of_an_address);
    let first = signs(|sign| is_of_an_address(sign) && sign != '/');
    format!("^https://[{first}][{any}]*$")
}

/// The name of a host: labels of letters, digits and hyphens, with dots between them.
pub fn host() -> String {
    format!("^{}$", labels())
}

fn labels() -> String {
    let label = format!("[a-zA-Z0-9]([a-zA-Z0-9-]{{0,{}}}[a-zA-Z0-9])?", MOST_LABEL - 2);
    format!("{label}(\\.{label})*")
}

pub fn mail_address() -> String {
    let word = signs(is_of_a_local_part);
    format!("^(?=[^@]{{1,{MOST_LOCAL}}}@)[{word}]+(\\.[{word}]+)*@{}$", labels())
}

pub fn webhook_address() -> String {
    // The last numbers are those up to 65535.
    let port = "(6553[0-5]|655[0-2][0-9]|65[0-4][0-9]{2}|6[0-4][0-9]{3}|[1-5][0-9]{4}|[1-9][0-9]{0,3})";
    format!("^https://{}(:{port})?([/?][{}]*)?$", labels(), signs(is_of_a_webhook_path))
}

/// Base64 of 24 to 64 bytes: groups of four digits that stand for three bytes, and a last group for one or two (RFC 4648, from memory).
pub fn webhook_secret() -> String {
    let digit = "[A-Za-z0-9+/]";
    let [least, most] = SECRET_BYTES.map(|bytes| bytes / 3);
    format!(
        "^whsec_(({digit}{{4}}){{{least},{}}}({digit}{{2}}==|{digit}{{3}}=)?|({digit}{{4}}){{{most}}}({digit}{{2}}==)?)$",
        most - 1
    )
}

pub fn picture_address() -> String {
    let any = signs(|sign| sign.is_ascii_graphic());
    let first = signs(|sign| sign.is_ascii_graphic() && sign != '/');
    format!("^(https://[{any}]*|/([{first}][{any}]*)?)$")
}

pub fn colour() -> String {
    let (space, digit) = (white(), signs(|sign| sign.is_ascii_hexdigit()));
    format!("^[{space}]*#([{digit}]{{3}}|[{digit}]{{6}})[{space}]*$")
}

pub fn typefaces() -> String {
    format!("^[{}]*$", signs(is_of_a_typeface))
}

/// The schema of a low, likely and high figure, each within these bounds.
pub fn three<T: Serialize>(least: T, most: T) -> Value {
    let one = json!({ "minimum": least, "maximum": most });
    json!({ "low": one, "likely": one, "high": one })
}

/// The schema of a factor by which an item's labour is multiplied.
pub fn factors() -> Value {
    json!({ "$ref": "#/$defs/Ratio", "minimum": A_FACTOR[0], "maximum": A_FACTOR[1] })
}

/// The schema of an object's key that is the name of an item.
pub fn items() -> Value {
    json!({ "$ref": "#/$defs/Item" })
}

/// The items that every config has a line for.
fn with_a_line() -> impl Iterator<Item = Item> {
    Item::ALL.iter().copied().filter(|item| !matches!(item, Item::ChargePoint | Item::CallOut))
}

fn lines_of(item: Item, least: usize) -> Value {
    let of_item = json!({ "properties": { "item": { "const": item.word() } }, "required": ["item"] });
    json!({ "contains": of_item, "minContains": least, "maxContains": 1 })
}

/// The schema of a list with exactly one line for each item; of an item that came later, at most one.
pub fn a_line_each() -> Value {
    with_a_line().map(|item| lines_of(item, usize::from(!came_later(item)))).collect()
}

/// The schema of a list with at most one line for each item.
pub fn no_line_twice() -> Value {
    with_a_line().map(|item| lines_of(item, 0)).collect()
}

/// Adds the most labour and money for one unit of an item: less for a metre than for a piece.
pub fn costs(schema: &mut Schema) {
    let within = |(minutes, money): (Minutes, Pence)| {
        json!({ "properties": {
            "minutes": { "properties": three(Minutes::ZERO, minutes) },
            "cost": { "properties": three(Pence(0), money) },
        } })
    };
    let metres: Vec<&str> = Item::ALL.iter().filter(|item| by_the_metre(**item)).map(|item| item.word()).collect();
    schema.insert("if".to_string(), json!({ "properties": { "item": { "enum": metres } } }));
    schema.insert("then".to_string(), within(A_METRE));
    schema.insert("else".to_string(), within(A_PIECE));
}
