//! The plans as a program of its own, without a view framework: what there is to see leaves as a tree of
//! `[name, attributes, ...inside]`, which `www/form/draw.js` makes into elements.

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
        // Nothing refuses a property of a plain object.
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

/// The way of the cable, stretch by stretch.
#[wasm_bindgen]
pub struct Route(plans::Route);

#[wasm_bindgen]
impl Route {
    /// In these words, of the language of that code, with so many metres in a pace.
    #[wasm_bindgen(constructor)]
    pub fn new(words: String, language: String, pace: f64) -> Self {
        Self(plans::Route::new(Speech::new(words, language), ratio(pace)))
    }

    /// Takes up its rows as they were written; without any it begins with what was said roughly.
    pub fn take_up(&mut self, rows: &str, along: &str, length: &str, unit: &str) {
        self.0.take_up(rows, [along, length, unit]);
    }

    /// Its rows as they are kept.
    pub fn written(&self) -> String {
        self.0.written()
    }

    /// The row at that place is come to.
    pub fn come_to(&mut self, at: usize) {
        self.0.come_to(at);
    }

    /// Changes the row at that place; tells whether anything is another now.
    pub fn change(&mut self, at: usize, what: &str, value: &str) -> bool {
        self.0.change(at, what, value)
    }

    /// Where the focus belongs after what was done to the list.
    pub fn focus(&self) -> String {
        self.0.focus()
    }

    /// What there is to see; `complains` is the id of the error that is shown, if one is.
    pub fn view(&self, complains: Option<String>) -> JsValue {
        tree(&self.0.view(complains.as_deref()))
    }
}

/// The reach of the leads.
#[wasm_bindgen]
pub struct Reach(plans::Reach);

#[wasm_bindgen]
impl Reach {
    /// In these words, of the language of that code.
    #[wasm_bindgen(constructor)]
    pub fn new(words: String, language: String) -> Self {
        Self(plans::Reach::new(Speech::new(words, language)))
    }

    /// Takes up what was said: where the inlet is and where the car stands, in words of the answers; how far the spot is from it, in
    /// what; how many metres a pace has, and how many each lead.
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

    /// Moves the inlet to the next place.
    pub fn move_inlet(&mut self) {
        self.0.move_inlet();
    }

    /// The word of the inlet that is tried where another one was said, or none.
    pub fn tries(&self) -> Option<String> {
        self.0.tries().map(Into::into)
    }

    /// What there is to see; `may_take` where what is tried can be taken as the answer.
    pub fn view(&self, may_take: bool) -> JsValue {
        tree(&self.0.view(may_take))
    }
}
