//! Whatever a calculation is asked, it answers or refuses by name: no panic, no number that is none.

use api::{App, Options};
use proptest::prelude::*;
use serde_json::{Value, json};

/// Codes by which a calculation may refuse. `internal` is none of them.
const REFUSALS: [&str; 5] = [
    "bad_request",
    "out_of_range",
    "no_solution",
    "not_found",
    "too_many_tasks",
];

fn app() -> App {
    App::start(Options::without_store())
}

/// Asks, and looks at the answer. JSON has no NaN: one would come out as null where a number stands,
/// which the generated types don't allow, or as a text that can't be read.
fn ask(app: &App, command: &str, args: &Value) -> Result<(), TestCaseError> {
    let request = json!({ "command": command, "args": args }).to_string();
    let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
    if answer.get("ok").is_some() {
        return Ok(());
    }
    let code = answer["error"]["code"].as_str().unwrap_or_default();
    prop_assert!(REFUSALS.contains(&code), "{command}: {answer} for {args}");
    Ok(())
}

fn examples() -> Vec<(&'static str, Value)> {
    let with = |command: api::CommandInfo| Some((command.name, command.example?));
    api::commands().into_iter().filter_map(with).collect()
}

/// How many leaves a value has.
fn leaves(value: &Value) -> usize {
    match value {
        Value::Array(list) => list.iter().map(leaves).sum(),
        Value::Object(fields) => fields.values().map(leaves).sum(),
        _ => 1,
    }
}

/// Puts `with` in the place of the leaf that `at` counts to.
fn spoil(value: &mut Value, at: &mut usize, with: &Value) -> bool {
    match value {
        Value::Array(list) => list.iter_mut().any(|item| spoil(item, at, with)),
        Value::Object(fields) => fields.values_mut().any(|item| spoil(item, at, with)),
        leaf => {
            if *at > 0 {
                *at -= 1;
                return false;
            }
            *leaf = with.clone();
            true
        }
    }
}

fn oddity() -> impl Strategy<Value = Value> {
    prop_oneof![
        Just(json!(0.0)),
        Just(json!(-1.0)),
        Just(json!(1e300)),
        Just(json!(-1e300)),
        Just(json!(1e-300)),
        Just(json!(u64::MAX)),
        Just(Value::Null),
        Just(json!("")),
        Just(json!("\u{202e}<script>")),
        Just(json!([])),
        Just(json!(vec![1.0; 20_000])),
        Just(json!({ "a": { "b": [[[[[]]]]] } })),
        any::<f64>().prop_map(Value::from),
        (-9.0..9.0_f64).prop_map(|power| json!(10.0_f64.powf(power))),
    ]
}

fn any_json() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        Just(Value::Null),
        any::<bool>().prop_map(Value::from),
        any::<f64>().prop_map(Value::from),
        ".{0,8}".prop_map(Value::from),
    ];
    leaf.prop_recursive(4, 32, 5, |inner| {
        prop_oneof![
            prop::collection::vec(inner.clone(), 0..5).prop_map(Value::from),
            prop::collection::btree_map("[a-z_]{1,12}", inner, 0..5)
                .prop_map(|fields| Value::Object(fields.into_iter().collect())),
        ]
    })
}

#[test]
fn each_number_of_each_example_may_be_nothing_or_far_too_much() {
    let app = app();
    for (command, example) in examples() {
        // A task answers at once; what it does is a command of its own here.
        if command == "task.begin" {
            continue;
        }
        let count = leaves(&example).min(60);
        for leaf in 0..count {
            for with in [json!(0.0), json!(-1.0), json!(1e300), json!(1e-12)] {
                let mut spoilt = example.clone();
                spoil(&mut spoilt, &mut leaf.clone(), &with);
                ask(&app, command, &spoilt).unwrap();
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, ..ProptestConfig::default() })]

    #[test]
    fn spoilt_examples_are_answered_or_refused_by_name(
        which in any::<prop::sample::Index>(),
        at in any::<prop::sample::Index>(),
        with in oddity(),
    ) {
        let examples = examples();
        let (command, mut args) = examples[which.index(examples.len())].clone();
        let mut place = at.index(leaves(&args).max(1));
        spoil(&mut args, &mut place, &with);
        ask(&app(), command, &args)?;
    }

    #[test]
    fn any_json_at_all_is_refused_by_name(which in any::<prop::sample::Index>(), args in any_json()) {
        let examples = examples();
        let (command, _) = &examples[which.index(examples.len())];
        ask(&app(), command, &args)?;
    }
}
