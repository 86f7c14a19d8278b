//! What the repair options say: one answer for each way, the shapes that the interface draws.

use model::finding::Finding;
use model::repair::RepairWork;
use model::shop_part::PartName;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::assumed::Assumed;
use crate::card::Settle;
use crate::judgement::{ConsequenceAnswer, Span};

/// Every way out of a bore's wear, the best supported first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairOptions {
    /// One answer for each way, in the order of their rank.
    pub options: Vec<RepairOutlook>,
    /// What the measurements can't decide; none: they decide.
    pub undecided: Option<Undecided>,
    /// What is odd about the figures entered for planning.
    pub findings: Vec<Finding>,
}

/// A way out.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Leave it as it is.
    Leave,
    /// Clean bore and valve.
    Clean,
    /// Another valve in the same bore: grooved, slightly smaller or larger.
    OtherValve,
    /// A sleeve with a smaller valve and its spring.
    Sleeve,
    /// Ream, with an oversize valve.
    Ream,
    /// Add a relief: it contains the fault, the leak remains.
    AddRelief,
    /// Another valve body.
    ReplaceBody,
    /// A balance orifice of another size: back to the profile's, or a larger one that lets a leak
    /// matter less.
    ChangeOrifice,
}

/// One way worked out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairOutlook {
    /// Which.
    pub way: Way,
    /// Its place, from 1.
    pub rank: u32,
    /// How it stands.
    pub standing: Standing,
    /// Why it stands there, the weightiest first.
    pub reasons: Vec<RankReason>,
    /// Whether it can be done.
    pub feasibility: Feasibility,
    /// What choosing it would record; none: nothing is done.
    pub work: Option<RepairWork>,
    /// Parts and dimensions.
    pub needs: Needs,
    /// Clearance on the diameter at 20 °C, m; none while it isn't known.
    pub clearance_cold_m: Option<Span>,
    /// Clearance on the diameter in hot oil, m; zero or less: the valve seizes.
    pub clearance_hot_m: Option<Span>,
    /// What the last test's stand would read.
    pub reading: ReadingAhead,
    /// Regulated pressure in hot oil.
    pub hot: ConsequenceAnswer,
    /// Regulated pressure in cold oil.
    pub cold: ConsequenceAnswer,
    /// Whether it would hunt.
    pub motion: MotionAhead,
    /// How much work it is.
    pub effort: Effort,
    /// What may go wrong, or stays wrong.
    pub risks: Vec<Risk>,
    /// What to look at while doing it.
    pub checks: Vec<NamedCheck>,
    /// What speaks against the figures.
    pub warnings: Vec<OptionWarning>,
    /// What is odd, at the fields of the work.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
}

/// How a way stands, best first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// The whole predicted band lies within what is specified.
    Holds,
    /// The likely value does.
    LikelyHolds,
    /// Nothing can be told.
    Unknown,
    /// It only contains the fault.
    Contained,
    /// The likely value lies outside what is specified.
    LikelyNot,
    /// It breaks a limit.
    BreaksLimit,
    /// It can't be done.
    CantBeDone,
}

/// Why a way stands where it does.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum RankReason {
    /// Something stands in the way of doing it.
    CantBeDone,
    /// A measurement is missing.
    MeasurementMissing,
    /// The valve loses control of the pressure.
    LosesControl,
    /// The whole predicted band lies outside what is specified.
    OutsideSpecification,
    /// The likely pressure lies outside what is specified.
    LikelyOutsideSpecification,
    /// An end of the band lies outside what is specified.
    MayLeaveSpecification,
    /// The whole predicted band lies within what is specified.
    HoldsSpecification,
    /// No pressure can be predicted.
    PressureUnknown,
    /// Spring and orifice as measured don't hold the pressure even with tight seals: a leak that
    /// makes up for it doesn't count.
    PartsDontHold,
    /// The reading is outside its limit.
    ReadingOutsideLimit,
    /// The reading is too close to its limit to call.
    ReadingTooClose,
    /// The reading would be outside its limit.
    WouldMissLimit,
    /// The reading might be outside its limit.
    MightMissLimit,
    /// The pressure holds all the same.
    PressureHoldsAnyway,
    /// The valve sticks or drags.
    ValveSticks,
    /// It may swing, in some of the conditions that were tried.
    MayHunt,
    /// It swings in all of them.
    Hunts,
    /// The leak and the lost pump flow remain.
    OnlyContains,
    /// Nobody measured the metal that would be left.
    WallUnknown,
    /// Nothing has to be done.
    NothingToDo,
    /// Less work than others that hold as well.
    LessEffort,
}

/// Whether a way can be taken.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum Feasibility {
    /// Nothing that is known stands in its way.
    Feasible,
    /// It can't be done.
    Infeasible {
        /// Why.
        obstacles: Vec<Obstacle>,
    },
    /// It can't be told.
    Untold {
        /// What is missing.
        missing: Vec<Unmeasured>,
    },
}

/// What stands in the way.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Obstacle {
    /// No valve in the shop's list fits.
    NoValveInList,
    /// No sleeve in the shop's list fits.
    NoSleeveInList,
    /// No reamer in the shop's list fits.
    NoReamerInList,
    /// No spring in the shop's list holds the pressure.
    NoSpringInList,
    /// Less metal would be left around the bore than must be.
    WallTooThin,
    /// The sleeve's own wall would be too thin.
    SleeveWallTooThin,
    /// The reamer would leave worn places untouched.
    StockDoesNotCleanUp,
    /// The reamer would have to take off more than 2 mm.
    StockTooMuch,
    /// The valve doesn't go into the bore.
    ValveWontEnter,
    /// The valve would seize in hot oil.
    SeizesHot,
    /// The bore is further out of round than a valve without reaming may have it.
    OutOfRound,
    /// The valve leaves less travel than it needs to regulate.
    StrokeTooShort,
    /// The sleeve doesn't reach over all ports and lands.
    SleeveTooShort,
    /// The relief opens within normal regulation, or above what the parts stand.
    ReliefOutsideWindow,
    /// The relief doesn't hold the worst leak below what the parts stand.
    ReliefTooSmall,
    /// The bore has no balance orifice.
    NoOrifice,
}

/// What is missing.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Unmeasured {
    /// The clearance: by a vacuum test, or by diameters.
    Clearance,
    /// The bore's diameters.
    Diameters,
    /// The spring's height where the valve regulates.
    SpringHeight,
    /// A dimension of the profile.
    Profile,
    /// The relief's figures.
    Relief,
    /// What the parts on the circuit stand.
    ReliefLimit,
}

/// Parts and dimensions of a way.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Needs {
    /// Parts of the shop's list.
    pub parts: Vec<PartUse>,
    /// How many other sets of the list would do.
    pub other_sets: u32,
    /// True when the sizes are those that it would take, for no part of the list has them.
    pub supposed: bool,
    /// The valve, m.
    pub valve_diameter_m: Option<Finite>,
    /// The finished bore, m.
    pub bore_diameter_m: Option<Finite>,
    /// Outer diameter of the sleeve, m.
    pub sleeve_outer_m: Option<Finite>,
    /// The bore must become larger than this to clean up, m.
    pub cleans_up_above_m: Option<Finite>,
    /// What the reamer takes off the diameter where the bore is smallest, m.
    pub stock_m: Option<Finite>,
    /// Metal left around the bore, m.
    pub wall_left_m: Option<Finite>,
    /// Gap of the sleeve on the diameter, m; below zero it is a press fit.
    pub seat_gap_m: Option<Span>,
    /// Hard layer that polishing leaves, m; zero or less: it goes through.
    pub layer_left_m: Option<Finite>,
    /// Reaction area of the valve, m².
    pub reaction_area_m2: Option<Finite>,
    /// Spring load where it regulates, re-rated by area, N.
    pub spring_load_n: Option<Finite>,
    /// Spring rate, re-rated by area, N/m.
    pub spring_rate_n_per_m: Option<Finite>,
    /// Shim under the chosen spring, m.
    pub shim_m: Option<Finite>,
    /// True when the spring that is there stays.
    pub spring_kept: bool,
    /// The relief.
    pub relief: Option<ReliefNeeds>,
    /// The balance orifice.
    pub orifice: Option<OrificeNeeds>,
}

/// A balance orifice of another size, beside the one that is there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OrificeNeeds {
    /// True when the other size is the profile's, and the one that is there isn't.
    pub restores: bool,
    /// The one that is there.
    pub kept: OrificeStands,
    /// The other.
    pub changed: OrificeStands,
}

/// What a balance orifice does with the bore as it is, in hot oil at the highest line.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OrificeStands {
    /// Its bore, m.
    pub diameter_m: Finite,
    /// What the leak shifts the pressure by, Pa; none: it can't be told.
    pub shift_pa: Option<Span>,
    /// How small swings go.
    pub motion: MotionAhead,
}

/// The relief of a way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefNeeds {
    /// Ball, m.
    pub ball_diameter_m: Finite,
    /// Seat, m.
    pub seat_diameter_m: Finite,
    /// Load on the seated ball, N.
    pub load_seated_n: Finite,
    /// Rate, N/m.
    pub rate_n_per_m: Finite,
    /// Pressure at which it opens, Pa; none while it can't be told.
    pub cracking_pa: Option<Finite>,
    /// Oil that goes over it to the sump in the worst case, m³/s.
    pub lost_flow_m3_s: Option<Span>,
}

/// A part of the list in its use.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartUse {
    /// The part.
    pub part: Id,
    /// What it is.
    pub kind: PartName,
    /// Its name in the shop's words.
    pub name: String,
    /// Who says what it measures.
    pub source: String,
}

/// The reading that the last test's stand would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum ReadingAhead {
    /// Told.
    Foreseen {
        /// Pa below ambient.
        vacuum_pa: Span,
        /// The limit of the day, Pa below ambient; none without one.
        limit_pa: Option<Finite>,
        /// Where it would stand to that limit.
        against_limit: Option<ReadingStands>,
    },
    /// It can't be told.
    Refused {
        /// Why.
        reason: ReadingRefusal,
    },
}

/// Where a predicted reading stands to its limit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReadingStands {
    /// All of it meets the limit.
    Meets,
    /// The likely value does.
    LikelyMeets,
    /// The likely value misses it.
    LikelyMisses,
    /// All of it misses.
    Misses,
}

/// Why a reading can't be foreseen.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReadingRefusal {
    /// No test of the bore.
    NoTest,
    /// The stand was not calibrated on the day.
    NoCalibratedStand,
    /// The set-up isn't recorded.
    NoSetup,
    /// Oiled, or without its valve: such a test reads no gap.
    OtherSetup,
    /// The clearance isn't known.
    NoClearance,
    /// The profile lacks what the test reaches.
    ProfileIncomplete,
    /// A figure lies outside the laws.
    OutsideModel,
}

/// Whether the valve would swing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum MotionAhead {
    /// Told, by the eigenvalues of the linearised motion.
    Known {
        /// In one word.
        stands: MotionStands,
        /// The least damping ratio of all that was tried; below zero swings grow.
        least_damping_ratio: Finite,
        /// Swings a second there, Hz.
        frequency_hz: Finite,
    },
    /// It can't be told.
    Withheld,
}

/// How small swings go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MotionStands {
    /// They die out, whatever was tried.
    Settles,
    /// They grow in some of what was tried.
    MayHunt,
    /// They grow in all of it.
    Hunts,
}

/// How much work a way is, least first.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Effort {
    /// None.
    Nothing,
    /// Wash and polish.
    Clean,
    /// Change parts.
    ChangeParts,
    /// Add a part to the circuit.
    AddParts,
    /// Machine the body.
    Machine,
    /// Change the body.
    ChangeBody,
}

/// What may go wrong with a way, or stays wrong.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Risk {
    /// Wear goes on.
    WearGoesOn,
    /// It can't be undone.
    CantBeUndone,
    /// Chips left in the body.
    Chips,
    /// The sleeve may leak around its outside, or move.
    SleeveSeat,
    /// Polishing may go through the hard layer.
    HardLayer,
    /// The fault remains.
    FaultRemains,
    /// The other body may be worn too.
    OtherBodyUnknown,
    /// A larger orifice damps the valve less, and quick changes reach it sooner.
    LessDamping,
}

/// What to look at while doing it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum NamedCheck {
    /// The sleeve's openings stand over the ports.
    PortsAligned,
    /// The sleeve's end seals on its face, and nothing stands proud.
    SealingFace,
    /// Lands, length and ends are those of the old valve.
    LandsMatch,
    /// Guide and pilot keep the reamer on the bore's axis.
    GuideAndPilot,
    /// The metal that is left around the bore.
    WallLeft,
    /// Every chip is out.
    CleanAfterMachining,
    /// The valve moves freely, bolted too.
    FreeMovement,
    /// The spring's load at its height, with its shim.
    SpringAtHeight,
    /// The relief opens where it should.
    ReliefCracking,
    /// The other body is measured like this one.
    MeasureOtherBody,
    /// The bore is tested again.
    TestAgain,
    /// The new orifice is measured by pins.
    OrificeByPins,
}

/// What speaks against the figures of a way.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum OptionWarning {
    /// Polishing takes off as much as the hard layer is thick, or more: the bare metal wears fast.
    LayerThrough,
    /// The layer's thickness or what polishing takes off isn't known.
    LayerUnknown,
    /// A mark in the bore is so deep that the layer is through already.
    LayerThroughAlready,
    /// The metal around the bore, or the least of it, wasn't entered.
    WallUnknown,
    /// A nail catches in the bore: diameters say little of such a place.
    BoreScored,
    /// Nobody measured across two directions: the bore may be out of round.
    OutOfRoundUnknown,
    /// At the tight end of the tolerances the valve would seize in hot oil.
    MayBindHot,
    /// Oil passes around the sleeve.
    SeatLeaks,
    /// The prediction is for the sizes that it would take.
    SizesSupposed,
}

/// What the measurements can't decide.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Undecided {
    /// What.
    pub what: UndecidedWhat,
    /// Between which ways.
    pub ways: Vec<Way>,
    /// What would settle it, the best first.
    pub settle: Vec<Settle>,
}

/// What can't be decided.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum UndecidedWhat {
    /// Whether anything has to be done.
    WhetherToRepair,
    /// Which of the first: their predicted bands overlap and none is sure to hold.
    BetweenTheFirst,
}
