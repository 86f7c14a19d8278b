//! Which judgements a profile carries, and which one each missing dimension costs: told while a
//! profile is entered, before anybody tests. What is told here is what [`crate::judge`] does.

use model::finding::Severity;
use model::geometry;
use model::limits::Check;
use model::unit::{BoreProfile, Clutch, OpeningRole, OrificePath, TestPoint};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A judgement that a whole profile carries.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Judged {
    /// A vacuum reading held against its limit.
    Limit,
    /// A vacuum reading told as a leak and a clearance.
    Leak,
    /// What the leak does to the regulated pressure.
    Pressure,
    /// The spring load that holds the set pressure.
    SpringLoad,
    /// The torque that a clutch loses or gains by the shift.
    ClutchTorque,
}

impl Judged {
    /// All of them.
    pub const ALL: [Self; 5] = [
        Self::Limit,
        Self::Leak,
        Self::Pressure,
        Self::SpringLoad,
        Self::ClutchTorque,
    ];
}

/// One missing dimension and what it costs.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Cost {
    /// Field of the bore's profile, e.g. `balance_orifice` or `lands[1].diameter_m`.
    pub field: String,
    /// The judgements that can't be had without it.
    pub costs: Vec<Judged>,
}

/// What a profile is good for.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Prospect {
    /// The judgements that nothing missing stands in the way of.
    pub can: Vec<Judged>,
    /// What is missing, in the order in which it is entered.
    pub costs: Vec<Cost>,
}

/// What a profile is good for, and what is missing for the rest. `clutches`: those of its circuit;
/// what costs the pressure costs their torque too, which isn't told again at each dimension.
#[must_use]
pub fn prospect(profile: &BoreProfile, clutches: &[&Clutch]) -> Prospect {
    let mut costs = Vec::new();
    let mut missing = |field: String, lost: &[Judged]| {
        costs.push(Cost {
            field,
            costs: lost.to_vec(),
        });
    };
    let pressure = [Judged::Pressure];
    let (unit, circuit, spool) = (&profile.unit, &profile.circuit, &profile.bore.spool);
    for (field, there) in [
        ("unit.oil", unit.oil.is_some()),
        ("unit.line_idle_pa", unit.line_idle_pa.is_some()),
        ("unit.line_highest_pa", unit.line_highest_pa.is_some()),
    ] {
        if !there {
            missing(field.to_owned(), &pressure);
        }
    }
    if circuit.setpoint_pa.is_none() {
        let lost = [Judged::Pressure, Judged::SpringLoad];
        missing("circuit.setpoint_pa".to_owned(), &lost);
    }
    for (field, there) in [
        (
            "circuit.specified_low_pa",
            circuit.specified_low_pa.is_some(),
        ),
        (
            "circuit.specified_high_pa",
            circuit.specified_high_pa.is_some(),
        ),
        ("circuit.demand_m3_s", circuit.demand_m3_s.is_some()),
        ("circuit.solenoids", circuit.solenoids.is_some()),
        ("bore.spool.stroke_m", spool.stroke_m.is_some()),
        ("bore.spool.friction_n", spool.friction_n.is_some()),
    ] {
        if !there {
            missing(field.to_owned(), &pressure);
        }
    }
    let tested = |name: &str| {
        let points = &profile.test_points;
        let isolates = |point: &TestPoint| point.isolates.iter().any(|land| land == name);
        !points.is_empty() && points.iter().all(|(_, point)| isolates(point))
    };
    if profile.lands.is_empty() {
        let lost = [Judged::Leak, Judged::Pressure, Judged::SpringLoad];
        missing("lands".to_owned(), &lost);
    }
    let reaction = profile.reaction_land().map(|land| land.name.as_str());
    for (i, land) in profile.lands.iter().enumerate() {
        if land.diameter_m.is_some() {
            continue;
        }
        let mut lost = Vec::new();
        if tested(&land.name) {
            lost.push(Judged::Leak);
        }
        lost.push(Judged::Pressure);
        if reaction == Some(land.name.as_str()) {
            lost.push(Judged::SpringLoad);
        }
        missing(format!("lands[{i}].diameter_m"), &lost);
    }
    if profile.opening(OpeningRole::Supply).is_none()
        || geometry::regulating_stroke(profile).is_none()
    {
        missing("openings".to_owned(), &pressure);
    }
    match &profile.spring {
        None => missing("spring".to_owned(), &pressure),
        Some(spring) => {
            if spring.rate_n_per_m.is_none() {
                missing("spring.rate_n_per_m".to_owned(), &pressure);
            }
            if spring.load_regulating_n.is_none() {
                missing("spring.load_regulating_n".to_owned(), &pressure);
            }
        }
    }
    match &profile.balance_orifice {
        None => {
            let through = |point: &TestPoint| point.orifice != OrificePath::Blocked;
            let all = !profile.test_points.is_empty()
                && profile.test_points.iter().all(|(_, point)| through(point));
            let lost: &[Judged] = if all {
                &[Judged::Leak, Judged::Pressure]
            } else {
                &pressure
            };
            missing("balance_orifice".to_owned(), lost);
        }
        Some(orifice) if orifice.length_m.is_none() => {
            missing("balance_orifice.length_m".to_owned(), &pressure);
        }
        Some(_) => {}
    }
    if profile.test_points.is_empty() {
        let lost = [Judged::Limit, Judged::Leak, Judged::Pressure];
        missing("test_points".to_owned(), &lost);
    }
    for (i, (_, point)) in profile.test_points.iter().enumerate() {
        if point.limit.is_none() {
            missing(format!("test_points[{i}].limit"), &[Judged::Limit]);
        }
        if point.isolates.is_empty() {
            let lost = [Judged::Leak, Judged::Pressure];
            missing(format!("test_points[{i}].isolates"), &lost);
        }
    }
    if clutches.is_empty() {
        missing("clutches".to_owned(), &[Judged::ClutchTorque]);
    }
    for (i, clutch) in clutches.iter().enumerate() {
        for field in clutch.lacks(circuit.solenoid_kind) {
            missing(format!("clutches[{i}].{field}"), &[Judged::ClutchTorque]);
        }
    }
    // Pressure needs the leak, so what costs the one costs the other.
    for cost in &mut costs {
        if cost.costs.contains(&Judged::Leak) && !cost.costs.contains(&Judged::Pressure) {
            cost.costs.push(Judged::Pressure);
        }
    }
    let wrong = profile
        .findings()
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let lost = |judged: &Judged| {
        costs.iter().any(|cost| cost.costs.contains(judged))
            || (wrong && matches!(judged, Judged::Pressure))
    };
    let mut can: Vec<_> = Judged::ALL
        .into_iter()
        .filter(|judged| !lost(judged))
        .collect();
    if !can.contains(&Judged::Pressure) {
        can.retain(|judged| *judged != Judged::ClutchTorque);
    }
    Prospect { can, costs }
}
