//! Nothing private of the installer's reaches a visitor: markers put into the setup are looked for in every byte.

use crate::house::{House, enquiry, picture, sha256};
use axum::body::Body;
use axum::http::{Request, header};
use presurvey::config::{Setup, check_setup, demo_setup};
use presurvey::service::Telling;
use presurvey::units::{Pence, Ratio};

/// Figures and words that occur nowhere else. (The factor on labour is no such figure: minutes are published as calibrated.)
fn marked_setup() -> (Setup, Vec<&'static str>) {
    let mut setup = demo_setup();
    setup.mail_to = Some("private-marker@installer.invalid".into());
    let mail = r#"{"server":"private-marker.invalid","user":"private-marker of a user","password":"private-marker of a password","from":"private-marker@installer.invalid"}"#;
    setup.mail = serde_json::from_str(mail).unwrap();
    let webhooks = format!(r#"[{{"url":"https://private-marker.invalid/","secret":"whsec_{}"}}]"#, "M".repeat(32));
    setup.webhooks = serde_json::from_str(&webhooks).unwrap();
    setup.rates.mark_up = Ratio::of(0.314_159_26);
    setup.costs[1].cost.likely = Pence(477_771);
    setup.costs[1].cost.high = Pence(477_773);
    setup.charge_points[0].cost = Pence(966_667);
    setup.calibration.jobs = 918_273;
    setup.calibration.materials = Ratio::of(1.098_765_4);
    setup.calibration.assumed.insert("private-marker of an assumption".into(), presurvey::units::Probability::of(0.5));
    setup.costs[0].source = "private-marker of a source".into();
    setup.charge_points[0].maker = Some("private-marker of a maker".into());
    setup.charge_points[0].model = Some("private-marker of a model".into());
    setup.charge_points[0].operators_reference = Some("private-marker of a reference".into());
    assert_eq!(check_setup(&setup), []);
    let markers = vec![
        "private-marker",
        "0.31415926",
        "477771",
        "477773",
        "966667",
        "918273",
        "1.0987654",
        "mark_up",
        "mail_to",
        "\"mail\"",
        "webhooks",
        "whsec_",
        "calibration",
        "\"cost\"",
        "\"costs\"",
        "\"maker\"",
        "\"model\"",
        "operators_reference",
    ];
    (setup, markers)
}

#[tokio::test]
async fn no_private_value_is_in_any_public_answer_or_page() {
    let (setup, markers) = marked_setup();
    let written = serde_json::to_string(&setup).unwrap();
    for marker in &markers {
        assert!(written.contains(marker), "{marker} would not be noticed");
    }
    let built = tempfile::tempdir().unwrap();
    for page in ["form", "triage"] {
        std::fs::create_dir(built.path().join(page)).unwrap();
        std::fs::write(built.path().join(page).join("index.html"), "<!doctype html><title>page</title>").unwrap();
    }
    let house = House::with(&setup.publish(), Some(built.path().into()))
        .await
        .with_papers(setup.papers())
        .with_telling(Telling::of(&setup, None));
    // The service's own folder, and whatever lies beside the pages, is not served either.
    std::fs::write(built.path().join("setup.json"), &written).unwrap();

    let mut answers = Vec::new();
    for path in [
        "/",
        "/index.html",
        "/installer/",
        "/installer",
        "/api/config",
        "/api/session",
        "/api/installer/enquiries",
        "/setup.json",
        "/../setup.json",
        "/%2e%2e/setup.json",
        "/installer/../setup.json",
        "/installer/%2e%2e/setup.json",
        "/presurvey.sqlite",
        "/api/nothing",
        "/nothing",
    ] {
        answers.push(house.get(path).await);
    }
    let mut sent = enquiry(1);
    sent.envelope.installer = setup.installer.id.clone();
    answers.push(house.post_enquiry(&sent).await);
    assert_eq!(answers.last().unwrap().status, 201);
    answers.push(house.post_enquiry(&sent).await);
    answers.push(house.post("{").await);
    answers.push(house.put_photo(&sent.envelope.client_key, &sha256(&picture(0)), picture(0)).await);
    answers.push(house.put_photo(&sent.envelope.client_key, "0", picture(0)).await);
    let delete = Request::delete(format!("/api/enquiries/{}", sent.envelope.client_key));
    let delete = delete.header(header::AUTHORIZATION, "Bearer wrong").body(Body::empty()).unwrap();
    answers.push(house.send(delete).await);

    for answer in answers {
        let head: String = answer.headers.iter().map(|(name, value)| format!("{name}: {value:?}\n")).collect();
        let body = String::from_utf8_lossy(&answer.bytes);
        for marker in &markers {
            assert!(!head.contains(marker) && !body.contains(marker), "{marker} in {head}{body}");
        }
        assert!(!answer.headers.contains_key(header::SET_COOKIE), "the public side sets no cookie");
    }
}
