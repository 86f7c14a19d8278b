//! Viscosity index by ASTM D2270 (ISO 2909), from the viscosities at 40 and 100 °C.
//!
//! `VI = 100 (L - U) / (L - H)` up to 100, and `VI = (10^N - 1) / 0.00715 + 100` with
//! `N = (log H - log U) / log Y` above, U at 40 °C and Y at 100 °C. L and H by the standard's
//! quadratics in Y (its Table 2); they differ from its Table 1 by up to 0.1 %, of the index by up
//! to 0.14 %.

use uom::si::f64::{KinematicViscosity, Ratio};
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::ratio::ratio;

use crate::error::PhysicsError;
use crate::range;

/// Rows: Y up to (mm2/s), then a, b, c of `L = a Y^2 + b Y + c` and of `H` likewise (ASTM D2270,
/// Table 2; typed from memory, checked against Table 1 as an open package prints it).
const QUADRATICS: [(f64, [f64; 3], [f64; 3]); 14] = [
    (3.8, [1.146_73, 1.7576, -0.109], [0.841_55, 1.5521, -0.077]),
    (
        4.4,
        [3.380_95, -15.4952, 33.196],
        [0.785_71, 1.7929, -0.183],
    ),
    (5.0, [2.5, -7.2143, 13.812], [0.821_43, 1.5679, 0.119]),
    (6.4, [0.101, 16.635, -45.469], [0.049_85, 9.1613, -18.557]),
    (
        7.0,
        [3.357_14, -23.5643, 78.466],
        [0.226_19, 7.7369, -16.656],
    ),
    (7.7, [0.011_91, 21.475, -72.870], [0.797_62, -0.7321, 14.61]),
    (
        9.0,
        [0.418_58, 16.1558, -56.04],
        [0.057_94, 10.5156, -28.24],
    ),
    (12.0, [0.887_79, 7.5527, -16.6], [0.266_65, 6.7015, -10.81]),
    (15.0, [0.7672, 10.7972, -38.18], [0.200_73, 8.4658, -22.49]),
    (18.0, [0.973_05, 5.3135, -2.2], [0.288_89, 5.9741, -4.93]),
    (22.0, [0.972_56, 5.25, -0.98], [0.245_04, 7.416, -16.73]),
    (28.0, [0.914_13, 7.4759, -21.82], [0.203_23, 9.1267, -34.23]),
    (
        40.0,
        [0.870_31, 9.7157, -50.77],
        [0.184_11, 10.1015, -46.75],
    ),
    (
        55.0,
        [0.847_03, 12.6752, -133.31],
        [0.170_29, 11.4866, -80.62],
    ),
];

/// The viscosity index of an oil of these kinematic viscosities. The standard prints it rounded to
/// a whole number; this one isn't rounded.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for a viscosity at 100 °C outside 2 to 55 mm2/s (the standard goes
/// to 70 and beyond, far thicker than any transmission oil), or one at 40 °C outside the table;
/// [`PhysicsError::Contradiction`] for an oil not thinner at 100 °C.
pub fn viscosity_index(
    at_40c: KinematicViscosity,
    at_100c: KinematicViscosity,
) -> Result<Ratio, PhysicsError> {
    let (cold, hot) = ("cold_viscosity_m2_per_s", "hot_viscosity_m2_per_s");
    let u = range::KINEMATIC_VISCOSITY.check_as(cold, at_40c.get::<square_meter_per_second>())?;
    let y = range::within(
        hot,
        at_100c.get::<square_meter_per_second>(),
        2e-6,
        55e-6,
        "m2/s",
    )?;
    if y >= u {
        return Err(PhysicsError::Contradiction {
            field: hot,
            other: cold,
        });
    }
    let (u, y) = (u * 1e6, y * 1e6);
    let last = &QUADRATICS[QUADRATICS.len() - 1];
    let (_, l, h) = QUADRATICS.iter().find(|row| y <= row.0).unwrap_or(last);
    let at = |c: &[f64; 3]| (c[0] * y + c[1]) * y + c[2];
    let (l, h) = (at(l), at(h));
    Ok(Ratio::new::<ratio>(if u >= h {
        100.0 * (l - u) / (l - h)
    } else {
        let n = (h / u).ln() / y.ln();
        (10f64.powf(n) - 1.0) / 0.007_15 + 100.0
    }))
}
