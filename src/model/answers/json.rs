//! Answers as JSON: an object of topics, each an object of fields. A question that was not asked is left out; "not sure" is written
//! `"not-sure"`.
//!
//! Every field is read and written through its [`FieldAccessor`], by its [`AnswerKind`]. An error quotes what was there and says what is
//! allowed.

use super::day;
use super::field_accessor::FieldAccessor;
use super::topics::TOPICS;
use super::{AnswerKind, Answers, Bounds, Length, RawAnswer, Stretch};
use crate::units::Ratio;
use alloc::string::String;
use alloc::vec::Vec;
use core::fmt;
use jiff::civil::Date;
use serde::de::value::MapAccessDeserializer;
use serde::de::{self, Deserialize, DeserializeSeed, Deserializer, MapAccess, SeqAccess};
use serde::ser::{Serialize, SerializeMap, SerializeSeq, Serializer};

/// How "not sure" is written.
pub(super) const NOT_SURE: &str = "not-sure";
/// The fields that belong to no topic.
const AS_OF: &str = "as_of";
const RECORDED: &str = "recorded";

/// Each answer that was given: the path of its field (`home.postcode`), and its value as JSON text.
pub fn each_written(answers: &Answers) -> impl Iterator<Item = (String, String)> + '_ {
    TOPICS.iter().flat_map(move |(topic, accessors)| {
        TopicOut { answers, accessors }.said().map(move |(accessor, given)| {
            let value = ValueOut { kind: accessor.kind, given };
            (
                [*topic, ".", accessor.name].concat(),
                serde_json::to_string(&value).expect("a value holds nothing JSON lacks"),
            )
        })
    })
}

/// Sets one answer from a path and JSON text as [`each_written`] gives them; an empty text takes the answer back. Returns whether path and
/// value were allowed; otherwise nothing changes.
pub fn take_written(answers: &mut Answers, path: &str, json: &str) -> bool {
    let accessor = path.split_once('.').and_then(|(topic, name)| {
        let (_, accessors) = TOPICS.iter().find(|(known, _)| *known == topic)?;
        accessors.iter().find(|accessor| accessor.name == name)
    });
    match accessor {
        Some(accessor) if json.is_empty() => (accessor.set)(answers, &RawAnswer::Nothing),
        Some(accessor) => {
            let mut reader = serde_json::Deserializer::from_str(json);
            ValueIn { answers, accessor }.deserialize(&mut reader).is_ok()
        }
        None => false,
    }
}

impl Serialize for Answers {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        if let Some(day) = &self.as_of {
            map.serialize_entry(AS_OF, &Day(*day))?;
        }
        if !self.recorded.is_empty() {
            map.serialize_entry(RECORDED, &self.recorded)?;
        }
        for (name, accessors) in TOPICS {
            let topic = TopicOut { answers: self, accessors };
            if topic.said().next().is_some() {
                map.serialize_entry(name, &topic)?;
            }
        }
        map.end()
    }
}

/// A day, read by [`day`]'s short parser.
#[derive(serde::Serialize, serde::Deserialize)]
#[serde(transparent)]
struct Day(#[serde(with = "day")] Date);

/// One topic, for writing.
struct TopicOut<'a> {
    answers: &'a Answers,
    accessors: &'static [FieldAccessor],
}

impl<'a> TopicOut<'a> {
    fn said(&self) -> impl Iterator<Item = (&'static FieldAccessor, RawAnswer)> + use<'a> {
        let answers = self.answers;
        self.accessors
            .iter()
            .map(move |accessor| (accessor, (accessor.get)(answers)))
            .filter(|(_, given)| *given != RawAnswer::Nothing)
    }
}

impl Serialize for TopicOut<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut map = serializer.serialize_map(None)?;
        for (accessor, given) in self.said() {
            map.serialize_entry(accessor.name, &ValueOut { kind: accessor.kind, given })?;
        }
        map.end()
    }
}

/// One value, for writing.
struct ValueOut {
    kind: AnswerKind,
    given: RawAnswer,
}

impl Serialize for ValueOut {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match (&self.given, self.kind) {
            (RawAnswer::One(place), AnswerKind::One(words)) => serializer.serialize_str(words[usize::from(*place)]),
            (RawAnswer::Any(bits), AnswerKind::Any(words)) => {
                let mut list = serializer.serialize_seq(None)?;
                for (_, word) in words.iter().enumerate().filter(|(place, _)| bits >> place & 1 == 1) {
                    list.serialize_element(word)?;
                }
                list.end()
            }
            (RawAnswer::YesNo(yes), _) => serializer.serialize_bool(*yes),
            (RawAnswer::Count(count), _) => serializer.serialize_u8(*count),
            (RawAnswer::Distance(length), _) => length.serialize(serializer),
            (RawAnswer::Figure(number), _) => serializer.serialize_f64(*number),
            (RawAnswer::Line(line), _) => serializer.serialize_str(line),
            (RawAnswer::Stretches(stretches), _) => stretches.serialize(serializer),
            (RawAnswer::Nothing | RawAnswer::NotSure | RawAnswer::One(_) | RawAnswer::Any(_), _) => {
                serializer.serialize_str(NOT_SURE)
            }
        }
    }
}

impl<'de> Deserialize<'de> for Answers {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_map(AnswersIn)
    }
}

/// Reads an object of all topics.
struct AnswersIn;

impl<'de> de::Visitor<'de> for AnswersIn {
    type Value = Answers;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object of answers by topic")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Answers, A::Error> {
        let mut answers = Answers::default();
        let mut met = 0_u32;
        while let Some(name) = map.next_key::<String>()? {
            let place = match name.as_str() {
                AS_OF => 31,
                RECORDED => 30,
                topic => topic_place(topic)?,
            };
            if met >> place & 1 == 1 {
                return Err(twice(&name));
            }
            met |= 1 << place;
            match TOPICS.get(place) {
                Some((_, accessors)) => map.next_value_seed(TopicIn { answers: &mut answers, accessors })?,
                None if place == 30 => answers.recorded = map.next_value()?,
                None => answers.as_of = map.next_value::<Option<Day>>()?.map(|Day(day)| day),
            }
        }
        Ok(answers)
    }
}

fn topic_place<E: de::Error>(name: &str) -> Result<usize, E> {
    TOPICS
        .iter()
        .position(|(topic, _)| *topic == name)
        .ok_or_else(|| unknown(name, TOPICS.iter().map(|(topic, _)| *topic).chain([AS_OF, RECORDED])))
}

fn unknown<E: de::Error>(name: &str, known: impl Iterator<Item = &'static str>) -> E {
    let known: Vec<&str> = known.collect();
    let name: String = name.chars().take(60).collect();
    E::custom(format_args!("unknown field `{name}`; it may be {}", known.join(", ")))
}

fn twice<E: de::Error>(name: &str) -> E {
    E::custom(format_args!("field `{name}` stands twice"))
}

/// Reads one topic into the answers.
struct TopicIn<'a> {
    answers: &'a mut Answers,
    accessors: &'static [FieldAccessor],
}

impl<'de> DeserializeSeed<'de> for TopicIn<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_map(self)
    }
}

impl<'de> de::Visitor<'de> for TopicIn<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("an object with named fields")
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        while let Some(name) = map.next_key::<String>()? {
            let Some(accessor) = self.accessors.iter().find(|accessor| accessor.name == name) else {
                return Err(unknown(&name, self.accessors.iter().map(|accessor| accessor.name)));
            };
            if (accessor.get)(self.answers) != RawAnswer::Nothing {
                return Err(twice(&name));
            }
            map.next_value_seed(ValueIn { answers: self.answers, accessor })?;
        }
        Ok(())
    }
}

/// Reads one value and sets it through its field's accessor.
struct ValueIn<'a> {
    answers: &'a mut Answers,
    accessor: &'static FieldAccessor,
}

impl ValueIn<'_> {
    fn put<E: de::Error>(self, given: &RawAnswer, was: fmt::Arguments<'_>) -> Result<(), E> {
        if (self.accessor.set)(self.answers, given) { Ok(()) } else { Err(self.refuse(was)) }
    }

    fn refuse<E: de::Error>(&self, was: fmt::Arguments<'_>) -> E {
        E::custom(format_args!("{was} is not allowed; it may be {self}"))
    }
}

/// Writes the bounds of a figure in words, with its unit. Numbers are formatted by the units' own short formatter.
fn write_bounds(f: &mut fmt::Formatter<'_>, symbol: &str, least: f64, most: f64) -> fmt::Result {
    let [least, most] = [least, most].map(|bound| Ratio::new(bound).unwrap_or(Ratio::ZERO));
    write!(f, "a number of {symbol} from {least} to {most}")
}

/// Says what the field may hold, for error messages.
impl fmt::Display for ValueIn<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.accessor.kind {
            AnswerKind::One(words) => f.write_str(&words.join(", "))?,
            AnswerKind::Any(words) => write!(f, "a list of {}", words.join(", "))?,
            AnswerKind::YesNo => f.write_str("true, false")?,
            AnswerKind::Count(least, most) => write!(f, "a whole number from {least} to {most}")?,
            AnswerKind::Distance => f.write_str(
                "an object with value and unit, such as {\"value\": 8, \"unit\": \"metres\"}, up to 1,000 m",
            )?,
            AnswerKind::Figure(Bounds { symbol, least, most }) => write_bounds(f, symbol, least, most)?,
            AnswerKind::Line => f.write_str("one line of text of at most 200 characters")?,
            AnswerKind::PostcodeLine => f.write_str("a postcode or its first half, such as ZZ1 1AA or ZZ1")?,
            AnswerKind::Day => f.write_str("a day, such as 2026-11-25")?,
            AnswerKind::Stretches => {
                f.write_str("a list of at most 50 stretches, each with along and length, up to 1,000 m")?
            }
        }
        f.write_str(", or \"not-sure\"")
    }
}

impl<'de> DeserializeSeed<'de> for ValueIn<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

impl<'de> de::Visitor<'de> for ValueIn<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }

    fn visit_str<E: de::Error>(self, text: &str) -> Result<(), E> {
        let given = match self.accessor.kind {
            _ if text == NOT_SURE => RawAnswer::NotSure,
            AnswerKind::One(words) => match words.iter().position(|word| *word == text) {
                Some(place) => RawAnswer::One(place as u8), // a list holds far fewer than 256 words
                None => return Err(self.refuse(format_args!("{:?}", start_of(text)))),
            },
            AnswerKind::Line | AnswerKind::PostcodeLine | AnswerKind::Day => RawAnswer::Line(text.into()),
            _ => return Err(self.refuse(format_args!("{:?}", start_of(text)))),
        };
        self.put(&given, format_args!("{:?}", start_of(text)))
    }

    fn visit_bool<E: de::Error>(self, yes: bool) -> Result<(), E> {
        self.put(&RawAnswer::YesNo(yes), format_args!("{yes}"))
    }

    fn visit_u64<E: de::Error>(self, number: u64) -> Result<(), E> {
        let given = match (self.accessor.kind, u8::try_from(number)) {
            (AnswerKind::Count(..), Ok(count)) => RawAnswer::Count(count),
            (AnswerKind::Count(..), Err(_)) => return Err(self.refuse(format_args!("{number}"))),
            _ => RawAnswer::Figure(number as f64),
        };
        self.put(&given, format_args!("{number}"))
    }

    fn visit_i64<E: de::Error>(self, number: i64) -> Result<(), E> {
        Err(self.refuse(format_args!("{number}"))) // only a number below zero arrives here
    }

    fn visit_f64<E: de::Error>(self, number: f64) -> Result<(), E> {
        self.put(&RawAnswer::Figure(number), format_args!("this number"))
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        let given = match self.accessor.kind {
            AnswerKind::Any(words) => {
                let mut bits = 0;
                while let Some(word) = list.next_element::<String>()? {
                    match words.iter().position(|allowed| *allowed == word) {
                        Some(place) if bits >> place & 1 == 1 => return Err(twice(&word)),
                        Some(place) => bits |= 1 << place,
                        None => return Err(self.refuse(format_args!("{:?}", start_of(&word)))),
                    }
                }
                RawAnswer::Any(bits)
            }
            AnswerKind::Stretches => {
                let mut stretches = Vec::new();
                while let Some(Object(stretch)) = list.next_element::<Object<Stretch>>()? {
                    stretches.push(stretch);
                }
                RawAnswer::Stretches(stretches)
            }
            _ => return Err(self.refuse(format_args!("a list"))),
        };
        self.put(&given, format_args!("this list"))
    }

    fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<(), A::Error> {
        match self.accessor.kind {
            AnswerKind::Distance => {
                let length = Length::deserialize(MapAccessDeserializer::new(fields))?;
                self.put(&RawAnswer::Distance(length), format_args!("this distance"))
            }
            _ => Err(self.refuse(format_args!("an object"))),
        }
    }
}

/// The beginning of a text, long enough to recognise it by in an error message.
fn start_of(text: &str) -> String {
    text.chars().take(40).collect()
}

/// Reads a struct from a JSON object only. A derived reader would also take a list and fill the fields in their order.
struct Object<T>(T);

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Object<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct ObjectIn<T>(core::marker::PhantomData<T>);

        impl<'de, T: Deserialize<'de>> de::Visitor<'de> for ObjectIn<T> {
            type Value = Object<T>;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object with named fields")
            }

            fn visit_map<A: MapAccess<'de>>(self, fields: A) -> Result<Object<T>, A::Error> {
                T::deserialize(MapAccessDeserializer::new(fields)).map(Object)
            }
        }

        deserializer.deserialize_map(ObjectIn(core::marker::PhantomData))
    }
}

/// Reads a struct from a JSON object only; see [`Object`].
pub(super) fn object<'de, D: Deserializer<'de>, T: Deserialize<'de>>(deserializer: D) -> Result<T, D::Error> {
    Object::deserialize(deserializer).map(|Object(value)| value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answers::Answer;
    use alloc::string::ToString;

    fn refusal(json: &str) -> String {
        serde_json::from_str::<Answers>(json).unwrap_err().to_string()
    }

    #[test]
    fn what_was_not_asked_is_left_out() {
        assert_eq!(serde_json::to_string(&Answers::default()).unwrap(), "{}");
        let mut answers = Answers::default();
        answers.meter.fuse_carriers = Answer::NotSure;
        let json = r#"{"meter":{"fuse_carriers":"not-sure"}}"#;
        assert_eq!(serde_json::to_string(&answers).unwrap(), json);
        assert_eq!(serde_json::from_str::<Answers>(json).unwrap(), answers);
        assert_eq!(serde_json::from_str::<Answers>("{}").unwrap(), Answers::default());
    }

    #[test]
    fn every_kind_of_answer_survives_the_way_there_and_back() {
        let json = r#"{"as_of":"2026-11-02","hazard":{"signs":["smoke","tingle"],"place":"meter"},"home":{"postcode":"ZZ1 1AA"},"meter":{"fuse_carriers":1,"carrier_rating":60.5},"board":{"maker":"as typed","report":true},"route":{"length":{"value":8.0,"unit":"paces"},"stretches":[{"along":"paving","length":{"value":2.0,"unit":"metres"},"high":true}]}}"#;
        let answers: Answers = serde_json::from_str(json).unwrap();
        assert_eq!(serde_json::to_string(&answers).unwrap(), json);
    }

    #[test]
    fn answers_one_by_one_are_the_same_answers() {
        let json = r#"{"hazard":{"signs":["smoke"],"place":"meter"},"home":{"postcode":"ZZ1 1AA","age":"not-sure"},"route":{"length":{"value":8.0,"unit":"paces"}}}"#;
        let answers: Answers = serde_json::from_str(json).unwrap();
        let mut back = Answers::default();
        for (path, json) in each_written(&answers) {
            assert!(take_written(&mut back, &path, &json), "{path} {json}");
        }
        assert_eq!(back, answers);
        for (path, json) in [
            ("home.colour", "1"),
            ("home", "1"),
            ("", ""),
            ("home.age", "\"old\""),
            ("home.age", "["),
            ("hazard.signs", "7"),
        ] {
            assert!(!take_written(&mut back, path, json), "{path} {json}");
        }
        assert_eq!(back, answers);
        assert!(take_written(&mut back, "home.age", ""));
        assert_eq!(back.home.age, Answer::NotAsked);
    }

    #[test]
    fn a_refusal_says_what_was_there_and_what_may_be() {
        for (json, was, may) in [
            (r#"{"meter":{"fuses":1}}"#, "`fuses`", "fuse_carriers"),
            (r#"{"metre":{}}"#, "`metre`", "meter"),
            (r#"{"meter":{"fuse_carriers":7}}"#, "7", "from 1 to 3"),
            (r#"{"meter":{"fuse_carriers":700}}"#, "700", "from 1 to 3"),
            (r#"{"meter":{"fuse_carriers":"three"}}"#, "three", "from 1 to 3"),
            (r#"{"meter":{"carrier_rating":-1}}"#, "-1", "a number of A from 5 to 400"),
            (r#"{"meter":{"carrier_rating":0}}"#, "0", "from 5 to 400"),
            (r#"{"route":{"length":{"value":1e15,"unit":"metres"}}}"#, "this distance", "up to 1,000 m"),
            (r#"{"loads":{"heating_power":1e306}}"#, "this number", "from 0 to 100"),
            (r#"{"home":{"age":null}}"#, "null", "before-1930"),
            (r#"{"hazard":{"signs":["smoke","smoke"]}}"#, "`smoke`", "twice"),
            (r#"{"home":{"age":"old"}}"#, "old", "before-1930"),
            (r#"{"home":{"postcode":"nowhere"}}"#, "nowhere", "ZZ1 1AA"),
            (r#"{"hazard":{"signs":["fire"]}}"#, "fire", "smoke"),
            (r#"{"hazard":{"signs":"smoke"}}"#, "smoke", "a list of"),
            (r#"{"board":{"report":"yes"}}"#, "yes", "true, false"),
            (r#"{"route":{"length":8}}"#, "8", "value and unit"),
            (r#"{"meter":["indoors"]}"#, "sequence", "an object"),
            (r#"{"meter":{"place":["indoors"]}}"#, "a list", "outside-box"),
            (r#"{"meter":{"place":"indoors","place":"cupboard"}}"#, "`place`", "twice"),
            (r#"{"meter":{},"meter":{}}"#, "`meter`", "twice"),
        ] {
            let words = refusal(json);
            assert!(words.contains(was) && words.contains(may), "{json}: {words}");
        }
    }
}
