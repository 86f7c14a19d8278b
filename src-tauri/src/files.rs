//! Files: where the app keeps its own, how a person picks or saves one, and those that somebody
//! opens with the app. A page never names a path and never learns what is in a folder.

pub mod data_folder;
pub mod dialog;
pub mod opened;

use std::env;
use std::fs::File;
use std::io;

use api::dto::FileHeld;
use api::{ApiError, ErrorCode};
use tauri::{AppHandle, Url};
use tauri_plugin_dialog::FilePath;
use tauri_plugin_fs::{FsExt, OpenOptions};

/// Set by whoever drives the window by WebDriver, which only tests do.
const AUTOMATION_VARIABLE: &str = "TAURI_WEBVIEW_AUTOMATION";

/// Whether a program drives the window by WebDriver.
pub fn automated() -> bool {
    env::var_os(AUTOMATION_VARIABLE).is_some_and(|value| value == "true")
}

/// Takes a file from a place that a person chose.
fn open(app: &AppHandle, core: &api::App, place: FilePath) -> Result<FileHeld, ApiError> {
    match to_path(place) {
        FilePath::Path(path) => core.open_file(&path),
        FilePath::Url(address) => {
            let mut how = OpenOptions::new();
            how.read(true);
            let content = by_address(app, &address, how, ErrorCode::FileUnreadable)?;
            core.take_file(name_in(&address), content)
        }
    }
}

/// Writes a made file to a place that a person chose. Answers with how to call the place.
fn save(app: &AppHandle, core: &api::App, file: u32, place: FilePath) -> Result<String, ApiError> {
    let made = core.made_name(file)?;
    match to_path(place) {
        FilePath::Path(path) => {
            let path = dialog::with_ending(path, &made)?;
            core.save_file(file, &path)?;
            Ok(path.display().to_string())
        }
        FilePath::Url(address) => {
            let mut how = OpenOptions::new();
            how.write(true).create(true).truncate(true);
            let out = by_address(app, &address, how, ErrorCode::FileUnwritable)?;
            core.give_file(file, &made, out)?;
            Ok(made)
        }
    }
}

/// On a desktop the address of a file is its path. Phones hand out addresses that only the system
/// may open: Android's name no path at all, iOS guards what lies behind its own.
fn to_path(place: FilePath) -> FilePath {
    if cfg!(mobile) {
        return place;
    }
    match place {
        FilePath::Url(address) => match address.to_file_path() {
            Ok(path) => FilePath::Path(path),
            Err(()) => FilePath::Url(address),
        },
        path @ FilePath::Path(_) => path,
    }
}

fn by_address(
    app: &AppHandle,
    address: &Url,
    how: OpenOptions,
    failure: ErrorCode,
) -> Result<File, ApiError> {
    app.fs()
        .open(address.clone(), how)
        .map_err(|error: io::Error| {
            ApiError::new(failure)
                .with("path", name_in(address))
                .with("detail", error)
        })
}

/// The nearest thing to a name in an address: what stands after its last slash, which document
/// providers write as `%2F`.
fn name_in(address: &Url) -> &str {
    let path = address.path();
    path.rsplit('/')
        .next()
        .and_then(|last| last.rsplit("%2F").next())
        .unwrap_or(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_content_address_is_called_by_its_end() {
        let name = |address: &str| name_in(&address.parse().unwrap()).to_owned();
        assert_eq!(
            name("content://documents/document/primary%3ADownload%2Fjob-0147.vvb"),
            "job-0147.vvb"
        );
        assert_eq!(name("content://media/external/downloads/42"), "42");
    }

    #[cfg(unix)]
    #[test]
    fn a_file_address_is_a_path_on_a_desktop() {
        let place = to_path("file:///home/somebody/two%20words.vvb".parse().unwrap());
        let FilePath::Path(path) = place else {
            panic!("{place:?}");
        };
        assert_eq!(path, std::path::Path::new("/home/somebody/two words.vvb"));
        let elsewhere = to_path(FilePath::Url("content://somewhere/1".parse().unwrap()));
        assert!(matches!(elsewhere, FilePath::Url(_)));
    }
}
