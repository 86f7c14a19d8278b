//! The use cases of the app and the one table of its commands. Knows no window and no server:
//! [`App::call`] takes a JSON request and gives a JSON answer, and whoever carries them (the
//! Tauri shell, the headless program) adds nothing.
#![deny(missing_docs)]

mod app;
mod attachments;
mod backing_up;
mod calc;
mod clock;
mod demo;
mod drawing;
pub mod dto;
mod error;
mod files;
mod journal_io;
mod profile_tree;
mod profiles;
mod projector;
mod repairs;
mod summary;
mod table;
mod tasks;
mod usecase;

pub use app::{App, Options, answer};
pub use clock::{Clock, SystemClock};
pub use error::{ApiError, ErrorCode};
pub use profiles::bore as bore_profile;
pub use projector::ModelProjector;
pub use repairs::profile_of_test;
pub use table::{Command, CommandInfo, commands, find};
pub use usecase::handover::sign_off_of;
