//! The one command table. The dispatcher, the headless program and the TypeScript types all come
//! from it, so they can't drift apart.

use std::sync::LazyLock;

use schemars::JsonSchema;
use schemars::generate::SchemaSettings;
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::error::{ApiError, ErrorCode};
use crate::{App, calc, dto, usecase};

type Run = Box<dyn Fn(&App, Value) -> Result<Value, ApiError> + Send + Sync>;
type Describe = fn() -> Value;

/// One command.
pub struct Command {
    /// Its name on the wire.
    pub name: &'static str,
    /// What it does, one line.
    pub summary: &'static str,
    /// True when it works on the open store; false for a pure calculation, or what works without
    /// it.
    pub needs_store: bool,
    /// True when its arguments name a path: only for callers who may ([`crate::Options::paths`]).
    pub names_path: bool,
    /// Arguments that it answers, as JSON; every calculation has them.
    pub example: Option<&'static str>,
    run: Run,
    args: Describe,
    answer: Describe,
}

impl Command {
    /// Runs the command on arguments as they came.
    ///
    /// # Errors
    /// [`ApiError`]: of the arguments' form, or of the command itself.
    pub fn run(&self, app: &App, args: Value) -> Result<Value, ApiError> {
        (self.run)(app, args)
    }
}

fn command<A, R>(
    name: &'static str,
    summary: &'static str,
    needs_store: bool,
    handler: fn(&App, A) -> Result<R, ApiError>,
) -> Command
where
    A: DeserializeOwned + JsonSchema + 'static,
    R: Serialize + JsonSchema + 'static,
{
    let run = move |app: &App, args: Value| {
        let args: A = serde_json::from_value(args)
            .map_err(|error| ApiError::new(ErrorCode::BadRequest).with("detail", error))?;
        serde_json::to_value(handler(app, args)?).map_err(ApiError::internal)
    };
    Command {
        name,
        summary,
        needs_store,
        names_path: false,
        example: None,
        run: Box::new(run),
        args: schema_of::<A>,
        answer: schema_of::<R>,
    }
}

/// A command that works on the store.
fn on_store<A, R>(
    name: &'static str,
    summary: &'static str,
    handler: fn(&App, A) -> Result<R, ApiError>,
) -> Command
where
    A: DeserializeOwned + JsonSchema + 'static,
    R: Serialize + JsonSchema + 'static,
{
    command(name, summary, true, handler)
}

/// A command that needs no store.
pub(crate) fn pure<A, R>(
    name: &'static str,
    summary: &'static str,
    handler: fn(&App, A) -> Result<R, ApiError>,
) -> Command
where
    A: DeserializeOwned + JsonSchema + 'static,
    R: Serialize + JsonSchema + 'static,
{
    command(name, summary, false, handler)
}

/// A pure calculation, with arguments that show how it is asked. A test runs each example.
pub(crate) fn calculation<A, R>(
    name: &'static str,
    summary: &'static str,
    handler: fn(&App, A) -> Result<R, ApiError>,
    example: &'static str,
) -> Command
where
    A: DeserializeOwned + JsonSchema + 'static,
    R: Serialize + JsonSchema + 'static,
{
    Command {
        example: Some(example),
        ..command(name, summary, false, handler)
    }
}

/// What it does, with a path of this device.
fn by_path(command: Command) -> Command {
    Command {
        names_path: true,
        ..command
    }
}

static TABLE: LazyLock<Vec<Command>> = LazyLock::new(|| {
    [
        pure(
            "app.state",
            "Version of the program and whether its store opened",
            usecase::shop::state,
        ),
        on_store(
            "shop.overview",
            "Shop, people, units, stands, settings, undo",
            usecase::shop::overview,
        ),
        on_store(
            "person.choose",
            "Choose who works on this device",
            usecase::shop::choose_person,
        ),
        on_store(
            "person.add",
            "Add a person and choose them",
            usecase::shop::add_person,
        ),
        on_store(
            "settings.put",
            "Keep this device's settings",
            usecase::shop::put_settings,
        ),
        on_store(
            "unit.get",
            "A unit's profile with drawings and findings",
            usecase::shop::unit,
        ),
        on_store(
            "profile.get",
            "A unit as it is edited: its parts, findings, and what is missing",
            usecase::profile::get,
        ),
        on_store(
            "profile.put",
            "Make or change one part of a unit's profile, or only try it",
            usecase::profile::put,
        ),
        on_store(
            "profile.shape",
            "Make a bore from a shape to start from",
            usecase::profile::shape,
        ),
        on_store(
            "profile.copy",
            "Copy a unit, a circuit or a bore",
            usecase::profile::copy,
        ),
        on_store(
            "profile.move",
            "Change places with a neighbour",
            usecase::profile::shift,
        ),
        on_store(
            "profile.remove",
            "Remove a part of a unit's profile, or a whole unit",
            usecase::profile::remove,
        ),
        on_store(
            "profile.restore",
            "Bring a removed part back",
            usecase::profile::restore,
        ),
        on_store(
            "profile.removed",
            "Units that were removed",
            usecase::profile::removed,
        ),
        on_store(
            "job.list",
            "The jobs, all or searched, newest first",
            usecase::job_list::list,
        ),
        on_store("job.open", "Open a job", usecase::job::open),
        on_store("job.get", "One job", usecase::job::get),
        on_store("job.edit", "Change one part of a job", usecase::job::edit),
        on_store(
            "caution.read",
            "Say that cautions were read",
            usecase::job::read_cautions,
        ),
        on_store("test.begin", "Begin a vacuum test", usecase::test::begin),
        on_store(
            "test.get",
            "One vacuum test with its judgement",
            usecase::test::get,
        ),
        on_store(
            "test.record",
            "Record one part of a vacuum test",
            usecase::test::record,
        ),
        on_store("test.correct", "Correct a reading", usecase::test::correct),
        on_store("test.strike", "Strike a reading", usecase::test::strike),
        on_store(
            "test.decide",
            "Put the decision on record",
            usecase::test::decide,
        ),
        on_store(
            "relief.get",
            "The relief of a bore's circuit, checked in a job",
            usecase::relief::get,
        ),
        on_store(
            "relief.record",
            "Record a relief check",
            usecase::relief::record,
        ),
        on_store(
            "repair.get",
            "A repair with before, predicted and after",
            usecase::repair::get,
        ),
        on_store("repair.record", "Record a repair", usecase::repair::record),
        on_store(
            "options.list",
            "The repair options of a bore, side by side",
            usecase::options::list,
        ),
        on_store(
            "part.list",
            "The shop's own list of parts",
            usecase::part::list,
        ),
        on_store("part.record", "Record a part", usecase::part::record),
        on_store("photo.list", "The photos of a job", usecase::photo::list),
        on_store(
            "photo.add",
            "Add a photo from a file that was carried in",
            usecase::photo::add,
        ),
        on_store(
            "photo.edit",
            "Change a photo's caption, or whether it is personal",
            usecase::photo::edit,
        ),
        on_store("photo.remove", "Remove a photo", usecase::photo::remove),
        on_store(
            "photo.read",
            "One piece of a photo's picture or thumbnail",
            usecase::photo::read,
        ),
        on_store(
            "inspection.plan",
            "What a job's inspection asks for, done and open",
            usecase::inspection::plan,
        ),
        on_store(
            "inspection.change",
            "Change the plan of a job's inspection",
            usecase::inspection::change,
        ),
        on_store(
            "inspection.record",
            "Record one check, or say what it would give",
            usecase::inspection::record,
        ),
        on_store(
            "inspection.strike",
            "Strike a check",
            usecase::inspection::strike,
        ),
        on_store(
            "bore.card",
            "What all checks of a bore say together",
            usecase::inspection::card,
        ),
        on_store(
            "bore.explore",
            "A bore as it was found, to be tried with other parts",
            usecase::explore::start,
        ),
        on_store(
            "what_if.keep",
            "Keep a setting of a bore with a note",
            usecase::explore::keep,
        ),
        on_store(
            "what_if.remove",
            "Take a kept setting away",
            usecase::explore::remove,
        ),
        on_store(
            "machining.get",
            "The machining sheet of a bore in a job",
            usecase::machining::get,
        ),
        on_store(
            "machining.propose",
            "A machining sheet filled in from a repair option",
            usecase::machining::propose,
        ),
        on_store(
            "machining.record",
            "Record a machining sheet, or say what it would give",
            usecase::machining::record,
        ),
        on_store(
            "machining.sign",
            "Sign the machining sheet on record",
            usecase::machining::sign,
        ),
        on_store(
            "instrument.list",
            "The shop's instruments and stands",
            usecase::instrument::list,
        ),
        on_store(
            "instrument.record",
            "Record an instrument",
            usecase::instrument::record,
        ),
        on_store(
            "stand.record",
            "Record a vacuum stand",
            usecase::instrument::record_stand,
        ),
        on_store(
            "report.write",
            "Write the printable report of a job",
            usecase::report::write,
        ),
        on_store(
            "bore.history",
            "A bore's tests and repairs across jobs",
            usecase::bore_history::get,
        ),
        on_store(
            "customer.held",
            "What is held about a job's customer, here and in other jobs",
            usecase::erasure::held,
        ),
        on_store(
            "customer.erase",
            "Erase what is held about a customer, for good, and look whether it is gone",
            usecase::erasure::erase,
        ),
        on_store(
            "erasure.list",
            "The erasures known here, and copies from before them",
            usecase::erasure::list,
        ),
        on_store(
            "erasure.look",
            "Look for texts in all that is kept on this device",
            usecase::erasure::look,
        ),
        on_store(
            "undo.last",
            "Undo this device's last change",
            usecase::audit::undo,
        ),
        on_store(
            "redo.last",
            "Bring back the last undone change",
            usecase::audit::redo,
        ),
        on_store(
            "history.get",
            "Every record of a subject",
            usecase::audit::history,
        ),
        on_store(
            "store.check",
            "Check and replay the store",
            usecase::audit::check,
        ),
        // These work whether or not the store can be opened.
        pure("backup.list", "The store's backups", usecase::backup::list),
        pure("backup.make", "Make a backup now", usecase::backup::make),
        pure(
            "backup.drop",
            "Delete backups or files put aside",
            usecase::erasure::drop_copies,
        ),
        pure(
            "backup.restore",
            "Put a backup in the store's place",
            usecase::backup::restore,
        ),
        pure(
            "store.repair",
            "Save what can be read of a damaged store",
            usecase::backup::repair,
        ),
        on_store(
            "tap_reading.get",
            "The pressure taps of a job's unit and what was read there",
            usecase::tap::get,
        ),
        on_store(
            "tap_reading.record",
            "Record a pressure read at a tap, or say what it would give",
            usecase::tap::record,
        ),
        on_store(
            "oil_check.get",
            "A hot-oil check of a bore's circuit, or what stands before one",
            usecase::oil_check::get,
        ),
        on_store(
            "oil_check.record",
            "Record a hot-oil check, or say what it would give",
            usecase::oil_check::record,
        ),
        on_store("draft.put", "Keep half-typed input", usecase::draft::put),
        on_store(
            "draft.get",
            "Find half-typed input again",
            usecase::draft::get,
        ),
        on_store(
            "draft.clear",
            "Drop half-typed input",
            usecase::draft::clear,
        ),
        on_store(
            "bundle.make",
            "Make a bundle of jobs or of the whole shop",
            usecase::exchange::make,
        ),
        on_store(
            "bundle.look",
            "What taking a bundle in would do; changes nothing",
            usecase::exchange::look,
        ),
        on_store(
            "bundle.take_in",
            "Take a bundle in",
            usecase::exchange::take_in,
        ),
        on_store(
            "look.file",
            "Look at a file without taking it in: what it is and who signed it",
            usecase::look::file,
        ),
        on_store(
            "look.jobs",
            "The jobs of a file that is looked at",
            usecase::look::jobs,
        ),
        on_store(
            "look.job",
            "One job of a file that is looked at",
            usecase::look::job,
        ),
        on_store(
            "look.test",
            "One vacuum test of a file that is looked at, with its judgement",
            usecase::look::test,
        ),
        on_store(
            "look.repair",
            "One repair of a file that is looked at",
            usecase::look::repair,
        ),
        on_store(
            "look.plan",
            "The inspection of a job of a file that is looked at: its plan and its checks",
            usecase::look::plan,
        ),
        on_store(
            "look.bore",
            "The card of a bore in a job of a file that is looked at",
            usecase::look::bore,
        ),
        on_store(
            "look.relief",
            "The check of a bore's relief in a file that is looked at",
            usecase::look::relief,
        ),
        on_store(
            "look.taps",
            "What was read at the taps in a job of a file that is looked at",
            usecase::look::taps,
        ),
        on_store(
            "look.oil_check",
            "One hot-oil check of a file that is looked at",
            usecase::look::oil_check,
        ),
        on_store(
            "look.handover",
            "What is agreed in a job of a file that is looked at",
            usecase::look::handover,
        ),
        on_store(
            "look.history",
            "What was ever recorded about something in a file that is looked at",
            usecase::look::history,
        ),
        on_store(
            "look.photo",
            "A piece of a photo's picture in a file that is looked at",
            usecase::look::photo,
        ),
        pure(
            "look.close",
            "End looking at a file, which can still be taken in",
            usecase::look::close,
        ),
        on_store(
            "readings.write",
            "Write readings as a table",
            usecase::readings::write,
        ),
        on_store(
            "readings.look",
            "What taking a table of readings in would do; changes nothing",
            usecase::readings::look,
        ),
        on_store(
            "readings.take_in",
            "Take readings in from a table, as one action",
            usecase::readings::take_in,
        ),
        on_store(
            "device.list",
            "The devices that signed something here",
            usecase::trust::devices,
        ),
        on_store(
            "device.trust",
            "Trust a device's key no longer, or again; on this device only",
            usecase::trust::set,
        ),
        on_store(
            "device.rename",
            "Give a device a name; on this device only",
            usecase::trust::rename,
        ),
        on_store(
            "device.start_over",
            "Go on as a new device, under a key that nobody else has",
            usecase::trust::start_over,
        ),
        on_store(
            "settle.list",
            "What two people wrote without knowing of each other",
            usecase::settle::list,
        ),
        on_store(
            "settle.choose",
            "Say which of several values stands",
            usecase::settle::choose,
        ),
        on_store(
            "record.take_back",
            "Take one record back",
            usecase::audit::take_back,
        ),
        on_store(
            "record.bring_back",
            "Bring back a record that was taken back",
            usecase::audit::bring_back,
        ),
        on_store(
            "import.list",
            "What was taken in from elsewhere",
            usecase::exchange::imports,
        ),
        on_store(
            "import.remove",
            "Take an import out again, on this device only",
            usecase::exchange::remove,
        ),
        on_store(
            "demo.bring",
            "Bring the demo shop back",
            usecase::exchange::bring_demo,
        ),
        pure(
            "file.begin",
            "Begin to carry a file in",
            usecase::file::begin,
        ),
        pure(
            "file.add",
            "Carry in one piece of a file",
            usecase::file::add,
        ),
        by_path(pure(
            "file.open",
            "Take a file from a path",
            usecase::file::open,
        )),
        pure(
            "file.unseal",
            "Open a file that is sealed with a passphrase",
            usecase::file::unseal,
        ),
        pure(
            "file.read",
            "One piece of a file that was made here",
            usecase::file::read,
        ),
        by_path(pure(
            "file.save",
            "Write a file that was made here to a path",
            usecase::file::save,
        )),
        on_store(
            "handover.get",
            "What is agreed in a job and handed over with it",
            usecase::handover::get,
        ),
        on_store(
            "estimate.record",
            "Record a job's estimate, or only work it out",
            usecase::handover::record_estimate,
        ),
        on_store(
            "authorisation.record",
            "Record what the customer agreed to",
            usecase::handover::record_authorisation,
        ),
        on_store(
            "fitted.record",
            "Record a part that was fitted",
            usecase::handover::record_fitted,
        ),
        on_store(
            "fitted.remove",
            "Take a fitted part off the record",
            usecase::handover::remove_fitted,
        ),
        on_store(
            "warranty.record",
            "Record a job's warranty",
            usecase::handover::record_warranty,
        ),
        on_store(
            "job.sign_off",
            "Sign a job off with what is open",
            usecase::handover::sign,
        ),
        on_store(
            "comeback.suggest",
            "Earlier jobs that look like the same vehicle's",
            usecase::handover::suggest,
        ),
        on_store(
            "comeback.record",
            "Say that a job is a comeback of an earlier one",
            usecase::handover::record_comeback,
        ),
        on_store(
            "shop.statistics",
            "Which repairs held, with how many cases each figure has",
            usecase::statistics::get,
        ),
        pure("file.drop", "Forget a file", usecase::file::drop),
    ]
    .into_iter()
    .chain(calc::table::commands())
    .collect()
});

/// A command by its name.
#[must_use]
pub fn find(name: &str) -> Option<&'static Command> {
    TABLE.iter().find(|command| command.name == name)
}

/// A command as others see it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CommandInfo {
    /// Its name on the wire.
    pub name: &'static str,
    /// What it does.
    pub summary: &'static str,
    /// True when it works on the store.
    pub needs_store: bool,
    /// Arguments that show how it is asked; every calculation has them.
    pub example: Option<Value>,
    /// JSON Schema (2020-12) of its arguments, complete with its definitions.
    pub args_schema: Value,
    /// JSON Schema of its answer, complete with its definitions.
    pub answer_schema: Value,
}

/// The whole table, described.
#[must_use]
pub fn commands() -> Vec<CommandInfo> {
    TABLE
        .iter()
        .map(|command| CommandInfo {
            name: command.name,
            summary: command.summary,
            needs_store: command.needs_store,
            example: command
                .example
                .and_then(|text| serde_json::from_str(text).ok()),
            args_schema: (command.args)(),
            answer_schema: (command.answer)(),
        })
        .collect()
}

/// The schema of one type. One contract for both directions, so that a type which travels both
/// ways has one name and one shape.
fn schema_of<T: JsonSchema>() -> Value {
    SchemaSettings::draft2020_12()
        .into_generator()
        .into_root_schema_for::<T>()
        .to_value()
}

/// Nothing in particular: for commands whose answer is that they did it.
pub(crate) const DONE: dto::Nothing = dto::Nothing {};
