//! The app without a face: an opened store, a clock, and the dispatcher.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard};

use journal::WallTime;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use store::{Setup, Store};

use crate::clock::{Clock, SystemClock};
use crate::error::{ApiError, ErrorCode};
use crate::files::Files;
use crate::projector::ModelProjector;
use crate::tasks::Tasks;
use crate::{demo, table};

/// What the app is started with.
pub struct Options {
    /// The store's file; none: only pure calculations can be called.
    pub store_path: Option<PathBuf>,
    /// True: a store that is made now gets the demo shop.
    pub demo_on_first_start: bool,
    /// True: whoever calls may name paths of this device. False for a page, which gets handles.
    pub paths: bool,
    /// Tells the time.
    pub clock: Arc<dyn Clock>,
}

impl Options {
    /// As the app starts for a user: its own clock, and the demo shop the first time.
    #[must_use]
    pub fn for_user(store_path: PathBuf) -> Self {
        Self {
            store_path: Some(store_path),
            demo_on_first_start: true,
            paths: false,
            clock: Arc::new(SystemClock),
        }
    }

    /// Without a store.
    #[must_use]
    pub fn without_store() -> Self {
        Self {
            store_path: None,
            demo_on_first_start: false,
            paths: false,
            clock: Arc::new(SystemClock),
        }
    }
}

/// The app. One for the whole process; may be called from several threads.
pub struct App {
    store: Result<Mutex<Store>, ApiError>,
    store_path: Option<PathBuf>,
    paths: bool,
    clock: Arc<dyn Clock>,
    files: Mutex<Files>,
    tasks: Mutex<Tasks>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Request {
    command: String,
    #[serde(default)]
    args: Value,
}

impl App {
    /// Opens the store. Never fails: when the store can't be opened, commands that need it answer
    /// with that error and `app.state` tells it, so that the interface can say what to do.
    #[must_use]
    pub fn start(options: Options) -> Self {
        let store = match &options.store_path {
            None => Err(ApiError::new(ErrorCode::NoStore)),
            Some(path) => open(path, &options).map(Mutex::new).map_err(|error| {
                tracing::warn!(?error, "the store did not open");
                error.with("path", path.display())
            }),
        };
        Self {
            store,
            store_path: options.store_path,
            paths: options.paths,
            clock: options.clock,
            files: Mutex::default(),
            tasks: Mutex::default(),
        }
    }

    /// Answers one request, `{"command": …, "args": {…}}`, with `{"ok": …}` or
    /// `{"error": {"code": …}}`. Never panics.
    #[must_use]
    pub fn call(&self, request: &str) -> String {
        answer(|| self.dispatch(request))
    }

    fn dispatch(&self, request: &str) -> Result<Value, ApiError> {
        let request: Request = serde_json::from_str(request)
            .map_err(|error| ApiError::new(ErrorCode::BadRequest).with("detail", error))?;
        let command = table::find(&request.command)
            .filter(|command| self.paths || !command.names_path)
            .ok_or_else(|| {
                ApiError::new(ErrorCode::UnknownCommand).with("command", &request.command)
            })?;
        // No arguments may be left out altogether.
        let args = if request.args.is_null() {
            json!({})
        } else {
            request.args
        };
        command.run(self, args)
    }

    /// The store, for as long as the guard lives.
    ///
    /// # Errors
    /// Why it didn't open.
    pub(crate) fn store(&self) -> Result<MutexGuard<'_, Store>, ApiError> {
        match &self.store {
            // A panic elsewhere leaves no transaction half done, so the store is still good.
            Ok(store) => Ok(store
                .lock()
                .unwrap_or_else(std::sync::PoisonError::into_inner)),
            Err(error) => Err(error.clone()),
        }
    }

    /// Why the store didn't open; none: it did, or none was asked for.
    pub(crate) fn trouble(&self) -> Option<ApiError> {
        self.store
            .as_ref()
            .err()
            .filter(|error| error.code != ErrorCode::NoStore)
            .cloned()
    }

    pub(crate) fn store_path(&self) -> String {
        self.store_path
            .as_ref()
            .map(|path| path.display().to_string())
            .unwrap_or_default()
    }

    /// Files on their way in or out. Never taken before the store's guard is let go.
    pub(crate) fn files(&self) -> MutexGuard<'_, Files> {
        self.files
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    /// Long work. Dropped with the app, which tells all of it to stop.
    pub(crate) fn tasks(&self) -> MutexGuard<'_, Tasks> {
        self.tasks
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    pub(crate) fn clock(&self) -> &dyn Clock {
        &*self.clock
    }
}

/// Does something and words its outcome as every command is answered: `{"ok": …}` or
/// `{"error": {"code": …}}`. A panic is the error `internal`.
#[must_use]
pub fn answer<T: Serialize>(act: impl FnOnce() -> Result<T, ApiError>) -> String {
    let done = catch_unwind(AssertUnwindSafe(|| {
        serde_json::to_value(act()?).map_err(ApiError::internal)
    }));
    let answer = match done {
        Ok(Ok(value)) => json!({ "ok": value }),
        Ok(Err(error)) => json!({ "error": error }),
        Err(_) => json!({ "error": ApiError::internal("panic") }),
    };
    answer.to_string()
}

fn open(path: &std::path::Path, options: &Options) -> Result<Store, ApiError> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)
            .map_err(|error| ApiError::new(ErrorCode::Io).with("detail", error))?;
    }
    let fresh = std::fs::metadata(path).map_or(true, |file| file.len() == 0);
    let mut store = Store::open(path, Setup::new(Arc::new(ModelProjector)))?;
    if fresh && options.demo_on_first_start {
        let now = WallTime::from_unix_ms(options.clock.now().timestamp_millis());
        demo::load(&mut store, now)?;
    }
    Ok(store)
}

/// A value as JSON, for bodies and settings of our own types.
pub(crate) fn to_json<T: Serialize>(value: &T) -> Result<String, ApiError> {
    serde_json::to_string(value).map_err(ApiError::internal)
}
