//! What a repair adds to a valve that its profile doesn't have: a sleeve that sits in its bore with
//! a gap of its own, and a spring whose load has a tolerance.

use model::geometry;
use model::unit::{BoreProfile, Material, Node, Port};
use physics::gap::{Annulus, Expansion, clearance_at_temperature};
use physics::regulator::{LandLeak, Regulator};
use uom::si::f64::{Force, Length, Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use crate::error::DiagnosisError;
use crate::valve::{self, BENCH_TEMPERATURE_K, metres};

/// What a repair adds.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Added {
    /// The seat of a sleeve; none: no sleeve.
    pub seat: Option<SleeveSeat>,
    /// How far the spring's load may be off, low and high; none: taken as stated.
    pub spring_load: Option<[Force; 2]>,
}

/// How a sleeve sits in its bore. Oil passes around it from port to port as through any annulus.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SleeveSeat {
    /// Outer diameter of the sleeve at 20 °C.
    pub outer_diameter: Length,
    /// Radial gap at 20 °C, low, likely and high; zero or less is a press fit, which leaks nothing.
    pub radial: [Length; 3],
    /// Material of the sleeve.
    pub sleeve: Material,
    /// Material of the body.
    pub body: Material,
}

impl SleeveSeat {
    /// The radial gap of one end at a temperature; none where the sleeve sits tight.
    ///
    /// # Errors
    /// [`DiagnosisError::Physics`] when a figure lies outside its law's range.
    pub fn gap_at(&self, end: usize, temperature_k: f64) -> Result<Option<Length>, DiagnosisError> {
        let least = metres(physics::range::RADIAL_CLEARANCE.low);
        // A press fit has no gap to expand: taken up from the least one that the law covers.
        let cold = self.radial.get(end).copied().unwrap_or(least);
        let pressed = if cold < least {
            least - cold
        } else {
            metres(0.0)
        };
        let kelvins = ThermodynamicTemperature::new::<kelvin>;
        let hot = clearance_at_temperature(
            self.outer_diameter + 2.0 * cold.max(least),
            cold.max(least),
            &Expansion {
                bore: valve::coefficient(self.body),
                valve: valve::coefficient(self.sleeve),
                from: kelvins(BENCH_TEMPERATURE_K),
                to: kelvins(temperature_k),
            },
        )? - pressed;
        Ok((hot > least).then_some(hot))
    }
}

impl Added {
    /// Adds what leaks around the sleeve, at one end of what its gap may be.
    pub(super) fn put_seat(
        &self,
        profile: &BoreProfile,
        regulator: &mut Regulator,
        end: usize,
        temperature_k: f64,
    ) -> Result<(), DiagnosisError> {
        let Some(seat) = &self.seat else {
            return Ok(());
        };
        let Some(gap) = seat.gap_at(end, temperature_k)? else {
            return Ok(());
        };
        for (from, to, length) in stretches(profile) {
            let centred = Ratio::new::<ratio>(0.0);
            let mean = seat.outer_diameter + gap;
            regulator.leaks.push(LandLeak {
                annulus: Annulus::new(mean, gap, length, centred)?,
                from: valve::place(from),
                to: valve::place(to),
            });
        }
        Ok(())
    }
}

/// The stretches between neighbouring ports of different places: there oil passes around a sleeve.
pub(crate) fn stretches(profile: &BoreProfile) -> Vec<(Node, Node, Length)> {
    let mut ports: Vec<&Port> = profile.bore.ports.iter().collect();
    ports.sort_by(|a, b| a.start_m.total_cmp(&b.start_m));
    let pairs = ports.iter().zip(ports.iter().skip(1));
    pairs
        .filter(|(left, right)| left.node != right.node)
        .map(|(left, right)| (left.node, right.node, *right.start_m - *left.end_m))
        .filter(|(_, _, length)| *length >= physics::range::ENGAGED_LENGTH.low)
        .map(|(left, right, length)| (left, right, Length::new::<meter>(length)))
        .collect()
}

/// True when a sleeve of this length reaches over every port.
pub(crate) fn covers_ports(profile: &BoreProfile, length_m: f64) -> bool {
    reach(profile).is_none_or(|(low, high)| length_m >= high - low)
}

/// From where to where along the bore the ports lie, and the lands where the valve regulates.
pub(crate) fn reach(profile: &BoreProfile) -> Option<(f64, f64)> {
    let ends = profile
        .bore
        .ports
        .iter()
        .map(|port| (*port.start_m, *port.end_m));
    let reach = ends.fold((f64::MAX, f64::MIN), |(low, high), (start, end)| {
        (low.min(start), high.max(end))
    });
    // It must also carry the lands where the valve regulates.
    let stroke = geometry::regulating_stroke(profile).unwrap_or(0.0);
    let faces = profile
        .lands
        .iter()
        .map(|land| geometry::land_faces(profile, land, stroke));
    let (low, high) = faces.fold(reach, |(low, high), (left, right)| {
        (low.min(left), high.max(right))
    });
    (high >= low).then_some((low, high))
}
