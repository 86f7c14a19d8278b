//! What a person does with the app, one file per subject. Each function is one command.

pub(crate) mod audit;
pub(crate) mod backup;
pub(crate) mod bore_history;
pub(crate) mod draft;
pub(crate) mod erasure;
pub(crate) mod exchange;
pub(crate) mod explore;
pub(crate) mod file;
mod inside;
pub(crate) mod inspection;
pub(crate) mod instrument;
pub(crate) mod job;
pub(crate) mod job_list;
pub(crate) mod look;
pub(crate) mod machining;
pub(crate) mod options;
pub(crate) mod part;
pub(crate) mod photo;
pub(crate) mod profile;
pub(crate) mod readings;
pub(crate) mod relief;
pub(crate) mod repair;
pub(crate) mod report;
pub(crate) mod settle;
pub(crate) mod shop;
pub(crate) mod test;
pub(crate) mod trust;
