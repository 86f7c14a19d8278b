//! A way as it is put together, before anything is predicted.

use model::Finite;
use model::repair::{RepairOption, RepairWork};
use model::unit::{BoreProfile, Relief};

use super::Case;
use super::answer::{
    Effort, NamedCheck, Needs, Obstacle, OptionWarning, PartUse, Risk, Unmeasured, Way,
};
use super::shelf::{Reamer, Valve};
use super::spring::{Chosen, SpringPlan};
use crate::assumed::Assumed;
use crate::pressure::SealEvidence;
use crate::repair::ground;

/// A way with its work and what is known of its doing.
#[derive(Debug, Clone)]
pub(super) struct Draft {
    pub way: Way,
    pub work: RepairWork,
    /// The bore that the work is done on.
    pub profile: BoreProfile,
    /// What is known of its seals before.
    pub before: Option<SealEvidence>,
    pub relief: Option<Relief>,
    pub needs: Needs,
    pub effort: Effort,
    pub obstacles: Vec<Obstacle>,
    pub missing: Vec<Unmeasured>,
    pub risks: Vec<Risk>,
    pub checks: Vec<NamedCheck>,
    pub warnings: Vec<OptionWarning>,
    pub assumptions: Vec<Assumed>,
}

impl Draft {
    pub fn new(case: &Case<'_>, way: Way, option: RepairOption, effort: Effort) -> Self {
        let evidence = case.evidence;
        Self {
            way,
            work: RepairWork::new(option),
            profile: ground(evidence.as_new, evidence.now, evidence.measured, option),
            before: None,
            relief: None,
            needs: Needs::default(),
            effort,
            obstacles: Vec::new(),
            missing: Vec::new(),
            risks: Vec::new(),
            checks: Vec::new(),
            warnings: Vec::new(),
            assumptions: vec![Assumed::OrificeKept],
        }
    }

    /// Names a part of the list.
    pub fn take(&mut self, part: Option<PartUse>) {
        let Some(part) = part else {
            return;
        };
        if !self.work.parts.is_empty() {
            self.work.parts.push_str("; ");
        }
        self.work.parts.push_str(&part.name);
        self.needs.parts.push(part);
    }

    /// Another valve.
    pub fn valve(&mut self, valve: Valve, needed_stroke: Option<f64>) {
        self.work.valve_diameter_m = Finite::new(valve.diameter.value);
        self.work.valve_uncertainty_m = Finite::new(valve.diameter.off);
        self.needs.valve_diameter_m = Finite::new(valve.diameter.value);
        self.work.valve_material = valve.material;
        if let Some(stroke) = valve.stroke {
            self.work.stroke_m = Finite::new(stroke);
            if needed_stroke.is_some_and(|needed| stroke <= needed) {
                self.obstacles.push(Obstacle::StrokeTooShort);
            }
        }
        if valve.grooved {
            self.assumptions.push(Assumed::GroovesNotCounted);
        }
        self.suppose(valve.used.is_none(), Obstacle::NoValveInList);
        self.take(valve.used);
    }

    /// A bore reamed.
    pub fn reamed(&mut self, reamer: Reamer) {
        self.work.bore_diameter_m = Finite::new(reamer.diameter.value);
        self.work.bore_uncertainty_m = Finite::new(reamer.diameter.off);
        self.suppose(reamer.used.is_none(), Obstacle::NoReamerInList);
        self.take(reamer.used);
    }

    /// A part that the list doesn't have: worked out with the sizes that it would need.
    pub fn suppose(&mut self, supposed: bool, obstacle: Obstacle) {
        if supposed {
            self.obstacles.push(obstacle);
            self.needs.supposed = true;
            self.warnings.push(OptionWarning::SizesSupposed);
        }
    }

    /// The spring that goes with it.
    pub fn spring(&mut self, plan: SpringPlan) {
        self.needs.reaction_area_m2 = Finite::new(plan.area_m2);
        self.needs.spring_load_n = plan.load_n.and_then(Finite::new);
        self.needs.spring_rate_n_per_m = plan.rate_n_per_m.and_then(Finite::new);
        let mut fitted = |load: f64, rate: Option<f64>| {
            self.work.spring_load_n = Finite::new(load);
            self.work.spring_rate_n_per_m = rate.and_then(Finite::new);
            self.checks.push(NamedCheck::SpringAtHeight);
        };
        match plan.chosen {
            Chosen::Kept => self.needs.spring_kept = true,
            Chosen::FromList {
                used,
                load_n,
                load_off_n,
                rate_n_per_m,
                shim_m,
            } => {
                fitted(load_n, Some(rate_n_per_m));
                self.needs.shim_m = shim_m.and_then(Finite::new);
                if load_off_n > 0.0 {
                    self.work.spring_tolerance_n = Finite::new(load_off_n);
                }
                self.take(Some(used));
            }
            Chosen::Needed => {
                if let Some(load) = plan.load_n {
                    fitted(load, plan.rate_n_per_m);
                }
                self.suppose(true, Obstacle::NoSpringInList);
                if plan.height_missing {
                    self.missing.push(Unmeasured::SpringHeight);
                }
            }
            Chosen::Unknown => self.missing.push(Unmeasured::Profile),
        }
    }
}
