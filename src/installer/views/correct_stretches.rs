//! The control that corrects a route, stretch by stretch.

use crate::words::{fill, option, say, worded};
use model::answers::{Along, LengthUnit, StretchRowChange, StretchRows, Word};
use wasm_bindgen::JsCast;
use web_sys::{Event, HtmlInputElement, HtmlSelectElement};
use wording::{Key, triage as key};
use yew::prelude::*;

/// The control's properties.
#[derive(PartialEq, Properties)]
pub struct CorrectStretchesProps {
    /// The rows as one text.
    pub text: String,
    /// The error to show, by the id of its element.
    pub error: Option<String>,
    /// Called with the rows' text when it changes.
    pub on_text: Callback<String>,
}

/// The control.
#[component]
pub fn CorrectStretches(props: &CorrectStretchesProps) -> Html {
    // The key of the list: a new order makes a new list, as a select that somebody has changed ignores later values.
    let made = use_state(|| 0_u32);
    let rows = StretchRows::read(&props.text);
    let on_press = |at: usize, does: StretchRowChange, then: &'static str| {
        let (rows, on_text, made) = (rows.clone(), props.on_text.clone(), made.clone());
        Callback::from(move |_: MouseEvent| {
            let mut rows = rows.clone();
            let at = rows.change(at, does.clone());
            on_text.emit(rows.write());
            made.set(*made + 1);
            let id = format!("stretch-{at}-{then}");
            gloo::timers::callback::Timeout::new(0, move || crate::focus::by_id(&id)).forget();
        })
    };
    let on_change = |at: usize, of: fn(&Event) -> StretchRowChange| {
        let (rows, on_text) = (rows.clone(), props.on_text.clone());
        Callback::from(move |event: Event| {
            let mut rows = rows.clone();
            rows.change(at, of(&event));
            on_text.emit(rows.write());
        })
    };
    let on_typed = |at: usize| {
        on_change(at, |event| StretchRowChange::Length(typed(event))).reform(|event: InputEvent| event.into())
    };
    let row = |(at, row): (usize, &model::answers::StretchRow)| {
        let named = |name: Key| fill(name, &[("n", &(at + 1).to_string())]);
        let wrong = props.error.is_some() && row.stretch().is_none() && !row.is_blank();
        let invalid = wrong.then_some("true");
        let does = [
            ("earlier", StretchRowChange::Earlier, key::CORRECT_STRETCH_EARLIER),
            ("later", StretchRowChange::Later, key::CORRECT_STRETCH_LATER),
            ("split", StretchRowChange::Split, key::CORRECT_STRETCH_SPLIT),
            ("add", StretchRowChange::AddAfter, key::CORRECT_STRETCH_ADD),
            ("out", StretchRowChange::TakeOut, key::CORRECT_STRETCH_OUT),
        ];
        html! {
            <li>
                <select id={format!("stretch-{at}-along")} aria-label={named(key::CORRECT_STRETCH_ALONG)} aria-invalid={invalid}
                    aria-describedby={props.error.clone()}
                    onchange={on_change(at, |event| StretchRowChange::Along(Along::named(&chosen(event))))}>
                    <option value="" selected={row.along.is_none()}>{ say(key::CORRECT_PLEASE) }</option>
                    { for Along::ALL.iter().map(|along| html! {
                        <option value={along.word()} selected={row.along == Some(*along)}>{ option("route-mostly", along.word()) }</option>
                    }) }
                </select>
                <div class="measure">
                    <input type="text" inputmode="decimal" autocomplete="off" value={row.length.clone()} oninput={on_typed(at)}
                        aria-label={named(key::CORRECT_STRETCH_LENGTH)} aria-invalid={invalid} aria-describedby={props.error.clone()} />
                    <select aria-label={named(key::CORRECT_STRETCH_UNIT)}
                        onchange={on_change(at, |event| StretchRowChange::Unit(LengthUnit::named(&chosen(event)).unwrap_or(LengthUnit::Metres)))}>
                        { for LengthUnit::ALL.iter().map(|unit| html! {
                            <option value={unit.word()} selected={row.unit() == *unit}>{ worded("length", unit.word()) }</option>
                        }) }
                    </select>
                </div>
                <label class="choice">
                    <input type="checkbox" checked={row.high} onchange={on_change(at, ticked)} />
                    <span>{ say(key::CORRECT_STRETCH_HIGH) }</span>
                </label>
                <div class="acts">
                    { for does.into_iter().map(|(what, does, name)| {
                        let disabled = !rows.may(at, &does);
                        let then = if matches!(does, StretchRowChange::AddAfter | StretchRowChange::TakeOut) { "along" } else { what };
                        let onclick = on_press(at, does, then);
                        let label = format!("{}: {}", named(key::CORRECT_STRETCH), say(name));
                        html! {
                            <button type="button" class="quiet" id={format!("stretch-{at}-{what}")} aria-label={label}
                                aria-disabled={disabled.then_some("true")} {onclick}>{ say(name) }</button>
                        }
                    }) }
                </div>
            </li>
        }
    };
    html! { <ol class="stretches" key={*made}>{ for rows.0.iter().enumerate().map(row) }</ol> }
}

fn chosen(event: &Event) -> String {
    event.target().map(|target| target.unchecked_into::<HtmlSelectElement>().value()).unwrap_or_default()
}

fn typed(event: &Event) -> String {
    event.target().map(|target| target.unchecked_into::<HtmlInputElement>().value()).unwrap_or_default()
}

fn ticked(event: &Event) -> StretchRowChange {
    let input = event.target().map(JsCast::unchecked_into::<HtmlInputElement>);
    StretchRowChange::High(input.is_some_and(|input| input.checked()))
}
