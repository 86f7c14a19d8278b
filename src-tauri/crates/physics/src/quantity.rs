//! Quantities that [`uom`] has no name for, the inch of mercury, and a pair of bounds.

use uom::si::ISQ;
use uom::si::SI;
use uom::si::f64::{Power, Pressure};
use uom::si::power::watt;
use uom::si::pressure::pascal;
use uom::typenum::{N1, N4, P1, P4, Z0};

/// Flow of gas as pressure times volume flow, q = mass flow x R T, in Pa m3/s.
///
/// It has the dimension of a power. At one temperature it is proportional to the mass flow, so it
/// is the same along a leak path while the volume flow is not.
pub type Throughput = Power;

/// Sonic conductance of ISO 6358, in m3/(s Pa).
pub type SonicConductance = uom::si::Quantity<ISQ<P4, N1, P1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Hose resistance R_h in p_port^2 = p_gauge^2 + R_h q, in Pa s/m3.
pub type HoseResistance = uom::si::Quantity<ISQ<N4, P1, N1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Pascals in one conventional inch of mercury (0 °C, standard gravity), of which vacuum gauges
/// speak. From the exact definitions: NIST SP 811 (2008) App. B prints 3.386389E+03.
pub const INCH_OF_MERCURY_PA: f64 = 3_386.388_640_341;

/// Pressure of a column of mercury, conventional inches.
#[must_use]
pub fn inches_of_mercury(inches: f64) -> Pressure {
    pascals(inches * INCH_OF_MERCURY_PA)
}

/// A throughput from its value in Pa m3/s.
#[must_use]
pub fn throughput(pa_m3_per_s: f64) -> Throughput {
    Power::new::<watt>(pa_m3_per_s)
}

/// A sonic conductance from its value in m3/(s Pa).
#[must_use]
pub fn sonic_conductance(m3_per_s_pa: f64) -> SonicConductance {
    uom::si::Quantity {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value: m3_per_s_pa,
    }
}

/// A hose resistance from its value in Pa s/m3.
#[must_use]
pub fn hose_resistance(pa_s_per_m3: f64) -> HoseResistance {
    uom::si::Quantity {
        dimension: std::marker::PhantomData,
        units: std::marker::PhantomData,
        value: pa_s_per_m3,
    }
}

pub(crate) fn pascals(pa: f64) -> Pressure {
    Pressure::new::<pascal>(pa)
}

/// Two bounds of one quantity, `low <= high`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval<T> {
    /// The lower bound.
    pub low: T,
    /// The upper bound.
    pub high: T,
}

impl<T: PartialOrd + Copy> Interval<T> {
    /// The interval between two values given in any order.
    pub fn between(a: T, b: T) -> Self {
        if a <= b {
            Self { low: a, high: b }
        } else {
            Self { low: b, high: a }
        }
    }

    /// Whether `value` lies within the bounds, both included.
    pub fn contains(&self, value: T) -> bool {
        self.low <= value && value <= self.high
    }
}
