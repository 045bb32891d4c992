//! What the network operator's form needs: address, supply number and the charge point's papers, shown to the signed-in installer alone.

use crate::house::{House, SECRET, enquiry};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use jiff::{SignedDuration, Timestamp};
use presurvey::config::{demo_config, demo_setup};

const ADDRESS: &str = "1 Private Marker Street, ZZ1 1AA";
const NUMBER: &str = "10 1234 5678 904"; // its check digit is wrong: that is queried, never refused

async fn house_with_one() -> (House, String) {
    let house = House::new().await.with_papers(demo_setup().papers());
    let mut sent = enquiry(1);
    sent.payload.contact.address = ADDRESS.into();
    sent.payload.contact.supply_number = NUMBER.into();
    let answered = house.post_enquiry(&sent).await;
    assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
    let receipt = String::from_utf8_lossy(&answered.bytes);
    assert!(!receipt.contains("Marker") && !receipt.contains("5678"), "{receipt}");
    (house, sent.envelope.client_key)
}

#[tokio::test]
async fn they_are_in_the_opened_enquiry_and_not_in_the_list() {
    let (house, key) = house_with_one().await;
    let path = format!("/api/installer/enquiries/{key}");
    for path in ["/api/installer/enquiries", &path] {
        let answered = house.get(path).await;
        assert_eq!(answered.status, StatusCode::UNAUTHORIZED);
        let body = String::from_utf8_lossy(&answered.bytes);
        assert!(!body.contains("Marker") && !body.contains("Invented Maker"), "{body}");
    }
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json().to_string();
    assert!(!list.contains("Marker") && !list.contains("5678"), "{list}");
    let detail = house.get_as(&cookie, &path).await.json();
    assert_eq!(detail["enquiry"]["payload"]["contact"]["address"], ADDRESS);
    assert_eq!(detail["enquiry"]["payload"]["contact"]["supply_number"], NUMBER);
    assert_eq!(detail["papers"][0]["id"], demo_config().charge_points[0].id);
    assert_eq!(detail["papers"][0]["maker"], "Invented Maker");
}

#[tokio::test]
async fn they_go_with_the_enquiry_when_it_is_taken_back_or_past_its_day() {
    let left = async |house: &House| -> i64 {
        house.count("enquiries WHERE record LIKE '%Marker%' OR summary LIKE '%Marker%'").await
    };
    let (house, key) = house_with_one().await;
    assert_eq!(left(&house).await, 1);
    let request =
        Request::delete(format!("/api/enquiries/{key}")).header(header::AUTHORIZATION, format!("Bearer {SECRET}"));
    assert_eq!(house.send(request.body(Body::empty()).unwrap()).await.status, StatusCode::NO_CONTENT);
    assert_eq!(left(&house).await, 0);

    let (house, _) = house_with_one().await;
    let late = Timestamp::now() + SignedDuration::from_hours(24 * (i64::from(demo_config().keep_days) + 2));
    assert_eq!(house.tidy_from_to(Timestamp::now(), late).await, 1);
    assert_eq!(left(&house).await, 0);
}

#[tokio::test]
async fn a_plain_form_may_say_them_too() {
    let house = House::new().await;
    let fields = [
        ("name", "Invented Homeowner"),
        ("telephone", "01632 960123"),
        ("consent", "yes"),
        ("address", ADDRESS),
        ("supply_number", "1012345678903"),
    ];
    let body: String = fields
        .iter()
        .map(|(name, value)| format!("--b\r\nContent-Disposition: form-data; name=\"{name}\"\r\n\r\n{value}\r\n"))
        .collect();
    let request = Request::post("/api/enquiries").header(header::CONTENT_TYPE, "multipart/form-data; boundary=b");
    let answered = house.send(request.body(Body::from(body + "--b--\r\n")).unwrap()).await;
    assert_eq!(answered.status, StatusCode::CREATED, "{}", String::from_utf8_lossy(&answered.bytes));
    let cookie = house.sign_in().await;
    let list = house.get_as(&cookie, "/api/installer/enquiries").await.json();
    let key = list["enquiries"][0]["client_key"].as_str().unwrap();
    let detail = house.get_as(&cookie, &format!("/api/installer/enquiries/{key}")).await.json();
    assert_eq!(detail["enquiry"]["payload"]["contact"]["address"], ADDRESS);
}
