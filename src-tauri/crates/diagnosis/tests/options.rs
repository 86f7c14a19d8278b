//! Repair options on the demo's valves: what each way needs, what it would do, and in what order.

use crate::bench::{Bench, finite};
use diagnosis::inspected::{
    MeasuredClearance, MeasuredOrifice, MeasuredParts, MeasuredSpring, seals_by_diameters,
};
use diagnosis::judgement::{BandSource, Consequence, ConsequenceAnswer, Judgement, Span};
use diagnosis::options::{
    Feasibility, LastTest, MotionAhead, Obstacle, OptionEvidence, OptionWarning, OrificeStands,
    RankReason, ReadingAhead, RepairOptions, RepairOutlook, Risk, Standing, UndecidedWhat,
    Unmeasured, Way, options,
};
use diagnosis::pressure::SealEvidence;
use diagnosis::repair::{RepairForecast, forecast, ground};
use model::inspection::{MarkDepth, Movement};
use model::planning::PlanFigures;
use model::relief_check::{ReliefFigures, ReliefPresence};
use model::repair::RepairWork;
use model::shop_part::{PartItem, ShopPart};
use model::unit::{BoreProfile, Material};
use model::{Finite, Id};
use proptest::prelude::*;

const PSI: f64 = 6_894.757_293_168_361;

fn larkmoor() -> BoreProfile {
    testkit::demo::profile("Larkmoor L6").unwrap()
}

fn part(n: u128, name: &str, item: PartItem) -> (Id, ShopPart) {
    let part = ShopPart {
        name: name.into(),
        item,
        bore: None,
        source: "Bench sheet (invented)".into(),
        notes: String::new(),
        withdrawn: false,
    };
    (Id::from_u128(n), part)
}

fn valve(n: u128, mm: f64) -> (Id, ShopPart) {
    part(
        n,
        &format!("Valve {mm}"),
        PartItem::Valve {
            diameter_m: finite(mm * 1e-3),
            diameter_tolerance_m: finite(2e-6),
            material: Material::AluminiumWrought,
            grooved: false,
            stroke_m: None,
        },
    )
}

fn sleeve(n: u128, outer_mm: f64, inner_mm: f64) -> (Id, ShopPart) {
    part(
        n,
        &format!("Sleeve {outer_mm}"),
        PartItem::Sleeve {
            outer_diameter_m: finite(outer_mm * 1e-3),
            outer_tolerance_m: finite(2e-6),
            inner_diameter_m: finite(inner_mm * 1e-3),
            inner_tolerance_m: finite(2e-6),
            material: Material::AluminiumWrought,
            length_m: None,
        },
    )
}

fn spring(n: u128, load: f64, rate: f64) -> (Id, ShopPart) {
    part(
        n,
        &format!("Spring {load}"),
        PartItem::Spring {
            load_n: finite(load),
            load_tolerance_n: finite(0.1),
            rate_n_per_m: finite(rate),
            height_m: None,
        },
    )
}

fn reamer(n: u128, mm: f64) -> (Id, ShopPart) {
    part(
        n,
        &format!("Reamer {mm}"),
        PartItem::Reamer {
            diameter_m: finite(mm * 1e-3),
            diameter_tolerance_m: finite(2e-6),
        },
    )
}

/// A sleeve of 9.000 in a bore reamed to 8.998, a 7.470 valve in its 7.500, its spring.
fn sleeve_set() -> Vec<(Id, ShopPart)> {
    vec![
        sleeve(1, 9.000, 7.500),
        valve(2, 7.466),
        // 22.4 N and 2600 N/m by (7.466 / 7.9705)², by hand below.
        spring(3, 19.65, 2_280.0),
        reamer(4, 8.998),
    ]
}

/// An oversize valve for a bore reamed to 8.120, on the old spring re-rated.
fn oversize_set() -> Vec<(Id, ShopPart)> {
    vec![
        valve(12, 8.084),
        spring(13, 23.04, 2_675.0),
        reamer(14, 8.120),
    ]
}

/// Diameters of a bore that is worn by `worn_um` on the diameter, out of round by `oval_um`.
fn diameters(worn_um: f64, oval_um: f64) -> MeasuredParts {
    let profile = larkmoor();
    let land = *profile.reaction_land().unwrap().diameter_m.unwrap();
    let mean = *profile.bore.diameter_m + worn_um * 1e-6;
    let clearance = mean - land;
    let around = |low: f64, likely: f64, high: f64| Span {
        low: finite(low),
        likely: finite(likely),
        high: finite(high),
    };
    let half = 0.5 * oval_um * 1e-6;
    MeasuredParts {
        clearance: Some(MeasuredClearance {
            land: "reaction land".into(),
            diametral_m: around(clearance - 4e-6, clearance, clearance + 4e-6),
            least_m: finite(clearance - half),
            most_m: finite(clearance + half),
            bore_m: around(mean - half, mean, mean + half),
            land_m: around(land, land, land),
            out_of_round_m: Some(finite(oval_um * 1e-6)),
            taper_m: None,
        }),
        movement: Some(Movement::Free),
        ..MeasuredParts::default()
    }
}

/// Metal enough around the bore.
fn room() -> PlanFigures {
    PlanFigures {
        wall_m: Some(finite(3e-3)),
        least_wall_m: Some(finite(1.5e-3)),
        least_wall_source: "Shop rule (invented)".into(),
        ..PlanFigures::default()
    }
}

/// What the options are worked out from, owned.
struct Shop {
    profile: BoreProfile,
    measured: MeasuredParts,
    parts: Vec<(Id, ShopPart)>,
    figures: PlanFigures,
    mark: Option<MarkDepth>,
    relief: Option<ReliefFigures>,
    bench: Option<(Bench, Judgement, Option<SealEvidence>)>,
}

impl Shop {
    fn new(measured: MeasuredParts, parts: Vec<(Id, ShopPart)>) -> Self {
        Self {
            profile: larkmoor(),
            measured,
            parts,
            figures: room(),
            mark: None,
            relief: None,
            bench: None,
        }
    }

    fn tested(mut self, bench: Bench) -> Self {
        let (judgement, seals) = bench.judge_with_seals();
        self.bench = Some((bench, judgement, seals));
        self
    }

    fn options(&self) -> RepairOptions {
        self.options_of(&self.profile)
    }

    fn options_of(&self, profile: &BoreProfile) -> RepairOptions {
        let with = |test: Option<LastTest<'_>>| {
            options(&OptionEvidence {
                as_new: profile,
                now: profile,
                measured: &self.measured,
                deepest_mark: self.mark,
                spring_height_m: None,
                test,
                relief: self.relief.as_ref(),
                parts: &self.parts,
                figures: &self.figures,
            })
            .unwrap()
        };
        match &self.bench {
            None => with(None),
            Some((bench, judgement, seals)) => bench.with_evidence(|evidence| {
                with(Some(LastTest {
                    evidence,
                    judgement,
                    seals: seals.as_ref(),
                }))
            }),
        }
    }
}

fn of(options: &RepairOptions, way: Way) -> &RepairOutlook {
    options
        .options
        .iter()
        .find(|found| found.way == way)
        .unwrap()
}

fn order(options: &RepairOptions) -> Vec<Way> {
    options.options.iter().map(|found| found.way).collect()
}

fn computed(answer: &ConsequenceAnswer) -> &Consequence {
    match answer {
        ConsequenceAnswer::Computed(consequence) => consequence,
        ConsequenceAnswer::Withheld { reason } => panic!("withheld: {reason:?}"),
    }
}

fn feed(outlook: &RepairOutlook) -> Span {
    computed(&outlook.hot).highest_line.measured_feed_pa
}

fn obstacles(outlook: &RepairOutlook) -> Vec<Obstacle> {
    match &outlook.feasibility {
        Feasibility::Infeasible { obstacles } => obstacles.clone(),
        _ => Vec::new(),
    }
}

fn broken(standing: Standing) -> bool {
    standing >= Standing::BreaksLimit
}

#[test]
fn a_worn_bore_gets_a_sleeve_with_a_spring_that_is_re_rated_by_area() {
    let shop = Shop::new(diameters(120.0, 10.0), sleeve_set());
    let told = shop.options();
    let sleeve = of(&told, Way::Sleeve);
    assert_eq!(sleeve.feasibility, Feasibility::Feasible, "{sleeve:#?}");
    // By hand: P = F / A keeps the pressure, and k / A the droop, so both go with the area,
    // (7.466 / 7.9705)² = 0.877412...: 22.4 N -> 19.654 N, 2600 N/m -> 2281.3 N/m.
    let share = (7.466_f64 / 7.9705).powi(2);
    assert!((share - 0.877_41).abs() < 5e-5, "{share}");
    let (load, rate) = (
        *sleeve.needs.spring_load_n.unwrap(),
        *sleeve.needs.spring_rate_n_per_m.unwrap(),
    );
    assert!((load - 19.654).abs() < 1e-3, "{load}");
    assert!((rate - 2_281.3).abs() < 0.1, "{rate}");
    // The same pressure on either area: 22.4 N over pi/4 (7.9705 mm)² is 448.94 kPa.
    let area = std::f64::consts::FRAC_PI_4 * 7.466e-3_f64.powi(2);
    assert!((load / area - 448_940.0).abs() < 10.0, "{}", load / area);
    assert!((*sleeve.needs.reaction_area_m2.unwrap() / area - 1.0).abs() < 1e-12);
    // The shop's spring is 19.65 N: nothing to shim.
    assert_eq!(sleeve.needs.shim_m, None);
    let held = feed(sleeve);
    assert!((61.0..69.0).contains(&(*held.likely / PSI)), "{held:?}");
    // 34 µm with 2 µm and 2 µm in quadrature.
    let clearance = sleeve.clearance_cold_m.unwrap();
    assert!((*clearance.likely - 34e-6).abs() < 1e-9);
    // What is recorded if it is chosen.
    let work = sleeve.work.as_ref().unwrap();
    assert_eq!(work.spring_load_n, Some(finite(19.65)));
    assert_eq!(work.valve_diameter_m, Some(finite(7.466e-3)));
    assert_eq!(
        work.parts,
        "Reamer 8.998; Sleeve 9; Spring 19.65; Valve 7.466"
    );
    // Leaving doesn't hold, and the sleeve is less work than another body.
    assert_eq!(order(&told)[0], Way::Sleeve, "{told:#?}");
    assert!(broken(of(&told, Way::Leave).standing) || of(&told, Way::Leave).rank == 8);
    assert!(
        sleeve.reasons.contains(&RankReason::LessEffort),
        "{:?}",
        sleeve.reasons
    );
    assert!(matches!(sleeve.motion, MotionAhead::Known { .. }));
}

#[test]
fn a_spring_of_the_list_that_is_a_little_weak_gets_its_shim() {
    let mut parts = sleeve_set();
    // 18.2 N holds 415.7 kPa, 60.3 psi: below the band of 61 to 69 psi.
    parts[2] = spring(3, 18.2, 2_280.0);
    let told = Shop::new(diameters(120.0, 10.0), parts).options();
    let sleeve = of(&told, Way::Sleeve);
    // By hand: (19.654 N - 18.2 N) / 2280 N/m = 0.638 mm.
    let shim = *sleeve.needs.shim_m.unwrap();
    assert!((shim - 0.638e-3).abs() < 1e-6, "{shim}");
    let load = *sleeve.work.as_ref().unwrap().spring_load_n.unwrap();
    assert!((load - 19.654).abs() < 1e-3);
}

#[test]
fn leaving_predicts_the_very_reading_that_was_taken() {
    // The leak's law there and back: 17.2 inHg.
    let shop = Shop::new(MeasuredParts::default(), Vec::new()).tested(Bench::new("Larkmoor L6"));
    let told = shop.options();
    let ReadingAhead::Foreseen { vacuum_pa, .. } = &of(&told, Way::Leave).reading else {
        panic!("{told:#?}")
    };
    let taken = 17.2 * crate::bench::INHG;
    assert!(
        (*vacuum_pa.likely / taken - 1.0).abs() < 1e-6,
        "{vacuum_pa:?}"
    );
    assert!(*vacuum_pa.low < taken && *vacuum_pa.high > taken);
    // Another body reads deeper on the same stand.
    let ReadingAhead::Foreseen { vacuum_pa, .. } = &of(&told, Way::ReplaceBody).reading else {
        panic!("{told:#?}")
    };
    assert!(*vacuum_pa.likely > taken);
    // Nobody measured diameters: what a reamer would have to clean up can't be told.
    let Feasibility::Infeasible { .. } = &of(&told, Way::Ream).feasibility else {
        panic!("{:#?}", of(&told, Way::Ream))
    };
    let with_parts = Shop::new(MeasuredParts::default(), oversize_set())
        .tested(Bench::new("Larkmoor L6"))
        .options();
    assert_eq!(
        of(&with_parts, Way::Ream).feasibility,
        Feasibility::Untold {
            missing: vec![Unmeasured::Diameters]
        }
    );
}

#[test]
fn a_reading_outside_its_limit_is_never_left_first_even_where_the_pressure_holds() {
    // A large balance orifice carries the leak away: the pressure hardly moves.
    let mut shop = Shop::new(MeasuredParts::default(), Vec::new());
    let mut bench = Bench::new("Larkmoor L6").reading(17.2);
    for profile in [&mut shop.profile, &mut bench.profile] {
        profile.balance_orifice.as_mut().unwrap().diameter_m = finite(1.6e-3);
    }
    let told = shop.tested(bench).options();
    let leave = of(&told, Way::Leave);
    assert_eq!(leave.standing, Standing::BreaksLimit, "{leave:#?}");
    assert!(leave.reasons.contains(&RankReason::ReadingOutsideLimit));
    assert!(
        leave.reasons.contains(&RankReason::PressureHoldsAnyway),
        "{:?}",
        leave.reasons
    );
    assert_eq!(leave.rank, 2);
}

#[test]
fn a_sound_bore_is_left_and_nothing_is_undecided() {
    let told = Shop::new(diameters(0.0, 2.0), sleeve_set()).options();
    assert_eq!(order(&told)[0], Way::Leave, "{told:#?}");
    let leave = of(&told, Way::Leave);
    assert_eq!(leave.standing, Standing::Holds);
    assert!(leave.reasons.contains(&RankReason::NothingToDo));
    assert_eq!(told.undecided, None);
}

#[test]
fn nothing_measured_decides_nothing_and_says_what_to_measure() {
    let told = Shop::new(MeasuredParts::default(), sleeve_set()).options();
    let undecided = told.undecided.as_ref().unwrap();
    assert_eq!(undecided.what, UndecidedWhat::WhetherToRepair);
    assert!(!undecided.settle.is_empty());
    let leave = of(&told, Way::Leave);
    assert_eq!(leave.standing, Standing::Unknown);
    let missing = vec![Unmeasured::Clearance];
    assert_eq!(leave.feasibility, Feasibility::Untold { missing });
}

#[test]
fn too_little_metal_stock_that_leaves_worn_places_and_a_thin_list_stand_in_the_way() {
    let mut shop = Shop::new(diameters(80.0, 20.0), oversize_set());
    // 3 mm less half of what the bore grows by, (8.122 - 8.0065) / 2 mm: 2.942 mm are left.
    shop.figures.least_wall_m = Some(finite(2.95e-3));
    let told = shop.options();
    let ream = of(&told, Way::Ream);
    assert_eq!(obstacles(ream), vec![Obstacle::WallTooThin]);
    let left = *ream.needs.wall_left_m.unwrap();
    assert!((left - 2.942_25e-3).abs() < 1e-9, "{left}");
    assert_eq!(
        obstacles(of(&told, Way::Sleeve)),
        vec![Obstacle::NoSleeveInList]
    );
    // Worn by 110 µm and oval by 20: up to 8.1265 mm, and the reamer leaves 8.120.
    let told = Shop::new(diameters(110.0, 20.0), oversize_set()).options();
    let ream = of(&told, Way::Ream);
    assert_eq!(obstacles(ream), vec![Obstacle::StockDoesNotCleanUp]);
    assert_eq!(ream.standing, Standing::CantBeDone);
    let above = *ream.needs.cleans_up_above_m.unwrap();
    assert!((above - 8.1265e-3).abs() < 1e-9, "{above}");
}

#[test]
fn a_list_without_the_parts_says_what_sizes_it_would_take() {
    let told = Shop::new(diameters(100.0, 10.0), Vec::new()).options();
    let ream = of(&told, Way::Ream);
    let found = obstacles(ream);
    assert!(found.contains(&Obstacle::NoReamerInList) && found.contains(&Obstacle::NoValveInList));
    assert!(ream.needs.supposed && ream.warnings.contains(&OptionWarning::SizesSupposed));
    // The least bore that cleans up, and a valve with the profile's 36 µm in it.
    let bore = *ream.needs.bore_diameter_m.unwrap();
    assert!((bore - 8.1115e-3).abs() < 1e-9, "{bore}");
    assert!((bore - *ream.needs.valve_diameter_m.unwrap() - 36e-6).abs() < 1e-9);
    computed(&ream.hot);
    // Withdrawn, made for another bore, impossible: none of these is proposed.
    let mut parts = oversize_set();
    parts[0].1.withdrawn = true;
    parts[2].1.bore = Some(Id::from_u128(99));
    let told = Shop::new(diameters(100.0, 10.0), parts).options();
    let found = obstacles(of(&told, Way::Ream));
    assert!(found.contains(&Obstacle::NoReamerInList) && found.contains(&Obstacle::NoValveInList));
}

#[test]
fn polishing_through_the_hard_layer_is_warned_of_and_opens_the_gap() {
    let mut shop = Shop::new(diameters(60.0, 5.0), Vec::new());
    shop.figures.layer_m = Some(finite(25e-6));
    shop.figures.polish_off_m = Some(finite(3e-6));
    let told = shop.options();
    let clean = of(&told, Way::Clean);
    assert!((*clean.needs.layer_left_m.unwrap() - 22e-6).abs() < 1e-12);
    assert!(!clean.warnings.contains(&OptionWarning::LayerThrough));
    // 3 µm off the surface are 6 µm on the diameter: 96 µm and 6.
    let clearance = *clean.clearance_cold_m.unwrap().likely;
    assert!((clearance - 102e-6).abs() < 1e-9, "{clearance}");
    shop.figures.polish_off_m = Some(finite(25e-6));
    shop.mark = Some(MarkDepth::Caught);
    let told = shop.options();
    let warnings = &of(&told, Way::Clean).warnings;
    assert!(warnings.contains(&OptionWarning::LayerThrough));
    assert!(warnings.contains(&OptionWarning::LayerThroughAlready));
    shop.figures.layer_m = None;
    let told = shop.options();
    assert!(
        of(&told, Way::Clean)
            .warnings
            .contains(&OptionWarning::LayerUnknown)
    );
}

#[test]
fn a_bore_too_far_out_of_round_takes_no_other_valve_without_reaming() {
    let mut shop = Shop::new(diameters(40.0, 30.0), vec![valve(1, 7.990)]);
    let told = shop.options();
    assert_eq!(
        of(&told, Way::OtherValve).feasibility,
        Feasibility::Feasible
    );
    // 8.0465 mm less 7.990 mm.
    let clearance = *of(&told, Way::OtherValve).clearance_cold_m.unwrap().likely;
    assert!((clearance - 56.5e-6).abs() < 1e-9, "{clearance}");
    shop.figures.most_out_of_round_m = Some(finite(15e-6));
    let told = shop.options();
    assert_eq!(
        obstacles(of(&told, Way::OtherValve)),
        vec![Obstacle::OutOfRound]
    );
    // One as large as the bore is small doesn't go in.
    let told = Shop::new(diameters(40.0, 30.0), vec![valve(1, 8.031)]).options();
    assert_eq!(
        obstacles(of(&told, Way::OtherValve)),
        vec![Obstacle::ValveWontEnter]
    );
}

#[test]
fn a_sleeve_that_sits_loose_leaks_around_its_outside() {
    let with = |outer: f64| {
        let mut parts = sleeve_set();
        parts[0] = sleeve(1, outer, 7.500);
        let shop = Shop::new(diameters(120.0, 10.0), parts).tested(Bench::new("Larkmoor L6"));
        let told = shop.options();
        of(&told, Way::Sleeve).clone()
    };
    // 2 µm of interference; 40 µm of clearance.
    let (pressed, loose) = (with(9.000), with(8.958));
    assert!(!pressed.warnings.contains(&OptionWarning::SeatLeaks));
    assert!(loose.warnings.contains(&OptionWarning::SeatLeaks));
    let gap = *loose.needs.seat_gap_m.unwrap().likely;
    assert!((gap - 40e-6).abs() < 1e-9, "{gap}");
    let read = |outlook: &RepairOutlook| match &outlook.reading {
        ReadingAhead::Foreseen { vacuum_pa, .. } => *vacuum_pa.likely,
        ReadingAhead::Refused { reason } => panic!("{reason:?}"),
    };
    // It shows in the reading, and in the pressure.
    assert!(
        read(&loose) < read(&pressed) - 500.0,
        "{} {}",
        read(&loose),
        read(&pressed)
    );
    let shift =
        |outlook: &RepairOutlook| *computed(&outlook.hot).highest_line.shift_pa.unwrap().likely;
    assert!(
        shift(&loose) > shift(&pressed) + 1_000.0,
        "{} {}",
        shift(&loose),
        shift(&pressed)
    );
    let sources = &computed(&loose.hot).band_from;
    assert!(sources.contains(&BandSource::SleeveSeat) && sources.contains(&BandSource::SpringLoad));
}

#[test]
fn a_relief_contains_and_never_stands_better_than_that() {
    let mut shop = Shop::new(diameters(30.0, 5.0), Vec::new());
    let told = shop.options();
    assert_eq!(
        of(&told, Way::AddRelief).feasibility,
        Feasibility::Untold {
            missing: vec![Unmeasured::Relief]
        }
    );
    shop.relief = Some(ReliefFigures {
        presence: ReliefPresence::ToBeAdded,
        ball_diameter_m: Some(finite(4.76e-3)),
        seat_diameter_m: Some(finite(3.2e-3)),
        load_seated_n: Some(finite(4.3)),
        rate_n_per_m: Some(finite(1_200.0)),
        lift_stop_m: Some(finite(1.5e-3)),
        source: "Bench (invented)".into(),
        limit_pa: Some(finite(9e5)),
        limit_source: "Shop rule (invented)".into(),
        clearance_m: None,
    });
    let told = shop.options();
    let relief = of(&told, Way::AddRelief);
    assert!(relief.standing >= Standing::Contained, "{relief:#?}");
    assert!(relief.reasons.contains(&RankReason::OnlyContains));
    assert!(relief.needs.relief.is_some());
}

#[test]
fn a_sticking_valve_is_not_left_and_a_weak_spring_is_not_made_good_by_a_leak() {
    let mut measured = diameters(0.0, 2.0);
    measured.movement = Some(Movement::Sticks);
    let told = Shop::new(measured, Vec::new()).options();
    let leave = of(&told, Way::Leave);
    assert!(
        leave.standing >= Standing::LikelyNot && leave.reasons.contains(&RankReason::ValveSticks)
    );
    // A spring that holds 57 psi, and a leak that brings the pressure back up.
    for worn in [40.0, 55.0, 70.0, 85.0] {
        let mut shop = Shop::new(diameters(worn, 5.0), Vec::new());
        let spring = shop.profile.spring.as_mut().unwrap();
        let sagged = 57.0 / 65.0 * *spring.load_regulating_n.unwrap();
        let mut weak = shop.profile.clone();
        weak.spring.as_mut().unwrap().load_regulating_n = Finite::new(sagged);
        let told = options(&OptionEvidence {
            as_new: &shop.profile,
            now: &weak,
            measured: &shop.measured,
            deepest_mark: None,
            spring_height_m: None,
            test: None,
            relief: None,
            parts: &shop.parts,
            figures: &shop.figures,
        })
        .unwrap();
        let leave = of(&told, Way::Leave);
        assert!(leave.standing >= Standing::LikelyNot, "{worn} {leave:#?}");
        assert!(
            leave.reasons.contains(&RankReason::PartsDontHold),
            "{:?}",
            leave.reasons
        );
    }
}

/// As pins find it: the likely size, a hundredth of a millimetre either way.
fn orifice(mm: f64, profile_mm: f64) -> MeasuredOrifice {
    MeasuredOrifice {
        diameter_m: Span {
            low: finite((mm - 0.01) * 1e-3),
            likely: finite(mm * 1e-3),
            high: finite((mm + 0.01) * 1e-3),
        },
        profile_m: Some(finite(profile_mm * 1e-3)),
    }
}

#[test]
fn an_orifice_that_is_too_small_is_put_back_and_that_cures() {
    let mut shop = Shop::new(diameters(20.0, 3.0), Vec::new());
    let profile_mm = *shop.profile.balance_orifice.as_ref().unwrap().diameter_m * 1e3;
    shop.measured.orifice = Some(orifice(0.5 * profile_mm, profile_mm));
    let told = shop.options();
    let change = of(&told, Way::ChangeOrifice);
    let needs = change.needs.orifice.as_ref().unwrap();
    assert!(needs.restores, "{needs:#?}");
    let work = change.work.as_ref().unwrap();
    assert!((*work.orifice_m.unwrap() * 1e3 - profile_mm).abs() < 1e-9);
    // The same leak shifts the pressure less through the larger one: both are told.
    let shift = |stands: &OrificeStands| stands.shift_pa.unwrap().likely.abs();
    assert!(
        shift(&needs.kept) > 2.0 * shift(&needs.changed),
        "{needs:#?}"
    );
    assert!(matches!(needs.kept.motion, MotionAhead::Known { .. }));
    assert!(matches!(needs.changed.motion, MotionAhead::Known { .. }));
    assert!(!change.reasons.contains(&RankReason::OnlyContains));
    assert!(change.risks.contains(&Risk::LessDamping));
    // And the one that is told is the one that was predicted.
    assert_eq!(
        computed(&change.hot).highest_line.shift_pa,
        needs.changed.shift_pa
    );
}

#[test]
fn a_larger_orifice_contains_a_leak_and_the_wear_stays() {
    let told = Shop::new(diameters(60.0, 5.0), Vec::new()).options();
    let change = of(&told, Way::ChangeOrifice);
    let needs = change.needs.orifice.as_ref().unwrap();
    assert!(!needs.restores && *needs.changed.diameter_m > *needs.kept.diameter_m);
    assert!(change.standing >= Standing::Contained);
    assert!(change.reasons.contains(&RankReason::OnlyContains));
    assert!(
        change.risks.contains(&Risk::FaultRemains) && change.risks.contains(&Risk::CantBeUndone)
    );
    let shift = |stands: &OrificeStands| stands.shift_pa.unwrap().likely.abs();
    assert!(shift(&needs.changed) < shift(&needs.kept), "{needs:#?}");
    // Without one there is none to change; with nothing known of the leak none is proposed.
    let mut without = Shop::new(diameters(60.0, 5.0), Vec::new());
    without.profile.balance_orifice = None;
    let told = without.options();
    assert_eq!(
        obstacles(of(&told, Way::ChangeOrifice)),
        vec![Obstacle::NoOrifice]
    );
    let unknown = Shop::new(MeasuredParts::default(), Vec::new()).options();
    let change = of(&unknown, Way::ChangeOrifice);
    assert_eq!(change.needs.orifice, None);
    assert!(change.reasons.contains(&RankReason::MeasurementMissing));
    assert_eq!(change.work.as_ref().unwrap().orifice_m, None);
}

/// What a repair on record predicts from an option's work.
fn recorded(shop: &Shop, work: &RepairWork, seals: Option<&SealEvidence>) -> RepairForecast {
    let ground = ground(&shop.profile, &shop.profile, &shop.measured, work.option);
    forecast(&ground, work, seals, None).unwrap()
}

#[test]
fn a_chosen_option_recorded_as_a_repair_predicts_the_very_same() {
    let mut shop = Shop::new(diameters(100.0, 10.0), sleeve_set());
    shop.parts.extend(oversize_set());
    shop.parts[0] = sleeve(1, 8.970, 7.500);
    shop.figures.polish_off_m = Some(finite(2e-6));
    let profile_mm = *shop.profile.balance_orifice.as_ref().unwrap().diameter_m * 1e3;
    shop.measured.orifice = Some(orifice(0.8 * profile_mm, profile_mm));
    shop.measured.friction_n = Some(finite(2.5));
    shop.measured.spring = Some(MeasuredSpring {
        load_n: Span {
            low: finite(21.4),
            likely: finite(21.6),
            high: finite(21.8),
        },
        rate_n_per_m: finite(2_500.0),
        rate_measured: true,
        tester_known: true,
        holds_pa: Span {
            low: finite(4.2e5),
            likely: finite(4.3e5),
            high: finite(4.4e5),
        },
        lost_n: None,
    });
    let seals = seals_by_diameters(&shop.profile, &shop.measured);
    let told = shop.options();
    let mut compared = 0;
    for outlook in &told.options {
        let Some(work) = &outlook.work else { continue };
        if outlook.way == Way::AddRelief {
            continue;
        }
        // Through the wire, as a draft of the form would go.
        let wire = serde_json::to_string(work).unwrap();
        let work: RepairWork = serde_json::from_str(&wire).unwrap();
        let again = recorded(&shop, &work, seals.as_ref());
        assert_eq!(again.prediction, outlook.hot, "{:?}", outlook.way);
        assert_eq!(
            again.clearance_m, outlook.clearance_cold_m,
            "{:?}",
            outlook.way
        );
        compared += 1;
    }
    assert_eq!(compared, 6);
    // The sleeve's seat and the spring's tolerance are in both.
    let sources = &computed(&of(&told, Way::Sleeve).hot).band_from;
    assert!(sources.contains(&BandSource::SleeveSeat) && sources.contains(&BandSource::SpringLoad));
}

/// Everything that the order may depend on and a worse bore may change.
fn any_shop() -> impl Strategy<Value = (f64, f64, f64, f64, f64, bool, bool)> {
    (
        // Wear on the diameter, µm; how much worse; out of round, µm.
        0.0..140.0f64,
        0.0..60.0f64,
        0.0..25.0f64,
        // Balance orifice, mm; spring as part of its load.
        0.5..1.6f64,
        0.9..1.1f64,
        any::<bool>(),
        any::<bool>(),
    )
}

fn shop(
    (worn, _, oval, orifice, load, sleeves, oversizes): (f64, f64, f64, f64, f64, bool, bool),
) -> Shop {
    let mut parts = Vec::new();
    if sleeves {
        parts.extend(sleeve_set());
    }
    if oversizes {
        parts.extend(oversize_set());
    }
    let mut shop = Shop::new(diameters(worn, oval), parts);
    shop.profile.balance_orifice.as_mut().unwrap().diameter_m = finite(orifice * 1e-3);
    let spring = shop.profile.spring.as_mut().unwrap();
    spring.load_regulating_n = spring
        .load_regulating_n
        .and_then(|full| Finite::new(*full * load));
    shop
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10))]

    #[test]
    fn another_orifice_never_stands_better_than_it_is(figures in any_shop(), measured in prop::option::of(0.4..1.0f64)) {
        let mut shop = shop(figures);
        let profile_mm = figures.3;
        shop.measured.orifice = measured.map(|part| orifice(part * profile_mm, profile_mm));
        let told = shop.options();
        let change = of(&told, Way::ChangeOrifice);
        let restores = change.needs.orifice.as_ref().is_some_and(|needs| needs.restores);
        // A larger one than the profile's contains, whatever it holds.
        prop_assert!(restores || change.standing >= Standing::Contained, "{change:#?}");
        // And leaving has its place whether or not the orifice could be changed.
        let mut fixed = Shop { parts: shop.parts.clone(), ..Shop::new(shop.measured.clone(), Vec::new()) };
        fixed.profile = shop.profile.clone();
        let sound = told.options.iter().any(|outlook| !broken(outlook.standing));
        prop_assert!(!sound || !broken(told.options[0].standing), "{told:#?}");
        prop_assert_eq!(&told, &fixed.options());
    }

    #[test]
    fn a_worse_bore_never_makes_leaving_it_better(figures in any_shop()) {
        let better = shop(figures).options();
        let worse = shop((figures.0 + figures.1, figures.1, figures.2, figures.3, figures.4, figures.5, figures.6)).options();
        let (better, worse) = (of(&better, Way::Leave), of(&worse, Way::Leave));
        prop_assert!(worse.standing >= better.standing, "{better:#?} {worse:#?}");
        prop_assert!(worse.rank >= better.rank, "{better:#?} {worse:#?}");
    }

    #[test]
    fn a_way_that_breaks_a_limit_is_never_first_while_another_does_not(figures in any_shop()) {
        let told = shop(figures).options();
        let first = &told.options[0];
        let sound = told.options.iter().any(|outlook| !broken(outlook.standing));
        prop_assert!(!sound || !broken(first.standing), "{told:#?}");
        let ranks: Vec<u32> = told.options.iter().map(|outlook| outlook.rank).collect();
        prop_assert_eq!(ranks, (1..=8).collect::<Vec<_>>());
    }

    #[test]
    fn neither_the_order_of_the_list_nor_the_rounding_of_a_unit_matters(figures in any_shop()) {
        let shop = shop(figures);
        let told = shop.options();
        prop_assert_eq!(&told, &shop.options());
        let mut turned = Shop { parts: shop.parts.clone(), ..Shop::new(shop.measured.clone(), Vec::new()) };
        turned.parts.reverse();
        prop_assert_eq!(&told, &turned.options_of(&shop.profile));
        // Entered in inches, shown again, entered again: every size is a few last bits off.
        for (_, part) in &mut turned.parts {
            let inches = |metres: &mut Finite| *metres = finite(**metres / 0.0254 * 0.0254);
            match &mut part.item {
                PartItem::Valve { diameter_m, .. } | PartItem::Reamer { diameter_m, .. } => inches(diameter_m),
                PartItem::Sleeve { outer_diameter_m, inner_diameter_m, .. } => {
                    inches(outer_diameter_m);
                    inches(inner_diameter_m);
                }
                PartItem::Spring { load_n, .. } => *load_n = finite(**load_n / 4.448_221_615_260_5 * 4.448_221_615_260_5),
            }
        }
        let again = turned.options_of(&shop.profile);
        let standings = |told: &RepairOptions| told.options.iter().map(|outlook| (outlook.way, outlook.standing)).collect::<Vec<_>>();
        prop_assert_eq!(standings(&told), standings(&again));
        // And through the wire.
        let wire = serde_json::to_string(&told).unwrap();
        prop_assert_eq!(&told, &serde_json::from_str::<RepairOptions>(&wire).unwrap());
    }
}
