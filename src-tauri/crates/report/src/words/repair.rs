//! Repairs and reliefs in words.

use diagnosis::relief::{ClearanceSource, WindowAnswer};
use diagnosis::repair::OpenPoint;
use model::relief_check::ReliefPresence;
use model::repair::RepairOption;
use model::shop_part::PartName;

/// What was done.
pub(crate) fn option(option: RepairOption) -> &'static str {
    match option {
        RepairOption::Cleaned => "Cleaned",
        RepairOption::NewValve => "New valve",
        RepairOption::SleeveSmallerValve => "Sleeve with a smaller valve",
        RepairOption::ReamedOversize => "Reamed, oversize valve",
        RepairOption::ReliefAdded => "Relief added",
        RepairOption::BodyReplaced => "Body replaced",
        RepairOption::Other => "Something else, see the notes",
        RepairOption::OrificeChanged => "Balance orifice changed",
    }
}

/// A part of the shop's own list.
pub(crate) fn shop_part(part: PartName) -> &'static str {
    match part {
        PartName::Valve => "Valve",
        PartName::Sleeve => "Sleeve",
        PartName::Spring => "Spring",
        PartName::Reamer => "Reamer",
    }
}

/// What a repair leaves open.
pub(crate) fn open_point(point: OpenPoint) -> &'static str {
    match point {
        OpenPoint::NoTestBefore => {
            "No judged test before the repair, so there is nothing to compare with."
        }
        OpenPoint::NotPredicted => {
            "Nothing could be predicted; dimensions are missing or don’t fit."
        }
        OpenPoint::PredictedOutsideSpecification => {
            "The prediction reaches outside the specified band."
        }
        OpenPoint::NotTestedAgain => {
            "The bore was not tested since. A repair is proved by a test, not by its dimensions."
        }
        OpenPoint::AfterNotJudged => "The test since gives no pressure; its section says why.",
        OpenPoint::AfterLimitNotMet => "The reading since doesn’t clearly meet its limit.",
        OpenPoint::AfterOutsideSpecification => {
            "The pressure since isn’t clearly inside the specified band."
        }
        OpenPoint::AfterOutsidePrediction => {
            "The pressure since lies outside what was predicted: look for what the dimensions \
             don’t tell."
        }
        OpenPoint::AfterNotDecided => "The decision on the test since isn’t on record.",
        OpenPoint::LeakRemains => "The relief contains; the leak and the lost pump flow remain.",
        OpenPoint::OilCheckOutside => {
            "The last hot-oil check says that the circuit doesn’t hold, or not as predicted."
        }
        OpenPoint::OilCheckOpen => "The last hot-oil check leaves open whether the circuit holds.",
    }
}

/// Whether a relief is there.
pub(crate) fn presence(presence: ReliefPresence) -> &'static str {
    match presence {
        ReliefPresence::Fitted => "in the unit",
        ReliefPresence::ToBeAdded => "to be added",
    }
}

/// Where a relief's cracking pressure sits.
pub(crate) fn window(answer: WindowAnswer) -> &'static str {
    match answer {
        WindowAnswer::Inside => "Above normal regulation and below what the parts stand.",
        WindowAnswer::BelowRegulation => "Opens where the valve still regulates.",
        WindowAnswer::AboveLimit => "Opens only above what the parts stand.",
        WindowAnswer::Unknown => "One end of its window isn’t known.",
    }
}

/// Where a clearance comes from.
pub(crate) fn clearance_source(source: ClearanceSource) -> &'static str {
    match source {
        ClearanceSource::Entered => "as entered",
        ClearanceSource::LastTest => "by the last judged test",
    }
}
