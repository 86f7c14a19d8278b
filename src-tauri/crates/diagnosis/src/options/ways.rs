//! Every way put together: what is done, with which parts, and what stands in its way.

use model::Finite;
use model::geometry::regulating_stroke;
use model::inspection::MarkDepth;
use model::repair::RepairOption;
use physics::PhysicsError;
use physics::fit::sleeve::{Sleeve as SleeveFit, SleeveRoom};
use uom::si::length::meter;

use super::answer::{
    Effort, NamedCheck, Obstacle, OptionWarning, ReliefNeeds, Risk, Unmeasured, Way,
};
use super::draft::Draft;
use super::shelf::{Reamer, Size, Sleeve, Valve};
use super::spring::{self, Chosen};
use super::{Case, WornBore, orifice};
use crate::assumed::Assumed;
use crate::error::DiagnosisError;
use crate::judgement::Span;
use crate::pressure::covers_ports;
use crate::relief::{self, WindowAnswer};
use crate::valve::metres;

/// How far from the wanted clearance two parts may lie and still be thought of as a pair, m: three
/// times a wide clearance (common practice, no source).
const NEAR_M: f64 = 150e-6;
/// How far a reamer's size may lie from a sleeve's outside, on the diameter, m (common practice,
/// no source).
const SEAT_M: f64 = 60e-6;
/// How much larger than the bore as new a reamer or a sleeve of this bore may be, m: what the
/// physics takes as ream stock, and a wall.
const LARGER_M: f64 = 4.0e-3;

/// One draft for each way, the best set of parts of each.
pub(super) fn drafts(case: &Case<'_>) -> Result<Vec<Draft>, DiagnosisError> {
    Ok(vec![
        leave(case),
        clean(case)?,
        other_valve(case)?,
        sleeve(case)?,
        ream(case)?,
        add_relief(case)?,
        replace_body(case),
        orifice::change(case)?,
    ])
}

fn leave(case: &Case<'_>) -> Draft {
    let way = (Way::Leave, RepairOption::Other);
    let mut draft = Draft::new(case, way.0, way.1, Effort::Nothing);
    draft.before.clone_from(&case.seals);
    draft.risks.push(Risk::WearGoesOn);
    if case.seals.is_none() {
        draft.missing.push(Unmeasured::Clearance);
    }
    draft
}

fn clean(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let mut draft = Draft::new(case, Way::Clean, RepairOption::Cleaned, Effort::Clean);
    slides_again(&mut draft);
    draft.before.clone_from(&case.seals);
    draft.work.polished_off_m = case.figures.polish_off_m;
    if case.seals.is_none() {
        draft.missing.push(Unmeasured::Clearance);
    }
    match (case.figures.layer_m, case.figures.polish_off_m) {
        (Some(layer), Some(off)) => {
            draft.needs.layer_left_m = Finite::new(*layer - *off);
            if *off >= *layer {
                draft.warnings.push(OptionWarning::LayerThrough);
            }
        }
        _ => draft.warnings.push(OptionWarning::LayerUnknown),
    }
    if case.evidence.deepest_mark == Some(MarkDepth::Caught) {
        draft.warnings.push(OptionWarning::LayerThroughAlready);
    }
    renew_spring(case, &mut draft)?;
    draft.risks.extend([Risk::WearGoesOn, Risk::HardLayer]);
    draft
        .checks
        .extend([NamedCheck::FreeMovement, NamedCheck::TestAgain]);
    draft.assumptions.push(Assumed::CleanedGapAsTested);
    Ok(draft)
}

/// A spring that was measured and doesn't hold the pressure goes with the cleaning, if the list has
/// another.
fn renew_spring(case: &Case<'_>, draft: &mut Draft) -> Result<(), DiagnosisError> {
    let land = case
        .measured
        .reaction_land()
        .and_then(|land| land.diameter_m);
    let (Some(diameter), Some(_)) = (land, &case.evidence.measured.spring) else {
        return Ok(());
    };
    let plan = spring::plan(case, *diameter)?;
    match plan.chosen {
        Chosen::Kept | Chosen::FromList { .. } => draft.spring(plan),
        Chosen::Needed | Chosen::Unknown => {
            draft.needs.spring_load_n = plan.load_n.and_then(Finite::new);
            draft.needs.spring_rate_n_per_m = plan.rate_n_per_m.and_then(Finite::new);
        }
    }
    Ok(())
}

/// Cleaned or new, a valve slides with the friction of the profile.
fn slides_again(draft: &mut Draft) {
    draft.assumptions.push(Assumed::FrictionAsProfile);
}

/// The draft with the fewest obstacles, and of these the one nearest to the wanted clearance.
fn best(case: &Case<'_>, drafts: Vec<Draft>) -> Option<Draft> {
    let clean = drafts
        .iter()
        .filter(|draft| draft.obstacles.is_empty())
        .count();
    let off = |draft: &Draft| {
        let bore = draft.work.bore_diameter_m.map(Finite::get);
        let bore = bore.or(case.worn.map(|worn| worn.mean));
        let clearance = bore
            .zip(draft.work.valve_diameter_m)
            .map_or(f64::MAX, |(bore, valve)| bore - *valve);
        (clearance - case.wanted().unwrap_or(0.0)).abs()
    };
    let mut best: Option<((usize, f64), Draft)> = None;
    for draft in drafts {
        let key = (draft.obstacles.len(), off(&draft));
        if best.as_ref().is_none_or(|(known, _)| key < *known) {
            best = Some((key, draft));
        }
    }
    best.map(|(_, mut draft)| {
        let others = clean.saturating_sub(usize::from(draft.obstacles.is_empty()));
        draft.needs.other_sets = u32::try_from(others).unwrap_or(u32::MAX);
        draft
    })
}

fn is_pair(case: &Case<'_>, bore: f64, valve: f64) -> bool {
    let clearance = bore - valve;
    clearance > 0.0 && (clearance - case.wanted().unwrap_or(0.0)).abs() <= NEAR_M
}

fn supposed_valve(diameter: f64) -> Valve {
    Valve {
        used: None,
        diameter: Size::supposed(diameter),
        material: None,
        grooved: false,
        stroke: None,
    }
}

fn other_valve(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let begin = || {
        let mut draft = Draft::new(
            case,
            Way::OtherValve,
            RepairOption::NewValve,
            Effort::ChangeParts,
        );
        draft.before.clone_from(&case.seals);
        draft.risks.push(Risk::WearGoesOn);
        draft.checks.extend([
            NamedCheck::LandsMatch,
            NamedCheck::FreeMovement,
            NamedCheck::TestAgain,
        ]);
        slides_again(&mut draft);
        draft
    };
    let Some(worn) = case.worn else {
        let mut draft = begin();
        draft.missing.push(Unmeasured::Clearance);
        if case.shelf.valves().is_empty() {
            draft.obstacles.push(Obstacle::NoValveInList);
        }
        return Ok(draft);
    };
    let with = |valve: Valve| -> Result<Draft, DiagnosisError> {
        let mut draft = begin();
        if worn.measured {
            draft.work.bore_diameter_m = Finite::new(worn.mean);
            draft.work.bore_uncertainty_m = Finite::new(0.5 * (worn.largest - worn.smallest));
        }
        if valve.diameter.most() >= worn.smallest {
            draft.obstacles.push(Obstacle::ValveWontEnter);
        }
        out_of_round(case, &mut draft);
        draft.spring(spring::plan(case, valve.diameter.value)?);
        draft.valve(valve, regulating_stroke(case.evidence.as_new));
        Ok(draft)
    };
    let near = |valve: &Valve| {
        let clearance = worn.mean - valve.diameter.value;
        (clearance - case.wanted().unwrap_or(0.0)).abs() <= NEAR_M
    };
    let fitting = case.shelf.valves().into_iter().filter(near);
    let drafts = fitting.map(with).collect::<Result<Vec<_>, _>>()?;
    if let Some(draft) = best(case, drafts) {
        return Ok(draft);
    }
    match case.wanted() {
        // As large as goes in.
        Some(wanted) => with(supposed_valve(
            (worn.mean - wanted).min(worn.smallest - 1e-6),
        )),
        None => {
            let mut draft = begin();
            draft.obstacles.push(Obstacle::NoValveInList);
            Ok(draft)
        }
    }
}

/// A bore that isn't reamed keeps its shape.
fn out_of_round(case: &Case<'_>, draft: &mut Draft) {
    let found = case.evidence.measured.clearance.as_ref();
    match (
        found.and_then(|found| found.out_of_round_m),
        case.figures.most_out_of_round_m,
    ) {
        (Some(found), Some(most)) if *found > *most => draft.obstacles.push(Obstacle::OutOfRound),
        (Some(_), _) => {}
        (None, _) => draft.warnings.push(OptionWarning::OutOfRoundUnknown),
    }
    if case.evidence.deepest_mark == Some(MarkDepth::Caught) {
        draft.warnings.push(OptionWarning::BoreScored);
    }
}

/// What reaming to `finished` takes off and leaves.
fn machined(case: &Case<'_>, draft: &mut Draft, finished: Size) {
    draft.risks.extend([Risk::CantBeUndone, Risk::Chips]);
    draft.checks.extend([
        NamedCheck::GuideAndPilot,
        NamedCheck::WallLeft,
        NamedCheck::CleanAfterMachining,
    ]);
    let as_new = *case.evidence.as_new.bore.diameter_m;
    match (case.figures.wall_m, case.figures.least_wall_m) {
        (Some(wall), least) => {
            let left = *wall - 0.5 * (finished.most() - as_new);
            draft.needs.wall_left_m = Finite::new(left);
            match least {
                Some(least) if left < *least => draft.obstacles.push(Obstacle::WallTooThin),
                None if left <= 0.0 => draft.obstacles.push(Obstacle::WallTooThin),
                Some(_) => {}
                None => draft.warnings.push(OptionWarning::WallUnknown),
            }
        }
        (None, _) => draft.warnings.push(OptionWarning::WallUnknown),
    }
    let Some(worn) = case.worn.filter(|worn| worn.measured) else {
        draft.missing.push(Unmeasured::Diameters);
        return;
    };
    draft.needs.cleans_up_above_m = Finite::new(worn.largest);
    draft.needs.stock_m = Finite::new(finished.value - worn.smallest);
    // At the small end of its tolerance a reamer must still cut all around.
    if finished.least() < worn.largest {
        draft.obstacles.push(Obstacle::StockDoesNotCleanUp);
    }
    if finished.value - worn.smallest > physics::range::REAM_STOCK.high {
        draft.obstacles.push(Obstacle::StockTooMuch);
    }
}

fn ream(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let as_new = *case.evidence.as_new.bore.diameter_m;
    let with = |(reamer, valve): (Reamer, Valve)| -> Result<Draft, DiagnosisError> {
        let way = (Way::Ream, RepairOption::ReamedOversize);
        let mut draft = Draft::new(case, way.0, way.1, Effort::Machine);
        slides_again(&mut draft);
        machined(case, &mut draft, reamer.diameter);
        if valve.diameter.most() >= reamer.diameter.least() {
            draft.obstacles.push(Obstacle::ValveWontEnter);
        }
        draft.spring(spring::plan(case, valve.diameter.value)?);
        draft.reamed(reamer);
        draft.needs.bore_diameter_m = draft.work.bore_diameter_m;
        draft.valve(valve, regulating_stroke(case.evidence.as_new));
        draft.checks.extend([
            NamedCheck::LandsMatch,
            NamedCheck::FreeMovement,
            NamedCheck::TestAgain,
        ]);
        Ok(draft)
    };
    let of_this_bore = |size: f64| size >= as_new && size - as_new <= LARGER_M;
    let mut reamers = case.shelf.reamers();
    reamers.retain(|reamer| of_this_bore(reamer.diameter.value));
    let mut sets = Vec::new();
    for reamer in &reamers {
        for valve in case.shelf.valves() {
            if is_pair(case, reamer.diameter.value, valve.diameter.value) {
                sets.push((reamer.clone(), valve));
            }
        }
    }
    if sets.is_empty()
        && let Some(wanted) = case.wanted()
    {
        // What it would take: the reamers that are there, or the least bore that cleans up.
        let least = case.worn.filter(|worn| worn.measured);
        if reamers.is_empty()
            && let Some(worn) = least
        {
            reamers.push(Reamer {
                used: None,
                diameter: Size::supposed(worn.largest.max(as_new)),
            });
        }
        for reamer in reamers {
            let valve = supposed_valve(reamer.diameter.value - wanted);
            sets.push((reamer, valve));
        }
    }
    let drafts = sets.into_iter().map(with).collect::<Result<Vec<_>, _>>()?;
    if let Some(draft) = best(case, drafts) {
        return Ok(draft);
    }
    let way = (Way::Ream, RepairOption::ReamedOversize);
    let mut draft = Draft::new(case, way.0, way.1, Effort::Machine);
    draft.risks.extend([Risk::CantBeUndone, Risk::Chips]);
    nothing_fits(case, &mut draft, Obstacle::NoReamerInList);
    Ok(draft)
}

/// Nothing of the list fits, and nothing says what would.
fn nothing_fits(case: &Case<'_>, draft: &mut Draft, obstacle: Obstacle) {
    draft.obstacles.push(obstacle);
    match case.worn.filter(|worn| worn.measured) {
        Some(worn) => draft.needs.cleans_up_above_m = Finite::new(worn.largest),
        None => draft.missing.push(Unmeasured::Diameters),
    }
}

fn sleeve(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let as_new = *case.evidence.as_new.bore.diameter_m;
    let mut sleeves = case.shelf.sleeves();
    sleeves.retain(|sleeve| {
        sleeve.outer.value >= as_new - SEAT_M && sleeve.outer.value - as_new <= LARGER_M
    });
    let mut sets = Vec::new();
    for sleeve in &sleeves {
        for valve in case.shelf.valves() {
            if is_pair(case, sleeve.inner.value, valve.diameter.value) {
                sets.push((sleeve.clone(), valve));
            }
        }
    }
    if sets.is_empty()
        && let Some(wanted) = case.wanted()
    {
        let supposed = |sleeve: Sleeve| {
            let valve = supposed_valve(sleeve.inner.value - wanted);
            (sleeve, valve)
        };
        sets.extend(sleeves.into_iter().map(supposed));
    }
    let with = |(sleeve, valve)| sleeved(case, &sleeve, valve);
    let drafts = sets.into_iter().map(with).collect::<Result<Vec<_>, _>>()?;
    if let Some(draft) = best(case, drafts) {
        return Ok(draft);
    }
    let way = (Way::Sleeve, RepairOption::SleeveSmallerValve);
    let mut draft = Draft::new(case, way.0, way.1, Effort::Machine);
    draft.risks.extend([Risk::CantBeUndone, Risk::SleeveSeat]);
    nothing_fits(case, &mut draft, Obstacle::NoSleeveInList);
    Ok(draft)
}

/// One sleeve with one valve.
fn sleeved(case: &Case<'_>, sleeve: &Sleeve, valve: Valve) -> Result<Draft, DiagnosisError> {
    let way = (Way::Sleeve, RepairOption::SleeveSmallerValve);
    let mut draft = Draft::new(case, way.0, way.1, Effort::Machine);
    slides_again(&mut draft);
    draft.needs.sleeve_outer_m = Finite::new(sleeve.outer.value);
    let worn = case.worn.filter(|worn| worn.measured);
    let drops_in = worn.filter(|worn| sleeve.outer.most() <= worn.smallest);
    let seat = match drops_in {
        // It goes in as the bore is.
        Some(worn) => {
            draft.effort = Effort::ChangeParts;
            [worn.smallest, worn.mean, worn.largest]
        }
        None => seat_of_reamer(case, &mut draft, sleeve),
    };
    let outer = [
        sleeve.outer.most(),
        sleeve.outer.value,
        sleeve.outer.least(),
    ];
    let gap = [0, 1, 2].map(|end| seat[end] - outer[end]);
    draft.needs.bore_diameter_m = Finite::new(seat[1]);
    draft.needs.seat_gap_m = span(gap)?;
    // The wider side both ways, so that the work carries it as one figure.
    let off = (gap[1] - gap[0]).max(gap[2] - gap[1]);
    draft.work.sleeve_outer_m = Finite::new(sleeve.outer.value);
    draft.work.seat_gap_m = Finite::new(gap[1]);
    draft.work.seat_gap_uncertainty_m = Finite::new(off);
    draft.work.sleeve_material = Some(sleeve.material);
    if gap[1] > 0.0 {
        draft.warnings.push(OptionWarning::SeatLeaks);
    }
    if let Some(worn) = worn
        && let Some(room) = room(&worn, sleeve, &valve, seat[1], &mut draft)?
    {
        draft.needs.stock_m = Finite::new(room.ream_stock.get::<meter>());
    }
    if let Some(length) = sleeve.length
        && !covers_ports(case.evidence.as_new, length)
    {
        draft.obstacles.push(Obstacle::SleeveTooShort);
    }
    if valve.diameter.most() >= sleeve.inner.least() {
        draft.obstacles.push(Obstacle::ValveWontEnter);
    }
    draft.work.bore_diameter_m = Finite::new(sleeve.inner.value);
    draft.work.bore_uncertainty_m = Finite::new(sleeve.inner.off);
    draft.take(Some(sleeve.used.clone()));
    draft.spring(spring::plan(case, valve.diameter.value)?);
    draft.valve(valve, regulating_stroke(case.evidence.as_new));
    draft.risks.extend([Risk::CantBeUndone, Risk::SleeveSeat]);
    draft.checks.extend([
        NamedCheck::PortsAligned,
        NamedCheck::SealingFace,
        NamedCheck::LandsMatch,
        NamedCheck::FreeMovement,
        NamedCheck::TestAgain,
    ]);
    draft.assumptions.push(Assumed::SleeveSeatCentred);
    Ok(draft)
}

/// The bore that a reamer of the list makes for the sleeve: least, likely, most.
fn seat_of_reamer(case: &Case<'_>, draft: &mut Draft, sleeve: &Sleeve) -> [f64; 3] {
    let off = |reamer: &Reamer| (reamer.diameter.value - sleeve.outer.value).abs();
    let cuts = |reamer: &Reamer| {
        case.worn
            .is_none_or(|worn| !worn.measured || reamer.diameter.least() >= worn.largest)
    };
    let mut near = case.shelf.reamers();
    near.retain(|reamer| off(reamer) <= SEAT_M);
    near.sort_by(|a, b| {
        (!cuts(a), off(a))
            .partial_cmp(&(!cuts(b), off(b)))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    let reamer = near.into_iter().next().unwrap_or(Reamer {
        used: None,
        diameter: Size::supposed(sleeve.outer.value),
    });
    machined(case, draft, reamer.diameter);
    let size = reamer.diameter;
    draft.suppose(reamer.used.is_none(), Obstacle::NoReamerInList);
    draft.take(reamer.used);
    [size.least(), size.value, size.most()]
}

/// Wall and clearance of the sleeve by plane geometry.
fn room(
    worn: &WornBore,
    sleeve: &Sleeve,
    valve: &Valve,
    finished: f64,
    draft: &mut Draft,
) -> Result<Option<SleeveRoom>, DiagnosisError> {
    let fit = SleeveFit {
        bore_smallest: metres(worn.smallest),
        bore_largest: metres(worn.largest),
        finished_bore: metres(finished.max(worn.smallest)),
        outer_diameter: metres(sleeve.outer.value),
        inner_diameter: metres(sleeve.inner.value),
        valve_diameter: metres(valve.diameter.value),
        minimum_wall: metres(physics::range::WALL.low),
    };
    match fit.room() {
        Ok(room) => {
            if !room.wall_holds() {
                draft.obstacles.push(Obstacle::SleeveWallTooThin);
            }
            Ok(Some(room))
        }
        // What the plane geometry refuses has been told as an obstacle.
        Err(PhysicsError::OutOfRange { .. } | PhysicsError::Contradiction { .. }) => Ok(None),
        Err(other) => Err(other.into()),
    }
}

fn add_relief(case: &Case<'_>) -> Result<Draft, DiagnosisError> {
    let mut draft = Draft::new(
        case,
        Way::AddRelief,
        RepairOption::ReliefAdded,
        Effort::AddParts,
    );
    draft.before.clone_from(&case.seals);
    draft.risks.extend([Risk::FaultRemains, Risk::WearGoesOn]);
    draft.checks.push(NamedCheck::ReliefCracking);
    let Some(figures) = case.evidence.relief else {
        draft.missing.push(Unmeasured::Relief);
        return Ok(draft);
    };
    let answer = relief::check(&case.measured, figures, case.seals.as_ref())?;
    draft.assumptions.extend(answer.assumptions.iter().copied());
    let Some((behaviour, relief)) = answer.relief.zip(figures.relief(case.evidence.now.id)) else {
        draft.missing.push(Unmeasured::Relief);
        return Ok(draft);
    };
    match behaviour.window {
        WindowAnswer::BelowRegulation | WindowAnswer::AboveLimit => {
            draft.obstacles.push(Obstacle::ReliefOutsideWindow);
        }
        WindowAnswer::Unknown if answer.limit_pa.is_none() => {
            draft.missing.push(Unmeasured::ReliefLimit);
        }
        WindowAnswer::Unknown | WindowAnswer::Inside => {}
    }
    let worst = answer.worst;
    match worst.as_ref().map(|worst| worst.holds) {
        Some(Some(false)) => draft.obstacles.push(Obstacle::ReliefTooSmall),
        None => draft.missing.push(Unmeasured::Clearance),
        Some(_) => {}
    }
    draft.needs.relief = Some(ReliefNeeds {
        ball_diameter_m: relief.ball_diameter_m,
        seat_diameter_m: relief.seat_diameter_m,
        load_seated_n: relief.load_seated_n,
        rate_n_per_m: relief.rate_n_per_m,
        cracking_pa: Some(behaviour.cracking_pa),
        lost_flow_m3_s: worst.and_then(|worst| worst.lost_flow_m3_s),
    });
    draft.relief = Some(relief);
    Ok(draft)
}

fn replace_body(case: &Case<'_>) -> Draft {
    let mut draft = Draft::new(
        case,
        Way::ReplaceBody,
        RepairOption::BodyReplaced,
        Effort::ChangeBody,
    );
    draft.risks.push(Risk::OtherBodyUnknown);
    draft
        .checks
        .extend([NamedCheck::MeasureOtherBody, NamedCheck::TestAgain]);
    draft.assumptions = vec![Assumed::OtherBodyAsProfile];
    draft
}

fn span(ends: [f64; 3]) -> Result<Option<Span>, DiagnosisError> {
    let [low, likely, high] = ends;
    Ok(Some(Span {
        low: Finite::try_from(low)?,
        likely: Finite::try_from(likely)?,
        high: Finite::try_from(high)?,
    }))
}
