//! What the drawing of a bore implies: where each land stands at a stroke, how far each opening is
//! open, how long each seal is engaged, and where the dimensions contradict each other.
//!
//! Stroke is zero with the spool where the spring puts it and grows against the spring, so it grows
//! as feed rises. All in metres.

use crate::finding::{Finding, FindingCode, Severity};
use crate::limits::{Check, join};
use crate::unit::{BoreProfile, Edge, Land, Opening, OpeningRole, Port, Seal};

/// +1 when the spool moves to the right as stroke grows, -1 when it moves to the left.
#[must_use]
pub fn direction(profile: &BoreProfile) -> f64 {
    if profile.bore.spring_on_left {
        -1.0
    } else {
        1.0
    }
}

/// Left and right face of a land at a stroke.
#[must_use]
pub fn land_faces(profile: &BoreProfile, land: &Land, stroke_m: f64) -> (f64, f64) {
    let shift = direction(profile) * stroke_m;
    (*land.start_m + shift, *land.end_m + shift)
}

/// How far an opening stands open at a stroke, m: negative is overlap. `None` when its land or port
/// is not in the profile.
#[must_use]
pub fn opening_at(profile: &BoreProfile, opening: &Opening, stroke_m: f64) -> Option<f64> {
    let land = profile.land(&opening.land)?;
    let port = port(profile, &opening.port)?;
    let (left, right) = land_faces(profile, land, stroke_m);
    Some(match opening.edge {
        Edge::Left => left - *port.start_m,
        Edge::Right => *port.end_m - right,
    })
}

/// How an opening changes with stroke: +1 opens, -1 closes.
#[must_use]
pub fn opening_sense(profile: &BoreProfile, opening: &Opening) -> f64 {
    match opening.edge {
        Edge::Left => direction(profile),
        Edge::Right => -direction(profile),
    }
}

/// The stroke at which the supply has just closed: where the valve regulates. `None` without a
/// supply opening.
#[must_use]
pub fn regulating_stroke(profile: &BoreProfile) -> Option<f64> {
    let supply = profile.opening(OpeningRole::Supply)?;
    let open_at_rest = opening_at(profile, supply, 0.0)?;
    Some(open_at_rest)
}

/// Length along which a seal is engaged at a stroke, m; zero or less when it is open.
#[must_use]
pub fn engaged_length(profile: &BoreProfile, land: &Land, seal: &Seal, stroke_m: f64) -> f64 {
    let (mut left, mut right) = land_faces(profile, land, stroke_m);
    if let Some(bound) = seal
        .left_port
        .as_deref()
        .and_then(|name| port(profile, name))
    {
        left = left.max(*bound.end_m);
    }
    if let Some(bound) = seal
        .right_port
        .as_deref()
        .and_then(|name| port(profile, name))
    {
        right = right.min(*bound.start_m);
    }
    right - left
}

/// A port by its name.
#[must_use]
pub fn port<'a>(profile: &'a BoreProfile, name: &str) -> Option<&'a Port> {
    profile.bore.ports.iter().find(|port| port.name == name)
}

impl Check for BoreProfile {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        self.unit.check(&join(at, "unit"), findings);
        self.circuit.check(&join(at, "circuit"), findings);
        self.bore.check(&join(at, "bore"), findings);
        for (i, land) in self.lands.iter().enumerate() {
            let here = join(at, &format!("lands[{i}]"));
            land.check(&here, findings);
            self.check_land(land, &here, findings);
        }
        for (i, opening) in self.openings.iter().enumerate() {
            let here = join(at, &format!("openings[{i}]"));
            opening.check(&here, findings);
            self.check_opening(opening, &here, findings);
        }
        for pair in self.lands.windows(2) {
            if pair[0].end_m > pair[1].start_m {
                contradict(findings, join(at, "lands"));
            }
        }
        check_part(self.spring.as_ref(), at, "spring", findings);
        check_part(
            self.balance_orifice.as_ref(),
            at,
            "balance_orifice",
            findings,
        );
        if let Some(relief) = &self.relief {
            relief.check(&join(at, "relief"), findings);
        }
        for (i, (_, point)) in self.test_points.iter().enumerate() {
            point.check(&join(at, &format!("test_points[{i}]")), findings);
        }
    }
}

impl BoreProfile {
    fn check_land(&self, land: &Land, here: &str, findings: &mut Vec<Finding>) {
        if land.diameter_m >= self.bore.diameter_m {
            contradict(findings, join(here, "diameter_m"));
        }
        if land.end_m <= land.start_m {
            contradict(findings, join(here, "end_m"));
        }
        let Some(stroke) = regulating_stroke(self) else {
            return;
        };
        for (i, seal) in land.seals.iter().enumerate() {
            if engaged_length(self, land, seal, stroke) <= 0.0 {
                contradict(findings, join(here, &format!("seals[{i}]")));
            }
        }
    }

    fn check_opening(&self, opening: &Opening, here: &str, findings: &mut Vec<Finding>) {
        if opening_at(self, opening, 0.0).is_none() {
            contradict(findings, here.to_owned());
            return;
        }
        let wanted = match opening.role {
            OpeningRole::Supply => -1.0,
            OpeningRole::Exhaust => 1.0,
        };
        if opening_sense(self, opening) * wanted < 0.0 {
            let code = FindingCode::OpeningReversed;
            findings.push(Finding::at(Severity::Wrong, code, join(here, "edge")));
        }
        let outside = |stroke: f64| !(0.0..=*self.bore.spool.stroke_m).contains(&stroke);
        if opening.role == OpeningRole::Supply && regulating_stroke(self).is_none_or(outside) {
            contradict(findings, here.to_owned());
        }
    }
}

fn contradict(findings: &mut Vec<Finding>, field: String) {
    findings.push(Finding::at(
        Severity::Wrong,
        FindingCode::DimensionsContradict,
        field,
    ));
}

/// A part that may be missing: checked when it is there, said when it is not.
fn check_part<T: Check>(part: Option<&T>, at: &str, field: &str, findings: &mut Vec<Finding>) {
    match part {
        Some(part) => part.check(&join(at, field), findings),
        None => findings.push(Finding::at(
            Severity::Doubt,
            FindingCode::ProfileIncomplete,
            join(at, field),
        )),
    }
}
