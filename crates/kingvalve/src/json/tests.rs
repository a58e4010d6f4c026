//! What is read is what serde's own reader reads, and what is refused is refused in its words.

use std::collections::BTreeMap;

use proptest::prelude::*;
use serde::{Deserialize, de::DeserializeOwned};
use serde_json::{Value, json};

use super::{Step, fitting, parse, read, read_value};

#[derive(Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
struct Everything {
    one: f64,
    maybe: Option<i16>,
    #[serde(default)]
    many: Vec<(u8, String)>,
    #[serde(default)]
    by_name: BTreeMap<Key, bool>,
    #[serde(default)]
    kind: Kind,
    #[serde(default)]
    tagged: Option<Tagged>,
}

#[derive(Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Key {
    First,
    Second,
}

#[derive(Debug, Default, PartialEq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Kind {
    #[default]
    Bare,
    Of(f64),
    Both(u8, u8),
    Named {
        at: u64,
    },
}

#[derive(Debug, PartialEq, Deserialize)]
#[serde(tag = "is", rename_all = "snake_case")]
enum Tagged {
    Empty,
    Full { of: f64, then: Option<Box<Tagged>> },
}

fn alike<T: DeserializeOwned + PartialEq + std::fmt::Debug>(text: &str) {
    match (read::<T>("it", text), serde_json::from_str::<T>(text)) {
        (Ok(ours), Ok(theirs)) => assert_eq!(ours, theirs, "{text}"),
        (Err(ours), Err(theirs)) => {
            let (ours, theirs) = (ours.to_string(), theirs.to_string());
            let said = theirs.split(" at line").next().unwrap();
            assert!(ours.contains(said), "{text}: {ours} | {theirs}");
        }
        (ours, theirs) => panic!("{text}: {ours:?} | {theirs:?}"),
    }
}

#[test]
fn every_form_is_read_alike() {
    for text in [
        r#"{"one": 1, "maybe": null}"#,
        r#"{"one": -0.0, "maybe": -7, "many": [[1, "a"], [255, "b\n\u00e9"]]}"#,
        r#"{"one": 1e-300, "by_name": {"first": true, "second": false}, "kind": "bare"}"#,
        r#"{"one": 3, "kind": {"of": 2}}"#,
        r#"{"one": 3, "kind": {"both": [1, 2]}}"#,
        r#"{"one": 3, "kind": {"named": {"at": 18446744073709551615}}}"#,
        r#"{"one": 3, "tagged": {"is": "empty"}}"#,
        r#"{"one": 3, "tagged": {"of": 1.5, "then": {"is": "empty"}, "is": "full"}}"#,
    ] {
        alike::<Everything>(text);
        assert!(read::<Everything>("it", text).is_ok(), "{text}");
    }
}

#[test]
fn what_is_wrong_is_refused_in_the_same_words() {
    for text in [
        "",
        "{",
        r#"{"one": 1} 2"#,
        r#"{"one": 1e999}"#,
        "{}",
        r#"{"one": "1"}"#,
        r#"{"one": null}"#,
        r#"{"one": [1]}"#,
        r#"{"one": 1, "maybe": 40000}"#,
        r#"{"one": 1, "maybe": 1.5}"#,
        r#"{"one": 1, "two": 2}"#,
        r#"{"one": 1, "many": [[1]]}"#,
        r#"{"one": 1, "many": {"a": 1}}"#,
        r#"{"one": 1, "by_name": {"third": true}}"#,
        r#"{"one": 1, "by_name": {"first": 1}}"#,
        r#"{"one": 1, "kind": "none"}"#,
        r#"{"one": 1, "tagged": {"of": 1}}"#,
        r#"{"one": 1, "tagged": {"is": "full"}}"#,
    ] {
        alike::<Everything>(text);
        assert!(read::<Everything>("it", text).is_err(), "{text}");
    }
    for text in [r#"[1, null]"#, r#"{"one": 1, "kind": {"of": 1, "bare": null}}"#, r#"{"one": 1, "kind": 5}"#]
    {
        assert!(read::<Everything>("it", text).unwrap_err().is_unreadable(), "{text}");
    }
}

#[test]
fn errors_say_the_field() {
    let said = |text: &str| read::<Everything>("it", text).unwrap_err().to_string();
    assert_eq!(
        said(r#"{"one": 1, "many": [[1, "a"], [2, 3]]}"#),
        "many[1][1]: it cannot be read: invalid type: integer `3`, expected a string"
    );
    assert_eq!(
        said(r#"{"one": 1, "kind": {"named": {"at": -1}}}"#),
        "kind.named.at: it cannot be read: invalid value: integer `-1`, expected u64"
    );
    assert!(
        said(r#"{"onee": 1}"#).starts_with("onee: it cannot be read: did you mean one? unknown field `onee`")
    );
}

#[test]
fn no_name_stands_twice_at_any_depth() {
    for text in [r#"{"one": 1, "one": 1}"#, r#"[{"a": [{"one": 1, "\u006fne": 2}]}]"#] {
        let error = parse("it", text).unwrap_err().to_string();
        assert!(error.contains(r#"the name "one" stands twice at line 1"#), "{error}");
    }
}

#[test]
fn an_object_is_not_taken_from_a_list() {
    let error = read::<Everything>("it", r#"[1, null]"#).unwrap_err().to_string();
    assert!(error.contains("invalid type: sequence, expected struct Everything"), "{error}");
}

#[test]
fn an_unknown_field_is_found() {
    let value = json!({"one": 1, "tagged": null, "kind": {"named": {"at": 1}}, "new": [1]});
    let fault = fitting::<Everything>(&value).unwrap_err();
    assert_eq!(fault.path(), [Step::Field("new".into())]);
    assert!(fault.said.starts_with("unknown field"));
}

fn values() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<u64>().prop_map(Value::from),
        any::<i64>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        any::<String>().prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 32, 4, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..4).prop_map(Value::from),
            prop::collection::btree_map(any::<String>(), inner, 0..4).prop_map(Value::from_iter),
        ]
    })
}

proptest! {
    #[test]
    fn any_json_comes_back_the_same(value in values(), pretty in any::<bool>()) {
        let text = if pretty { serde_json::to_string_pretty(&value) } else { serde_json::to_string(&value) }.unwrap();
        prop_assert_eq!(&parse("it", &text).unwrap(), &value);
        prop_assert_eq!(&read_value::<Value>("it", &value).unwrap(), &value);
    }
}
