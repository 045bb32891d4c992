//! The OpenAPI document against the router it is made of.

use crate::house::{Answered, House};
use axum::body::Body;
use axum::http::{Method, Request, StatusCode, header};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

async fn document(house: &House) -> Value {
    let answered = house.get("/api/openapi.json").await;
    assert_eq!(answered.status, StatusCode::OK);
    assert_eq!(answered.headers[header::CONTENT_TYPE], "application/json");
    answered.json()
}

/// Every path of the document with its methods and what each may answer.
fn routes(document: &Value) -> BTreeMap<String, BTreeMap<String, Value>> {
    let paths = document["paths"].as_object().unwrap().iter();
    let of =
        |item: &Value| item.as_object().unwrap().iter().map(|(method, one)| (method.clone(), one.clone())).collect();
    paths.map(|(path, item)| (path.clone(), of(item))).collect()
}

#[tokio::test]
async fn every_path_of_the_document_is_a_route_and_answers_what_it_says() {
    let house = House::new().await;
    let document = document(&house).await;
    let cookie = house.sign_in().await;
    let routes = routes(&document);
    assert!(routes.len() > 15, "{routes:?}");
    for (path, methods) in &routes {
        for method in ["get", "put", "post", "delete", "patch"] {
            let answered = asked(&house, method, &path.replace(['{', '}'], ""), &cookie).await;
            match methods.get(method) {
                None => assert_eq!(answered.status, StatusCode::METHOD_NOT_ALLOWED, "{method} {path}"),
                Some(operation) => {
                    assert_ne!(answered.status, StatusCode::METHOD_NOT_ALLOWED, "{method} {path}");
                    let response = &operation["responses"][answered.status.as_str()];
                    assert!(response.is_object(), "{method} {path} does not say that it answers {}", answered.status);
                    let said = response["content"].as_object();
                    let kind = answered.headers.get(header::CONTENT_TYPE).map(|kind| kind.to_str().unwrap());
                    let kind = kind.map(|kind| kind.split(';').next().unwrap());
                    assert_eq!(
                        said.is_some_and(|said| kind.is_some_and(|kind| said.contains_key(kind))),
                        kind.is_some(),
                        "{method} {path}: {kind:?} of {said:?}"
                    );
                }
            }
        }
    }
}

async fn asked(house: &House, method: &str, path: &str, cookie: &str) -> Answered {
    let method = Method::from_bytes(method.to_uppercase().as_bytes()).unwrap();
    let request = Request::builder().method(method).uri(path).header(header::COOKIE, cookie);
    house.send(request.header("x-presurvey", "1").body(Body::empty()).unwrap()).await
}

#[tokio::test]
async fn a_path_that_is_not_in_the_document_is_refused() {
    let house = House::new().await;
    let cookie = house.sign_in().await;
    for path in ["/api", "/api/nothing", "/api/enquiry", "/api/openapi.yaml", "/api/installer/nothing", "/docs"] {
        for method in ["get", "post"] {
            assert_eq!(asked(&house, method, path, &cookie).await.status, StatusCode::NOT_FOUND, "{method} {path}");
        }
    }
}

/// axum has no list of its routes, so the code is read: one that is declared by `route` rather than `routes!` would not be in the document.
#[test]
fn no_route_is_declared_past_the_document() {
    let code = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("../service/service.rs")).unwrap();
    let past: Vec<_> =
        code.split(".route(").skip(1).map(|after| after.trim_start().split('"').nth(1).unwrap()).collect();
    assert_eq!(
        past,
        ["/api/installer/{*rest}", "/api/{*rest}"],
        "what is nowhere else is refused; all else needs `routes!`"
    );
}

#[tokio::test]
async fn what_needs_a_session_and_our_page_says_so_and_every_operation_has_its_own_name() {
    let document = document(&House::new().await).await;
    let mut names = BTreeSet::new();
    for (path, methods) in routes(&document) {
        for (method, operation) in methods {
            let needs = |scheme: &str| operation["security"][0].get(scheme).is_some();
            let installers = path.starts_with("/api/installer/");
            assert!(!installers || needs("session"), "{method} {path}");
            let ours = installers || path == "/api/session";
            assert_eq!(needs("our_page"), ours && method != "get", "{method} {path}");
            assert!(names.insert(operation["operationId"].as_str().unwrap().to_owned()), "{method} {path}");
        }
    }
}

#[tokio::test]
async fn every_part_that_is_referred_to_is_there_and_bodies_are_the_published_schemas() {
    let document = document(&House::new().await).await;
    let text = document.to_string();
    let referred: BTreeSet<_> =
        text.split("\"$ref\":\"").skip(1).map(|after| after.split('"').next().unwrap().to_owned()).collect();
    assert!(referred.len() > 40, "{referred:?}");
    for one in &referred {
        let at = one.strip_prefix('#').unwrap();
        assert!(document.pointer(at).is_some_and(Value::is_object), "{one}");
    }
    let published = serde_json::to_value(schemars::schema_for!(presurvey::enquiry::Enquiry)).unwrap();
    let placed = |value: &Value| -> Value {
        serde_json::from_str(&value.to_string().replace("#/$defs/", "#/components/schemas/")).unwrap()
    };
    let of = &document["components"]["schemas"];
    for field in ["properties", "required", "additionalProperties", "description"] {
        assert_eq!(of["Enquiry"][field], placed(&published[field]), "{field}");
    }
    for (name, part) in published["$defs"].as_object().unwrap() {
        assert_eq!(of[name], placed(part), "{name}");
    }
}
