//! The bill in the order of the work: quantity, minutes, price, probability.

use crate::sure;
use crate::tape::pounds;
use crate::words::{fill, say, worded};
use engine::assessment::{Assessment, BillLine, BillUnit};
use model::units::{Minutes, Pence};
use wording::triage as key;
use yew::prelude::*;

/// The section with the bill.
pub(super) fn view(assessment: &Assessment) -> Html {
    html! {
        <section class="bill" aria-labelledby="bill-title">
            <h2 id="bill-title">{ say(key::BILL_TITLE) }</h2>
            if assessment.band.is_none() || assessment.work.is_empty() {
                <p>
                    { say(key::BILL_NONE) }
                    if let Some(why) = assessment.no_band {
                        { " " }{ worded("no-band", why.word()) }
                    }
                </p>
            } else {
                <p>
                    { fill(key::BILL_LABOUR, &[("time", &time(assessment.labour))]) }
                    { " " }{ say(key::BILL_NOTE) }
                    if assessment.invented {
                        { " " }<strong class="invented">{ say(key::INVENTED_PRICES) }</strong>
                    }
                    if !assessment.assumed.is_empty() {
                        { " " }<strong class="invented">{ say(key::BILL_ASSUMED) }</strong>
                    }
                </p>
                // The roles are written out because the narrow layout overrides the table's own display.
                <table role="table" aria-labelledby="bill-title">
                    <thead role="rowgroup">
                        <tr role="row">
                            <th role="columnheader" scope="col">{ say(key::BILL_ITEM) }</th>
                            <th role="columnheader" scope="col" class="number">{ say(key::BILL_QUANTITY) }</th>
                            <th role="columnheader" scope="col" class="number">{ say(key::BILL_TIME) }</th>
                            <th role="columnheader" scope="col" class="number">{ say(key::BILL_PRICE) }</th>
                            <th role="columnheader" scope="col">{ say(key::BILL_SURE) }</th>
                            <th role="columnheader" scope="col" class="number">{ say(key::BILL_EXPECTED) }</th>
                        </tr>
                    </thead>
                    <tbody role="rowgroup">
                        { for assessment.work.iter().map(|row| line(row, assessment.assumed.contains(&row.item))) }
                    </tbody>
                    <tfoot role="rowgroup">
                        { sum(key::BILL_SUM, assessment.sums.before_vat) }
                        { sum(key::BILL_VAT, assessment.sums.vat) }
                        { sum(key::BILL_WITH_VAT, assessment.sums.with_vat) }
                    </tfoot>
                </table>
                { beside_the_band(assessment) }
            }
        </section>
    }
}

/// Explains why the bill's total and the middle of the band differ, if they do.
fn beside_the_band(assessment: &Assessment) -> Html {
    let Some(before_vat) = assessment.band.as_ref().and_then(|band| band.before_vat) else { return Html::default() };
    let (sum, median) = (assessment.sums.before_vat, before_vat.likely);
    if pounds(sum) == pounds(median) {
        return Html::default();
    }
    let least = assessment.estimate.as_ref().is_some_and(|estimate| estimate.mean > assessment.sums.with_vat);
    let says = if least {
        fill(key::BILL_LEAST, &[("least", &pounds(median))])
    } else {
        fill(key::BILL_BESIDE_BAND, &[("median", &pounds(median))])
    };
    html! { <p class="quietly">{ says }</p> }
}

fn sum(title: wording::Key, sum: Pence) -> Html {
    html! {
        <tr role="row">
            <th role="rowheader" scope="row" colspan="5">{ say(title) }</th>
            <td role="cell" class="number">{ sum.to_string() }</td>
        </tr>
    }
}

fn line(line: &BillLine, assumed: bool) -> Html {
    let after: Vec<String> = line.after.iter().map(|item| worded("item", item.word()).into_owned()).collect();
    let set_at: Vec<String> = line.set_at.iter().map(ToString::to_string).collect();
    let set_at = set_at.join(say(key::JOIN_OR));
    let quantity = libm::round(line.quantity.get() * 10.0) / 10.0;
    let unit = worded("bill-unit", line.unit.word());
    let amount = match line.unit {
        BillUnit::Each => quantity.to_string(),
        BillUnit::Metre => format!("{quantity} {unit}"),
    };
    let minutes = &line.minutes;
    let spread = (minutes.low != minutes.high)
        .then(|| fill(key::BILL_SPREAD, &[("low", &time(minutes.low)), ("high", &time(minutes.high))]));
    html! {
        <tr role="row" key={line.item.word()}>
            <th role="rowheader" scope="row">
                { worded("item", line.item.word()) }
                if assumed {
                    { " " }<small class="invented">{ say(key::BILL_ASSUMED_MARK) }</small>
                }
                <span class="spread-of">
                    { " " }{ fill(key::BILL_DAY, &[("day", &line.day.to_string())]) }
                    if !after.is_empty() {
                        { say(key::JOIN_COMMA) }{ fill(key::BILL_AFTER, &[("items", &after.join(say(key::JOIN_COMMA)))]) }
                    }
                    if !line.set_at.is_empty() {
                        { say(key::JOIN_COMMA) }{ fill(key::BILL_SET_AT, &[("limits", &set_at)]) }
                    }
                </span>
            </th>
            <td role="cell" class="number">{ amount }</td>
            <td role="cell" class="number">
                { if minutes.high == Minutes::ZERO { say(key::TIME_NONE).to_owned() } else { time(minutes.likely) } }
                if let Some(spread) = spread {
                    <span class="spread-of">{ " " }{ spread }</span>
                }
            </td>
            <td role="cell" class="number">{ line.price.to_string() }</td>
            <td role="cell" class="sure">{ sure::word_and_figure(line.probability) }</td>
            <td role="cell" class="number">{ line.expected.to_string() }</td>
        </tr>
    }
}

/// A time in hours and minutes.
pub(super) fn time(minutes: Minutes) -> String {
    let whole = libm::round(minutes.get()) as i64;
    let (hours, rest) = (whole / 60, whole % 60);
    let places = [("h", &*hours.to_string()), ("min", &*rest.to_string())];
    fill(
        match (hours, rest) {
            (0, _) => key::TIME_MINUTES,
            (_, 0) => key::TIME_HOURS,
            _ => key::TIME_BOTH,
        },
        &places,
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn minutes_are_said_as_one_would() {
        for (minutes, said) in [(0.0, "0 min"), (59.6, "1 h"), (45.0, "45 min"), (150.2, "2 h 30 min")] {
            assert_eq!(time(Minutes::of(minutes)), said);
        }
    }
}
