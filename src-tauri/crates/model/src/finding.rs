//! Findings: what is odd about people's data. They are answers, not errors: the data is kept.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Finite;

/// How much a finding matters to the person reading it.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Worth knowing; nothing has to change.
    Note,
    /// Believable but odd, or it costs a judgement: look again.
    Doubt,
    /// Can't be used as it stands: the calculation is withheld until it is put right.
    Wrong,
}

/// One finding about one place. The interface has words for every code.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Finding {
    /// How much it matters.
    pub severity: Severity,
    /// What was found, from the closed set.
    pub code: FindingCode,
    /// The field it stands at, as named on the wire, e.g. `readings[1].vacuum_pa`; empty when it
    /// is about the whole.
    pub field: String,
    /// The lower bound, the upper bound, or the value that the words need; SI.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low: Option<Finite>,
    /// Upper bound, SI.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high: Option<Finite>,
}

impl Finding {
    /// A finding without bounds.
    #[must_use]
    pub fn at(severity: Severity, code: FindingCode, field: impl Into<String>) -> Self {
        Self {
            severity,
            code,
            field: field.into(),
            low: None,
            high: None,
        }
    }

    /// The same finding with the bounds that were passed.
    #[must_use]
    pub fn with_bounds(mut self, low: f64, high: f64) -> Self {
        self.low = Finite::new(low);
        self.high = Finite::new(high);
        self
    }
}

/// Every finding that the core can make. Closed: a new one breaks the build of the interface until
/// it has words.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FindingCode {
    /// A needed text or number is missing.
    Missing,
    /// A number lies outside what can be true of such a thing.
    OutOfRange,
    /// A vacuum reading at or above the barometer: no vacuum can be deeper than the air is thick.
    DeeperThanBarometer,
    /// The stand pulls less with its hose closed than on the bore.
    DeadHeadWorseThanReading,
    /// A calibrated orifice reads deeper than the dead-headed stand.
    OrificeBetterThanDeadHead,
    /// The blank (plug and plate alone) leaks more than the bore with its valve.
    BlankWorseThanReading,
    /// The bore reads as deep as plug and plate alone, or as the closed hose: it leaks less than
    /// this test can show.
    AsTightAsBlank,
    /// Oil on the lands reads deeper than the gap is tight: a reading within the limit proves
    /// nothing.
    OiledReadsDeeper,
    /// The barometer can't belong to the altitude entered, or looks corrected to sea level.
    BarometerLooksSeaLevel,
    /// Fewer than two orifice readings: the hose's resistance can't be told from the pump's pull.
    OneOrificeOnly,
    /// The orifice readings don't fit one stand: its calibration is doubtful.
    StandFitPoor,
    /// Readings that were not taken with the valve turned and the plug seated anew don't count as
    /// repeats.
    NotIndependentRepeats,
    /// One reading alone says nothing about its own spread.
    SingleReading,
    /// The readings differ by more than the gauge explains.
    ReadingsScatter,
    /// No blank reading: the leak of plug and plate is counted as the bore's.
    NoBlank,
    /// The balance orifice takes a large part of the pressure drop.
    OrificeShareLarge,
    /// The bore wasn't set up as the limit asks: the limit doesn't hold for this reading.
    SetupDiffers,
    /// Nothing is known of the gauge: a wide uncertainty was taken.
    GaugeUnknown,
    /// The profile has no limit at this test point.
    NoLimit,
    /// The profile lacks dimensions for the pressure prediction.
    ProfileIncomplete,
    /// An opening of the profile works the wrong way round.
    OpeningReversed,
    /// Two dimensions of the profile contradict each other.
    DimensionsContradict,
    /// The instrument's calibration is overdue.
    CalibrationOverdue,
    /// The clearance lies outside what the leak model was checked for.
    ClearanceOutsideModel,
    /// Two people changed this at the same time; the later one stands.
    ConcurrentEdit,
    /// A seal of this bore was not tested, so the prediction carries a band for it.
    UntestedSeal,
    /// The oil's viscosity is extrapolated beyond its two points.
    ViscosityExtrapolated,
    /// The seat of a ball relief is as wide as its ball, or wider: the ball falls through.
    SeatLargerThanBall,
    /// A limit without the one who set it.
    SourceMissing,
    /// Nobody entered what the parts stand, so the window has no upper end.
    ReliefLimitMissing,
    /// What the parts are said to stand lies within normal regulation: there is no window.
    ReliefLimitBelowRegulation,
    /// The relief opens where the valve still regulates; `low` is where regulation ends.
    CracksBelowRegulation,
    /// The relief opens within the specified band; `high` is the band's upper end.
    CracksWithinSpecification,
    /// The relief opens only above what the parts stand; `high` is that.
    CracksAboveLimit,
    /// The relief doesn't hold the worst cross leak below what the parts stand; `low` is the
    /// pressure that is reached.
    ReliefCapacityTooSmall,
    /// No clearance is known to compute the worst cross leak from.
    CrossLeakUnknown,
    /// The worst cross leak doesn't open the relief.
    ReliefStaysShut,
    /// A valve as wide as its bore, or wider.
    ValveLargerThanBore,
    /// Bore less valve gives a clearance that no valve works with; `low` is the clearance.
    ClearanceImplausible,
    /// A dimension wasn't entered, so no pressure can be predicted.
    DimensionMissing,
    /// The bore wasn't entered: it was taken from the test before.
    BoreFromTest,
    /// Nobody said how far the measured diameters may be off; `low` is what was taken.
    DiameterUncertaintyUnknown,
    /// The spring wasn't entered: the old one was taken.
    SpringAsBefore,
    /// The spring holds another pressure on the new area; `low` is the load that would fit, `high`
    /// the pressure that this one holds.
    SpringDoesNotFit,
    /// No dimension of the other body was entered: it was taken as new, by the profile.
    BodyAsNew,
    /// A relief is said to be added, but no relief check says which.
    ReliefNotChecked,
    /// No judged test before the repair, so nothing is known of the wear that stays.
    NoTestBefore,
    /// The dimensions and the spring are those of the repair on record.
    ProfileAsRepaired,
    /// Nothing is known of the instrument: usual limits of error were taken.
    InstrumentUnknown,
    /// The profile has no land of this name.
    LandUnknown,
    /// Two lands share a stretch of the bore.
    LandsOverlap,
    /// A land as wide as its bore, or wider; `high` is the bore.
    LandWiderThanBore,
    /// Something lies beyond an end of the bore; `low` and `high` are its ends.
    OutsideBore,
    /// Two ports on one side share a stretch of the bore.
    PortsOverlap,
    /// An end that lies before its beginning.
    EndBeforeStart,
    /// The land doesn't cover the stretch that it should seal where the valve regulates.
    SealNotCovered,
    /// The supply is shut with the spool at rest: the valve never feeds.
    SupplyShutAtRest,
    /// The supply still stands open at full travel: the valve never regulates; `low` is the travel
    /// that would shut it.
    SupplyOpenAtFullTravel,
    /// The exhaust doesn't open within the travel; `low` is the travel that would open it.
    ExhaustNeverOpens,
    /// The exhaust opens before the supply has shut: line runs to the sump.
    ExhaustOpensEarly,
    /// The spring holds another pressure than the set one, P = F / A; `low` is what it holds,
    /// `high` the load that would hold the set pressure.
    SpringHoldsOther,
    /// The set pressure lies outside its own window.
    SetpointOutsideWindow,
    /// The lower end of a window lies above its upper one.
    WindowReversed,
    /// A name that is given twice in one bore.
    NameTwice,
    /// A name that nothing in the bore has.
    NameUnknown,
    /// Holes or notches that the port has no room for.
    WindowLargerThanPort,
    /// Holes or notches side by side don't fit around the bore.
    WindowsWiderThanBore,
    /// A test point that isolates no land.
    IsolatesNothing,
    /// A reading outside what its instrument measures; `low` and `high` are its range, as far as it
    /// is on record. The reading is kept.
    OutsideInstrument,
    /// A coil's resistance, carried to the temperature of its limits, lies outside them; `low` and
    /// `high` are the resistance there with the error of its instrument.
    CoilOutsideLimits,
    /// As [`FindingCode::CoilOutsideLimits`], but a limit lies within the error.
    CoilTooCloseToCall,
    /// Another balance orifice in a bore that has none by its profile.
    NoOrificeToChange,
    /// A reamer takes off more than the sheet allows for such a cut; `low` is what it takes off,
    /// `high` what is allowed.
    StockTooLarge,
    /// A finishing cut takes off less than the sheet asks for: a reamer rubs instead of cutting;
    /// `low` is what it takes off, `high` what is asked.
    StockTooSmall,
    /// A cut that takes nothing off; `low` is its size, `high` that before it.
    CutTakesNothing,
    /// The last cut leaves another size than the sheet asks for; `low` and `high` are its limits.
    LastCutMissesSize,
    /// At the small end the reamer leaves worn places untouched; `low` is its least size, `high`
    /// the bore where it is largest.
    DoesNotCleanUp,
    /// Less metal would be left than must be; `low` is what is left, `high` what must be.
    WallLeftTooThin,
    /// The pilot doesn't go into the unworn bore; `low` is the pilot at its largest, `high` the bore.
    PilotWontEnter,
    /// The pilot has more play than the sheet allows; `low` is the play, `high` what is allowed.
    PilotPlayLarge,
    /// Nobody measured the unworn part of the bore that guides the pilot.
    PilotNotChecked,
    /// The reamer doesn't reach past the last port or land; `low` is its depth, `high` what is
    /// needed.
    DepthTooShort,
    /// The sleeve fits otherwise than the sheet says; `low` and `high` are the gap on the diameter.
    SeatFitOther,
    /// The sleeve's openings stand so far beside their ports that the narrowest is shut; `low` is
    /// how far, `high` its width.
    PortsShut,
    /// The limits of a size aren't those of the class that is said; `low` and `high` are the
    /// class's.
    ClassContradicts,
    /// A class of ISO 286 that isn't known here, or not at this size.
    ClassUnknown,
    /// No temperature with a measurement: taken as read at 20 °C.
    TemperatureMissing,
    /// A step that needs a measurement is ticked without one.
    StepWithoutMeasurement,
    /// A measurement lies outside its limits; `low` and `high` are the limits.
    SizeOutsideLimits,
    /// A measurement lies so close to a limit that its uncertainty can't tell.
    SizeTooCloseToCall,
    /// A caution of this work wasn't read in this job: nothing of it goes on record, or is signed,
    /// before it is.
    CautionUnread,
    /// No line pressure was noted beside a reading, so the model can't be asked about it.
    LineNotNoted,
    /// No oil temperature was noted beside a reading, so the model can't be asked about it.
    OilTemperatureNotNoted,
    /// The oil was colder than the unit runs hot; `low` is how hot it runs. Cold oil hides a leak.
    OilNotHot,
    /// Another oil than the unit's: the prediction is for the unit's.
    OtherOil,
    /// The regulated pressure was read above line by more than the gauges explain.
    FeedAboveLine,
    /// Line above the highest of the unit's profile; `high` is that.
    LineAboveHighest,
    /// The tap isn't in the unit's profile any longer.
    TapUnknown,
    /// Feed was read lower with line rising than falling, by more than the gauges explain: the
    /// directions look swapped.
    DirectionsLookSwapped,
    /// A reading after a cut names none of the sheet's cuts, so nothing says what it should be.
    CutNotOnSheet,
}
