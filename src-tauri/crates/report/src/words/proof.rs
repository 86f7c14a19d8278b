//! Taps and hot-oil checks in words.

use diagnosis::oil_check::{OilBasis, OilSettle};
use model::bench::Verdict;
use model::oil_check::LineDirection;
use model::tap_reading::TapPlace;

/// Where a pressure was read.
pub(crate) fn tap_place(place: TapPlace) -> &'static str {
    match place {
        TapPlace::Idle => "in the car at idle",
        TapPlace::Driving => "while driving",
        TapPlace::Bench => "on the bench",
    }
}

/// A reading at a tap beside what the leak predicts.
pub(crate) fn beside(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::WithinLimit => "agrees with what its leak predicts",
        Verdict::TooCloseToCall => "too close to what its leak predicts to call",
        Verdict::OutsideLimit => "contradicts what its leak predicts",
    }
}

/// Which way line was going.
pub(crate) fn direction(direction: LineDirection) -> &'static str {
    match direction {
        LineDirection::Rising => "rising",
        LineDirection::Falling => "falling",
    }
}

/// A point against the predicted band.
pub(crate) fn in_band(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::WithinLimit) => "fits the band",
        Some(Verdict::TooCloseToCall) => "can’t say",
        Some(Verdict::OutsideLimit) => "outside the band",
        None => "not predicted",
    }
}

/// Whether a circuit holds.
pub(crate) fn oil_verdict(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::WithinLimit => "Holds, as predicted and as specified.",
        Verdict::TooCloseToCall => "Can’t be said yet.",
        Verdict::OutsideLimit => "Doesn’t hold, or not as predicted.",
    }
}

/// From what a prediction was made.
pub(crate) fn oil_basis(basis: OilBasis) -> &'static str {
    match basis {
        OilBasis::Repair => "what the repair’s dimensions should do",
        OilBasis::Measured => "what was measured of the bore",
        OilBasis::AsNew => "the profile as new; nothing was measured",
    }
}

/// Whether friction explains the difference between rising and falling.
pub(crate) fn friction(verdict: Option<Verdict>) -> &'static str {
    match verdict {
        Some(Verdict::WithinLimit) => "friction explains it",
        Some(Verdict::TooCloseToCall) => "friction may explain it",
        Some(Verdict::OutsideLimit) => "more than friction explains",
        None => "not predicted",
    }
}

/// What would settle a hot-oil check.
pub(crate) fn oil_settle(settle: OilSettle) -> &'static str {
    match settle {
        OilSettle::MeasureHighestLine => {
            "Read at the highest line pressure that the service information allows: faults show there."
        }
        OilSettle::MeasureIdleLine => "Read at the line pressure of hot idle.",
        OilSettle::MeasureRising => "Read with line rising.",
        OilSettle::MeasureFalling => "Read with line falling.",
        OilSettle::HeatOil => "Heat the oil to what the unit runs at: cold oil hides a leak.",
        OilSettle::UseUnitOil => "Use the unit’s own oil.",
        OilSettle::EnterDimensions => {
            "Test the bore, or enter the dimensions that the prediction needs."
        }
        OilSettle::EnterSpecification => {
            "Enter the band that the service information allows, or read where the valve regulates."
        }
        OilSettle::BetterGauge => {
            "Read with a gauge of smaller error, or enter what the gauge has."
        }
        OilSettle::FreeValve => "Free the valve: it drags more than its friction says.",
        OilSettle::TestAgain => "Look again at valve, spring and orifice, and test the bore again.",
    }
}
