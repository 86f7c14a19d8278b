//! What is odd about a profile. A part's own [`Check`] asks whether each of its numbers can be true
//! of such a thing; the profile's asks what its parts contradict in each other, and says so at the
//! part's own field. A number that is missing contradicts nothing.

use std::f64::consts::PI;

use super::{
    BalanceOrifice, Bore, BoreProfile, Circuit, CoilLimits, Land, Oil, Opening, OpeningRole,
    OpeningWindow, Relief, Spring, Tap, TestPoint, Unit,
};
use crate::finding::{Finding, FindingCode, Severity};
use crate::geometry::{engaged_length, opening_at, opening_sense, port, regulating_stroke};
use crate::limits::{self, Check, in_range, in_range_if_known, join, text_required};

/// A valve and its bore may differ by this much and still work, m on the diameter; a real one has
/// a tenth of that.
const WIDEST_CLEARANCE_M: f64 = 0.000_3;

type Found = Vec<Finding>;

fn wrong(findings: &mut Found, code: FindingCode, field: String) {
    findings.push(Finding::at(Severity::Wrong, code, field));
}

fn doubt(findings: &mut Found, code: FindingCode, field: String) {
    findings.push(Finding::at(Severity::Doubt, code, field));
}

/// A specification that doesn't say where it comes from can't be checked by anybody else.
fn sourced(source: &str, at: &str, findings: &mut Found) {
    if source.trim().is_empty() {
        doubt(findings, FindingCode::SourceMissing, join(at, "source"));
    }
}

impl Check for Oil {
    fn check(&self, at: &str, f: &mut Found) {
        let viscosity = limits::KINEMATIC_VISCOSITY_M2_S;
        in_range(
            *self.viscosity_40c_m2_s,
            viscosity,
            at,
            "viscosity_40c_m2_s",
            f,
        );
        in_range(
            *self.viscosity_100c_m2_s,
            viscosity,
            at,
            "viscosity_100c_m2_s",
            f,
        );
        in_range(
            *self.density_15c_kg_m3,
            limits::DENSITY_KG_M3,
            at,
            "density_15c_kg_m3",
            f,
        );
        if self.viscosity_100c_m2_s >= self.viscosity_40c_m2_s {
            wrong(
                f,
                FindingCode::DimensionsContradict,
                join(at, "viscosity_100c_m2_s"),
            );
        }
    }
}

impl Check for Unit {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        if let Some(oil) = &self.oil {
            oil.check(&join(at, "oil"), f);
        }
        let oil_range = limits::OIL_TEMPERATURE_K;
        in_range(
            *self.hot_oil_temperature_k,
            oil_range,
            at,
            "hot_oil_temperature_k",
            f,
        );
        in_range_if_known(
            self.line_idle_pa,
            limits::PRESSURE_PA,
            at,
            "line_idle_pa",
            f,
        );
        in_range_if_known(
            self.line_highest_pa,
            limits::PRESSURE_PA,
            at,
            "line_highest_pa",
            f,
        );
        if let (Some(idle), Some(highest)) = (self.line_idle_pa, self.line_highest_pa)
            && highest <= idle
        {
            wrong(
                f,
                FindingCode::DimensionsContradict,
                join(at, "line_highest_pa"),
            );
        }
        sourced(&self.source, at, f);
    }
}

impl Check for Circuit {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        let pressure = limits::PRESSURE_PA;
        in_range_if_known(self.setpoint_pa, pressure, at, "setpoint_pa", f);
        in_range_if_known(self.specified_low_pa, pressure, at, "specified_low_pa", f);
        in_range_if_known(self.specified_high_pa, pressure, at, "specified_high_pa", f);
        in_range_if_known(self.demand_m3_s, limits::FLOW_M3_S, at, "demand_m3_s", f);
        if let Some(count) = self.solenoids {
            in_range(f64::from(count), limits::SOLENOIDS, at, "solenoids", f);
        }
        if let (Some(low), Some(high)) = (self.specified_low_pa, self.specified_high_pa)
            && low > high
        {
            wrong(
                f,
                FindingCode::WindowReversed,
                join(at, "specified_high_pa"),
            );
        } else if let Some(set) = self.setpoint_pa
            && (self.specified_low_pa.is_some_and(|low| set < low)
                || self.specified_high_pa.is_some_and(|high| set > high))
        {
            doubt(
                f,
                FindingCode::SetpointOutsideWindow,
                join(at, "setpoint_pa"),
            );
        }
        if let Some(coil) = &self.coil {
            coil.check(&join(at, "coil"), f);
        }
        sourced(&self.source, at, f);
    }
}

impl Check for CoilLimits {
    fn check(&self, at: &str, f: &mut Found) {
        in_range_if_known(self.low_ohm, limits::COIL_OHM, at, "low_ohm", f);
        in_range_if_known(self.high_ohm, limits::COIL_OHM, at, "high_ohm", f);
        let temperature = limits::OIL_TEMPERATURE_K;
        in_range_if_known(self.limits_at_k, temperature, at, "limits_at_k", f);
        if let (Some(low), Some(high)) = (self.low_ohm, self.high_ohm)
            && *low >= *high
        {
            wrong(f, FindingCode::DimensionsContradict, join(at, "high_ohm"));
        }
        sourced(&self.source, at, f);
    }
}

impl Check for Tap {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        in_range_if_known(self.low_pa, limits::PRESSURE_PA, at, "low_pa", f);
        in_range_if_known(self.high_pa, limits::PRESSURE_PA, at, "high_pa", f);
        if let (Some(low), Some(high)) = (self.low_pa, self.high_pa)
            && low > high
        {
            wrong(f, FindingCode::WindowReversed, join(at, "high_pa"));
        }
        if self.low_pa.is_some() || self.high_pa.is_some() {
            sourced(&self.source, at, f);
        }
    }
}

impl Check for Bore {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        in_range(*self.diameter_m, limits::DIAMETER_M, at, "diameter_m", f);
        in_range(*self.start_m, limits::POSITION_M, at, "start_m", f);
        in_range(*self.end_m, limits::POSITION_M, at, "end_m", f);
        let spool = join(at, "spool");
        let stem = *self.spool.stem_diameter_m;
        in_range(stem, limits::DIAMETER_M, &spool, "stem_diameter_m", f);
        in_range_if_known(self.spool.stroke_m, limits::STROKE_M, &spool, "stroke_m", f);
        in_range_if_known(
            self.spool.friction_n,
            limits::FRICTION_N,
            &spool,
            "friction_n",
            f,
        );
        for (i, port) in self.ports.iter().enumerate() {
            let here = join(at, &format!("ports[{i}]"));
            text_required(&port.name, &here, "name", f);
            in_range(*port.start_m, limits::POSITION_M, &here, "start_m", f);
            in_range(*port.end_m, limits::POSITION_M, &here, "end_m", f);
        }
    }
}

impl Check for Land {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        in_range_if_known(self.diameter_m, limits::DIAMETER_M, at, "diameter_m", f);
        in_range(*self.start_m, limits::POSITION_M, at, "start_m", f);
        in_range(*self.end_m, limits::POSITION_M, at, "end_m", f);
    }
}

impl Check for Opening {
    fn check(&self, at: &str, f: &mut Found) {
        let fraction = *self.circumference_fraction;
        in_range(fraction, limits::FRACTION, at, "circumference_fraction", f);
        let Some(window) = &self.window else { return };
        let (kind, count) = match window {
            OpeningWindow::RoundHoles { count, diameter_m } => {
                let here = join(at, "window.round_holes");
                in_range(**diameter_m, limits::ORIFICE_M, &here, "diameter_m", f);
                ("window.round_holes", *count)
            }
            OpeningWindow::Notches {
                count,
                width_m,
                length_m,
            } => {
                let here = join(at, "window.notches");
                in_range(**width_m, limits::STROKE_M, &here, "width_m", f);
                in_range(**length_m, limits::STROKE_M, &here, "length_m", f);
                ("window.notches", *count)
            }
        };
        in_range(
            f64::from(count),
            limits::OPENING_WINDOWS,
            &join(at, kind),
            "count",
            f,
        );
    }
}

impl Check for Spring {
    fn check(&self, at: &str, f: &mut Found) {
        let (rate, load) = (limits::SPRING_RATE_N_PER_M, limits::SPRING_LOAD_N);
        in_range_if_known(self.rate_n_per_m, rate, at, "rate_n_per_m", f);
        in_range_if_known(self.load_regulating_n, load, at, "load_regulating_n", f);
        sourced(&self.source, at, f);
    }
}

impl Check for BalanceOrifice {
    fn check(&self, at: &str, f: &mut Found) {
        in_range(*self.diameter_m, limits::ORIFICE_M, at, "diameter_m", f);
        in_range_if_known(self.length_m, limits::ORIFICE_M, at, "length_m", f);
        sourced(&self.source, at, f);
    }
}

impl Check for Relief {
    fn check(&self, at: &str, f: &mut Found) {
        in_range(
            *self.ball_diameter_m,
            limits::DIAMETER_M,
            at,
            "ball_diameter_m",
            f,
        );
        in_range(
            *self.seat_diameter_m,
            limits::ORIFICE_M,
            at,
            "seat_diameter_m",
            f,
        );
        in_range(
            *self.load_seated_n,
            limits::SPRING_LOAD_N,
            at,
            "load_seated_n",
            f,
        );
        in_range(
            *self.rate_n_per_m,
            limits::SPRING_RATE_N_PER_M,
            at,
            "rate_n_per_m",
            f,
        );
        in_range(*self.lift_stop_m, limits::LIFT_M, at, "lift_stop_m", f);
        if self.seat_diameter_m >= self.ball_diameter_m {
            wrong(
                f,
                FindingCode::SeatLargerThanBall,
                join(at, "seat_diameter_m"),
            );
        }
        sourced(&self.source, at, f);
    }
}

impl Check for TestPoint {
    fn check(&self, at: &str, f: &mut Found) {
        text_required(&self.name, at, "name", f);
        if let Some(limit) = &self.limit {
            let here = join(at, "limit");
            in_range(*limit.vacuum_pa, limits::VACUUM_PA, &here, "vacuum_pa", f);
            sourced(&limit.source, &here, f);
        }
    }
}

impl Check for BoreProfile {
    fn check(&self, at: &str, f: &mut Found) {
        self.unit.check(&join(at, "unit"), f);
        self.circuit.check(&join(at, "circuit"), f);
        let bore = join(at, "bore");
        self.bore.check(&bore, f);
        sourced(&self.bore.source, &bore, f);
        self.check_ports(&bore, f);
        for (i, land) in self.lands.iter().enumerate() {
            let here = join(at, &format!("lands[{i}]"));
            land.check(&here, f);
            self.check_land(i, &here, f);
        }
        for (i, opening) in self.openings.iter().enumerate() {
            let here = join(at, &format!("openings[{i}]"));
            opening.check(&here, f);
            self.check_opening(opening, &here, f);
        }
        check_part(self.spring.as_ref(), at, "spring", f);
        self.check_spring(at, f);
        check_part(self.balance_orifice.as_ref(), at, "balance_orifice", f);
        if let Some(relief) = &self.relief {
            relief.check(&join(at, "relief"), f);
        }
        for (i, (_, point)) in self.test_points.iter().enumerate() {
            let here = join(at, &format!("test_points[{i}]"));
            point.check(&here, f);
            self.check_point(point, &here, f);
        }
    }
}

impl BoreProfile {
    fn outside(&self, start: f64, end: f64, field: String, f: &mut Found) {
        let (left, right) = (*self.bore.start_m, *self.bore.end_m);
        // A tenth of a micrometre lies within any rounding of what was typed.
        if start < left - 1e-7 || end > right + 1e-7 {
            let found = Finding::at(Severity::Wrong, FindingCode::OutsideBore, field);
            f.push(found.with_bounds(left, right));
        }
    }

    fn check_ports(&self, at: &str, f: &mut Found) {
        let bore = &self.bore;
        if bore.end_m <= bore.start_m {
            wrong(f, FindingCode::EndBeforeStart, join(at, "end_m"));
            return;
        }
        if bore.spool.stem_diameter_m >= bore.diameter_m {
            wrong(
                f,
                FindingCode::DimensionsContradict,
                join(at, "spool.stem_diameter_m"),
            );
        }
        for (i, port) in bore.ports.iter().enumerate() {
            let here = join(at, &format!("ports[{i}]"));
            if port.end_m <= port.start_m {
                wrong(f, FindingCode::EndBeforeStart, join(&here, "end_m"));
            } else {
                self.outside(*port.start_m, *port.end_m, join(&here, "start_m"), f);
            }
            let earlier = &bore.ports[..i];
            if earlier.iter().any(|other| other.name == port.name) {
                wrong(f, FindingCode::NameTwice, join(&here, "name"));
            }
            let shares = |other: &super::Port| {
                other.side == port.side
                    && *other.start_m < *port.end_m
                    && *port.start_m < *other.end_m
            };
            if earlier.iter().any(shares) {
                doubt(f, FindingCode::PortsOverlap, join(&here, "start_m"));
            }
        }
    }

    fn check_land(&self, index: usize, here: &str, f: &mut Found) {
        let land = &self.lands[index];
        if let Some(diameter) = land.diameter_m {
            let clearance = *self.bore.diameter_m - *diameter;
            let field = join(here, "diameter_m");
            if clearance <= 0.0 {
                let found = Finding::at(Severity::Wrong, FindingCode::LandWiderThanBore, field);
                f.push(found.with_bounds(0.0, *self.bore.diameter_m));
            } else if clearance > WIDEST_CLEARANCE_M {
                let code = FindingCode::ClearanceImplausible;
                f.push(Finding::at(Severity::Doubt, code, field).with_bounds(clearance, clearance));
            }
        }
        if self.lands[..index]
            .iter()
            .any(|other| other.name == land.name)
        {
            wrong(f, FindingCode::NameTwice, join(here, "name"));
        }
        if land.end_m <= land.start_m {
            wrong(f, FindingCode::EndBeforeStart, join(here, "end_m"));
            return;
        }
        self.outside(*land.start_m, *land.end_m, join(here, "start_m"), f);
        let shares = |other: &Land| *other.start_m < *land.end_m && *land.start_m < *other.end_m;
        if self.lands[..index].iter().any(shares) {
            wrong(f, FindingCode::LandsOverlap, join(here, "start_m"));
        }
        let stroke = regulating_stroke(self);
        for (i, seal) in land.seals.iter().enumerate() {
            let at = join(here, &format!("seals[{i}]"));
            let names = [&seal.left_port, &seal.right_port];
            let unknown = |name: &String| port(self, name).is_none();
            if names.into_iter().flatten().any(unknown) {
                wrong(f, FindingCode::NameUnknown, at);
            } else if stroke.is_some_and(|s| engaged_length(self, land, seal, s) <= 0.0) {
                wrong(f, FindingCode::SealNotCovered, at);
            }
        }
    }

    fn check_opening(&self, opening: &Opening, here: &str, f: &mut Found) {
        if self.land(&opening.land).is_none() {
            wrong(f, FindingCode::NameUnknown, join(here, "land"));
        }
        let port = port(self, &opening.port);
        if port.is_none() {
            wrong(f, FindingCode::NameUnknown, join(here, "port"));
        }
        let Some(at_rest) = opening_at(self, opening, 0.0) else {
            return;
        };
        if let (Some(port), Some(window)) = (port, &opening.window) {
            let (length, field) = match window {
                OpeningWindow::RoundHoles { diameter_m, .. } => {
                    (**diameter_m, "window.round_holes.diameter_m")
                }
                OpeningWindow::Notches { length_m, .. } => (**length_m, "window.notches.length_m"),
            };
            if length > *port.end_m - *port.start_m {
                doubt(f, FindingCode::WindowLargerThanPort, join(here, field));
            }
        }
        if let Some(window) = &opening.window {
            let (count, width, field) = match window {
                OpeningWindow::RoundHoles { count, diameter_m } => {
                    (*count, **diameter_m, "window.round_holes.count")
                }
                OpeningWindow::Notches { count, width_m, .. } => {
                    (*count, **width_m, "window.notches.count")
                }
            };
            if f64::from(count) * width > std::f64::consts::PI * *self.bore.diameter_m {
                wrong(f, FindingCode::WindowsWiderThanBore, join(here, field));
            }
        }
        let wanted = match opening.role {
            OpeningRole::Supply => -1.0,
            OpeningRole::Exhaust => 1.0,
        };
        if opening_sense(self, opening) * wanted < 0.0 {
            wrong(f, FindingCode::OpeningReversed, join(here, "edge"));
            // What it opens and when would only repeat that.
            return;
        }
        let travel = self.bore.spool.stroke_m;
        match opening.role {
            OpeningRole::Supply if at_rest <= 0.0 => {
                wrong(f, FindingCode::SupplyShutAtRest, here.to_owned());
            }
            OpeningRole::Supply => {
                if travel.is_some_and(|travel| at_rest > *travel) {
                    let code = FindingCode::SupplyOpenAtFullTravel;
                    let found = Finding::at(Severity::Wrong, code, here);
                    f.push(found.with_bounds(at_rest, at_rest));
                }
            }
            OpeningRole::Exhaust => {
                let opens_at = -at_rest;
                if travel.is_some_and(|travel| opens_at >= *travel) {
                    let code = FindingCode::ExhaustNeverOpens;
                    let found = Finding::at(Severity::Doubt, code, here);
                    f.push(found.with_bounds(opens_at, opens_at));
                }
                if regulating_stroke(self).is_some_and(|shut| opens_at < shut) {
                    doubt(f, FindingCode::ExhaustOpensEarly, here.to_owned());
                }
            }
        }
    }

    /// P = F / A on the face that the reaction pressure pushes.
    fn check_spring(&self, at: &str, f: &mut Found) {
        let load = self
            .spring
            .as_ref()
            .and_then(|spring| spring.load_regulating_n);
        let diameter = self.reaction_land().and_then(|land| land.diameter_m);
        let (Some(load), Some(diameter), Some(set)) = (load, diameter, self.circuit.setpoint_pa)
        else {
            return;
        };
        let area = PI / 4.0 * *diameter * *diameter;
        let holds = *load / area;
        let low = self.circuit.specified_low_pa.map_or(0.9 * *set, |low| *low);
        let high = self
            .circuit
            .specified_high_pa
            .map_or(1.1 * *set, |high| *high);
        if !(low..=high).contains(&holds) {
            let field = join(at, "spring.load_regulating_n");
            let found = Finding::at(Severity::Doubt, FindingCode::SpringHoldsOther, field);
            f.push(found.with_bounds(holds, *set * area));
        }
    }

    fn check_point(&self, point: &TestPoint, here: &str, f: &mut Found) {
        if point.isolates.is_empty() {
            doubt(f, FindingCode::IsolatesNothing, join(here, "isolates"));
        }
        if point.isolates.iter().any(|name| self.land(name).is_none()) {
            wrong(f, FindingCode::NameUnknown, join(here, "isolates"));
        }
    }
}

/// A part that may be missing: checked when it is there, said when it is not.
fn check_part<T: Check>(part: Option<&T>, at: &str, field: &str, f: &mut Found) {
    match part {
        Some(part) => part.check(&join(at, field), f),
        None => doubt(f, FindingCode::ProfileIncomplete, join(at, field)),
    }
}
