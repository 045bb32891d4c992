//! The built pages: the right one at each address, compressed beforehand, under strict headers.

use crate::house::House;
use axum::body::Body;
use axum::http::{Request, StatusCode, header};
use presurvey::config::{FORMAT, demo_config};
use presurvey::service::app;

async fn house_with_pages() -> (House, tempfile::TempDir) {
    let built = tempfile::tempdir().unwrap();
    for (page, title) in [("form", "the form"), ("triage", "the list")] {
        let folder = built.path().join(page);
        std::fs::create_dir(&folder).unwrap();
        std::fs::write(folder.join("index.html"), title).unwrap();
        std::fs::write(folder.join("program_bg.wasm"), "plain").unwrap();
        std::fs::write(folder.join("program_bg.wasm.gz"), "gzip").unwrap();
        std::fs::write(folder.join("program_bg.wasm.br"), "brotli").unwrap();
    }
    (House::with(&demo_config(), Some(built.path().into())).await, built)
}

#[tokio::test]
async fn each_page_is_at_its_address() {
    let (house, _built) = house_with_pages().await;
    assert_eq!(house.get("/").await.bytes, b"the form");
    assert_eq!(house.get("/installer/").await.bytes, b"the list");
    let without_slash = house.get("/installer").await;
    assert_eq!(without_slash.status, StatusCode::PERMANENT_REDIRECT);
    assert_eq!(without_slash.headers[header::LOCATION], "/installer/");
    assert_eq!(house.get("/nothing.js").await.status, StatusCode::NOT_FOUND);
    assert_eq!(house.get("/api/nothing").await.status, StatusCode::NOT_FOUND);
}

#[tokio::test]
async fn programs_come_compressed_where_the_browser_takes_it_and_as_programs() {
    let (house, _built) = house_with_pages().await;
    for path in ["/program_bg.wasm", "/installer/program_bg.wasm"] {
        for (accepted, sent) in [("br, gzip", "brotli"), ("gzip", "gzip"), ("identity", "plain")] {
            let request = Request::get(path).header(header::ACCEPT_ENCODING, accepted);
            let answered = house.send(request.body(Body::empty()).unwrap()).await;
            assert_eq!(answered.bytes, sent.as_bytes());
            assert_eq!(answered.headers[header::CONTENT_TYPE], "application/wasm");
        }
    }
}

#[tokio::test]
async fn pages_run_under_a_strict_policy_and_only_the_page_for_frames_may_be_framed() {
    let (house, _built) = house_with_pages().await;
    for (path, framed) in [
        ("/frame.html", true),
        ("/", false),
        ("/index.html", false),
        ("/installer/", false),
        ("/installer/frame.html", false),
    ] {
        let headers = house.get(path).await.headers;
        let policy = headers[header::CONTENT_SECURITY_POLICY].to_str().unwrap();
        assert!(
            policy.starts_with("default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self';"),
            "{policy}"
        );
        assert!(!policy.contains("unsafe-inline"));
        assert_eq!(policy.contains("frame-ancestors 'none'"), !framed, "{path}");
        assert_eq!(headers.contains_key(header::X_FRAME_OPTIONS), !framed, "{path}");
        assert_eq!(headers[header::X_CONTENT_TYPE_OPTIONS], "nosniff");
        assert_eq!(headers[header::REFERRER_POLICY], "no-referrer");
        assert!(headers["permissions-policy"].to_str().unwrap().contains("camera=(self)"));
    }
}

#[tokio::test]
async fn the_config_is_not_sent_twice_to_who_has_it() {
    let house = House::new().await;
    let in_format_1 = serde_json::to_vec(&demo_config().in_format(1)).unwrap();
    let whole = serde_json::to_vec(&demo_config().in_format(3)).unwrap();
    assert_eq!(demo_config().in_format(3), serde_json::to_value(demo_config()).unwrap());
    // A form says which format it reads; one that was copied before there was a second says nothing.
    for (accept, bytes) in [("*/*", in_format_1), (FORMAT, whole)] {
        let get = || Request::get("/api/config").header(header::ACCEPT, accept);
        let first = house.send(get().body(Body::empty()).unwrap()).await;
        assert_eq!(first.bytes, bytes);
        assert_eq!(first.headers[header::VARY], "accept");
        let again = get().header(header::IF_NONE_MATCH, &first.headers[header::ETAG]);
        let again = house.send(again.body(Body::empty()).unwrap()).await;
        assert_eq!((again.status, again.bytes.len()), (StatusCode::NOT_MODIFIED, 0));
    }
}

#[tokio::test]
async fn a_further_installers_page_is_sent_anew_once_their_setup_says_something_else() {
    let pages = tempfile::tempdir().unwrap();
    let form = pages.path().join("form");
    std::fs::create_dir(&form).unwrap();
    let page = r#"<title>First</title><presurvey-form config="/api/config" installer="First" telephone="01632 960 000"></presurvey-form>"#;
    std::fs::write(form.join("index.html"), page).unwrap();
    let of = async |name: &str| {
        let mut config = demo_config();
        config.installer.name = name.into();
        let House { folder, service, .. } = House::with(&config, Some(pages.path().to_owned())).await;
        let service = service.further("second-firm");
        House { router: app(service.clone()), service, folder }
    };
    let (before, after) = (of("Before").await, of("After").await);
    let known = before.get("/").await;
    assert!(String::from_utf8_lossy(&known.bytes).contains("<title>Before</title>"));
    let tag = &known.headers[header::ETAG];
    for has in [tag.to_str().unwrap(), &format!("\"another\", {}", tag.to_str().unwrap())] {
        let again = Request::get("/").header(header::IF_NONE_MATCH, has);
        let again = before.send(again.body(Body::empty()).unwrap()).await;
        assert_eq!((again.status, again.bytes.len()), (StatusCode::NOT_MODIFIED, 0), "{has}");
        assert_eq!(
            (&again.headers[header::ETAG], &again.headers[header::CACHE_CONTROL]),
            (tag, &"no-cache".parse().unwrap())
        );
    }
    let asked = Request::get("/").header(header::IF_NONE_MATCH, tag);
    let sent = after.send(asked.body(Body::empty()).unwrap()).await;
    assert_eq!(sent.status, StatusCode::OK, "what the browser has is another page");
    assert!(String::from_utf8_lossy(&sent.bytes).contains("<title>After</title>"));
    assert_ne!(&sent.headers[header::ETAG], tag);
}
