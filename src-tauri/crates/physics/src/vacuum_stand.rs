//! The vacuum stand: a pump, a gauge and a hose, and what a reading on it says about a leak.
//!
//! The pump takes q = S (p_gauge - p_dead), a constant volume flow less what its own back-leak
//! returns; the hose between gauge and port costs p_port^2 = p_gauge^2 + R_h q, laminar and
//! isothermal like the film of [`crate::gap_air`] without slip. Both are models: S and R_h come
//! from known orifices at the end of the hose ([`calibrate`]).
//!
//! A **reading** is a vacuum below ambient, positive; every pressure is absolute.

mod balance_orifice;
mod blank;
mod bore_test;
mod calibrate;
mod leak;
mod limit;
mod normal_equations;
mod reference_stand;
mod refusal;

pub use balance_orifice::{BalanceOrifice, MOST_CORRECTABLE_DROP, NEGLIGIBLE_DROP};
pub use blank::{Blank, BlankLaw};
pub use bore_test::{BoreCondition, BoreLeak, BoreTest, ValvePlacement, bore_leak, vacuum_force};
pub use calibrate::{Calibration, CalibrationOrifice, CalibrationTest, HoseFit, calibrate};
pub use leak::{FarSide, Leak, TestLand};
pub use limit::{CarriedLimit, LeakLaw};
pub use reference_stand::{
    REFERENCE_DEAD_HEAD_INHG, REFERENCE_PULL_M3_PER_S, reading_on_reference_stand, reference_stand,
};
pub use refusal::Refusal;

use uom::si::f64::{Pressure, VolumeRate};

use crate::air::Air;
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::quantity::{HoseResistance, Throughput, pascals, throughput};
use crate::range::{self, within};
use crate::root;

/// The gauge pressure at which a stand pulls nothing, as observed with the hose plugged.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DeadHead {
    /// Absolute pressure at the gauge.
    pub pressure: Pressure,
    /// Barometer on that day.
    pub barometer: Pressure,
    /// Whether the dead-head pressure is proportional to the barometer (a pump whose dead volume
    /// expands back, a venturi) or the same on any day (a pump at its ultimate pressure).
    pub follows_barometer: bool,
}

impl DeadHead {
    /// From the reading with the hose plugged.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `barometer_pa` or `dead_head_reading_pa` (0 to the barometer).
    pub fn from_reading(
        reading: Pressure,
        barometer: Pressure,
        follows_barometer: bool,
    ) -> Result<Self, PhysicsError> {
        let p_a = range::BAROMETER.check(barometer.value)?;
        let vacuum = within("dead_head_reading_pa", reading.value, 0.0, p_a, "Pa")?;
        let dead = Self {
            pressure: pascals(p_a - vacuum),
            barometer,
            follows_barometer,
        };
        dead.at(barometer)?;
        Ok(dead)
    }

    /// Absolute dead-head pressure at another barometer.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `dead_head_pressure_pa` or `barometer_pa`.
    pub fn at(&self, barometer: Pressure) -> Result<Pressure, PhysicsError> {
        let p = range::DEAD_HEAD.check(self.pressure.value)?;
        let then = range::BAROMETER.check_as("dead_head_barometer_pa", self.barometer.value)?;
        let now = range::BAROMETER.check(barometer.value)?;
        let dead = if self.follows_barometer {
            p * now / then
        } else {
            p
        };
        Ok(pascals(within(
            "dead_head_pressure_pa",
            dead,
            0.0,
            now,
            "Pa",
        )?))
    }

    pub(crate) fn assumption(&self) -> Assumption {
        if self.follows_barometer {
            Assumption::DeadHeadFollowsBarometer
        } else {
            Assumption::DeadHeadFixed
        }
    }
}

/// A calibrated stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VacuumStand {
    /// S, 1e-6 to 0.05 m3/s.
    pub pull: VolumeRate,
    /// Where it pulls nothing.
    pub dead_head: DeadHead,
    /// R_h; 0 for a hose that costs nothing.
    pub hose_resistance: HoseResistance,
}

/// What a reading says of the stand's own end.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PortState {
    /// Absolute pressure at the gauge.
    pub gauge_pressure: Pressure,
    /// Absolute pressure at the port, the far end of the hose.
    pub port_pressure: Pressure,
    /// Throughput that the stand takes.
    pub throughput: Throughput,
}

/// What a leak shows on a stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandReading {
    /// The gauge's reading, below ambient.
    pub reading: Pressure,
    /// Gauge, port and flow.
    pub port: PortState,
    /// Absolute pressure in the tested chamber (the port's, unless an orifice lies between).
    pub chamber_pressure: Pressure,
}

impl VacuumStand {
    /// From a reading back to flow and port pressure.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `vacuum_reading_pa` when the reading is above the barometer, better
    /// than the dead-head, or worse than the open hose would give; `barometer_pa`,
    /// `stand_pull_m3_per_s`, `dead_head_pressure_pa` or `hose_resistance_pa_s_per_m3`.
    pub fn interpret(
        &self,
        reading: Pressure,
        barometer: Pressure,
    ) -> Result<PortState, PhysicsError> {
        let stand = Checked::new(self, barometer)?;
        let field = range::VACUUM_READING.field;
        let deepest = stand.ambient - stand.dead_head;
        let vacuum = within(field, reading.value, 0.0, deepest, "Pa")?;
        let p_g = stand.ambient - vacuum;
        if stand.port(p_g) > stand.ambient {
            let worst = stand.ambient - stand.open_hose()?;
            return Err(PhysicsError::OutOfRange {
                field,
                value: vacuum,
                low: worst,
                high: deepest,
                unit: "Pa",
            });
        }
        Ok(stand.state(p_g))
    }

    /// From a leak to the reading that it gives at a barometer. Flow into the stand grows with the
    /// gauge's pressure and flow through the leak falls, so there is exactly one.
    ///
    /// # Errors
    /// [`PhysicsError`] naming the field out of range.
    pub fn reading(
        &self,
        leak: &Leak,
        orifice: &BalanceOrifice,
        air: &Air,
        barometer: Pressure,
    ) -> Result<StandReading, PhysicsError> {
        let stand = Checked::new(self, barometer)?;
        leak.check()?;
        let p_g = stand.gauge_pressure(leak, orifice, air)?;
        Ok(StandReading {
            reading: pascals(stand.ambient - p_g),
            port: stand.state(p_g),
            chamber_pressure: pascals(stand.chamber(p_g, orifice, air)),
        })
    }

    /// The assumptions behind any use of this stand.
    pub(crate) fn assumptions(&self) -> Vec<Assumption> {
        let mut list = vec![
            Assumption::DryIdealAir,
            Assumption::Isothermal,
            Assumption::ConstantPull,
            self.dead_head.assumption(),
        ];
        if self.hose_resistance.value == 0.0 {
            list.push(Assumption::HoseNeglected);
        }
        list
    }
}

/// A stand at one barometer, every number checked, SI.
pub(crate) struct Checked {
    pub(crate) ambient: f64,
    pub(crate) dead_head: f64,
    pub(crate) pull: f64,
    pub(crate) hose: f64,
}

impl Checked {
    pub(crate) fn new(stand: &VacuumStand, barometer: Pressure) -> Result<Self, PhysicsError> {
        Ok(Self {
            ambient: range::BAROMETER.check(barometer.value)?,
            dead_head: stand.dead_head.at(barometer)?.value,
            pull: range::STAND_PULL.check(stand.pull.value)?,
            hose: range::HOSE_RESISTANCE.check(stand.hose_resistance.value)?,
        })
    }

    pub(crate) fn flow(&self, p_g: f64) -> f64 {
        self.pull * (p_g - self.dead_head)
    }

    pub(crate) fn port(&self, p_g: f64) -> f64 {
        (p_g * p_g + self.hose * self.flow(p_g).max(0.0)).sqrt()
    }

    /// Chamber pressure for a gauge pressure, at most ambient.
    fn chamber(&self, p_g: f64, orifice: &BalanceOrifice, air: &Air) -> f64 {
        orifice
            .chamber_si(air, self.flow(p_g), self.port(p_g))
            .min(self.ambient)
    }

    pub(crate) fn gauge_pressure(
        &self,
        leak: &Leak,
        orifice: &BalanceOrifice,
        air: &Air,
    ) -> Result<f64, PhysicsError> {
        root::between("vacuum_reading_pa", self.dead_head, self.ambient, |p_g| {
            let chamber = self.chamber(p_g, orifice, air);
            self.flow(p_g)
                - leak.throughput_si(air, self.ambient, chamber)
                - orifice.parallel_si(air, self.ambient, chamber)
        })
    }

    /// Gauge pressure with nothing on the hose: the highest there is.
    fn open_hose(&self) -> Result<f64, PhysicsError> {
        root::between("vacuum_reading_pa", self.dead_head, self.ambient, |p_g| {
            self.port(p_g) - self.ambient
        })
    }

    fn state(&self, p_g: f64) -> PortState {
        PortState {
            gauge_pressure: pascals(p_g),
            port_pressure: pascals(self.port(p_g)),
            throughput: throughput(self.flow(p_g)),
        }
    }
}

#[cfg(test)]
mod tests;
