//! The Tauri shell: it opens the window, finds the data folder, and hands every request of the
//! interface to the `api` crate. It knows nothing of valves.

// On a phone the entry point's macro adds a function that it doesn't document.
#![cfg_attr(not(mobile), deny(missing_docs))]

mod call;
mod files;
#[cfg(desktop)]
mod second_start;

use std::env;
use std::error::Error;

use files::data_folder::DataFolder;
use files::opened::Opened;
use files::{dialog, opened};
use tauri::webview::NewWindowResponse;
use tauri::{AppHandle, Manager, RunEvent, Url, WebviewWindowBuilder};

/// Starts the app and returns when its window is closed. If it can't start, it says why on
/// standard error and ends the process with code 1.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() {
    tracing_subscriber::fmt()
        .with_writer(std::io::stderr)
        .init();
    let outcome = tauri::Builder::default()
        // Both only for Rust: the page's capability names none of their commands.
        .plugin(tauri_plugin_dialog::init())
        .plugin(tauri_plugin_fs::init())
        .manage(Opened::default())
        .invoke_handler(tauri::generate_handler![
            call::call,
            dialog::save_file,
            dialog::pick_file,
            opened::watch_opened
        ])
        .setup(|app| set_up(app))
        .build(tauri::generate_context!());
    match outcome {
        Ok(app) => app.run(on_event),
        Err(error) => {
            eprintln!("Valvewright can't start: {error}");
            std::process::exit(1);
        }
    }
}

fn set_up(app: &mut tauri::App) -> Result<(), Box<dyn Error>> {
    let folder = DataFolder::find(app.handle())?;
    folder.create()?;
    #[cfg(desktop)]
    if let Some(watch) = second_start::watch(&app.config().identifier, &folder) {
        app.handle().plugin(watch)?;
    }

    // The store is opened beside the window, not before it: the first call waits for it.
    let core = call::Core::new(folder.store());
    app.manage(core.clone());
    tauri::async_runtime::spawn_blocking(move || {
        core.open();
    });

    if cfg!(desktop) {
        let folder = env::current_dir().unwrap_or_default();
        if let Some(place) = opened::named_in(env::args_os(), &folder) {
            opened::arrived(app.handle(), place);
        }
    }

    let config = app
        .config()
        .app
        .windows
        .first()
        .cloned()
        .unwrap_or_default();
    let mut window = WebviewWindowBuilder::from_config(app, &config)?
        .on_navigation(is_ours)
        .on_new_window(|_, _| NewWindowResponse::Deny);
    if let Some(web_data) = folder.web_data() {
        window = window.data_directory(web_data);
    }
    if cfg!(debug_assertions) && files::automated() {
        window = window.initialization_script(include_str!("watch.js"));
    }
    window.build()?;
    Ok(())
}

/// macOS and phones hand over what is opened with the app as an event, before or while it runs.
#[allow(unused_variables)]
fn on_event(app: &AppHandle, event: RunEvent) {
    #[cfg(any(target_os = "macos", target_os = "ios", target_os = "android"))]
    if let RunEvent::Opened { urls } = event
        && let Some(address) = urls.into_iter().next()
    {
        opened::arrived(app, address.into());
    }
}

/// Whether an address belongs to the interface that is built into the program. The window goes
/// nowhere else: the Content-Security-Policy stops what a page loads, but not where a link leads.
fn is_ours(url: &Url) -> bool {
    match url.scheme() {
        "tauri" => url.host_str() == Some("localhost"),
        "http" | "https" => url.host_str() == Some("tauri.localhost"),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leads_to(address: &str) -> bool {
        is_ours(&address.parse().unwrap())
    }

    #[test]
    fn the_window_shows_the_built_in_interface_and_nothing_else() {
        assert!(leads_to("tauri://localhost/index.html"));
        assert!(leads_to("http://tauri.localhost/"));
        assert!(!leads_to("https://example.org/"));
        assert!(!leads_to("http://localhost:8080/"));
        assert!(!leads_to("tauri://example.org/"));
        assert!(!leads_to("file:///etc/passwd"));
        assert!(!leads_to("data:text/html,hello"));
    }
}
