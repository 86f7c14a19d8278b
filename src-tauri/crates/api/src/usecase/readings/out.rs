//! Out: one row for each figure that was read, vacuum first, in the shop's units.
//!
//! A row names its record and its test, so that it can be found again. Nothing of a customer or a
//! vehicle is in it, nor who took the reading. Struck readings and ones that were corrected since
//! stay in the journal.

use model::bench::{Ambient, Blank, Setup, Stand, StandCheck, Surface, VacuumTest};
use model::job::Job;
use model::relief_check::ReliefCheck;
use model::repair::Repair;
use model::unit::{Bore, OrificePath, TestPoint, Unit, ValvePosition};
use model::{Finite, Id, Kind};
use serde::de::DeserializeOwned;
use store::{Store, StoredRecord};
use tabular::{Style, Writer, shortest};

use crate::App;
use crate::dto::{
    ForceUnit, LengthUnit, PressureUnit, ReadingsWrite, ReadingsWritten, Settings, TemperatureUnit,
    VacuumUnit,
};
use crate::error::ApiError;
use crate::journal_io::{body, id, kind_name, lead, moment, need, standing, subject};
use crate::usecase::exchange::plain;
use crate::usecase::shop;

/// The ending of a table's name.
const ENDING: &str = "csv";

/// Inch, pound-force, conventional inch of mercury: NIST SP 811, appendix B.
const INCH: f64 = 0.0254;
const POUND_FORCE: f64 = 4.448_221_615_260_5;
const INCH_OF_MERCURY: f64 = 3_386.388_640_341;

/// A unit of the file: SI is (value + offset) × factor.
#[derive(Clone, Copy)]
struct FileUnit {
    symbol: &'static str,
    factor: f64,
    offset: f64,
}

const fn unit(symbol: &'static str, factor: f64) -> FileUnit {
    FileUnit {
        symbol,
        factor,
        offset: 0.0,
    }
}

impl FileUnit {
    fn of(self, si: Option<Finite>) -> Option<f64> {
        let to = |si: f64| si / self.factor - self.offset;
        let back = |value: f64| (value + self.offset) * self.factor;
        si.map(|si| shortest(*si, to, back))
    }

    fn under(self, name: &str) -> String {
        format!("{name} ({})", self.symbol)
    }
}

/// The units of one file: the shop's.
struct Units {
    vacuum: FileUnit,
    barometer: FileUnit,
    altitude: FileUnit,
    temperature: FileUnit,
    length: FileUnit,
    force: FileUnit,
    rate: FileUnit,
    pressure: FileUnit,
}

impl Units {
    fn of(shop: &Settings) -> Self {
        let (vacuum, barometer) = match shop.vacuum {
            VacuumUnit::InHg => (unit("inHg", INCH_OF_MERCURY), unit("inHg", INCH_OF_MERCURY)),
            VacuumUnit::Kpa => (unit("kPa", 1e3), unit("hPa", 100.0)),
        };
        let (length, altitude) = match shop.length {
            LengthUnit::In => (unit("in", INCH), unit("ft", 12.0 * INCH)),
            LengthUnit::Mm => (unit("mm", 1e-3), unit("m", 1.0)),
        };
        let (force, rate) = match shop.force {
            ForceUnit::Lbf => (unit("lbf", POUND_FORCE), unit("lbf/in", POUND_FORCE / INCH)),
            ForceUnit::N => (unit("N", 1.0), unit("N/mm", 1e3)),
        };
        Self {
            vacuum,
            barometer,
            altitude,
            length,
            force,
            rate,
            temperature: match shop.temperature {
                TemperatureUnit::F => FileUnit {
                    offset: 459.67,
                    ..unit("°F", 5.0 / 9.0)
                },
                TemperatureUnit::C => FileUnit {
                    offset: 273.15,
                    ..unit("°C", 1.0)
                },
            },
            pressure: match shop.pressure {
                PressureUnit::Psi => unit("psi", POUND_FORCE / (INCH * INCH)),
                PressureUnit::Kpa => unit("kPa", 1e3),
                PressureUnit::Bar => unit("bar", 1e5),
            },
        }
    }
}

/// The figure of a row, in the column of its dimension.
#[derive(Clone, Copy)]
enum Figure {
    Vacuum(Finite),
    Length(Finite),
    Force(Finite),
    Rate(Finite),
    Pressure(Finite),
}

/// One row.
struct Row<'a> {
    record: &'a StoredRecord,
    what: &'static str,
    label: &'a str,
    figure: Figure,
    reseated: Option<bool>,
}

/// Where a row belongs.
#[derive(Default)]
struct Place {
    /// The test, repair or relief check.
    of: Id,
    job: String,
    unit: String,
    bore: String,
    test_point: String,
    stand: String,
    setup: Option<Setup>,
}

struct Sheet {
    writer: Writer,
    units: Units,
    rows: u32,
    readings: u32,
}

impl Sheet {
    fn new(style: Style, units: Units) -> Result<Self, ApiError> {
        let mut writer = Writer::new(style);
        let names = [
            "record".into(),
            "kind".into(),
            "what".into(),
            "label".into(),
            "test".into(),
            "job".into(),
            "unit".into(),
            "bore".into(),
            "test point".into(),
            "taken at (UTC)".into(),
            units.vacuum.under("vacuum"),
            "reseated".into(),
            "stand".into(),
            "valve position".into(),
            "balance orifice".into(),
            "surface".into(),
            units.barometer.under("barometer"),
            units.altitude.under("altitude"),
            units.temperature.under("air temperature"),
            units.length.under("length"),
            units.force.under("force"),
            units.rate.under("spring rate"),
            units.pressure.under("pressure"),
        ];
        for name in names {
            writer.text(&name);
        }
        writer.end_row().map_err(ApiError::internal)?;
        Ok(Self {
            writer,
            units,
            rows: 0,
            readings: 0,
        })
    }

    fn row(&mut self, at: &Place, row: &Row<'_>) -> Result<(), ApiError> {
        let envelope = row.record.envelope();
        let (writer, units) = (&mut self.writer, &self.units);
        writer.text(&row.record.id().to_string());
        writer.text(envelope.kind.as_str());
        writer.text(row.what);
        writer.text(row.label);
        writer.text(&at.of.to_string());
        writer.text(&at.job);
        writer.text(&at.unit);
        writer.text(&at.bore);
        writer.text(&at.test_point);
        let taken = moment(envelope.wall_time);
        writer.text(&taken.to_rfc3339_opts(chrono::SecondsFormat::Secs, true));
        let figure = row.figure;
        let vacuum = match figure {
            Figure::Vacuum(si) => Some(si),
            _ => None,
        };
        writer.number(units.vacuum.of(vacuum));
        writer.text(match row.reseated {
            Some(true) => "yes",
            Some(false) => "no",
            None => "",
        });
        writer.text(&at.stand);
        let setup = at.setup.as_ref();
        writer.text(setup.map_or("", |it| valve_position(it.valve_position)));
        writer.text(setup.map_or("", |it| orifice(it.orifice)));
        writer.text(setup.map_or("", |it| surface(it.surface)));
        let (barometer, altitude) = match setup.map(|it| it.ambient) {
            Some(Ambient::Barometer { pressure_pa }) => (Some(pressure_pa), None),
            Some(Ambient::Altitude { altitude_m }) => (None, Some(altitude_m)),
            None => (None, None),
        };
        writer.number(units.barometer.of(barometer));
        writer.number(units.altitude.of(altitude));
        writer.number(units.temperature.of(setup.map(|it| it.air_temperature_k)));
        let only = |wanted: fn(Figure) -> Option<Finite>| wanted(figure);
        writer.number(units.length.of(only(|it| match it {
            Figure::Length(si) => Some(si),
            _ => None,
        })));
        writer.number(units.force.of(only(|it| match it {
            Figure::Force(si) => Some(si),
            _ => None,
        })));
        writer.number(units.rate.of(only(|it| match it {
            Figure::Rate(si) => Some(si),
            _ => None,
        })));
        writer.number(units.pressure.of(only(|it| match it {
            Figure::Pressure(si) => Some(si),
            _ => None,
        })));
        self.rows += 1;
        self.readings += u32::from(row.what == READING);
        writer.end_row().map_err(ApiError::internal)
    }

    /// Figures of one record, as far as they are known.
    fn figures(
        &mut self,
        at: &Place,
        record: &StoredRecord,
        figures: &[(&'static str, Option<Figure>)],
    ) -> Result<(), ApiError> {
        for (what, figure) in figures {
            if let Some(figure) = *figure {
                let row = Row {
                    record,
                    what,
                    label: "",
                    figure,
                    reseated: None,
                };
                self.row(at, &row)?;
            }
        }
        Ok(())
    }
}

const READING: &str = "reading";

/// Writes readings as a table.
pub(crate) fn write(app: &App, args: ReadingsWrite) -> Result<ReadingsWritten, ApiError> {
    let store = app.store()?;
    let mut jobs = Vec::new();
    let mut name = "readings".to_owned();
    match args.jobs {
        None => jobs = shop::all::<Job>(&store, Kind::Job)?,
        Some(chosen) => {
            for job in chosen {
                let body: Job = need(&store, subject(job), Kind::Job)?;
                if jobs.is_empty() {
                    name = format!("readings-{}", plain(&body.number));
                }
                jobs.push((job, body));
            }
        }
    }
    let style = Style {
        byte_order_mark: args.byte_order_mark,
        decimal: args.decimal,
    };
    let mut sheet = Sheet::new(style, Units::of(&shop::settings(&store)?))?;
    for (job, body) in &jobs {
        tests(&store, &mut sheet, *job, body)?;
    }
    for (job, body) in &jobs {
        dimensions(&store, &mut sheet, *job, body)?;
    }
    drop(store);
    let (rows, readings) = (sheet.rows, sheet.readings);
    let bytes = sheet.writer.finish().map_err(ApiError::internal)?;
    let name = format!("{name}-{}.{ENDING}", app.clock().today());
    let length = bytes.len() as u64;
    Ok(ReadingsWritten {
        file: app.files().made_of(name.clone(), &bytes)?,
        name,
        bytes: length,
        rows,
        readings,
    })
}

/// The name of something, empty when it isn't known (any more).
fn name_of<T: DeserializeOwned>(
    store: &Store,
    of: Id,
    kind: Kind,
    name: fn(T) -> String,
) -> Result<String, ApiError> {
    Ok(lead::<T>(store, subject(of), kind)?
        .map(name)
        .unwrap_or_default())
}

fn place(store: &Store, of: Id, job: &Job, bore: Id) -> Result<Place, ApiError> {
    Ok(Place {
        of,
        job: job.number.clone(),
        unit: name_of(store, job.unit, Kind::Unit, |unit: Unit| unit.name)?,
        bore: name_of(store, bore, Kind::Bore, |bore: Bore| bore.name)?,
        ..Place::default()
    })
}

fn tests(store: &Store, sheet: &mut Sheet, job_id: Id, job: &Job) -> Result<(), ApiError> {
    for of in store.children(subject(job_id), &kind_name(Kind::Test))? {
        let Some(test) = lead::<VacuumTest>(store, of, Kind::Test)? else {
            continue;
        };
        let test_point = name_of(store, test.test_point, Kind::TestPoint, |it: TestPoint| {
            it.name
        })?;
        let stand = match test.stand {
            Some(stand) => name_of(store, stand, Kind::Stand, |it: Stand| it.name)?,
            None => String::new(),
        };
        let at = Place {
            test_point,
            stand,
            setup: lead(store, of, Kind::TestSetup)?,
            ..place(store, id(of), job, test.bore)?
        };
        for record in &standing(store, of, Kind::TestReading)?.records {
            if let Some(reading) = body::<model::bench::Reading>(record) {
                let row = Row {
                    record,
                    what: READING,
                    label: "",
                    figure: Figure::Vacuum(reading.vacuum_pa),
                    reseated: Some(reading.reseated),
                };
                sheet.row(&at, &row)?;
            }
        }
        let check = standing(store, of, Kind::TestStandCheck)?;
        if let Some((record, check)) = check
            .lead()
            .and_then(|record| Some((record, body::<StandCheck>(record)?)))
        {
            let dead_head = Figure::Vacuum(check.dead_head_vacuum_pa);
            sheet.figures(&at, record, &[("hose closed", Some(dead_head))])?;
            for orifice in &check.orifices {
                let row = Row {
                    record,
                    what: "calibrated orifice",
                    label: &orifice.label,
                    figure: Figure::Vacuum(orifice.vacuum_pa),
                    reseated: None,
                };
                sheet.row(&at, &row)?;
            }
        }
        let blank = standing(store, of, Kind::TestBlank)?;
        if let Some((record, blank)) = blank
            .lead()
            .and_then(|record| Some((record, body::<Blank>(record)?)))
        {
            let vacuum = blank.vacuum_pa.map(Figure::Vacuum);
            sheet.figures(&at, record, &[("plug and plate alone", vacuum)])?;
        }
    }
    Ok(())
}

/// What repairs and relief checks measured or took from a data sheet.
fn dimensions(store: &Store, sheet: &mut Sheet, job_id: Id, job: &Job) -> Result<(), ApiError> {
    for of in store.children(subject(job_id), &kind_name(Kind::ReliefCheck))? {
        let stands = standing(store, of, Kind::ReliefCheck)?;
        if let Some((record, check)) = stands
            .lead()
            .and_then(|record| Some((record, body::<ReliefCheck>(record)?)))
        {
            let it = &check.figures;
            let figures = [
                (
                    "relief ball diameter",
                    it.ball_diameter_m.map(Figure::Length),
                ),
                (
                    "relief seat diameter",
                    it.seat_diameter_m.map(Figure::Length),
                ),
                (
                    "relief spring load, seated",
                    it.load_seated_n.map(Figure::Force),
                ),
                ("relief spring rate", it.rate_n_per_m.map(Figure::Rate)),
                ("relief lift", it.lift_stop_m.map(Figure::Length)),
                ("supply land clearance", it.clearance_m.map(Figure::Length)),
                (
                    "pressure that the parts stand",
                    it.limit_pa.map(Figure::Pressure),
                ),
            ];
            let at = place(store, id(of), job, check.bore)?;
            sheet.figures(&at, record, &figures)?;
        }
    }
    for of in store.children(subject(job_id), &kind_name(Kind::Repair))? {
        let stands = standing(store, of, Kind::Repair)?;
        if let Some((record, repair)) = stands
            .lead()
            .and_then(|record| Some((record, body::<Repair>(record)?)))
        {
            let it = &repair.work;
            let figures = [
                ("bore diameter", it.bore_diameter_m.map(Figure::Length)),
                (
                    "bore diameter, uncertainty",
                    it.bore_uncertainty_m.map(Figure::Length),
                ),
                ("valve diameter", it.valve_diameter_m.map(Figure::Length)),
                (
                    "valve diameter, uncertainty",
                    it.valve_uncertainty_m.map(Figure::Length),
                ),
                ("spring load", it.spring_load_n.map(Figure::Force)),
                ("spring rate", it.spring_rate_n_per_m.map(Figure::Rate)),
            ];
            let at = place(store, id(of), job, repair.bore)?;
            sheet.figures(&at, record, &figures)?;
        }
    }
    Ok(())
}

const fn valve_position(position: ValvePosition) -> &'static str {
    match position {
        ValvePosition::AtRest => "at rest",
        ValvePosition::HeldRegulating => "held regulating",
        ValvePosition::SpringOut => "spring out",
        ValvePosition::ValveAbsent => "valve absent",
    }
}

const fn orifice(path: OrificePath) -> &'static str {
    match path {
        OrificePath::Blocked => "blocked",
        OrificePath::InSeries => "in series",
        OrificePath::InParallel => "in parallel",
    }
}

const fn surface(surface: Surface) -> &'static str {
    match surface {
        Surface::Dry => "dry",
        Surface::Oiled => "oiled",
    }
}
