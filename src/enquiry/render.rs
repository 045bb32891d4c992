//! The record as plain text, for a message or a printed page.

use super::record::Enquiry;
use alloc::string::String;
use core::fmt::Write;

/// Writes an enquiry as plain text, most needed first.
#[must_use]
pub fn plain_text(enquiry: &Enquiry) -> String {
    let (envelope, payload) = (&enquiry.envelope, &enquiry.payload);
    let (contact, assessment) = (&payload.contact, &payload.assessment);
    let mut text = String::new();
    let mut line = |label: &str, value: &dyn core::fmt::Display| {
        let _ = writeln!(text, "{label}: {value}"); // writing to a String cannot fail
    };
    if let Some(reference) = &envelope.reference {
        line("Reference", &reference.as_str());
    }
    line("Name", &contact.name);
    for (label, value) in [
        ("Telephone", &contact.telephone),
        ("E-mail", &contact.email),
        ("When", &contact.when),
        ("Note", &contact.note),
    ] {
        if !value.is_empty() {
            line(label, value);
        }
    }
    if let Some(postcode) = payload.answers.home.postcode.known() {
        line("Postcode", &postcode.as_str());
    }
    line("How involved", &assessment.complexity.word());
    match &assessment.band {
        Some(band) => {
            line(
                "Estimate before a survey, not a quotation",
                &format_args!("{} to {}, likely {}", band.low, band.high, band.likely),
            );
            if assessment.invented {
                line("Prices", &"invented for a demonstration");
            }
        }
        None => line("Estimate", &"none"),
    }
    for flag in &assessment.flags {
        line(flag.weight.word(), &format_args!("{} ({})", flag.code, flag.evidence.join("; ")));
    }
    for gate in assessment.gates.iter().filter(|gate| gate.counts) {
        line("First", &format_args!("{}: {}", gate.who.word(), gate.why.join("; ")));
    }
    line("Photos", &payload.photos.len());
    text
}
