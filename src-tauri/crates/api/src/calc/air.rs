//! Air: the barometer, gaps, holes, and a limit carried from one barometer to another.

use model::Finite;
use model::limits::Check;
use model::unit::LeakLaw;
use physics::air::Air;
use physics::gap::Land;
use physics::gap_air::{self, Seal};
use physics::hole::Hole;
use physics::quantity::{sonic_conductance, throughput};
use physics::vacuum_stand::{DeadHead, LeakLaw as CarryLaw};
use physics::{PhysicsError, atmosphere};
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use super::{assumed, oil};
use crate::App;
use crate::dto::{
    BarometerAnswer, BarometerArgs, GapAirAnswer, GapAirArgs, GapClearanceAnswer, GapClearanceArgs,
    HoleAirAnswer, HoleAirArgs, LimitAnswer, LimitArgs,
};
use crate::error::{ApiError, ErrorCode, finite};

/// Station pressure of an air, and the altitude that the standard atmosphere gives it.
pub(crate) fn barometer(_: &App, args: BarometerArgs) -> Result<BarometerAnswer, ApiError> {
    let out_of_range = || ApiError::new(ErrorCode::OutOfRange).at("ambient");
    if !args.ambient.findings().is_empty() {
        return Err(out_of_range());
    }
    let station = diagnosis::evidence::barometer_pa(&args.ambient).ok_or_else(out_of_range)?;
    let altitude = atmosphere::altitude(Pressure::new::<pascal>(station))?;
    Ok(BarometerAnswer {
        pressure_pa: finite(station)?,
        standard_altitude_m: finite(altitude.value)?,
    })
}

fn air_at(temperature_k: Finite) -> Result<Air, PhysicsError> {
    Air::at(ThermodynamicTemperature::new::<kelvin>(*temperature_k))
}

fn pa(value: Finite) -> Pressure {
    Pressure::new::<pascal>(*value)
}

/// Air through a gap.
pub(crate) fn gap(_: &App, args: GapAirArgs) -> Result<GapAirAnswer, ApiError> {
    let gap = oil::annulus(&args.gap)?;
    let air = air_at(args.air_temperature_k)?;
    let passed = gap_air::flow(
        &gap,
        &air,
        pa(args.upstream_pa),
        pa(args.downstream_pa),
        None,
    )?;
    Ok(GapAirAnswer {
        throughput_w: finite(passed.throughput.value)?,
        choked: passed.choked,
        reynolds: finite(passed.reynolds.get::<ratio>())?,
        slip_fraction: finite(passed.slip_fraction.get::<ratio>())?,
        inertia_fraction: finite(passed.inertia_fraction.get::<ratio>())?,
        assumptions: assumed(&passed.assumptions),
    })
}

/// The clearance behind a flow of air.
pub(crate) fn clearance(_: &App, args: GapClearanceArgs) -> Result<GapClearanceAnswer, ApiError> {
    let land = Land::new(
        Length::new::<meter>(*args.mean_diameter_m),
        Length::new::<meter>(*args.engaged_length_m),
    )?;
    let clearance = gap_air::clearance(
        throughput(*args.throughput_w),
        &[Seal {
            land,
            far_side: pa(args.upstream_pa),
        }],
        &air_at(args.air_temperature_k)?,
        pa(args.downstream_pa),
        Ratio::new::<ratio>(*args.eccentricity),
        None,
    )?;
    Ok(GapClearanceAnswer {
        radial_clearance_m: finite(clearance.value)?,
    })
}

/// Air through a hole.
pub(crate) fn hole(_: &App, args: HoleAirArgs) -> Result<HoleAirAnswer, ApiError> {
    let hole = Hole::new(
        sonic_conductance(*args.sonic_conductance_m3_s_pa),
        Ratio::new::<ratio>(*args.critical_ratio),
    )?;
    let air = air_at(args.air_temperature_k)?;
    let passed = hole.throughput(&air, pa(args.upstream_pa), pa(args.downstream_pa))?;
    Ok(HoleAirAnswer {
        throughput_w: finite(passed.value)?,
        equivalent_diameter_m: finite(hole.diameter(None)?.value)?,
    })
}

/// A limit carried to another barometer.
pub(crate) fn limit(_: &App, args: LimitArgs) -> Result<LimitAnswer, ApiError> {
    let dead_head = DeadHead::from_reading(
        pa(args.dead_head_vacuum_pa),
        pa(args.to_pa),
        args.dead_head_follows_barometer,
    )?;
    let law = match args.law {
        LeakLaw::Gap => CarryLaw::Gap,
        LeakLaw::Hole => CarryLaw::Hole,
    };
    let air = air_at(args.air_temperature_k)?;
    let limit = pa(args.vacuum_pa);
    let carried = dead_head.carry_limit(limit, pa(args.from_pa), pa(args.to_pa), law, &air)?;
    Ok(LimitAnswer {
        vacuum_pa: finite(carried.reading.value)?,
        assumptions: assumed(&carried.assumptions),
    })
}
