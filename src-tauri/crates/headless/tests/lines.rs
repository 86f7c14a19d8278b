//! What someone gets who pipes requests through `headless call`.

#![allow(clippy::unwrap_used)]

use serde_json::Value;

fn ask(requests: &[u8]) -> Vec<Value> {
    let app = api::App::start(api::Options::without_store());
    let mut answers = Vec::new();
    headless::lines::answer(&app, requests, &mut answers).unwrap();
    let answers = String::from_utf8(answers).unwrap();
    answers
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect()
}

fn error_code(answer: &Value) -> &str {
    answer["error"]["code"]
        .as_str()
        .unwrap_or_else(|| panic!("not an error: {answer}"))
}

#[test]
fn each_line_gets_one_answer_and_a_bad_one_stops_nothing() {
    let answers = ask(
        b"{\"command\":\"no_such_command\",\"args\":{}}\n\n  \nnot json\n\xff\xfe\n{}\n[]\n\
          {\"command\":\"no_such_command\",\"args\":{}}",
    );
    assert_eq!(answers.len(), 6);
    for answer in &answers {
        assert!(!error_code(answer).is_empty());
    }
    assert_eq!(answers[0], answers[5]);
    assert_ne!(error_code(&answers[0]), error_code(&answers[1]));
}

#[test]
fn no_line_no_answer() {
    assert!(ask(b"").is_empty());
}

#[test]
fn every_command_is_listed_once_with_a_summary_and_both_schemas() {
    let commands = headless::commands();
    let commands = commands.as_array().unwrap();
    assert!(!commands.is_empty());
    let mut names: Vec<_> = commands
        .iter()
        .map(|c| c["name"].as_str().unwrap())
        .collect();
    names.sort_unstable();
    let listed = names.len();
    names.dedup();
    assert_eq!(names.len(), listed);
    for command in commands {
        assert!(
            !command["summary"].as_str().unwrap().is_empty(),
            "{command}"
        );
        assert!(command["needs_store"].is_boolean(), "{command}");
        assert!(command["args_schema"].is_object(), "{command}");
        assert!(
            command["answer_schema"].is_object() || command["answer_schema"].is_boolean(),
            "{command}"
        );
    }
}
