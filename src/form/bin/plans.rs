//! The plans as a WebAssembly program of its own, without a view framework: it returns markup as a tree of
//! `[name, attributes, ...children]`, from which `www/form/draw.js` makes elements.

use form::plans::{self, Speech, Told};
use js_sys::{Array, Object, Reflect};
use model::answers::{Inlet, Length, LengthUnit, ParkingPlace, Word};
use model::units::{Metres, Ratio};
use record::markup::{Node, Tag};
use wasm_bindgen::prelude::*;

fn main() {}

fn tree(tag: &Tag) -> JsValue {
    let attributes = Object::new();
    for (name, value) in &tag.attributes {
        // Setting a property of a new plain object does not fail.
        let _ = Reflect::set(&attributes, &name.as_str().into(), &value.as_str().into());
    }
    let made = Array::of2(&tag.name.as_str().into(), &attributes);
    for child in &tag.children {
        made.push(&match child {
            Node::Tag(tag) => tree(tag),
            Node::Text(text) => text.as_str().into(),
        });
    }
    made.into()
}

fn ratio(value: f64) -> Ratio {
    Ratio::new(value).unwrap_or(Ratio::ZERO)
}

/// The route builder: the cable's route, stretch by stretch.
#[wasm_bindgen]
pub struct Route(plans::Route);

#[wasm_bindgen]
impl Route {
    /// A route builder with this wording, in the language of this code; `pace` is the number of metres in a pace.
    #[wasm_bindgen(constructor)]
    pub fn new(words: String, language: String, pace: f64) -> Self {
        Self(plans::Route::new(Speech::new(words, language), ratio(pace)))
    }

    /// Replaces its rows by those of a text that `written` gave; from an empty text it begins with one row out of the rougher answers: what
    /// the route mostly runs along, its length, and the length's unit.
    pub fn take_up(&mut self, rows: &str, along: &str, length: &str, unit: &str) {
        self.0.take_up(rows, [along, length, unit]);
    }

    /// Its rows as the text that the form keeps.
    pub fn written(&self) -> String {
        self.0.written()
    }

    /// Sets the row that is being worked on, by its index.
    pub fn come_to(&mut self, at: usize) {
        self.0.come_to(at);
    }

    /// Makes the change `what` to the row at an index, with the field's new content; returns whether anything changed.
    pub fn change(&mut self, at: usize, what: &str, value: &str) -> bool {
        self.0.change(at, what, value)
    }

    /// The id of the element to focus after a change to the list.
    pub fn focus(&self) -> String {
        self.0.focus()
    }

    /// Its markup; `complains` is the id of the error message that is shown, if there is one.
    pub fn view(&self, complains: Option<String>) -> JsValue {
        tree(&self.0.view(complains.as_deref()))
    }
}

/// The reach of the leads.
#[wasm_bindgen]
pub struct Reach(plans::Reach);

#[wasm_bindgen]
impl Reach {
    /// The drawing with this wording, in the language of this code.
    #[wasm_bindgen(constructor)]
    pub fn new(words: String, language: String) -> Self {
        Self(plans::Reach::new(Speech::new(words, language)))
    }

    /// Replaces the answers: the words of the inlet and of the parking place, the distance from the charge point to the car with its unit,
    /// the metres in a pace, and the lengths of the leads in metres.
    pub fn take_up(&mut self, inlet: &str, place: &str, to_car: Option<f64>, unit: &str, pace: f64, leads: &[f64]) {
        let length = |value: f64| LengthUnit::named(unit).map(|unit| Length { value: ratio(value), unit });
        self.0.take_up(Told {
            inlet: Inlet::named(inlet),
            place: ParkingPlace::named(place),
            to_car: to_car.and_then(length).map(|length| length.in_metres(ratio(pace))),
            leads: leads.iter().filter_map(|lead| Metres::new(*lead).ok()).collect(),
        });
    }

    /// Turns the car round.
    pub fn turn(&mut self) {
        self.0.turn();
    }

    /// Moves the inlet to the next place round the car.
    pub fn move_inlet(&mut self) {
        self.0.move_inlet();
    }

    /// The word of the inlet that is being tried, where it differs from the answered one.
    pub fn tries(&self) -> Option<String> {
        self.0.tries().map(Into::into)
    }

    /// Its markup; `may_take` says whether the inlet being tried can be taken as the answer.
    pub fn view(&self, may_take: bool) -> JsValue {
        tree(&self.0.view(may_take))
    }
}
