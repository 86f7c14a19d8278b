//! Files that somebody opens with the app: named when it is started, or handed to it while it runs.
//! One waits until a page is there to show it; a later one takes its place, since the page shows
//! what a file would bring and takes nothing in by itself.

use std::ffi::OsString;
use std::path::Path;
use std::sync::{Mutex, MutexGuard, PoisonError};

use tauri::ipc::Channel;
use tauri::{AppHandle, Manager, State};
use tauri_plugin_dialog::FilePath;

use crate::call::Core;

/// What was opened and who wants to know. Kept by Tauri, one for the program.
#[derive(Default)]
pub struct Opened(Mutex<Waiting>);

#[derive(Default)]
struct Waiting {
    place: Option<FilePath>,
    page: Option<Channel<String>>,
}

impl Opened {
    fn lock(&self) -> MutexGuard<'_, Waiting> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Has the page told of each file that is opened with the app, from the one that waits now: by the
/// answer of the core's `file.open`, as text. The last page to ask is told.
#[tauri::command]
pub fn watch_opened(app: AppHandle, opened: State<'_, Opened>, page: Channel<String>) {
    opened.lock().page = Some(page);
    tell(&app);
}

/// A file was opened with the app.
pub fn arrived(app: &AppHandle, place: FilePath) {
    app.state::<Opened>().lock().place = Some(place);
    tell(app);
}

/// Opens what waits and tells the page, if there is both.
fn tell(app: &AppHandle) {
    let app = app.clone();
    tauri::async_runtime::spawn_blocking(move || {
        let (place, page) = {
            let opened = app.state::<Opened>();
            let mut waiting = opened.lock();
            let Some(page) = waiting.page.clone() else {
                return;
            };
            let Some(place) = waiting.place.take() else {
                return;
            };
            (place, page)
        };
        let core = app.state::<Core>().inner().clone();
        let answer = api::answer(|| super::open(&app, core.open(), place));
        if let Err(error) = page.send(answer) {
            tracing::warn!(%error, "the page wasn't told of a file that was opened");
        }
    });
}

/// The file that a command line names, beginning with the program's own name: the first argument
/// that is no option. Relative to `folder`, where the command was given.
pub fn named_in(arguments: impl IntoIterator<Item = OsString>, folder: &Path) -> Option<FilePath> {
    let mut options = true;
    for argument in arguments.into_iter().skip(1) {
        if options && argument == "--" {
            options = false;
            continue;
        }
        let option = options && argument.as_encoded_bytes().starts_with(b"-");
        if !option && !argument.is_empty() {
            let address = argument
                .to_str()
                .filter(|text| text.starts_with("file:"))
                .and_then(|text| text.parse().ok());
            return Some(match address {
                Some(address) => FilePath::Url(address),
                None => FilePath::Path(folder.join(argument)),
            });
        }
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(arguments: &[&str]) -> Option<String> {
        let arguments = ["valvewright"].iter().chain(arguments).map(OsString::from);
        named_in(arguments, Path::new("/home/somebody")).map(|place| place.to_string())
    }

    #[cfg(unix)]
    #[test]
    fn a_file_may_be_named_when_the_app_is_started() {
        assert_eq!(named(&[]), None);
        assert_eq!(named(&["/tmp/a.vvb"]).unwrap(), "/tmp/a.vvb");
        assert_eq!(named(&["a.vvb"]).unwrap(), "/home/somebody/a.vvb");
        assert_eq!(
            named(&["file:///tmp/two%20words.vvb"]).unwrap(),
            "file:///tmp/two%20words.vvb"
        );
    }

    #[cfg(unix)]
    #[test]
    fn options_and_nothing_are_no_files() {
        assert_eq!(named(&["--verbose", ""]), None);
        assert_eq!(
            named(&["-psn_0_1", "b.vvb"]).unwrap(),
            "/home/somebody/b.vvb"
        );
        assert_eq!(named(&["--", "-b.vvb"]).unwrap(), "/home/somebody/-b.vvb");
        assert_eq!(named(&["a.vvb", "b.vvb"]).unwrap(), "/home/somebody/a.vvb");
    }
}
