//! Pressures read at the taps of the circuit beside what the bore's leak predicts there.

use model::bench::Verdict;

use super::BoreEvidence;
use super::accord::{Accord, TapBeside};
use crate::error::DiagnosisError;
use crate::inspected::{MeasuredParts, as_measured, seals_by_diameters};
use crate::tap::against_leak;

/// One line for each tap of which the model can say anything; none before the leak is known.
pub(super) fn at_taps(
    evidence: &BoreEvidence<'_>,
    measured: &MeasuredParts,
) -> Result<Vec<Accord>, DiagnosisError> {
    let mut says = Vec::new();
    if evidence.taps.is_empty() {
        return Ok(says);
    }
    let bore = as_measured(evidence.profile, measured);
    let by_vacuum = evidence.tests.iter().find_map(|test| test.seals).cloned();
    let Some(seals) = by_vacuum.or_else(|| seals_by_diameters(&bore.profile, measured)) else {
        return Ok(says);
    };
    for tap in evidence.taps {
        let figures = tap.figures;
        let (Some(line_pa), Some(oil_temperature_k)) = (figures.line_pa, figures.oil_temperature_k)
        else {
            continue;
        };
        let Some(against) = against_leak(tap, evidence.profile, &bore, &seals)? else {
            continue;
        };
        let beside = TapBeside {
            name: tap.tap.name.clone(),
            read_pa: figures.pressure_pa,
            expanded_uncertainty_pa: against.expanded_uncertainty_pa,
            line_pa,
            oil_temperature_k,
            predicted_pa: against.predicted_pa,
            spring_measured: measured.spring.is_some(),
        };
        says.push(match against.verdict {
            Verdict::WithinLimit => Accord::TapFitsLeak { tap: beside },
            Verdict::TooCloseToCall => Accord::TapTooClose { tap: beside },
            Verdict::OutsideLimit => Accord::TapContradictsLeak { tap: beside },
        });
    }
    Ok(says)
}
