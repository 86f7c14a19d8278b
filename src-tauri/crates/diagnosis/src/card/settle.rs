//! What would settle an unsettled bore, and what comes next.

use model::bench::Verdict;

use super::verdict::Pressure;
use super::{Accord, Case, CheckLine, CheckState, Conclusion, NextStep, Pressures, Settle};
use crate::judgement::{BandSource, Judgement, UncertaintySource};

impl Case<'_> {
    pub(super) fn settle(&self, pressures: &Pressures) -> Vec<Settle> {
        let predicted = pressures.computed().is_some();
        let settled = |says: &Accord| says.settled_by(predicted);
        let mut ways: Vec<Settle> = self.accord.iter().filter_map(settled).collect();
        for test in self.evidence.tests {
            if let Some(Verdict::TooCloseToCall) =
                test.judgement.decision.as_ref().map(|told| told.verdict)
            {
                ways.extend(settles_the_reading(test.judgement));
            }
        }
        if let Some(computed) = pressures.computed()
            && self.pressure(pressures) == Some(Pressure::Open)
        {
            ways.extend(computed.band_from.iter().filter_map(|source| match source {
                // How far off-centre the valve lay drops out when the gap itself is measured.
                BandSource::Eccentricity if self.measured.clearance.is_none() => {
                    Some(Settle::MeasureDiameters)
                }
                BandSource::UntestedSeals => Some(Settle::TestOtherSeals),
                BandSource::Reading => Some(Settle::Repeat),
                BandSource::Friction if self.measured.friction_n.is_none() => {
                    Some(Settle::MeasureFriction)
                }
                BandSource::SpringLoad => Some(Settle::MeasureSpring),
                BandSource::OrificeBore => Some(Settle::MeasureOrifice),
                BandSource::Eccentricity
                | BandSource::Friction
                | BandSource::OrificeModel
                | BandSource::SleeveSeat => None,
            }));
            // A gauge at the tap sees the pressure itself, whatever is unknown on the bench.
            ways.push(Settle::MeasurePressure);
        }
        let mut seen = Vec::new();
        ways.retain(|way| {
            let new = !seen.contains(way);
            seen.push(*way);
            new
        });
        ways
    }
}

/// What would do most to settle a reading that is too close to call: the largest source of its
/// uncertainty.
pub(crate) fn settles_the_reading(judgement: &Judgement) -> Option<Settle> {
    let (readings, decision) = (judgement.readings.as_ref()?, judgement.decision.as_ref()?);
    let own = (*readings.standard_uncertainty_pa).powi(2);
    if (*decision.standard_uncertainty_pa).powi(2) > 2.0 * own {
        return Some(Settle::ReadBarometer);
    }
    Some(match readings.contributions.first()?.source {
        UncertaintySource::GaugeError => Settle::BetterGauge,
        UncertaintySource::GaugeResolution => Settle::FinerScale,
        UncertaintySource::Repeats => Settle::Repeat,
        UncertaintySource::Barometer => Settle::ReadBarometer,
    })
}

pub(super) fn next(
    conclusion: Conclusion,
    checks: &[CheckLine],
    settle: &[Settle],
) -> Vec<NextStep> {
    let open = |deciding: bool| {
        checks
            .iter()
            .filter(move |line| line.state == CheckState::Open && line.decides == deciding)
            .map(|line| NextStep::Check { check: line.check })
    };
    match conclusion {
        Conclusion::Unfinished => open(true).chain(open(false)).collect(),
        Conclusion::Unsettled => settle
            .iter()
            .map(|by| NextStep::Settle { by: *by })
            .chain(open(true))
            .collect(),
        Conclusion::Faulty => std::iter::once(NextStep::Repair)
            .chain(open(true))
            .collect(),
        Conclusion::Sound => std::iter::once(NextStep::Decide)
            .chain(open(false))
            .collect(),
    }
}
