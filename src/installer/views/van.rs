//! What to load into the van, taken from the bill.

use crate::words::{find, say, worded};
use engine::assessment::{BillLine, BillUnit};
use engine::price::{Take, VanLine, van_list};
use model::config::Item;
use std::borrow::Cow;
use wording::triage as key;
use yew::prelude::*;

/// The section; nothing if there is no bill.
pub(super) fn view(bill: &[BillLine]) -> Html {
    let list = van_list(bill);
    if list.is_empty() {
        return Html::default();
    }
    html! {
        <section class="van" aria-labelledby="van-title">
            <h2 id="van-title">{ say(key::VAN_TITLE) }</h2>
            { for [(Take::Take, None), (Take::Perhaps, Some(key::VAN_PERHAPS))].map(|(take, title)| part(&list, take, title)) }
        </section>
    }
}

fn part(list: &[VanLine], take: Take, title: Option<wording::Key>) -> Html {
    let lines: Vec<Html> = list.iter().filter(|line| line.take == take).map(thing).collect();
    if lines.is_empty() {
        return Html::default();
    }
    html! {
        <>
            if let Some(title) = title {
                <h3>{ say(title) }</h3>
            }
            <ul class="plain columns-of">{ for lines }</ul>
        </>
    }
}

/// What is loaded for an item, if its name differs from that of the work.
fn name(item: Item) -> Cow<'static, str> {
    find(&["van-", item.word()].concat()).map_or_else(|| worded("item", item.word()), Cow::Borrowed)
}

fn thing(line: &VanLine) -> Html {
    let amount = match line.unit {
        BillUnit::Metre => format!("{} {}", line.quantity, worded("bill-unit", line.unit.word())),
        BillUnit::Each => line.quantity.to_string(),
    };
    html! {
        <li key={line.item.word()}><strong>{ amount }</strong>{ " " }{ name(line.item) }</li>
    }
}
