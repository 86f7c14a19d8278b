//! A bore in section, from its profile.

use diagnosis::pressure::drawn_stroke_m;
use model::geometry::{engaged_length, land_faces, opening_at, port};
use model::unit::{BoreProfile, Land, OpeningRole, Seal};

use crate::dto::{BoreDrawing, DrawnLand, DrawnOpening, DrawnPort, DrawnSeal};
use crate::error::{ApiError, finite};

/// Draws a bore where it regulates, or at a given stroke; `tested` names the lands whose leak a
/// test shows.
pub(crate) fn draw(
    profile: &BoreProfile,
    stroke_m: Option<f64>,
    tested: &[String],
) -> Result<BoreDrawing, ApiError> {
    let bore = &profile.bore;
    // A profile that contradicts itself never drives the spool through the plug.
    let travel = bore.spool.stroke_m.map_or(f64::MAX, |travel| *travel);
    let stroke = stroke_m.unwrap_or_else(|| drawn_stroke_m(profile).min(travel).max(0.0));
    let mut lands = Vec::new();
    let mut seals = Vec::new();
    for land in &profile.lands {
        let (start, end) = land_faces(profile, land, stroke);
        lands.push(DrawnLand {
            name: land.name.clone(),
            start_m: finite(start)?,
            end_m: finite(end)?,
            // A clearance is never drawn to scale: an unknown land is drawn as wide as its bore.
            diameter_m: land.diameter_m.unwrap_or(bore.diameter_m),
        });
        let shown = tested.contains(&land.name);
        for seal in &land.seals {
            seals.extend(drawn_seal(profile, land, seal, stroke, shown)?);
        }
    }
    let mut openings = Vec::new();
    for opening in &profile.openings {
        if let Some(open) = opening_at(profile, opening, stroke) {
            openings.push(DrawnOpening {
                supply: opening.role == OpeningRole::Supply,
                port: opening.port.clone(),
                open_m: finite(open)?,
            });
        }
    }
    let ports = bore.ports.iter().map(|port| DrawnPort {
        name: port.name.clone(),
        node: port.node,
        start_m: port.start_m,
        end_m: port.end_m,
        side: port.side,
    });
    Ok(BoreDrawing {
        bore: profile.id,
        name: bore.name.clone(),
        diameter_m: bore.diameter_m,
        start_m: bore.start_m,
        end_m: bore.end_m,
        spring_on_left: bore.spring_on_left,
        stem_diameter_m: bore.spool.stem_diameter_m,
        stroke_m: finite(stroke)?,
        ports: ports.collect(),
        lands,
        openings,
        seals,
        balance_orifice_m: profile
            .balance_orifice
            .as_ref()
            .map(|orifice| orifice.diameter_m),
        relief: profile.relief.is_some(),
    })
}

fn drawn_seal(
    profile: &BoreProfile,
    land: &Land,
    seal: &Seal,
    stroke: f64,
    tested: bool,
) -> Result<Option<DrawnSeal>, ApiError> {
    let length = engaged_length(profile, land, seal, stroke);
    if length <= 0.0 {
        return Ok(None);
    }
    let (left, _) = land_faces(profile, land, stroke);
    let bound = seal
        .left_port
        .as_deref()
        .and_then(|name| port(profile, name));
    let start = bound.map_or(left, |port| left.max(*port.end_m));
    Ok(Some(DrawnSeal {
        land: land.name.clone(),
        start_m: finite(start)?,
        end_m: finite(start + length)?,
        left: seal.left,
        right: seal.right,
        tested,
    }))
}

/// A bore of which nothing but its own dimensions is known.
pub(crate) fn blank(id: model::Id, bore: &model::unit::Bore) -> BoreDrawing {
    BoreDrawing {
        bore: id,
        name: bore.name.clone(),
        diameter_m: bore.diameter_m,
        start_m: bore.start_m,
        end_m: bore.end_m,
        spring_on_left: bore.spring_on_left,
        stem_diameter_m: bore.spool.stem_diameter_m,
        stroke_m: model::Finite::ZERO,
        ports: Vec::new(),
        lands: Vec::new(),
        openings: Vec::new(),
        seals: Vec::new(),
        balance_orifice_m: None,
        relief: false,
    }
}
