//! How each check stands, and what all of them come to in one word.
//!
//! Only what was measured, or what plainly doesn't work, condemns a bore. What the eye and the hand
//! say (light past a land, a mark, play) asks for a measurement; a figure that depends on an
//! instrument nobody knows, on dirt, or on a reading that another contradicts, leaves it unsettled.

use model::bench::Verdict;
use model::inspection::{CheckName, Outcome};

use super::{Accord, Case, CheckLine, CheckState, Conclusion, Pressures};
use crate::inspected;
use crate::judgement::{Consequence, Judgement, OperatingPoint, RegulationState};

impl Case<'_> {
    pub(super) fn lines(&self) -> Vec<CheckLine> {
        let line = |check: CheckName| {
            let outcome = match check {
                CheckName::Vacuum => self.vacuum(),
                _ => self
                    .latest
                    .iter()
                    .find(|done| done.found.name() == check)
                    .map(|done| inspected::outcome(done.found, self.evidence.instruments)),
            };
            let state = match outcome {
                Some(_) => CheckState::Done,
                None if self.evidence.left_out.contains(&check) => CheckState::LeftOut,
                None => CheckState::Open,
            };
            CheckLine {
                check,
                state,
                outcome,
                decides: self.decides(check),
            }
        };
        CheckName::OF_A_BORE.into_iter().map(line).collect()
    }

    /// Without these a bore isn't passed.
    fn decides(&self, check: CheckName) -> bool {
        match check {
            CheckName::Vacuum | CheckName::FreeMovement | CheckName::Spring => true,
            // The shift goes with the fourth power of its bore.
            CheckName::OrificeBore => self.evidence.profile.balance_orifice.is_some(),
            _ => false,
        }
    }

    /// The worst that the vacuum tests say; none without a reading.
    fn vacuum(&self) -> Option<Outcome> {
        let of = |judgement: &Judgement| {
            judgement.readings.as_ref()?;
            Some(match judgement.decision.as_ref().map(|told| told.verdict) {
                Some(Verdict::WithinLimit) => Outcome::Good,
                Some(Verdict::TooCloseToCall) => Outcome::Doubtful,
                Some(Verdict::OutsideLimit) => Outcome::Bad,
                None => Outcome::Measured,
            })
        };
        self.evidence
            .tests
            .iter()
            .filter_map(|test| of(test.judgement))
            .max()
    }

    pub(super) fn conclusion(&self, checks: &[CheckLine], pressures: &Pressures) -> Conclusion {
        let broken = checks
            .iter()
            .any(|line| breaks(line.check) && line.outcome == Some(Outcome::Bad));
        let predicted = pressures.computed().is_some();
        let condemned = |says: &Accord| says.condemns(predicted);
        let pressure = self.pressure(pressures);
        if broken || self.accord.iter().any(condemned) || pressure == Some(Pressure::Lost) {
            return Conclusion::Faulty;
        }
        if self.accord.iter().any(|says| says.contradicts(predicted)) {
            return Conclusion::Unsettled;
        }
        let vacuum = self.vacuum();
        match (vacuum, pressure) {
            // A poor reading in a circuit where it does no harm is no fault of the bore; where
            // nothing says what it does, the limit stands.
            (Some(Outcome::Bad), None) => return Conclusion::Faulty,
            (Some(Outcome::Doubtful), None) | (_, Some(Pressure::Open)) => {
                return Conclusion::Unsettled;
            }
            _ => {}
        }
        let open = |line: &CheckLine| line.decides && line.state == CheckState::Open;
        if checks.iter().any(open) || pressure.is_none() && vacuum != Some(Outcome::Good) {
            return Conclusion::Unfinished;
        }
        Conclusion::Sound
    }

    /// What the predictions say of the pressure, as far as the gap behind them is believed: where
    /// other checks contradict it, only what both ways of knowing it agree on.
    pub(super) fn pressure(&self, pressures: &Pressures) -> Option<Pressure> {
        let told = worst_of(pressures.computed()?);
        let otherwise = pressures.otherwise.as_ref().map(worst_of);
        let doubted = self.accord.iter().any(Accord::doubts_the_gap);
        Some(if doubted && otherwise != Some(told) {
            Pressure::Open
        } else {
            told
        })
    }
}

/// A valve train the wrong way round, a valve that sticks and a plug that is broken are faults by
/// themselves. A clear gap in the light and a deep mark are not: they say nothing of how much.
fn breaks(check: CheckName) -> bool {
    matches!(
        check,
        CheckName::ValveTrain | CheckName::FreeMovement | CheckName::EndPlug
    )
}

/// What a prediction says of the pressure at hot idle and at the highest line, the worse of both.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Pressure {
    /// Inside what is specified, whatever the unknowns.
    Held,
    /// Part of the span lies outside.
    Open,
    /// Outside, whatever the unknowns.
    Lost,
}

pub(super) fn worst_of(computed: &Consequence) -> Pressure {
    let (low, high) = (*computed.specified_low_pa, *computed.specified_high_pa);
    let at = |point: &OperatingPoint| {
        // Line too low to regulate is the engine's doing, not the bore's.
        if point.new_state == RegulationState::FollowsLine {
            return Pressure::Held;
        }
        let feed = &point.measured_feed_pa;
        if *feed.low > high || *feed.high < low {
            return Pressure::Lost;
        }
        let inside = *feed.low >= low && *feed.high <= high;
        if inside && point.worst_state != RegulationState::LostControl {
            return Pressure::Held;
        }
        Pressure::Open
    };
    at(&computed.idle).max(at(&computed.highest_line))
}
