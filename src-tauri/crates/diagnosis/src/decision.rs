//! A judgement's decision as it goes on record.

use model::Id;
use model::bench::Decision;

use crate::judgement::{ConsequenceAnswer, Judgement, LeakAnswer, Span};

/// What goes on record of a judgement, pinned to the records that it was made from; none while the
/// judgement decides nothing.
#[must_use]
pub fn decision(judgement: &Judgement, inputs: Vec<Id>, note: String) -> Option<Decision> {
    let decided = judgement.decision.as_ref()?;
    let readings = judgement.readings.as_ref()?;
    let computed = match &judgement.consequence {
        Some(ConsequenceAnswer::Computed(consequence)) => Some(consequence),
        _ => None,
    };
    let leak = match &judgement.leak {
        Some(LeakAnswer::Known(leak)) => Some(leak),
        _ => None,
    };
    let ends = |span: Option<Span>| span.map(|span| [span.low, span.likely, span.high]);
    Some(Decision {
        verdict: decided.verdict,
        conformity_probability: decided.conformity_probability,
        mean_vacuum_pa: readings.mean_vacuum_pa,
        standard_uncertainty_pa: decided.standard_uncertainty_pa,
        limit_vacuum_pa: judgement.limit.as_ref()?.today_vacuum_pa,
        shift_idle_pa: ends(computed.and_then(|consequence| consequence.idle.shift_pa)),
        shift_highest_line_pa: ends(computed.and_then(|c| c.highest_line.shift_pa)),
        gap_factor_m3: leak.and_then(|leak| ends(Some(leak.gap_factor_m3))),
        reference_vacuum_pa: leak.map(|leak| leak.reference_vacuum_pa),
        inputs,
        profile_digest: judgement.profile_digest.clone(),
        physics_version: judgement.physics_version.clone(),
        note,
    })
}
