//! Where a finding stands, in the report's words.

/// Lists whose entries a reader counts, and what one is called.
const NUMBERED: [(&str, &str); 3] = [
    ("readings[", "reading"),
    ("cuts[", "cut"),
    ("measurements[", "measurement"),
];

/// Where a finding stands, in words; none where the sentence says it.
pub(super) fn place(field: &str) -> Option<String> {
    if let Some(numbered) = NUMBERED.iter().find_map(|&(list, one)| {
        let (_, rest) = field.split_once(list)?;
        let number: usize = rest.split(']').next()?.parse().ok()?;
        Some(format!("{one} {}", number.saturating_add(1)))
    }) {
        return Some(numbered);
    }
    let name = match field.split(['.', '[']).next_back()? {
        "vacuum_pa" if field.starts_with("blank") => "blank",
        "dead_head_vacuum_pa" => "hose closed",
        "pressure_pa" | "altitude_m" => "air",
        "air_temperature_k" => "air temperature",
        "bore_diameter_m" => "bore diameter",
        "valve_diameter_m" => "valve diameter",
        "bore_uncertainty_m" | "valve_uncertainty_m" => "how far the diameter may be off",
        "spring_load_n" => "spring load",
        "spring_rate_n_per_m" => "spring rate",
        "ball_diameter_m" => "ball",
        "seat_diameter_m" => "seat",
        "limit_pa" => "what the parts stand",
        "limit_source" => "who says what the parts stand",
        "clearance_m" => "clearance",
        "load_seated_n" => "load on the seated ball",
        "rate_n_per_m" => "spring rate",
        "lift_stop_m" => "lift",
        "start_smallest_m" => "worn bore, smallest",
        "start_largest_m" => "worn bore, largest",
        "unworn_m" => "unworn bore",
        "pilot_m" | "pilot_tolerance_m" => "pilot",
        "most_pilot_play_m" | "pilot_source" => "play of the pilot",
        "depth_m" => "depth",
        "most_rough_stock_m" => "what a roughing cut may take",
        "most_finish_stock_m" | "least_finish_stock_m" => "what the finishing cut may take",
        "stock_source" => "who says what a cut may take",
        "finished_nominal_m" | "finished_low_m" | "finished_high_m" => "finished bore",
        "sleeve_outer_m" | "sleeve_outer_tolerance_m" => "sleeve, outside",
        "sleeve_inner_m" | "sleeve_inner_tolerance_m" => "sleeve, inside",
        "sleeve_length_m" => "sleeve, length",
        "valve_m" | "valve_tolerance_m" => "valve",
        "wall_m" => "metal around the bore",
        "least_wall_m" => "metal that must be left",
        "least_wall_source" => "who says how much must be left",
        "bolt_torque_nm" => "torque of the bolts",
        "bolt_source" => "who says the torque of the bolts",
        _ => match field.split(['.', '[']).next()? {
            "stand_check" => "stand check",
            "setup" => "set-up",
            "gauge" => "gauge",
            "vehicle" => "vehicle",
            "complaint" => "complaint",
            "notes" => "notes",
            "customer" => "customer",
            _ => return None,
        },
    };
    Some(name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_one_of_many_is_counted_from_one() {
        assert_eq!(place("readings[2].vacuum_pa").as_deref(), Some("reading 3"));
        assert_eq!(place("cuts[0].diameter_m").as_deref(), Some("cut 1"));
        assert_eq!(
            place("machining.measurements[1].cut").as_deref(),
            Some("measurement 2")
        );
    }

    // Which of a sheet's twenty sizes is wrong can't be told from the sentence alone.
    #[test]
    fn each_figure_of_a_machining_sheet_has_a_name() {
        for (field, _, _) in model::machining::MachiningSheet::default().figures() {
            assert!(place(field).is_some(), "{field}");
        }
    }
}
