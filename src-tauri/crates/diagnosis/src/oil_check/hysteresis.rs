//! How far feed differs between line rising and line falling. Friction holds the spool off its
//! balance by F / A either way, so feed is the higher while line rises, by at most 2 F / A
//! (Merritt, *Hydraulic Control Systems*, ch. 9, for the balance of the spool).

use metrology::Side;
use metrology::decide::{DEFAULT_CONFIDENCE, decide_with};
use model::Finite;
use model::bench::Verdict;
use model::oil_check::{LineDirection, OilPoint};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::error::DiagnosisError;
use crate::judgement::RegulationState;
use crate::pressure::PredictedAt;
use crate::window::Trust;

/// Feed with line rising less feed with line falling, where they differ most.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Hysteresis {
    /// At this line pressure, Pa.
    pub line_pa: Finite,
    /// Rising less falling, Pa. The falling value is taken on the straight line between the two
    /// falling points on either side.
    pub measured_pa: Finite,
    /// Its standard uncertainty, Pa: what a gauge reads wrong both ways falls out; its own lag
    /// between the two and its steps don't.
    pub standard_uncertainty_pa: Finite,
    /// The most that the valve's friction makes there, Pa; none: no prediction.
    pub predicted_most_pa: Option<Finite>,
    /// Whether friction explains it: no more than that by its standard uncertainty; more, with enough
    /// probability (ISO 14253-1); or neither. None: no prediction.
    pub verdict: Option<Verdict>,
    /// Feed lower while line rises, by more than the gauges explain: friction can't do that.
    #[serde(skip)]
    pub(super) looks_swapped: bool,
}

/// Where the directions differ most, of the rising points that lie between two falling ones and
/// where the valve regulates, as far as that is known.
pub(super) fn between<'a>(
    points: &[OilPoint],
    predicted: impl Fn(usize) -> Option<&'a PredictedAt>,
    (feed, line): (&Trust, &Trust),
) -> Result<Option<Hysteresis>, DiagnosisError> {
    let mut falling: Vec<(f64, f64)> = points
        .iter()
        .filter(|point| point.direction == LineDirection::Falling)
        .map(|point| (*point.line_pa, *point.feed_pa))
        .collect();
    falling.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut most: Option<(f64, f64, Option<&PredictedAt>)> = None;
    for (i, point) in points.iter().enumerate() {
        let at = predicted(i);
        let idle = at.is_some_and(|at| at.state != RegulationState::Regulating);
        if point.direction != LineDirection::Rising || idle {
            continue;
        }
        let Some(counterpart) = interpolated(&falling, *point.line_pa) else {
            continue;
        };
        let difference = *point.feed_pa - counterpart;
        if most.is_none_or(|(_, known, _)| difference.abs() > known.abs()) {
            most = Some((*point.line_pa, difference, at));
        }
    }
    let Some((line_pa, difference, at)) = most else {
        return Ok(None);
    };
    let slope = at.map_or(0.0, |at| at.per_line.abs());
    let u = feed.of_directions().hypot(slope * line.of_directions());
    let most_by_friction = at.map(|at| *at.rising.likely - *at.falling.likely);
    let verdict = most_by_friction
        .map(|limit| {
            let told = decide_with(difference, u, None, limit, Side::AtMost, DEFAULT_CONFIDENCE)?;
            Ok::<_, DiagnosisError>(if told.margin >= -u {
                Verdict::WithinLimit
            } else if told.verdict == metrology::Verdict::OutsideLimit {
                Verdict::OutsideLimit
            } else {
                Verdict::TooCloseToCall
            })
        })
        .transpose()?;
    let order = decide_with(difference, u, None, 0.0, Side::AtLeast, DEFAULT_CONFIDENCE)?;
    Ok(Some(Hysteresis {
        line_pa: Finite::try_from(line_pa)?,
        measured_pa: Finite::try_from(difference)?,
        standard_uncertainty_pa: Finite::try_from(u)?,
        predicted_most_pa: most_by_friction.map(Finite::try_from).transpose()?,
        verdict,
        looks_swapped: order.verdict == metrology::Verdict::OutsideLimit,
    }))
}

/// On the straight line between the neighbours, never beyond them.
fn interpolated(sorted: &[(f64, f64)], line: f64) -> Option<f64> {
    let above = sorted.iter().position(|(known, _)| *known >= line)?;
    let (high_line, high) = *sorted.get(above)?;
    if high_line <= line {
        return Some(high);
    }
    let (low_line, low) = *sorted.get(above.checked_sub(1)?)?;
    let share = (line - low_line) / (high_line - low_line);
    Some(low + share * (high - low))
}

#[cfg(test)]
mod tests {
    use super::interpolated;

    #[test]
    fn between_two_points_on_their_straight_line_and_nowhere_beyond() {
        let falling = [(100.0, 50.0), (200.0, 60.0)];
        assert_eq!(interpolated(&falling, 150.0), Some(55.0));
        assert_eq!(interpolated(&falling, 200.0), Some(60.0));
        assert_eq!(interpolated(&falling, 100.0), Some(50.0));
        assert_eq!(interpolated(&falling, 99.0), None);
        assert_eq!(interpolated(&falling, 201.0), None);
        assert_eq!(interpolated(&[], 150.0), None);
    }
}
