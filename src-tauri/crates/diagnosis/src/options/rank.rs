//! How the ways stand to each other, and why.
//!
//! - A way stands by what it does in hot oil at idle and at the highest line, against what is
//!   specified, and by its reading against the limit. What breaks a limit, and what can't be done,
//!   comes after everything else. Among those that stand alike the one with less effort comes
//!   first, then the one with fewer risks.
//! - **Leaving the bore** has its place by its own standing alone: first where nothing has to be
//!   done (or where nothing was measured that says otherwise), second where the numbers can't
//!   exclude it, else last. So a worse bore never makes it look better, not even by taking other
//!   ways out of the running. It is also held with tight seals: a leak that makes up for a weak
//!   spring counts as neither sound.

use model::bench::Verdict;
use model::inspection::Movement;

use super::Case;
use super::answer::{
    Feasibility, MotionAhead, MotionStands, OptionWarning, RankReason, ReadingAhead, ReadingStands,
    RepairOutlook, Standing, Undecided, UndecidedWhat, Way,
};
use crate::card::{Settle, settles_the_reading};
use crate::error::DiagnosisError;
use crate::judgement::{
    BandSource, Consequence, ConsequenceAnswer, ConsequenceRefusal, LeakAnswer, LeakRefusal,
    OperatingPoint, RegulationState,
};
use crate::pressure::{self, SealEvidence};
use crate::valve::new_clearance;
use uom::si::length::meter;

/// The ways in their order, with their reasons, and what can't be decided.
pub(super) fn ranked(
    case: &Case<'_>,
    mut outlooks: Vec<RepairOutlook>,
) -> (Vec<RepairOutlook>, Option<Undecided>) {
    let parts_hold = parts_hold(case);
    let mut leave_place = Place::Last;
    for outlook in &mut outlooks {
        let mut stand = Stand::of(outlook);
        match outlook.way {
            Way::Leave => {
                stand.parts(parts_hold);
                leave_place = stand.leave(case);
            }
            Way::Clean => {
                if outlook
                    .work
                    .as_ref()
                    .is_none_or(|work| work.spring_load_n.is_none())
                {
                    stand.parts(parts_hold);
                }
                stand.reading_ahead(&outlook.reading);
            }
            Way::AddRelief => {
                stand.at_best(Standing::Contained, RankReason::OnlyContains);
                stand.verdict(case);
            }
            Way::ChangeOrifice => {
                // The wear stays: only an orifice that was wrong is cured by another.
                if !outlook.needs.orifice.as_ref().is_some_and(|it| it.restores) {
                    stand.at_best(Standing::Contained, RankReason::OnlyContains);
                }
                stand.verdict(case);
            }
            _ => stand.reading_ahead(&outlook.reading),
        }
        stand.motion(&outlook.motion);
        stand.feasibility(outlook);
        outlook.standing = stand.standing;
        stand.reasons.sort_unstable();
        stand.reasons.dedup();
        outlook.reasons = stand.reasons;
    }
    let body = outlooks
        .iter()
        .find(|outlook| outlook.way == Way::ReplaceBody);
    let as_new = body.map_or(Standing::Unknown, |body| body.standing);
    forgive_swings(body.map(|body| body.motion.clone()), &mut outlooks);
    let (mut leave, mut others): (Vec<_>, Vec<_>) = outlooks
        .into_iter()
        .partition(|outlook| outlook.way == Way::Leave);
    others.sort_by_key(|outlook| {
        let risks = outlook.risks.len();
        (outlook.standing, outlook.effort, risks, outlook.way)
    });
    mark_less_effort(&mut others);
    if let Some(mut leave) = leave.pop() {
        // What another orifice contains depends on the wear: leaving isn't measured by it.
        let best = others.iter().find(|it| it.way != Way::ChangeOrifice);
        let at = place(&leave, leave_place, as_new, best);
        if at == 0 && leave.standing <= Standing::LikelyHolds {
            leave.reasons.push(RankReason::NothingToDo);
        }
        others.insert(at.min(others.len()), leave);
    }
    for (rank, outlook) in (1..).zip(&mut others) {
        outlook.rank = rank;
    }
    let undecided = undecided(case, &others);
    (others, undecided)
}

/// What swings no more than the bore as new would says nothing against a way.
fn forgive_swings(as_new: Option<MotionAhead>, outlooks: &mut [RepairOutlook]) {
    let Some(MotionAhead::Known { stands, .. }) = as_new else {
        return;
    };
    let reason = match stands {
        MotionStands::Settles => return,
        MotionStands::MayHunt => RankReason::MayHunt,
        MotionStands::Hunts => RankReason::Hunts,
    };
    for outlook in outlooks {
        let milder = |found: &RankReason| {
            *found == reason || (reason == RankReason::Hunts && *found == RankReason::MayHunt)
        };
        outlook.reasons.retain(|found| !milder(found));
    }
}

/// Where leaving belongs by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Place {
    /// Nothing says that anything has to be done.
    First,
    /// It can't be excluded.
    Second,
    Last,
}

fn place(
    leave: &RepairOutlook,
    wanted: Place,
    as_new: Standing,
    best: Option<&RepairOutlook>,
) -> usize {
    let broken = |standing: Standing| standing >= Standing::BreaksLimit;
    // Nothing that breaks a limit stands before what doesn't.
    if !broken(leave.standing) && best.is_some_and(|best| broken(best.standing)) {
        return 0;
    }
    match wanted {
        Place::First => 0,
        // Not even the bore as new is surer to hold.
        Place::Second if leave.standing == Standing::LikelyHolds && as_new >= leave.standing => 0,
        Place::Second => 1,
        Place::Last => usize::MAX,
    }
}

fn mark_less_effort(others: &mut [RepairOutlook]) {
    let Some((first, rest)) = others.split_first_mut() else {
        return;
    };
    let alike = |outlook: &RepairOutlook| {
        outlook.standing == first.standing && outlook.effort > first.effort
    };
    if first.standing <= Standing::LikelyHolds && rest.iter().any(alike) {
        first.reasons.push(RankReason::LessEffort);
    }
}

/// A standing on its way, with its reasons.
struct Stand {
    standing: Standing,
    reasons: Vec<RankReason>,
    /// What the pressure alone says.
    pressure: Standing,
}

impl Stand {
    /// By the pressure in hot oil.
    fn of(outlook: &RepairOutlook) -> Self {
        let (standing, reason) = match &outlook.hot {
            ConsequenceAnswer::Computed(computed) => held(computed),
            // Nothing balances: a valve that no law takes is no valve that holds.
            ConsequenceAnswer::Withheld {
                reason: ConsequenceRefusal::NoBalance,
            } => (Standing::LikelyNot, RankReason::PressureUnknown),
            ConsequenceAnswer::Withheld { .. } => (Standing::Unknown, RankReason::PressureUnknown),
        };
        Self {
            standing,
            pressure: standing,
            reasons: vec![reason],
        }
    }

    /// No better than this, for this reason.
    fn at_best(&mut self, standing: Standing, reason: RankReason) {
        self.standing = self.standing.max(standing);
        self.reasons.push(reason);
    }

    /// With tight seals the parts as measured must hold it too.
    fn parts(&mut self, parts_hold: Option<Standing>) {
        if let Some(parts) = parts_hold.filter(|parts| *parts > Standing::LikelyHolds) {
            self.at_best(parts, RankReason::PartsDontHold);
        } else if let Some(parts) = parts_hold {
            self.standing = self.standing.max(parts);
        }
        self.pressure = self.standing;
    }

    /// What the reading on record says of its limit.
    fn verdict(&mut self, case: &Case<'_>) -> Option<Verdict> {
        let verdict = case
            .evidence
            .test
            .and_then(|test| test.judgement.decision.as_ref())
            .map(|decision| decision.verdict);
        match verdict {
            Some(Verdict::OutsideLimit) => {
                self.at_best(Standing::BreaksLimit, RankReason::ReadingOutsideLimit);
                if self.pressure <= Standing::LikelyHolds {
                    self.reasons.push(RankReason::PressureHoldsAnyway);
                }
            }
            Some(Verdict::TooCloseToCall) => {
                self.at_best(Standing::LikelyHolds, RankReason::ReadingTooClose);
            }
            Some(Verdict::WithinLimit) | None => {}
        }
        verdict
    }

    /// Leaving: the verdict, the movement, and its place.
    fn leave(&mut self, case: &Case<'_>) -> Place {
        match case.movement() {
            Some(Movement::Sticks) => self.at_best(Standing::LikelyNot, RankReason::ValveSticks),
            Some(Movement::Drags) => self.at_best(Standing::LikelyHolds, RankReason::ValveSticks),
            Some(Movement::Free) | None => {}
        }
        let by_pressure = self.standing;
        let verdict = self.verdict(case);
        // A reading that no gap within the laws gives is a bad one, not an unknown one.
        let beyond = case.evidence.test.is_some_and(|test| {
            let refused = |reason| {
                matches!(
                    &test.judgement.leak,
                    Some(LeakAnswer::Refused { reason: found }) if *found == reason
                )
            };
            refused(LeakRefusal::OutsideModel)
        });
        if self.pressure == Standing::Unknown {
            if beyond {
                self.at_best(Standing::LikelyNot, RankReason::PressureUnknown);
            } else if verdict == Some(Verdict::WithinLimit) {
                // Only the reading speaks, and it is good.
                self.standing = Standing::LikelyHolds;
                return Place::Second;
            } else if verdict.is_none() && by_pressure == Standing::Unknown {
                return Place::First;
            }
        }
        match self.standing {
            Standing::Holds => Place::First,
            Standing::LikelyHolds => Place::Second,
            Standing::BreaksLimit if by_pressure <= Standing::LikelyHolds => Place::Second,
            _ => Place::Last,
        }
    }

    /// What the stand would read.
    fn reading_ahead(&mut self, reading: &ReadingAhead) {
        let ReadingAhead::Foreseen { against_limit, .. } = reading else {
            return;
        };
        match against_limit {
            Some(ReadingStands::Misses) => {
                self.at_best(Standing::BreaksLimit, RankReason::WouldMissLimit);
            }
            Some(ReadingStands::LikelyMisses) => {
                self.at_best(Standing::LikelyNot, RankReason::WouldMissLimit);
            }
            Some(ReadingStands::LikelyMeets) => self.reasons.push(RankReason::MightMissLimit),
            Some(ReadingStands::Meets) | None => {}
        }
    }

    fn motion(&mut self, motion: &MotionAhead) {
        if let MotionAhead::Known { stands, .. } = motion {
            match stands {
                MotionStands::Settles => {}
                MotionStands::MayHunt => self.reasons.push(RankReason::MayHunt),
                // Dry friction may hold still what the linear model lets swing.
                MotionStands::Hunts => self.reasons.push(RankReason::Hunts),
            }
        }
    }

    fn feasibility(&mut self, outlook: &RepairOutlook) {
        if outlook.warnings.contains(&OptionWarning::WallUnknown) {
            self.at_best(Standing::LikelyHolds, RankReason::WallUnknown);
        }
        match &outlook.feasibility {
            Feasibility::Feasible => {}
            // What leaving lacks is told by its pressure.
            Feasibility::Untold { .. } if outlook.way == Way::Leave => {
                self.reasons.push(RankReason::MeasurementMissing);
            }
            Feasibility::Untold { .. } => {
                self.at_best(Standing::Unknown, RankReason::MeasurementMissing);
            }
            Feasibility::Infeasible { .. } => {
                self.at_best(Standing::CantBeDone, RankReason::CantBeDone);
            }
        }
    }
}

/// How a consequence stands to what is specified: the worse of hot idle and the highest line.
pub(super) fn held(computed: &Consequence) -> (Standing, RankReason) {
    let band = (*computed.specified_low_pa, *computed.specified_high_pa);
    let points = [&computed.idle, &computed.highest_line];
    let worst = points
        .into_iter()
        // Line too low to regulate is the engine's doing, not the bore's.
        .filter(|point| point.new_state != RegulationState::FollowsLine)
        .map(|point| at_point(point, band))
        .max_by_key(|(standing, _)| *standing);
    worst.unwrap_or((Standing::Unknown, RankReason::PressureUnknown))
}

fn at_point(point: &OperatingPoint, (low, high): (f64, f64)) -> (Standing, RankReason) {
    let feed = &point.measured_feed_pa;
    let inside = |pa: f64| (low..=high).contains(&pa);
    if point.measured_state == RegulationState::LostControl {
        return (Standing::BreaksLimit, RankReason::LosesControl);
    }
    if *feed.low > high || *feed.high < low {
        return (Standing::BreaksLimit, RankReason::OutsideSpecification);
    }
    if !inside(*feed.likely) {
        let reason = RankReason::LikelyOutsideSpecification;
        return (Standing::LikelyNot, reason);
    }
    if point.worst_state == RegulationState::LostControl
        || !inside(*feed.low)
        || !inside(*feed.high)
    {
        return (Standing::LikelyHolds, RankReason::MayLeaveSpecification);
    }
    (Standing::Holds, RankReason::HoldsSpecification)
}

/// How the parts as measured hold the pressure with seals as new; none where nothing can be told.
fn parts_hold(case: &Case<'_>) -> Option<Standing> {
    let profile = &case.measured;
    let clearance = new_clearance(profile, profile.reaction_land()?)?;
    let tight = SealEvidence::measured(profile, [2.0 * clearance.get::<meter>(); 3]);
    match pressure::consequence(profile, &tight, case.hot_k()) {
        Ok((computed, _)) => Some(held(&computed).0),
        Err(DiagnosisError::Physics(_)) => Some(Standing::LikelyNot),
        Err(_) => None,
    }
}

fn undecided(case: &Case<'_>, ranked: &[RepairOutlook]) -> Option<Undecided> {
    let leave = ranked.iter().find(|outlook| outlook.way == Way::Leave)?;
    let others = || ranked.iter().filter(|outlook| outlook.way != Way::Leave);
    let open = matches!(
        leave.standing,
        Standing::LikelyHolds | Standing::Unknown | Standing::LikelyNot
    );
    if open {
        let next = others().find(|outlook| outlook.standing < Standing::BreaksLimit);
        let ways = [Some(leave), next];
        return Some(Undecided {
            what: UndecidedWhat::WhetherToRepair,
            ways: ways
                .into_iter()
                .flatten()
                .map(|outlook| outlook.way)
                .collect(),
            settle: settle(case, leave),
        });
    }
    if leave.standing == Standing::Holds {
        return None;
    }
    let mut first_two = others();
    let (first, second) = (first_two.next()?, first_two.next()?);
    let unsure = first.standing > Standing::Holds && first.standing < Standing::BreaksLimit;
    if unsure && first.standing == second.standing && overlap(first, second) {
        return Some(Undecided {
            what: UndecidedWhat::BetweenTheFirst,
            ways: vec![first.way, second.way],
            settle: settle(case, first),
        });
    }
    None
}

/// Whether two predicted bands at the highest line share a pressure; where one isn't known, nothing
/// tells them apart.
fn overlap(one: &RepairOutlook, other: &RepairOutlook) -> bool {
    let band = |outlook: &RepairOutlook| match &outlook.hot {
        ConsequenceAnswer::Computed(computed) => Some(computed.highest_line.measured_feed_pa),
        ConsequenceAnswer::Withheld { .. } => None,
    };
    match (band(one), band(other)) {
        (Some(one), Some(other)) => *one.low <= *other.high && *other.low <= *one.high,
        _ => true,
    }
}

fn settle(case: &Case<'_>, outlook: &RepairOutlook) -> Vec<Settle> {
    let measured = case.evidence.measured;
    let mut ways = Vec::new();
    if let Some(test) = case.evidence.test
        && test.judgement.decision.as_ref().map(|told| told.verdict)
            == Some(Verdict::TooCloseToCall)
    {
        ways.extend(settles_the_reading(test.judgement));
    }
    match &outlook.hot {
        ConsequenceAnswer::Computed(computed) => {
            for source in &computed.band_from {
                match source {
                    BandSource::Eccentricity if measured.clearance.is_none() => {
                        ways.push(Settle::MeasureDiameters);
                    }
                    BandSource::UntestedSeals => ways.push(Settle::TestOtherSeals),
                    BandSource::Reading => ways.push(Settle::Repeat),
                    BandSource::Friction if measured.friction_n.is_none() => {
                        ways.push(Settle::MeasureFriction);
                    }
                    _ => {}
                }
            }
        }
        ConsequenceAnswer::Withheld { .. } if measured.clearance.is_none() => {
            ways.push(Settle::MeasureDiameters);
        }
        ConsequenceAnswer::Withheld { .. } => {}
    }
    let mut seen = Vec::new();
    ways.retain(|way| {
        let new = !seen.contains(way);
        seen.push(*way);
        new
    });
    ways
}
