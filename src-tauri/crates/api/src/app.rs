//! The app without a face: an opened store, a clock, and the dispatcher.

use std::ops::{Deref, DerefMut};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use journal::WallTime;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use store::{Attachments, Backup, Backups, Reason, Setup, Store, StoreError};

use crate::backing_up::BackingUp;
use crate::clock::{Clock, SystemClock};
use crate::error::{ApiError, ErrorCode};
use crate::files::Files;
use crate::projector::ModelProjector;
use crate::tasks::{Tasks, Watch};
use crate::usecase::look::Looking;
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
    core: Arc<Core>,
    /// What watches the long work that this app is lent to; none: it is the app itself.
    watch: Option<Arc<Watch>>,
}

/// What the app and its long work share.
struct Core {
    store: Mutex<Slot>,
    store_path: Option<PathBuf>,
    paths: bool,
    demo_on_first_start: bool,
    clock: Arc<dyn Clock>,
    backing_up: BackingUp,
    files: Mutex<Files>,
    looking: Mutex<Option<Looking>>,
    tasks: Mutex<Tasks>,
}

/// The store, or why it didn't open.
type Slot = Result<Store, ApiError>;

/// The store for as long as this lives: others wait.
pub(crate) struct OpenStore<'a>(MutexGuard<'a, Slot>);

impl<'a> OpenStore<'a> {
    /// With long work, whoever cancels it ends what the store is doing, too.
    fn watched(slot: MutexGuard<'a, Slot>, watch: Option<&Arc<Watch>>) -> Result<Self, ApiError> {
        let store = slot.as_ref().map_err(Clone::clone)?;
        let watch = watch.map(Arc::clone);
        store.stop_when(watch.map(|watch| move || watch.stopping()))?;
        Ok(Self(slot))
    }
}

impl Deref for OpenStore<'_> {
    type Target = Store;

    fn deref(&self) -> &Store {
        match &*self.0 {
            Ok(store) => store,
            Err(_) => unreachable!("looked at when the guard was made"),
        }
    }
}

impl DerefMut for OpenStore<'_> {
    fn deref_mut(&mut self) -> &mut Store {
        match &mut *self.0 {
            Ok(store) => store,
            Err(_) => unreachable!("looked at when the guard was made"),
        }
    }
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
        let fresh = options.store_path.as_deref().is_none_or(is_fresh);
        let folder = options.store_path.as_deref().and_then(Path::parent);
        let folder = folder
            .filter(|folder| !folder.as_os_str().is_empty())
            .map(Path::to_owned);
        let app = Self {
            core: Arc::new(Core {
                store: Mutex::new(Err(ApiError::new(ErrorCode::NoStore))),
                store_path: options.store_path,
                paths: options.paths,
                demo_on_first_start: options.demo_on_first_start,
                clock: options.clock,
                backing_up: BackingUp::new(fresh),
                files: Mutex::new(Files::beside(folder)),
                looking: Mutex::default(),
                tasks: Mutex::default(),
            }),
            watch: None,
        };
        *app.slot() = app.open();
        app
    }

    fn open(&self) -> Slot {
        let Some(path) = &self.core.store_path else {
            return Err(ApiError::new(ErrorCode::NoStore));
        };
        open(path, self.core.demo_on_first_start, &*self.core.clock).map_err(|error| {
            tracing::warn!(?error, "the store did not open");
            error.with("path", path.display())
        })
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
            .filter(|command| self.core.paths || !command.names_path)
            .ok_or_else(|| {
                ApiError::new(ErrorCode::UnknownCommand).with("command", &request.command)
            })?;
        // No arguments may be left out altogether.
        let args = if request.args.is_null() {
            json!({})
        } else {
            request.args
        };
        let answer = command.run(self, args);
        if command.needs_store && answer.is_ok() {
            self.back_up_now_and_then();
        }
        answer
    }

    /// The store, for as long as the guard lives.
    ///
    /// # Errors
    /// Why it didn't open.
    pub(crate) fn store(&self) -> Result<OpenStore<'_>, ApiError> {
        OpenStore::watched(self.slot(), self.watch.as_ref())
    }

    /// This app for long work: what it does can be followed and stopped by `watch`.
    pub(crate) fn lent(&self, watch: &Arc<Watch>) -> Self {
        Self {
            core: Arc::clone(&self.core),
            watch: Some(Arc::clone(watch)),
        }
    }

    /// What watches the work that is being done, if it is long work.
    pub(crate) fn watch(&self) -> Option<&Arc<Watch>> {
        self.watch.as_ref()
    }

    fn slot(&self) -> MutexGuard<'_, Slot> {
        // A panic elsewhere leaves no transaction half done, so the store is still good.
        self.core
            .store
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// Why the store can't be opened, tried once more; none: it is open, or none was asked for.
    pub(crate) fn trouble(&self) -> Option<ApiError> {
        let mut slot = self.slot();
        if slot.is_err() && self.core.store_path.is_some() {
            *slot = self.open();
        }
        let error = slot.as_ref().err();
        error
            .filter(|error| error.code != ErrorCode::NoStore)
            .cloned()
    }

    /// The backups of the store, whether it opened or not.
    ///
    /// # Errors
    /// [`ErrorCode::NoStore`] if none was asked for.
    pub(crate) fn backups(&self) -> Result<Backups, ApiError> {
        let path = self.core.store_path.as_deref();
        Ok(Backups::of(
            path.ok_or_else(|| ApiError::new(ErrorCode::NoStore))?,
        ))
    }

    /// As [`App::backups`]; with long work, whoever cancels it ends a copy under way.
    fn watched_backups(&self) -> Result<Backups, ApiError> {
        let backups = self.backups()?;
        Ok(match self.watch.clone() {
            Some(watch) => backups.stopped_when(move || watch.stopping()),
            None => backups,
        })
    }

    /// Makes a backup by hand.
    ///
    /// # Errors
    /// Why it can't be made.
    pub(crate) fn back_up(&self) -> Result<(Backups, Backup), ApiError> {
        let backups = self.watched_backups()?;
        self.core.backing_up.wait();
        let made = backups.make(Reason::ByHand, self.now())?;
        Ok((backups, made))
    }

    /// Closes the store, lets `act` put another file in its place, and opens what is there then.
    ///
    /// # Errors
    /// What `act` says; the store is then as it was.
    pub(crate) fn replace_store<T>(
        &self,
        act: impl FnOnce(&Backups) -> Result<T, StoreError>,
    ) -> Result<T, ApiError> {
        let backups = self.backups()?;
        self.core.backing_up.wait();
        let mut slot = self.slot();
        *slot = Err(ApiError::new(ErrorCode::StoreLocked));
        let done = act(&backups);
        *slot = self.open();
        Ok(done?)
    }

    /// Looks now and then whether a backup is due; makes it on a thread of its own.
    fn back_up_now_and_then(&self) {
        if let (Some(path), true) = (
            &self.core.store_path,
            self.core.backing_up.is_time_to_look(),
        ) {
            self.core
                .backing_up
                .start(Backups::of(path), Attachments::of(path), self.now());
        }
    }

    /// Makes a backup before something large is done, unless the newest holds the same.
    ///
    /// # Errors
    /// Why it can't be made.
    pub(crate) fn back_up_before(&self, reason: Reason) -> Result<(), ApiError> {
        let backups = self.watched_backups()?;
        self.core.backing_up.wait();
        if backups.has_changed()? {
            backups.make(reason, self.now())?;
        }
        Ok(())
    }

    pub(crate) fn backing_up(&self) -> &BackingUp {
        &self.core.backing_up
    }

    pub(crate) fn store_path(&self) -> String {
        self.core
            .store_path
            .as_ref()
            .map(|path| path.display().to_string())
            .unwrap_or_default()
    }

    /// Files on their way in or out. Never taken before the store's guard is let go.
    pub(crate) fn files(&self) -> MutexGuard<'_, Files> {
        self.core
            .files
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    /// The file that is being looked at. Taken before the guards of the store and of files, never
    /// while one of them is held.
    pub(crate) fn looking(&self) -> MutexGuard<'_, Option<Looking>> {
        self.core
            .looking
            .lock()
            .unwrap_or_else(PoisonError::into_inner)
    }

    /// Long work. Dropped with the app, which tells all of it to stop.
    pub(crate) fn tasks(&self) -> MutexGuard<'_, Tasks> {
        self.core
            .tasks
            .lock()
            .unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    pub(crate) fn clock(&self) -> &dyn Clock {
        &*self.core.clock
    }
}

impl Drop for App {
    fn drop(&mut self) {
        // The app itself goes; what was lent ends by itself, told to or not.
        if self.watch.is_none() {
            self.tasks().stop();
        }
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

fn is_fresh(path: &Path) -> bool {
    std::fs::metadata(path).map_or(true, |file| file.len() == 0)
}

fn open(path: &Path, demo_on_first_start: bool, clock: &dyn Clock) -> Result<Store, ApiError> {
    if let Some(folder) = path.parent() {
        std::fs::create_dir_all(folder)
            .map_err(|error| ApiError::new(ErrorCode::Io).with("detail", error))?;
    }
    let now = WallTime::from_unix_ms(clock.now().timestamp_millis());
    let backups = Backups::of(path);
    // What is wrong with the file is told when it is opened.
    if backups.needs_migration().unwrap_or(false) {
        backups.make(Reason::BeforeMigration, now)?;
    }
    // Only now: a restoration that was cut off has been finished on the way.
    let fresh = is_fresh(path);
    let mut store = Store::open(path, Setup::new(Arc::new(ModelProjector)))?;
    if store.scrub_is_due()? {
        // Something was erased, and the program ended or another had the file open.
        match store.scrub() {
            Ok(done) => tracing::info!(done, "the store was written anew after an erasure"),
            Err(error) => tracing::warn!(?error, "the store could not be written anew"),
        }
    }
    if fresh && demo_on_first_start {
        demo::load(&mut store, now)?;
    } else {
        demo::adopt(&mut store, now)?;
    }
    Ok(store)
}

/// A value as JSON, for bodies and settings of our own types.
pub(crate) fn to_json<T: Serialize>(value: &T) -> Result<String, ApiError> {
    serde_json::to_string(value).map_err(ApiError::internal)
}
