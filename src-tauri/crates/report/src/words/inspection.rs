//! An inspection in words.

use diagnosis::card::{Accord, CheckState, Conclusion, Settle, TapBeside};
use diagnosis::judgement::Span;
use model::inspection::{CheckName, Occasion, Outcome};
use model::unit::SolenoidKind;

use super::Mark;
use crate::quantity::{Quantity, Shown};
use crate::text::line;

/// A check.
pub(crate) fn check(check: CheckName) -> &'static str {
    match check {
        CheckName::ValveTrain => "Valve train, order and orientation",
        CheckName::FreeMovement => "Free movement",
        CheckName::WearMarks => "Marks of wear",
        CheckName::Light => "Light past the lands",
        CheckName::Wiggle => "Play by hand",
        CheckName::Vacuum => "Vacuum test",
        CheckName::Diameters => "Diameters",
        CheckName::Spring => "Spring",
        CheckName::OrificeBore => "Balance orifice",
        CheckName::EndPlug => "End plug and seal",
        CheckName::Flatness => "Flatness",
        CheckName::PlateAndBalls => "Plate and check balls",
        CheckName::CrossPassages => "Passage to passage",
        CheckName::FeedScreens => "Screens",
        CheckName::Solenoid => "Solenoid",
        CheckName::ClutchAir => "Clutch, by air at the case",
    }
}

/// When in the job.
pub(crate) fn occasion(occasion: Occasion) -> &'static str {
    match occasion {
        Occasion::AsFound => "as found",
        Occasion::AfterCleaning => "after cleaning",
        Occasion::AfterRepair => "after the repair",
    }
}

/// What a check says by itself.
pub(crate) fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Good => "good",
        Outcome::Measured => "measured",
        Outcome::Doubtful => "look again",
        Outcome::Bad => "bad",
    }
}

/// Its mark.
pub(crate) fn mark_of_outcome(outcome: Outcome) -> Mark {
    match outcome {
        Outcome::Good => Mark::Within,
        Outcome::Measured => Mark::NotJudged,
        Outcome::Doubtful => Mark::Close,
        Outcome::Bad => Mark::Outside,
    }
}

/// How a check stands.
pub(crate) fn check_state(state: CheckState) -> &'static str {
    match state {
        CheckState::Open => "open",
        CheckState::Done => "done",
        CheckState::LeftOut => "left out on purpose",
    }
}

/// A bore in one word.
pub(crate) fn conclusion(conclusion: Conclusion) -> &'static str {
    match conclusion {
        Conclusion::Unfinished => "Not finished",
        Conclusion::Sound => "Holds its pressure",
        Conclusion::Unsettled => "Not settled",
        Conclusion::Faulty => "Doesn’t hold its pressure, or a part is broken",
    }
}

/// Its mark.
pub(crate) fn mark_of_conclusion(conclusion: Conclusion) -> Mark {
    match conclusion {
        Conclusion::Unfinished => Mark::NotJudged,
        Conclusion::Sound => Mark::Within,
        Conclusion::Unsettled => Mark::Close,
        Conclusion::Faulty => Mark::Outside,
    }
}

/// What would settle it.
pub(crate) fn settle(settle: Settle) -> &'static str {
    match settle {
        Settle::Repeat => "Read again, valve turned and plug seated anew.",
        Settle::BetterGauge => "Read with a gauge of smaller error.",
        Settle::FinerScale => "Read with a gauge of finer steps.",
        Settle::ReadBarometer => "Read the barometer at the bench.",
        Settle::MeasureDiameters => "Measure the diameters.",
        Settle::MeasureFriction => "Measure the force that moves the valve.",
        Settle::CleanAndTestAgain => "Clean, dry, and test again.",
        Settle::FindOtherLeak => "Find where else the air goes: plug, seal, passages.",
        Settle::TestOtherSeals => "Test the seals that no test reached.",
        Settle::CleanAndMoveAgain => {
            "Clean valve and bore, and measure the force that moves the valve again."
        }
        Settle::MeasureSpring => {
            "Measure the spring’s load where it regulates, with a tester whose error is known."
        }
        Settle::MeasureOrifice => "Measure the orifice with pins that lie closer together.",
        Settle::MeasurePressure => "Measure the pressure itself, hot, at the tap.",
    }
}

/// How a solenoid makes its pressure.
pub(crate) fn solenoid_kind(kind: SolenoidKind) -> &'static str {
    match kind {
        SolenoidKind::Bleed => "bleed solenoid, passes a shift on in proportion",
        SolenoidKind::PulseWidth => "pulse-width solenoid, passes a shift on in proportion",
        SolenoidKind::ClosedLoop => {
            "closed-loop solenoid, holds its output until the command nears the feed"
        }
    }
}

/// What two checks say together, with how it weighs.
pub(crate) fn accord(accord: &Accord, shown: &Shown) -> (Mark, String) {
    let span = |span: &Span, quantity| shown.interval(*span.low, *span.high, quantity);
    let gaps = |by_vacuum: &[model::Finite; 2], by_diameters: &Span| {
        format!(
            "{} by vacuum, {} by diameters",
            shown.interval(*by_vacuum[0], *by_vacuum[1], Quantity::Clearance),
            span(by_diameters, Quantity::Clearance),
        )
    };
    match accord {
        Accord::LeakFitsDiameters {
            by_vacuum_m,
            by_diameters_m,
        } => (
            Mark::Within,
            format!(
                "Vacuum and diameters give one clearance: {}.",
                gaps(by_vacuum_m, by_diameters_m)
            ),
        ),
        Accord::LeakBeyondDiameters {
            by_vacuum_m,
            by_diameters_m,
        } => (
            Mark::Close,
            format!(
                "More air leaks than the diameters let through ({}): it goes another way.",
                gaps(by_vacuum_m, by_diameters_m)
            ),
        ),
        Accord::TighterThanDiameters {
            by_vacuum_m,
            by_diameters_m,
        } => (
            Mark::Close,
            format!(
                "Less air leaks than the diameters must let through ({}): oil film or varnish.",
                gaps(by_vacuum_m, by_diameters_m)
            ),
        ),
        Accord::SpringHolds { holds_pa } => (
            Mark::Within,
            format!(
                "The spring holds {}, within what is specified.",
                span(holds_pa, Quantity::Pressure)
            ),
        ),
        Accord::SpringMayNotHold { holds_pa } => (
            Mark::Close,
            format!(
                "The spring holds {}: part of that lies outside what is specified.",
                span(holds_pa, Quantity::Pressure)
            ),
        ),
        Accord::SpringCannotHold { holds_pa } => (
            Mark::Outside,
            format!(
                "The spring holds {}: outside what is specified.",
                span(holds_pa, Quantity::Pressure)
            ),
        ),
        Accord::MovesBadly => (
            Mark::Close,
            "The valve doesn’t move freely, whatever its reading. How far that moves the pressure isn’t measured.".to_owned(),
        ),
        Accord::FrictionSwings {
            swing_pa,
            beyond_band,
            cleaned,
        } => {
            let swing = shown.value(**swing_pa, Quantity::Pressure);
            let told = format!(
                "Its friction moves the pressure by {swing} between line rising and falling"
            );
            match (beyond_band, cleaned) {
                (false, _) => (Mark::Within, format!("{told}.")),
                (true, true) => (
                    Mark::Outside,
                    format!("{told}: more than what is specified is wide, clean as it is."),
                ),
                (true, false) => (
                    Mark::Close,
                    format!(
                        "{told}: more than what is specified is wide. It wasn’t cleaned before."
                    ),
                ),
            }
        }
        Accord::OrificeAsProfile => (
            Mark::Within,
            "The balance orifice is as the profile has it.".to_owned(),
        ),
        Accord::OrificeOff {
            measured_m,
            profile_m,
        } => (
            Mark::Close,
            format!(
                "The balance orifice measures {}; the profile has {}.",
                span(measured_m, Quantity::Length),
                shown.value(**profile_m, Quantity::Length),
            ),
        ),
        Accord::SeenButTight => (
            Mark::Close,
            "A gap is seen or felt, and yet the reading is within its limit.".to_owned(),
        ),
        Accord::SeenUntested { lands } => (
            Mark::Close,
            format!(
                "A clear gap is seen at lands that no reading and no diameter tells of: {}.",
                lands.iter().map(|land| line(land)).collect::<Vec<_>>().join(", "),
            ),
        ),
        Accord::PlugInTheReading => (
            Mark::Close,
            "Plug or seal is bad: the poor reading may be theirs.".to_owned(),
        ),
        Accord::TapFitsLeak { tap } => (
            Mark::Within,
            format!("{}: the leak predicts it.", at_tap(tap, shown)),
        ),
        Accord::TapContradictsLeak { tap } => (
            Mark::Close,
            format!(
                "{}: the leak doesn’t explain it. Something else moves the pressure.",
                at_tap(tap, shown)
            ),
        ),
        Accord::TapTooClose { tap } => (
            Mark::NotJudged,
            format!("{}: too close to call.", at_tap(tap, shown)),
        ),
    }
}

/// A reading at a tap and what is predicted there.
fn at_tap(tap: &TapBeside, shown: &Shown) -> String {
    let pressure = |si: f64| shown.value(si, Quantity::Pressure);
    format!(
        "{} read {} ±{} at {} line, oil at {}; predicted {}, {}",
        line(&tap.name),
        pressure(*tap.read_pa),
        pressure(*tap.expanded_uncertainty_pa),
        pressure(*tap.line_pa),
        shown.value(*tap.oil_temperature_k, Quantity::Temperature),
        pressure(*tap.predicted_pa.likely),
        shown.interval(
            *tap.predicted_pa.low,
            *tap.predicted_pa.high,
            Quantity::Pressure
        ),
    )
}
