//! Springs: geometry, measured loads, shims, and another area.

use diagnosis::Assumed;
use physics::spring::geometry::{Ends, Mounting, SpringGeometry};
use physics::spring::measured::{self, LoadReading};
use physics::spring::spread::CoilErrors;
use physics::spring::{pressure_for_load, rerate};
use uom::si::f64::MassDensity;
use uom::si::mass_density::kilogram_per_cubic_meter;

use super::assumed;
use super::si::{at_most, m, m2, n, one, pa, spring, spring_line};
use crate::App;
use crate::dto::{
    CoilForm, CoilSpreadTold, MeasuredValue, ShimKnown, SpringAtHeightAnswer, SpringAtHeightArgs,
    SpringEnds, SpringFitAnswer, SpringFitArgs, SpringGeometryAnswer, SpringGeometryArgs,
    SpringMounting, SpringRerateAnswer, SpringRerateArgs, SpringSag, SpringShimAnswer,
    SpringShimArgs,
};
use crate::error::{ApiError, finite};

fn coil(form: &CoilForm) -> SpringGeometry {
    SpringGeometry {
        wire: m(form.wire_m),
        mean_diameter: m(form.mean_diameter_m),
        active_coils: one(form.active_coils),
        free_height: m(form.free_height_m),
        ends: match form.ends {
            SpringEnds::Plain => Ends::Plain,
            SpringEnds::PlainGround => Ends::PlainGround,
            SpringEnds::Closed => Ends::Closed,
            SpringEnds::ClosedGround => Ends::ClosedGround,
        },
        shear_modulus: pa(form.shear_modulus_pa),
        young_modulus: pa(form.young_modulus_pa),
        density: MassDensity::new::<kilogram_per_cubic_meter>(*form.wire_density_kg_m3),
    }
}

/// Rate, stress factors, solid height, surge and buckling.
pub(crate) fn geometry(
    _: &App,
    args: SpringGeometryArgs,
) -> Result<SpringGeometryAnswer, ApiError> {
    let coil = coil(&args.spring);
    let form = coil.form()?;
    let buckling = coil.buckling(match args.mounting {
        SpringMounting::FixedFixed => Mounting::FixedFixed,
        SpringMounting::FixedPivoted => Mounting::FixedPivoted,
        SpringMounting::Pivoted => Mounting::Pivoted,
        SpringMounting::FixedFree => Mounting::FixedFree,
    })?;
    Ok(SpringGeometryAnswer {
        rate_n_m: finite(form.rate.value)?,
        rate_with_direct_shear_n_m: finite(form.rate_with_direct_shear.value)?,
        index: finite(form.index.value)?,
        wahl: finite(form.wahl.value)?,
        bergstrasser: finite(form.bergstrasser.value)?,
        solid_height_m: finite(form.solid_height.value)?,
        solid_height_en_m: form
            .solid_height_en
            .map(|height| finite(height.value))
            .transpose()?,
        least_gap_en_m: finite(form.least_gap_en.value)?,
        active_mass_kg: finite(form.active_mass.value)?,
        natural_frequency_hz: finite(form.natural_frequency.value)?,
        safe_free_height_m: finite(buckling.safe_free_height.value)?,
        critical_deflection_m: buckling
            .critical_deflection
            .map(|deflection| finite(deflection.value))
            .transpose()?,
        assumptions: assumed(&form.assumptions),
    })
}

/// Load and stress at a height.
pub(crate) fn at_height(
    _: &App,
    args: SpringAtHeightArgs,
) -> Result<SpringAtHeightAnswer, ApiError> {
    let coil = coil(&args.spring);
    let loaded = coil.at_height(m(args.height_m))?;
    let form = coil.form()?;
    let spread = match args.errors {
        None => None,
        Some(off) => {
            let spread = coil.spread(
                m(args.height_m),
                &CoilErrors {
                    wire: m(off.wire_m),
                    mean_diameter: m(off.mean_diameter_m),
                    active_coils: one(off.active_coils),
                    free_height: m(off.free_height_m),
                    shear_modulus: one(off.shear_modulus_ratio),
                },
            )?;
            Some(CoilSpreadTold {
                rate_n_m: finite(spread.rate.value)?,
                load_n: finite(spread.load.value)?,
            })
        }
    };
    Ok(SpringAtHeightAnswer {
        rate_n_m: finite(form.rate.value)?,
        solid_height_m: finite(form.solid_height.value)?,
        spread,
        load_n: finite(loaded.load.value)?,
        stress_wahl_pa: finite(loaded.stress_wahl.value)?,
        stress_bergstrasser_pa: finite(loaded.stress_bergstrasser.value)?,
        to_solid_m: finite(loaded.to_solid.value)?,
        assumptions: assumed(&loaded.assumptions),
    })
}

/// A line through measured loads, and sag.
pub(crate) fn fit(_: &App, args: SpringFitArgs) -> Result<SpringFitAnswer, ApiError> {
    at_most("load_readings", &args.readings, 100)?;
    let readings: Vec<_> = args
        .readings
        .iter()
        .map(|reading| LoadReading {
            height: m(reading.height_m),
            load: n(reading.load_n),
            uncertainty: n(reading.uncertainty_n),
        })
        .collect();
    let line = measured::fit(&readings)?;
    let height = m(args.height_m);
    let load = line.load_at(height)?;
    let sag = args
        .nominal_load_n
        .map(|nominal| line.sag(height, n(nominal)))
        .transpose()?;
    Ok(SpringFitAnswer {
        rate_n_m: MeasuredValue {
            value: finite(line.rate.value)?,
            standard_uncertainty: finite(line.rate_uncertainty.value)?,
        },
        load_n: MeasuredValue {
            value: finite(load.load.value)?,
            standard_uncertainty: finite(load.uncertainty.value)?,
        },
        extrapolated: line.extrapolates(height),
        degrees_of_freedom: u32::try_from(line.degrees_of_freedom).map_err(ApiError::internal)?,
        scatter: finite(line.scatter.value)?,
        largest_residual_n: finite(line.largest_residual.value)?,
        sag: sag
            .map(|sag| {
                Ok::<_, ApiError>(SpringSag {
                    lost_load_n: finite(sag.lost_load.value)?,
                    lost_ratio: finite(sag.lost_fraction.value)?,
                    lost_height_m: MeasuredValue {
                        value: finite(sag.lost_height.value)?,
                        standard_uncertainty: finite(sag.lost_height_uncertainty.value)?,
                    },
                })
            })
            .transpose()?,
        assumptions: assumed(&line.assumptions),
    })
}

/// A shim for a pressure, or the pressure with a shim.
pub(crate) fn shim(_: &App, args: SpringShimArgs) -> Result<SpringShimAnswer, ApiError> {
    let (spring, area) = (spring(args.spring), m2(args.area_m2));
    let (thickness, pressure) = match args.known {
        ShimKnown::PressurePa(pressure) => {
            let shim = rerate::shim_for_pressure(&spring, area, pa(pressure))?;
            (shim.thickness, pa(pressure))
        }
        ShimKnown::ThicknessM(thickness) => {
            let thickness = m(thickness);
            let pressure = rerate::pressure_with_shim(&spring, area, thickness)?;
            (thickness, pressure)
        }
    };
    Ok(SpringShimAnswer {
        thickness_m: finite(thickness.value)?,
        pressure_pa: finite(pressure.value)?,
        assumptions: vec![Assumed::SpringStraight],
    })
}

/// The spring for another area.
pub(crate) fn rerated(_: &App, args: SpringRerateArgs) -> Result<SpringRerateAnswer, ApiError> {
    let new_area = m2(args.new_area_m2);
    let new = rerate::spring_for_new_area(&spring(args.spring), m2(args.old_area_m2), new_area)?;
    Ok(SpringRerateAnswer {
        spring: spring_line(&new)?,
        pressure_pa: finite(pressure_for_load(new.load_at_rest, new_area)?.value)?,
        assumptions: vec![Assumed::SpringStraight],
    })
}
