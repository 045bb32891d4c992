//! Photos arrive: by their hash, once, whole, and only as plain pictures that the enquiry lists.

use crate::house::{House, enquiry, picture, picture_with, sha256};
use axum::body::Body;
use axum::http::{Request, StatusCode, header};

#[tokio::test]
async fn a_photo_put_twice_is_one_file_and_is_no_longer_missing() {
    let house = House::new().await;
    let sent = enquiry(1);
    let key = &sent.envelope.client_key;
    house.post_enquiry(&sent).await;
    for _ in 0..2 {
        assert_eq!(house.put_photo(key, &sha256(&picture(0)), picture(0)).await.status, StatusCode::NO_CONTENT);
    }
    let files = house.photo_files();
    assert_eq!(files.len(), 1);
    assert_eq!(std::fs::read(&files[0]).unwrap(), picture(0));
    let again = house.post_enquiry(&sent).await;
    assert_eq!(again.json()["photos_missing"], serde_json::json!([]));
}

#[tokio::test]
async fn a_photo_that_is_not_listed_or_of_no_enquiry_is_refused() {
    let house = House::new().await;
    let sent = enquiry(1);
    let key = &sent.envelope.client_key;
    let answered = house.put_photo(key, &sha256(&picture(0)), picture(0)).await;
    assert_eq!(answered.status, StatusCode::NOT_FOUND, "before its enquiry");
    house.post_enquiry(&sent).await;
    let other = picture(7);
    assert_eq!(house.put_photo(key, &sha256(&other), other).await.status, StatusCode::NOT_FOUND);
    for path in ["..%2F..%2Fpresurvey.sqlite", "%2e%2e", "0"] {
        assert_eq!(house.put_photo(key, path, picture(0)).await.status, StatusCode::NOT_FOUND, "{path}");
        assert_eq!(house.put_photo(path, &sha256(&picture(0)), picture(0)).await.status, StatusCode::NOT_FOUND);
    }
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn other_bytes_than_the_name_says_are_refused() {
    let house = House::new().await;
    let sent = enquiry(1);
    house.post_enquiry(&sent).await;
    let answered = house.put_photo(&sent.envelope.client_key, &sha256(&picture(0)), picture(7)).await;
    assert_eq!(answered.status, StatusCode::UNPROCESSABLE_ENTITY);
    assert!(answered.error().contains("SHA-256"));
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn a_photo_with_the_cameras_data_is_refused_with_words_and_not_stored() {
    let house = House::new().await;
    for (key, marker, payload) in [
        (1, 0xe1, b"Exif\0\0II*\0".as_slice()),
        (2, 0xe1, b"http://ns.adobe.com/xap/1.0/\0"),
        (3, 0xed, b"Photoshop 3.0\0"),
        (4, 0xfe, b"a comment"),
    ] {
        let bytes = picture_with(marker, payload);
        let mut sent = enquiry(key);
        sent.payload.photos[0].sha256 = sha256(&bytes);
        house.post_enquiry(&sent).await;
        let answered = house.put_photo(&sent.envelope.client_key, &sha256(&bytes), bytes).await;
        assert_eq!(answered.status, StatusCode::UNPROCESSABLE_ENTITY);
        assert!(answered.error().contains("still carries"), "{}", answered.error());
    }
    assert!(house.photo_files().is_empty());
}

#[tokio::test]
async fn what_is_too_large_or_no_picture_is_refused() {
    let house = House::new().await;
    let large = [picture(0), vec![0; 6 * 1024 * 1024]].concat();
    let no_picture = b"<svg onload=alert(1)>".to_vec();
    let mut sent = enquiry(1);
    sent.payload.photos = [&large, &no_picture]
        .map(|bytes| presurvey::enquiry::Photo { sha256: sha256(bytes), ..sent.payload.photos[0].clone() })
        .to_vec();
    sent.envelope.photo_sizes = vec![large.len() as u64, no_picture.len() as u64];
    let key = &sent.envelope.client_key;
    assert_eq!(house.post_enquiry(&sent).await.status, StatusCode::CREATED);
    let answered = house.put_photo(key, &sha256(&large), large).await;
    assert_eq!(answered.status, StatusCode::PAYLOAD_TOO_LARGE);
    assert!(answered.error().contains("at most"));
    let answered = house.put_photo(key, &sha256(&no_picture), no_picture.clone()).await;
    assert_eq!(answered.status, StatusCode::UNPROCESSABLE_ENTITY);
    let request = Request::put(format!("/api/enquiries/{key}/photos/{}", sha256(&no_picture)));
    let as_svg = request.header(header::CONTENT_TYPE, "image/svg+xml").body(Body::from(no_picture)).unwrap();
    assert_eq!(house.send(as_svg).await.status, StatusCode::UNSUPPORTED_MEDIA_TYPE);
    assert!(house.photo_files().is_empty());
}
