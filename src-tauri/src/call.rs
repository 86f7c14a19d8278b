//! The command by which the interface reaches the core.

use std::path::PathBuf;
use std::sync::{Arc, OnceLock};

use tauri::State;
use tauri::ipc::Response;

/// The core behind the command. Cloning it gives another handle on the same core.
#[derive(Clone)]
pub struct Core {
    store_path: PathBuf,
    app: Arc<OnceLock<api::App>>,
}

impl Core {
    /// A core whose store is at `store_path`; nothing is opened yet.
    pub fn new(store_path: PathBuf) -> Self {
        Self {
            store_path,
            app: Arc::new(OnceLock::new()),
        }
    }

    /// Opens the store unless that was done, and waits if it is being done. A store that can't be
    /// opened is no error here: the core then answers each command with the reason.
    pub fn open(&self) -> &api::App {
        self.app
            .get_or_init(|| api::App::start(api::Options::for_user(self.store_path.clone())))
    }

    /// Answers one request, both as JSON text.
    pub fn answer(&self, request: &str) -> String {
        self.open().call(request)
    }
}

/// Takes `{"command": …, "args": …}` as text and answers with JSON that the core wrote; the shell
/// reads neither. Runs on a thread of its own, so that a long calculation never holds the window.
///
/// Rejects only when the core's thread was lost, with the reason as text.
#[tauri::command]
pub async fn call(core: State<'_, Core>, request: String) -> Result<Response, String> {
    let core = core.inner().clone();
    beside_the_window(move || core.answer(&request)).await
}

/// Works out an answer, JSON text, on a thread of its own.
pub async fn beside_the_window(
    answer: impl FnOnce() -> String + Send + 'static,
) -> Result<Response, String> {
    tauri::async_runtime::spawn_blocking(move || Response::new(answer()))
        .await
        .map_err(|error| error.to_string())
}
