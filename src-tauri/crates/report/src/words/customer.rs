//! The same answers in plain words, for whoever brought the vehicle. Nothing is promised here that
//! the figures don't say.

use diagnosis::card::Conclusion;
use diagnosis::judgement::{OperatingPoint, RegulationState, SpecificationAnswer};
use diagnosis::repair::OpenPoint;
use model::bench::Verdict;
use model::repair::RepairOption;

/// What a test found.
pub(crate) fn plain_verdict(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::WithinLimit) => "This valve seals as well as its limit asks",
        Some(Verdict::TooCloseToCall) => {
            "This valve seals so close to its limit that our instruments can’t tell the side"
        }
        Some(Verdict::OutsideLimit) => "This valve leaks more than its limit allows",
        None => "The test of this valve gives no clear answer",
    }
}

/// What all checks say together.
pub(crate) fn plain_conclusion(conclusion: Conclusion) -> &'static str {
    match conclusion {
        Conclusion::Unfinished => "Our checks of this valve aren’t finished.",
        Conclusion::Sound => "All our checks together: this valve is in order.",
        Conclusion::Unsettled => "Our checks don’t settle it yet; another one has to.",
        Conclusion::Faulty => "All our checks together: this valve is not in order.",
    }
}

/// What the calculated pressure means where it was looked at.
pub(crate) fn plain_pressure(point: &OperatingPoint) -> &'static str {
    match (point.measured_state, point.against_specification) {
        (RegulationState::FollowsLine, _) => {
            "is not held steady there, because too little comes in"
        }
        (RegulationState::LostControl, _) => "is no longer held steady there",
        (RegulationState::Regulating, Some(SpecificationAnswer::Inside)) => "is as it should be",
        (RegulationState::Regulating, Some(SpecificationAnswer::LikelyInside)) => {
            "is probably as it should be"
        }
        (RegulationState::Regulating, Some(SpecificationAnswer::LikelyOutside)) => {
            "is probably not as it should be"
        }
        (RegulationState::Regulating, Some(SpecificationAnswer::Outside)) => {
            "is not as it should be"
        }
        (RegulationState::Regulating, None) => "can’t be compared with what it should be",
    }
}

/// What was done.
pub(crate) fn plain_option(option: RepairOption) -> &'static str {
    match option {
        RepairOption::Cleaned => "The valve and its bore were cleaned",
        RepairOption::NewValve => "A new valve was fitted",
        RepairOption::SleeveSmallerValve => {
            "The worn bore was lined with a sleeve and a matching valve fitted"
        }
        RepairOption::ReamedOversize => "The worn bore was machined true and a larger valve fitted",
        RepairOption::ReliefAdded => {
            "A relief was added, which limits the pressure; it doesn’t mend what leaks"
        }
        RepairOption::BodyReplaced => "The valve body was replaced",
        RepairOption::Other => "Another repair was made",
        RepairOption::OrificeChanged => {
            "The small opening that steadies the valve was changed for another size"
        }
    }
}

/// What a repair leaves open.
pub(crate) fn plain_open(point: OpenPoint) -> &'static str {
    match point {
        OpenPoint::NoTestBefore => {
            "There was no test before the repair, so we can’t show how much it changed."
        }
        OpenPoint::NotPredicted => "We could not calculate what the repair should do.",
        OpenPoint::PredictedOutsideSpecification => {
            "By our calculation the pressure may not come back to where it should be."
        }
        OpenPoint::NotTestedAgain => "It has not been tested since the repair.",
        OpenPoint::AfterNotJudged => "The test since the repair gives no clear answer.",
        OpenPoint::AfterLimitNotMet => "The test since the repair doesn’t clearly meet the limit.",
        OpenPoint::AfterOutsideSpecification => {
            "The pressure calculated since the repair isn’t clearly where it should be."
        }
        OpenPoint::AfterOutsidePrediction => {
            "The repair did something else than we calculated; we have to look for the reason."
        }
        OpenPoint::AfterNotDecided => {
            "Nobody has signed off the result of the test since the repair."
        }
        OpenPoint::LeakRemains => "The leak itself remains; the relief limits what it can do.",
        OpenPoint::OilCheckOutside => {
            "Tried with hot oil, the pressure was not where it should be."
        }
        OpenPoint::OilCheckOpen => {
            "Tried with hot oil, the result doesn’t say yet whether the pressure holds."
        }
    }
}
