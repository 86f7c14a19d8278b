//! Section hatching in the manner of ISO 128: thin lines at 45 degrees. Drawn line by line, since
//! patterns are printed as coarse pictures by some programs.

use super::c;

/// A rectangle, y downward.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Area {
    pub x: f64,
    pub y: f64,
    pub width: f64,
    pub height: f64,
}

/// Path of the hatching of a rectangle. Lines of two rectangles meet, as those of one part must:
/// they are counted from the drawing's origin. `falling`: the other way, for the next part.
pub(crate) fn hatch(area: Area, step: f64, falling: bool) -> String {
    let Area {
        x,
        y,
        width,
        height,
    } = area;
    let mut d = String::new();
    if !(width > 0.0 && height > 0.0 && step > 0.0) || width * height > 1e7 {
        return d;
    }
    let slope = if falling { 1.0 } else { -1.0 };
    // On a line, y - slope * x is constant.
    let ends = [y - slope * x, y + height - slope * x];
    let ends = [
        ends[0],
        ends[1],
        ends[0] - slope * width,
        ends[1] - slope * width,
    ];
    let least = ends.iter().copied().fold(f64::INFINITY, f64::min);
    let most = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let mut at = (least / step).ceil() * step;
    while at < most {
        let at_y = |x: f64| at + slope * x;
        let at_x = |y: f64| (y - at) / slope;
        let (mut from, mut to) = ((x, at_y(x)), (x + width, at_y(x + width)));
        for end in [&mut from, &mut to] {
            if end.1 < y {
                *end = (at_x(y), y);
            } else if end.1 > y + height {
                *end = (at_x(y + height), y + height);
            }
        }
        if (to.0 - from.0).abs() > 0.3 {
            d.push_str(&format!(
                "M{} {}L{} {}",
                c(from.0),
                c(from.1),
                c(to.0),
                c(to.1)
            ));
        }
        at += step;
    }
    d
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_stay_inside_and_nothing_runs_on() {
        let area = Area {
            x: 10.0,
            y: 20.0,
            width: 30.0,
            height: 5.0,
        };
        for falling in [false, true] {
            let d = hatch(area, 6.0, falling);
            for pair in d.split(['M', 'L']).filter(|text| !text.is_empty()) {
                let (x, y) = pair.split_once(' ').unwrap();
                let (x, y): (f64, f64) = (x.parse().unwrap(), y.parse().unwrap());
                assert!(
                    (10.0..=40.0).contains(&x) && (20.0..=25.0).contains(&y),
                    "{pair}"
                );
            }
            assert!(d.matches('M').count() >= 4, "{d}");
        }
        let none = Area { width: 0.0, ..area };
        assert!(hatch(none, 6.0, false).is_empty());
        let endless = Area {
            width: f64::INFINITY,
            ..area
        };
        assert!(hatch(endless, 6.0, false).is_empty());
    }
}
