//! Findings in words, with their bounds in the shop's units. Total: a new code breaks the build.

use model::Finding;
use model::finding::{FindingCode, Severity};

use crate::quantity::{Quantity, Shown};

/// How much a finding matters, as the word before it.
pub(crate) fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "Note:",
        Severity::Doubt => "Look again:",
        Severity::Wrong => "Needs fixing:",
    }
}

/// A finding as a sentence.
pub(crate) fn finding(finding: &Finding, shown: &Shown) -> String {
    let text = code(finding.code);
    match (finding.low, finding.high, bounds(finding.code)) {
        (Some(low), Some(high), Some((of_low, of_high))) => text
            .replace("{low}", &shown.value(*low, of_low))
            .replace("{high}", &shown.value(*high, of_high)),
        _ => text
            .replace("{low}", "a value that wasn’t kept")
            .replace("{high}", "a value that wasn’t kept"),
    }
}

/// What the bounds of a finding are, where its words name them.
fn bounds(code: FindingCode) -> Option<(Quantity, Quantity)> {
    match code {
        FindingCode::ReliefLimitBelowRegulation
        | FindingCode::CracksBelowRegulation
        | FindingCode::CracksWithinSpecification
        | FindingCode::CracksAboveLimit
        | FindingCode::ReliefCapacityTooSmall => Some((Quantity::Pressure, Quantity::Pressure)),
        FindingCode::ClearanceImplausible | FindingCode::DiameterUncertaintyUnknown => {
            Some((Quantity::Clearance, Quantity::Clearance))
        }
        FindingCode::LandWiderThanBore
        | FindingCode::OutsideBore
        | FindingCode::SupplyOpenAtFullTravel
        | FindingCode::ExhaustNeverOpens => Some((Quantity::Length, Quantity::Length)),
        FindingCode::OilNotHot => Some((Quantity::Temperature, Quantity::Temperature)),
        FindingCode::LineAboveHighest => Some((Quantity::Pressure, Quantity::Pressure)),
        FindingCode::SpringHoldsOther => Some((Quantity::Pressure, Quantity::Force)),
        FindingCode::SpringDoesNotFit => Some((Quantity::Force, Quantity::Pressure)),
        FindingCode::StockTooLarge
        | FindingCode::StockTooSmall
        | FindingCode::PilotPlayLarge
        | FindingCode::SeatFitOther => Some((Quantity::Clearance, Quantity::Clearance)),
        FindingCode::CutTakesNothing
        | FindingCode::LastCutMissesSize
        | FindingCode::DoesNotCleanUp
        | FindingCode::WallLeftTooThin
        | FindingCode::PilotWontEnter
        | FindingCode::DepthTooShort
        | FindingCode::PortsShut
        | FindingCode::ClassContradicts
        | FindingCode::SizeOutsideLimits
        | FindingCode::SizeTooCloseToCall => Some((Quantity::Length, Quantity::Length)),
        _ => None,
    }
}

fn code(code: FindingCode) -> &'static str {
    match code {
        FindingCode::Missing => "Nothing is entered here yet.",
        FindingCode::OutOfRange => {
            "No such thing can have this value. Check the number and its unit."
        }
        FindingCode::OutsideInstrument => {
            "The reading lies outside what its instrument measures. It is kept; read again with one that reaches."
        }
        FindingCode::CoilOutsideLimits => {
            "Carried to the temperature of its limits, the resistance lies outside them."
        }
        FindingCode::CoilTooCloseToCall => {
            "Carried to the temperature of its limits, the resistance is too close to one of them to call."
        }
        FindingCode::CautionUnread => {
            "A caution of this work wasn’t acknowledged in this job yet: nothing of it goes on record, or is signed, before it is."
        }
        FindingCode::LineNotNoted => {
            "No line pressure was noted at that moment, so the reading can’t be held against what the leak predicts."
        }
        FindingCode::OilTemperatureNotNoted => {
            "No oil temperature was noted: what a leak does depends on it most of all."
        }
        FindingCode::OilNotHot => {
            "The oil was colder than the {low} at which the unit runs. Cold oil hides a leak."
        }
        FindingCode::OtherOil => {
            "Another oil than the unit’s was used; the prediction is for the unit’s."
        }
        FindingCode::FeedAboveLine => {
            "Read above line by more than the gauges explain. Check the gauges and which hose is which."
        }
        FindingCode::LineAboveHighest => {
            "Line above {high}, the highest of the unit’s profile. Never go beyond what the service information allows."
        }
        FindingCode::TapUnknown => "The tap is no longer in the unit’s profile.",
        FindingCode::DirectionsLookSwapped => {
            "Lower with line rising than falling, by more than the gauges explain: the directions look swapped."
        }
        FindingCode::DeeperThanBarometer => {
            "Deeper than the air is thick here: no gauge can read that. Check number, unit and barometer."
        }
        FindingCode::DeadHeadWorseThanReading => {
            "With its hose closed the stand pulls less than on the bore. One of the two can’t be right."
        }
        FindingCode::OrificeBetterThanDeadHead => {
            "An open orifice reads deeper than the closed hose. One of the two can’t be right."
        }
        FindingCode::BlankWorseThanReading => {
            "Plug and plate alone leak more than with the bore. Seat the plug anew and take the blank again."
        }
        FindingCode::AsTightAsBlank => {
            "As deep as plug and plate alone, or as the closed hose: the bore leaks less than this test can show."
        }
        FindingCode::OiledReadsDeeper => {
            "Oil seals: the reading is deeper than the gap is tight. Within the limit it proves nothing."
        }
        FindingCode::BarometerLooksSeaLevel => {
            "This looks like a weather report, which is corrected to sea level. The pressure at the bench is needed."
        }
        FindingCode::OneOrificeOnly => {
            "One calibrated orifice gives no check of the stand. Read a second one."
        }
        FindingCode::StandFitPoor => {
            "The orifice readings don’t fit one stand. Look for a leak in the hose or a wrong orifice."
        }
        FindingCode::NotIndependentRepeats => {
            "Readings without a fresh seat of the plug and a turn of the valve count as one."
        }
        FindingCode::SingleReading => "One reading says nothing about how well it repeats.",
        FindingCode::ReadingsScatter => {
            "The readings lie further apart than the gauge explains. Look at the plug’s seat and for dirt."
        }
        FindingCode::NoBlank => {
            "Without a blank, plug and plate are counted as part of the bore’s leak."
        }
        FindingCode::OrificeShareLarge => {
            "The balance orifice takes much of the drop, so little of it shows the bore."
        }
        FindingCode::NoLimit => "The profile has no limit for this test point.",
        FindingCode::ProfileIncomplete => "The unit’s profile lacks something that is needed here.",
        FindingCode::OpeningReversed => {
            "As entered, this opening moves the wrong way as the pressure rises."
        }
        FindingCode::DimensionsContradict => "These dimensions contradict each other.",
        FindingCode::CalibrationOverdue => "The instrument’s calibration is overdue.",
        FindingCode::ClearanceOutsideModel => {
            "The clearance lies outside what the leak’s law was checked for."
        }
        FindingCode::ConcurrentEdit => {
            "Two people changed this at the same time. The history shows both."
        }
        FindingCode::UntestedSeal => {
            "A seal that this test doesn’t reach matters too. Its wear is not known."
        }
        FindingCode::SetupDiffers => {
            "This is not how the test point is meant to be set up, so its limit may not fit."
        }
        FindingCode::GaugeUnknown => {
            "Nothing is known of this stand’s gauge, so a wide uncertainty is taken."
        }
        FindingCode::ViscosityExtrapolated => {
            "The oil’s viscosity is taken from beyond the points on its data sheet."
        }
        FindingCode::SeatLargerThanBall => {
            "The seat is as wide as the ball or wider: the ball would fall through."
        }
        FindingCode::SourceMissing => "Say where this comes from.",
        FindingCode::ReliefLimitMissing => {
            "Without it the window has no upper end, and nobody can say whether the relief protects the parts."
        }
        FindingCode::ReliefLimitBelowRegulation => {
            "This lies within normal regulation, which reaches {low}: there is no window for a relief."
        }
        FindingCode::CracksBelowRegulation => {
            "It opens at {high}, while the valve regulates up to {low}: it would pass oil all the time."
        }
        FindingCode::CracksWithinSpecification => {
            "It opens at {low}, below the highest specified pressure of {high}."
        }
        FindingCode::CracksAboveLimit => "It opens only at {low}; the parts stand {high}.",
        FindingCode::ReliefCapacityTooSmall => {
            "Too small for the worst cross leak: feed reaches {low}; the parts stand {high}."
        }
        FindingCode::CrossLeakUnknown => {
            "Without a clearance the worst cross leak can’t be computed."
        }
        FindingCode::ReliefStaysShut => "The worst cross leak doesn’t open it.",
        FindingCode::ValveLargerThanBore => "The valve is as wide as its bore or wider.",
        FindingCode::ClearanceImplausible => {
            "This leaves a clearance of {low}. Look at both diameters again."
        }
        FindingCode::DimensionMissing => "Not entered: without it no pressure can be predicted.",
        FindingCode::BoreFromTest => {
            "Not entered: the bore is taken as the test before found it, off-centre or not, so the band is wider."
        }
        FindingCode::DiameterUncertaintyUnknown => "Not entered: {low} is taken.",
        FindingCode::SpringAsBefore => "Not entered: the spring is taken as it was.",
        FindingCode::SpringDoesNotFit => {
            "This spring holds {high} on the new area. {low} would hold the set pressure."
        }
        FindingCode::BodyAsNew => "Not entered: the other body is taken as new, by the profile.",
        FindingCode::ReliefNotChecked => {
            "No relief check of this job says which relief is to be added, so the prediction goes without one."
        }
        FindingCode::NoTestBefore => {
            "No judged test before, so nothing is known of the wear that stays."
        }
        FindingCode::ProfileAsRepaired => "Judged by the dimensions of the repair on record.",
        FindingCode::InstrumentUnknown => {
            "Nothing is known of the instrument: usual limits of error were taken."
        }
        FindingCode::LandUnknown => "The profile has no land of this name.",
        FindingCode::LandsOverlap => {
            "Two lands can’t share a stretch of the bore. Check where each begins and ends."
        }
        FindingCode::LandWiderThanBore => {
            "As wide as its bore or wider ({high}): it can’t be inside it."
        }
        FindingCode::OutsideBore => "Lies outside the bore, which runs from {low} to {high}.",
        FindingCode::PortsOverlap => {
            "Two ports on this side share a stretch of the bore. Is that so in the casting?"
        }
        FindingCode::EndBeforeStart => "Ends before it begins. Check both positions.",
        FindingCode::SealNotCovered => {
            "Where the valve regulates, the land doesn’t cover the stretch that it should seal."
        }
        FindingCode::SupplyShutAtRest => {
            "Shut with the spool at rest: this valve would never feed its circuit."
        }
        FindingCode::SupplyOpenAtFullTravel => {
            "Still open at full travel: the valve would never regulate. It takes {low} of travel to shut it."
        }
        FindingCode::ExhaustNeverOpens => "Doesn’t open within the travel; it would take {low}.",
        FindingCode::ExhaustOpensEarly => {
            "Opens before the supply has shut: line would run to the sump all the time."
        }
        FindingCode::SpringHoldsOther => {
            "By load over area this spring holds {low}. The set pressure takes a load of {high}."
        }
        FindingCode::SetpointOutsideWindow => "The set pressure lies outside its own window.",
        FindingCode::WindowReversed => "The upper end lies below the lower one.",
        FindingCode::NameTwice => {
            "This name is given twice in the bore. Openings and seals couldn’t tell which is meant."
        }
        FindingCode::NameUnknown => "Nothing in the bore has this name any more. Choose again.",
        FindingCode::WindowsWiderThanBore => {
            "So many holes or notches don’t fit side by side around the bore."
        }
        FindingCode::WindowLargerThanPort => {
            "The port has no room for holes or notches of this size."
        }
        FindingCode::IsolatesNothing => "Isolates no land: a reading here would tell of no leak.",
        FindingCode::NoOrificeToChange => {
            "The profile has no balance orifice here: there is none to change."
        }
        FindingCode::StockTooLarge => {
            "Takes {low} off the diameter, more than the {high} that this cut may."
        }
        FindingCode::StockTooSmall => {
            "Takes {low} off the diameter, less than the {high} that a finishing cut should: the reamer rubs instead of cutting."
        }
        FindingCode::CutTakesNothing => {
            "At {low} this reamer takes nothing off: the bore before it has {high}."
        }
        FindingCode::LastCutMissesSize => {
            "The last cut may leave a size outside the finished bore’s limits, {low} to {high}."
        }
        FindingCode::DoesNotCleanUp => {
            "At its least size, {low}, the reamer leaves worn places untouched: the bore has {high} where it is largest."
        }
        FindingCode::WallLeftTooThin => "{low} of metal would be left; at least {high} must be.",
        FindingCode::PilotWontEnter => {
            "The pilot may have {low}, and the unworn bore {high}: it may not go in."
        }
        FindingCode::PilotPlayLarge => {
            "The pilot has up to {low} of play, more than the {high} that is allowed."
        }
        FindingCode::PilotNotChecked => {
            "Pilot or unworn bore isn’t entered: nothing says that the reamer keeps to the bore’s axis."
        }
        FindingCode::DepthTooShort => {
            "{low} is too short: from the first to the last port and land it takes {high}."
        }
        FindingCode::CutNotOnSheet => {
            "Read after a cut that isn’t on the sheet: nothing says what it should be."
        }
        FindingCode::SeatFitOther => {
            "The sleeve doesn’t fit as the sheet says: its gap on the diameter is {low} to {high}."
        }
        FindingCode::PortsShut => {
            "The sleeve’s openings stand {low} beside their ports, and the narrowest port is {high} wide: it is shut."
        }
        FindingCode::ClassContradicts => {
            "The limits entered aren’t those of this class: {low} to {high}."
        }
        FindingCode::ClassUnknown => {
            "No such class of a hole is known here, or not at this size (1 to 30 mm)."
        }
        FindingCode::TemperatureMissing => "No temperature is entered: taken as read at 20 °C.",
        FindingCode::StepWithoutMeasurement => {
            "Ticked, but what is to be measured here isn’t on the sheet."
        }
        FindingCode::SizeOutsideLimits => "Outside its limits.",
        FindingCode::SizeTooCloseToCall => {
            "Too close to call: a limit lies within what the instrument may be off."
        }
    }
}
