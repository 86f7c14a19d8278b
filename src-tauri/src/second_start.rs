//! What a second start does while the app runs: it hands the file that it was given to the window
//! that is open, and ends.

use std::ffi::OsString;
use std::path::Path;

use tauri::plugin::TauriPlugin;
use tauri::{AppHandle, Manager, Wry};

use crate::files::data_folder::DataFolder;
use crate::files::opened;

/// The watch for second starts on the same data folder; none where only the usual folder can be
/// told from others. Without a session bus Linux can't tell of a second start: then both run, and
/// the store guards itself.
pub fn watch(identifier: &str, folder: &DataFolder) -> Option<TauriPlugin<Wry>> {
    let watch = tauri_plugin_single_instance::Builder::new().callback(handed_over);
    match folder.mark() {
        None => Some(watch.build()),
        // Two shops in two folders are two programs.
        #[cfg(target_os = "linux")]
        Some(mark) => Some(watch.dbus_id(format!("{identifier}.at_{mark}")).build()),
        #[cfg(not(target_os = "linux"))]
        Some(_) => {
            let _ = identifier;
            None
        }
    }
}

fn handed_over(app: &AppHandle, arguments: Vec<String>, folder: String) {
    if let Some(window) = app.get_webview_window("main") {
        // Some window systems let no program come to the front by itself.
        let _ = window.unminimize();
        let _ = window.set_focus();
    }
    let arguments = arguments.into_iter().map(OsString::from);
    if let Some(place) = opened::named_in(arguments, Path::new(&folder)) {
        opened::arrived(app, place);
    }
}
