//! The system's own dialogs for picking and saving a file. The page says which made file and in
//! which words to ask; the person says where; the core reads and writes.

use std::env;
use std::ffi::OsString;
use std::path::{Path, PathBuf};

use api::dto::FileHeld;
use api::{ApiError, ErrorCode};
use serde::{Deserialize, Serialize};
use tauri::ipc::Response;
use tauri::{Manager, State, WebviewWindow};
use tauri_plugin_dialog::{DialogExt, FileDialogBuilder, FilePath};

use crate::call::{Core, beside_the_window};

/// Where a test has the next files saved, and which it has opened: nothing can press a system's
/// dialog by WebDriver. Only debug builds under WebDriver look at them, as with `watch.js`, so that
/// tests drive the very program that `npm start` builds and no release knows a way round the
/// person. An empty value is a dialog that was put away; none, a dialog as always.
const SAVE_VARIABLE: &str = "VALVEWRIGHT_TEST_SAVE";
const OPEN_VARIABLE: &str = "VALVEWRIGHT_TEST_OPEN";

/// The ending of what can be taken in.
const BUNDLE: &str = "vvb";

/// The endings of a table of readings.
const TABLE: [&str; 3] = ["csv", "tsv", "txt"];

/// How a dialog asks. The interface has all words; here they are only shown.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Words {
    /// What the person is asked.
    title: String,
    /// What such files are called.
    kind: String,
    /// A table of readings is asked for, not a bundle.
    #[serde(default)]
    table: bool,
}

/// A file that was written.
#[derive(Debug, PartialEq, Eq, Serialize)]
pub struct Saved {
    /// Where, as a person reads it.
    saved: String,
}

/// Asks the person where to put a file that the core made, and writes it there. `ok` is `null`
/// when they put the dialog away.
#[tauri::command]
pub async fn save_file(
    window: WebviewWindow,
    core: State<'_, Core>,
    file: u32,
    words: Words,
) -> Result<Response, String> {
    let core = core.inner().clone();
    beside_the_window(move || api::answer(|| save(&window, core.open(), file, words))).await
}

/// Asks the person for a bundle, or a table of readings, and takes it as a file of the core. `ok` is `null` when they put
/// the dialog away.
#[tauri::command]
pub async fn pick_file(
    window: WebviewWindow,
    core: State<'_, Core>,
    words: Words,
) -> Result<Response, String> {
    let core = core.inner().clone();
    beside_the_window(move || api::answer(|| pick(&window, core.open(), words))).await
}

fn save(
    window: &WebviewWindow,
    core: &api::App,
    file: u32,
    words: Words,
) -> Result<Option<Saved>, ApiError> {
    let made = core.made_name(file)?;
    let place = answered_for(SAVE_VARIABLE).unwrap_or_else(|| {
        dialog(window, words, &[ending_of(&made)])
            .set_file_name(&made)
            .blocking_save_file()
    });
    place
        .map(|place| super::save(window.app_handle(), core, file, place))
        .transpose()
        .map(|saved| saved.map(|saved| Saved { saved }))
}

fn pick(
    window: &WebviewWindow,
    core: &api::App,
    words: Words,
) -> Result<Option<FileHeld>, ApiError> {
    let endings: &[&str] = if words.table { &TABLE } else { &[BUNDLE] };
    let place = answered_for(OPEN_VARIABLE)
        .unwrap_or_else(|| dialog(window, words, endings).blocking_pick_file());
    place
        .map(|place| super::open(window.app_handle(), core, place))
        .transpose()
}

fn dialog(window: &WebviewWindow, words: Words, endings: &[&str]) -> FileDialogBuilder<tauri::Wry> {
    let dialog = window.dialog().file().set_title(words.title);
    #[cfg(desktop)]
    let dialog = dialog.set_parent(window);
    // GTK would begin where the app was started from; the others remember where it was last.
    let places = window.path();
    let dialog = match places.document_dir().or_else(|_| places.home_dir()) {
        Ok(folder) if cfg!(target_os = "linux") => dialog.set_directory(folder),
        _ => dialog,
    };
    // Android filters by media type and knows none of ours: it would grey every file out.
    if cfg!(target_os = "android") {
        dialog
    } else {
        dialog.add_filter(words.kind, endings)
    }
}

/// What a test answers in place of the person: nothing; put away; a path.
fn answered_for(variable: &str) -> Option<Option<FilePath>> {
    test_answer(
        env::var_os(variable),
        cfg!(debug_assertions) && super::automated(),
    )
}

fn test_answer(value: Option<OsString>, tested: bool) -> Option<Option<FilePath>> {
    let value = value.filter(|_| tested)?;
    Some((!value.is_empty()).then(|| FilePath::Path(value.into())))
}

fn ending_of(name: &str) -> &str {
    let ending = Path::new(name).extension();
    ending.and_then(|ending| ending.to_str()).unwrap_or(BUNDLE)
}

/// The path with the ending of the made file, which not every dialog adds. One that had to be added
/// names a place that the dialog never asked about, so nothing may be there yet.
///
/// # Errors
/// [`ErrorCode::FileUnwritable`], if something is.
pub fn with_ending(path: PathBuf, made: &str) -> Result<PathBuf, ApiError> {
    let ending = ending_of(made);
    let has_it = path
        .extension()
        .is_some_and(|given| given.eq_ignore_ascii_case(ending));
    if has_it || path.file_name().is_none() {
        return Ok(path);
    }
    let mut whole = path.into_os_string();
    whole.push(".");
    whole.push(ending);
    let whole = PathBuf::from(whole);
    if whole.symlink_metadata().is_ok() {
        return Err(ApiError::new(ErrorCode::FileUnwritable)
            .with("path", whole.display())
            .with("detail", "there is a file of that name already"));
    }
    Ok(whole)
}

#[cfg(test)]
mod tests {
    use super::*;

    const MADE: &str = "job-0147-2026-11-25.vvb";

    #[test]
    fn a_name_without_the_ending_gets_it() {
        let folder = tempfile::tempdir().unwrap();
        let at = |name: &str| folder.path().join(name);
        assert_eq!(with_ending(at("for Wen"), MADE).unwrap(), at("for Wen.vvb"));
        assert_eq!(
            with_ending(at("job.0147"), MADE).unwrap(),
            at("job.0147.vvb")
        );
        assert_eq!(with_ending(at("a.VVB"), MADE).unwrap(), at("a.VVB"));
        assert_eq!(
            with_ending(at("report"), "report-0147.pdf").unwrap(),
            at("report.pdf")
        );
    }

    #[test]
    fn an_added_ending_never_leads_to_another_file() {
        let folder = tempfile::tempdir().unwrap();
        let there = folder.path().join("mine.vvb");
        std::fs::write(&there, "something else").unwrap();
        let refused = with_ending(folder.path().join("mine"), MADE).unwrap_err();
        assert_eq!(refused.code, ErrorCode::FileUnwritable);
        assert_eq!(refused.params["path"], there.display().to_string());
        // Here the dialog itself has asked whether to replace it.
        assert_eq!(with_ending(there.clone(), MADE).unwrap(), there);
    }

    #[test]
    fn only_a_test_can_answer_in_place_of_the_person() {
        assert!(test_answer(Some("/tmp/a.vvb".into()), false).is_none());
        assert!(test_answer(None, true).is_none());
        assert!(matches!(test_answer(Some("".into()), true), Some(None)));
        let Some(Some(FilePath::Path(path))) = test_answer(Some("/tmp/a.vvb".into()), true) else {
            panic!("no path");
        };
        assert_eq!(path, Path::new("/tmp/a.vvb"));
    }
}
