//! What the drawing of a bore implies: where each land stands at a stroke, how far each opening is
//! open, how long each seal is engaged. Where dimensions contradict each other, `unit/check.rs` says.
//!
//! Stroke is zero with the spool where the spring puts it and grows against the spring, so it grows
//! as feed rises. All in metres.

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
