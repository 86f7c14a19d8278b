//! Valvewright without a window: the same commands from standard input ([`lines`]) or over
//! loopback to an ordinary browser ([`serve`]).

#![deny(missing_docs)]

mod guard;
pub mod lines;
pub mod serve;

/// Every command with its JSON Schemas, as a JSON array: `name`, `summary`, `needs_store`,
/// `args_schema`, `answer_schema`. The interface's types are generated from it.
pub fn commands() -> serde_json::Value {
    api::commands()
        .into_iter()
        .map(|command| {
            serde_json::json!({
                "name": command.name,
                "summary": command.summary,
                "needs_store": command.needs_store,
                "args_schema": command.args_schema,
                "answer_schema": command.answer_schema,
            })
        })
        .collect()
}
