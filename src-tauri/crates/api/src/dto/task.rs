//! Long work: begun, looked at, cancelled.

use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    BackupEntry, BundleLook, BundleMade, BundleMake, BundlePlan, BundleTakeIn, BundleTaken,
    FeedBandAnswer, FeedBandArgs, MonteCarloAnswer, MonteCarloArgs, MotionScenario, MotionSummary,
    MovingFigure, MovingFigures, RegulatorSource, RestModes, StoreCheck, StoreCheckGet,
    TransientAnswer, TransientArgs,
};
use crate::error::ApiError;

/// The same transient with one part changed, on all cores. Damping that isn't given is that of the
/// regulator as told, for every value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SweepArgs {
    /// The regulator.
    pub valve: RegulatorSource,
    /// What moves.
    #[serde(default)]
    pub moving: MovingFigures,
    /// What it is put through.
    pub scenario: MotionScenario,
    /// What changes.
    pub over: SweepOver,
}

/// Which part changes, and its values: 1 to 200 of them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum SweepOver {
    /// Bore of the balance orifice.
    OrificeDiameter {
        /// Diameters, m.
        diameter_m: Vec<Finite>,
    },
    /// Radial clearance of one leak, by its place in the regulator's list.
    Clearance {
        /// Its place, from 0.
        leak: u32,
        /// Clearances, m.
        radial_clearance_m: Vec<Finite>,
    },
    /// Dry friction while sliding.
    Friction {
        /// Frictions, N.
        friction_n: Vec<Finite>,
    },
}

/// What one value came to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepValue {
    /// The value, m or N.
    pub value: Finite,
    /// What can be read from its transient; none: see `error`.
    pub summary: Option<MotionSummary>,
    /// Modes at the start's line and demand; none: they weren't found.
    pub stability: Option<RestModes>,
    /// Why there is no transient.
    pub error: Option<ApiError>,
}

/// All values, in their order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SweepAnswer {
    /// One for each value.
    pub values: Vec<SweepValue>,
    /// Every figure of what moves, as taken.
    pub moving: MovingFigures,
    /// Those of them that weren't given.
    pub typical: Vec<MovingFigure>,
}

/// The kinds of long work.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LongWork {
    /// As `regulator.transient`.
    Transient(Box<TransientArgs>),
    /// A sweep.
    Sweep(Box<SweepArgs>),
    /// As `regulator.band`.
    Band(Box<FeedBandArgs>),
    /// As `uncertainty.monte_carlo`.
    MonteCarlo(Box<MonteCarloArgs>),
    /// As `bundle.make`.
    BundleMake(Box<BundleMake>),
    /// As `bundle.look`. Its steps are the bytes read.
    BundleLook(BundleLook),
    /// As `bundle.take_in`. Its steps are the bytes read.
    BundleTakeIn(BundleTakeIn),
    /// As `store.check`.
    StoreCheck(StoreCheckGet),
    /// As `backup.make`.
    BackupMake,
}

/// What long work came to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LongResult {
    /// Of a transient.
    Transient(Box<TransientAnswer>),
    /// Of a sweep.
    Sweep(Box<SweepAnswer>),
    /// Of a band.
    Band(Box<FeedBandAnswer>),
    /// Of a Monte Carlo run.
    MonteCarlo(Box<MonteCarloAnswer>),
    /// Of a bundle made.
    BundleMake(Box<BundleMade>),
    /// Of a look at a bundle.
    BundleLook(Box<BundlePlan>),
    /// Of a bundle taken in.
    BundleTakeIn(Box<BundleTaken>),
    /// Of a check of the store.
    StoreCheck(Box<StoreCheck>),
    /// Of a backup made.
    BackupMake(Box<BackupEntry>),
}

/// Begin long work.
#[derive(Debug, Clone, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaskBegin {
    /// The work.
    pub work: LongWork,
}

/// One task.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaskRef {
    /// Its handle.
    pub task: u32,
}

/// How far a task is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TaskView {
    /// Its handle.
    pub task: u32,
    /// Steps done; never goes back.
    pub done: u32,
    /// Steps in all; 0: nobody knows yet.
    pub total: u32,
    /// Where it stands.
    pub state: TaskState,
}

/// Where a task stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TaskState {
    /// It runs.
    Running,
    /// It was told to stop and soon will.
    Cancelling,
    /// It stopped before its end.
    Cancelled,
    /// It ended with a result.
    Finished(LongResult),
    /// It ended with an error.
    Failed(ApiError),
}
