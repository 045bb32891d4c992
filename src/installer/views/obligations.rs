//! Obligations before and after the work: what each body must be told or asked and by when, which details are known and which are still to
//! be found out.

use super::enquiry::OpenEnquiry;
use super::operators_form;
use crate::ago::day;
use crate::sure;
use crate::tape::pounds;
use crate::words::{fill, find, plain, say, worded};
use engine::assessment::{Asked, Assessment, Need, Obligation, OwedTo};
use jiff::civil::Date;
use model::answers::Tenure;
use model::config::{self, Grant};
use model::units::Probability;
use wording::triage as key;
use yew::prelude::*;

/// The section, as of `today`.
pub(super) fn view(shown: &OpenEnquiry<'_>, assessment: &Assessment, today: Date) -> Html {
    html! {
        <section class="owed" aria-labelledby="owed-title">
            <h2 id="owed-title">{ say(key::OWED_TITLE) }</h2>
            if assessment.owed.is_empty() {
                <p>{ say(key::OWED_NONE) }</p>
            } else {
                <dl class="ruled">{ for assessment.owed.iter().map(|owed| line(shown, owed, today)) }</dl>
            }
        </section>
    }
}

fn line(shown: &OpenEnquiry<'_>, owed: &Obligation, today: Date) -> Html {
    let form = owed.to == OwedTo::NetworkOperator && !owed.needs.is_empty();
    let needs: Vec<Need> =
        owed.needs.iter().filter(|_| !form).map(|need| operators_form::completed(shown, need)).collect();
    let way =
        find(&format!("owed-way-{}-{}", owed.to.word(), owed.way)).map_or_else(|| plain(&owed.way), str::to_owned);
    let days = owed.days.map(|days| days.to_string()).unwrap_or_default();
    let when = fill(key::OWED_WHEN_DAYS_AFTER, &[("days", &days)]);
    let when = if owed.days.is_some() { when } else { worded("owed-when", owed.when.word()).into_owned() };
    let (known, unknown): (Vec<&Need>, Vec<&Need>) = needs.iter().partition(|need| need.value.is_some());
    let (missing, unsettled): (Vec<&Need>, Vec<&Need>) =
        unknown.into_iter().partition(|need| need.alternatives.is_empty());
    let known: Vec<String> = known
        .into_iter()
        .map(|need| {
            let value = need.value.as_deref().unwrap_or_default();
            fill(key::NEED_VALUE, &[("what", &worded("need", &need.what)), ("value", value)])
        })
        .collect();
    let missing: Vec<_> = missing.into_iter().map(|need| worded("need", &need.what)).collect();
    let unsettled: Vec<String> = unsettled
        .into_iter()
        .map(|need| {
            let values = need.alternatives.join(say(key::JOIN_OR));
            fill(key::NEED_OR, &[("what", &worded("need", &need.what)), ("values", &values)])
        })
        .collect();
    html! {
        <>
            <dt>{ worded("owed-to", owed.to.word()) }</dt>
            <dd>
                { way }{ say(key::JOIN_SEMICOLON) }{ when }
                if owed.probability < Probability::CERTAIN {
                    { say(key::JOIN_COLON) }{ sure::word_and_figure(owed.probability) }
                }
                if let Some(asked) = &owed.asked {
                    { dates(asked, today) }
                }
                if !known.is_empty() {
                    <span class="why">{ fill(key::OWED_KNOWN, &[("known", &known.join(say(key::JOIN_SEMICOLON)))]) }</span>
                }
                if !unsettled.is_empty() {
                    <span class="why">{ fill(key::OWED_UNSETTLED, &[("unsettled", &unsettled.join(say(key::JOIN_SEMICOLON)))]) }</span>
                }
                if !missing.is_empty() {
                    <span class="why">{ fill(key::OWED_NEEDS, &[("needs", &missing.join(say(key::JOIN_SEMICOLON)))]) }</span>
                }
                { for landlords_grants(shown, owed) }
                if form {
                    { operators_form::view(shown, &owed.needs) }
                }
                <span class="quietly">{ fill(key::OWED_SOURCE, &[("source", &owed.source)]) }</span>
            </dd>
        </>
    }
}

/// The grants that whoever lets the home may apply for, on the day of the assessment.
fn landlords_grants(shown: &OpenEnquiry<'_>, owed: &Obligation) -> Vec<Html> {
    let lets = owed.to == OwedTo::Landlord && shown.answers.home.tenure.is(Tenure::Rent);
    let Some(as_of) = shown.assessment.filter(|_| lets).map(|assessment| assessment.as_of) else { return Vec::new() };
    let line = |grant: Grant| {
        let places = [
            ("most", &*pounds(grant.most)),
            ("name", &*grant.name),
            ("read", &*day(grant.read)),
            ("source", &*grant.source),
        ];
        html! { <span class="why">{ fill(key::OWED_LANDLORDS_GRANT, &places) }</span> }
    };
    config::landlords_grants(as_of).into_iter().map(line).collect()
}

/// When a body was asked, when an answer is usual or came, whether that day has passed, and dates that can't be right.
fn dates(asked: &Asked, today: Date) -> Html {
    let usually_by = asked.usually_by.filter(|_| asked.answered.is_none());
    let said = [(key::OWED_ASKED, asked.on), (key::OWED_USUALLY_BY, usually_by), (key::OWED_ANSWERED, asked.answered)];
    let mut said: Vec<String> =
        said.into_iter().filter_map(|(text, on)| Some(fill(text, &[("day", &day(on?))]))).collect();
    let queries = [
        (asked.is_overdue(today), key::OWED_OVERDUE),
        (asked.is_answered_before_asked(), key::OWED_ANSWER_BEFORE_QUESTION),
        (asked.is_dated_after(today), key::OWED_DAY_TO_COME),
    ];
    said.extend(queries.into_iter().filter(|(so, _)| *so).map(|(_, text)| say(text).to_owned()));
    html! { <span class="why">{ said.join(say(key::JOIN_SEMICOLON)) }</span> }
}
