//! What a person does with the app, one file per subject. Each function is one command.

pub(crate) mod audit;
pub(crate) mod backup;
pub(crate) mod draft;
pub(crate) mod exchange;
pub(crate) mod file;
pub(crate) mod job;
pub(crate) mod job_list;
pub(crate) mod profile;
pub(crate) mod relief;
pub(crate) mod repair;
pub(crate) mod report;
pub(crate) mod shop;
pub(crate) mod test;
pub(crate) mod trust;
