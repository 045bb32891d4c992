//! The working of the figures, calculated only when it is unfolded.

use crate::words::{fill, plain, say};
use figures::{Input, TableRow, Working, working};
use model::answers::Answers;
use model::config::Config;
use std::rc::Rc;
use web_sys::MouseEvent;
use wording::triage as key;
use yew::prelude::*;

/// The working's properties.
#[derive(PartialEq, Properties)]
pub struct WorkingProps {
    /// The answers shown.
    pub answers: Rc<Answers>,
    /// The published config; `None` if it could not be fetched.
    pub config: Option<Rc<Config>>,
    /// Whether it is unfolded from the start.
    #[prop_or_default]
    pub unfolded: bool,
}

/// The working, to unfold.
#[component]
pub fn WorkingView(props: &WorkingProps) -> Html {
    let unfolded = use_state(|| props.unfolded);
    let made = use_memo((*unfolded, props.answers.clone(), props.config.clone()), |(unfolded, answers, config)| {
        config.as_ref().filter(|_| *unfolded).map(|config| working(answers, config))
    });
    let onclick = {
        let unfolded = unfolded.clone();
        Callback::from(move |_: MouseEvent| unfolded.set(!*unfolded))
    };
    html! {
        <>
            <button type="button" class="fold" {onclick} aria-expanded={if *unfolded { "true" } else { "false" }}>
                { say(key::WORKING_TITLE) }
            </button>
            if *unfolded {
                <div class="working">
                    <p class="quietly">{ say(key::FIGURES_NOTE) }</p>
                    { match &*made {
                        Some(figures) => figures.iter().map(one).collect::<Html>(),
                        None => html! { <p>{ say(key::WORKING_NO_CONFIG) }</p> },
                    } }
                </div>
            }
        </>
    }
}

fn one(figure: &Working) -> Html {
    html! {
        <div class="figure" key={figure.figure.clone()}>
            <h3>{ plain(&figure.figure) }</h3>
            <p><strong>{ &figure.value }</strong></p>
            <p>{ fill(key::WORKING_FORMULA, &[("formula", &figure.formula)]) }</p>
            { lines(&figure.inputs) }
            { lines(&figure.steps) }
            if !figure.rows.is_empty() {
                <ul class="plain quietly">
                    { for figure.rows.iter().map(|row| html! { <li>{ table_row(row) }</li> }) }
                </ul>
            }
            <p class="quietly">{ fill(key::WORKING_SOURCE, &[("source", &figure.source)]) }</p>
        </div>
    }
}

/// A row of a table: its table, the values it was looked up by, what it gives, how sure it is.
fn table_row(row: &TableRow) -> String {
    let what = if row.row.is_empty() { row.gives.clone() } else { format!("{}, {}", row.gives, row.row) };
    fill(key::WORKING_ROW, &[("table", &row.table), ("what", &what), ("value", &row.value), ("grade", &row.grade)])
}

/// Names with their values; nothing if there are none.
fn lines(each: &[Input]) -> Html {
    if each.is_empty() {
        return Html::default();
    }
    html! {
        <dl class="inputs">
            { for each.iter().map(|input| html! { <><dt>{ &input.name }</dt><dd>{ &input.value }</dd></> }) }
        </dl>
    }
}
