//! As [`crate::any_input`], for springs and fits.

use physics::fit::iso286::{ToleranceClass, fit, standard_tolerance};
use physics::fit::sleeve::Sleeve;
use physics::fit::stations::{Diameter, DiameterGauge, clearance, shape};
use physics::fit::temperature::{Metal, at_20c, read_at_20c, running_clearance};
use physics::spring::Spring;
use physics::spring::geometry::{Ends, Mounting, SpringGeometry};
use physics::spring::measured::{LoadReading, fit as fit_loads};
use physics::spring::rerate::{pressure_with_shim, shim_for_pressure, spring_for_new_area};
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::temperature_coefficient::per_kelvin;

use crate::any_input::{near, sound};
use crate::points::{density, k, m, n, one, pa, rate};

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn springs(
        d in near(1e-4, 0.01), coil in near(5e-4, 0.1), active in near(1.0, 50.0),
        free in near(1e-3, 0.3), g in near(2e10, 1.2e11), e in near(5e10, 2.5e11),
        h in near(1e-3, 0.3), rho in near(2000.0, 1e4),
    ) {
        let spring = SpringGeometry {
            wire: m(d), mean_diameter: m(coil), active_coils: one(active), free_height: m(free),
            ends: Ends::Closed, shear_modulus: pa(g), young_modulus: pa(e), density: density(rho),
        };
        sound(&spring.form())?;
        sound(&spring.at_height(m(h)))?;
        sound(&spring.installed(m(h)))?;
        for mounting in [Mounting::FixedFixed, Mounting::Pivoted, Mounting::FixedFree] {
            sound(&spring.buckling(mounting))?;
        }
    }

    #[test]
    fn measured_springs(
        list in prop::collection::vec(
            (near(1e-3, 0.3), near(0.05, 5000.0), near(1e-6, 500.0)), 0..6),
        h in near(1e-3, 0.3), nominal in near(0.05, 5000.0), a in near(1e-6, 5e-3),
        b in near(1e-6, 5e-3), p in near(1e4, 1e7), stiffness in near(10.0, 1e6),
    ) {
        let readings: Vec<_> = list
            .iter()
            .map(|&(h, f, u)| LoadReading { height: m(h), load: n(f), uncertainty: n(u) })
            .collect();
        let line = fit_loads(&readings);
        sound(&line)?;
        if let Ok(line) = line {
            sound(&line.load_at(m(h)))?;
            sound(&line.sag(m(h), n(nominal)))?;
            sound(&line.installed(m(h)))?;
        }
        let spring = Spring { load_at_rest: n(nominal), rate: rate(stiffness) };
        let area = Area::new::<square_meter>;
        sound(&shim_for_pressure(&spring, area(a), pa(p)))?;
        sound(&pressure_with_shim(&spring, area(a), m(h)))?;
        sound(&spring_for_new_area(&spring, area(a), area(b)))?;
    }

    #[test]
    fn fits(
        list in prop::collection::vec(
            (near(0.0, 0.3), near(-7.0, 7.0), near(2e-3, 0.1)), 0..8),
        shared in near(0.0, 1e-3), each in near(0.0, 1e-3), size in near(1e-3, 0.03),
        grade in any::<u8>(), t in near(223.0, 473.0), alpha in near(0.0, 5e-5),
        sizes in prop::array::uniform6(near(2e-3, 0.1)), wall in near(1e-4, 0.02),
        text in "[a-zA-Z]{0,2}[0-9]{0,2}",
    ) {
        let gauge = DiameterGauge { shared: m(shared), each: m(each) };
        let readings: Vec<_> = list
            .iter()
            .map(|&(z, a, d)| Diameter {
                station: m(z), direction: Angle::new::<radian>(a), value: m(d),
            })
            .collect();
        let bore = shape(&readings, &gauge);
        sound(&bore)?;
        if let Ok(bore) = &bore {
            sound(&clearance(bore, bore, (&gauge, &gauge), false))?;
            sound(&clearance(bore, bore, (&gauge, &gauge), true))?;
        }
        sound(&standard_tolerance(m(size), grade))?;
        let class = ToleranceClass::parse(&text);
        sound(&class)?;
        if let Ok(class) = class {
            sound(&class.limits(m(size)))?;
            let h = |t| ToleranceClass::parse(t).unwrap();
            sound(&fit(m(size), class, h("h6")))?;
            sound(&fit(m(size), h("H7"), class))?;
        }
        let alpha = TemperatureCoefficient::new::<per_kelvin>(alpha);
        sound(&at_20c(m(size), alpha, k(t)))?;
        sound(&read_at_20c(m(size), (alpha, k(t)), (alpha, k(t))))?;
        let metals = (Metal::DieCastAluminium, Metal::CarbonSteel);
        sound(&running_clearance(m(sizes[0]), m(sizes[1]), metals, k(t)))?;
        let sleeve = Sleeve {
            bore_smallest: m(sizes[0]), bore_largest: m(sizes[1]), finished_bore: m(sizes[2]),
            outer_diameter: m(sizes[3]), inner_diameter: m(sizes[4]), valve_diameter: m(sizes[5]),
            minimum_wall: m(wall),
        };
        sound(&sleeve.room())?;
    }
}
