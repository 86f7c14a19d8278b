//! The bore in section, to scale from its own dimensions: cut metal hatched, the spool in view,
//! axis as a chain line (ISO 128). Only clearances are drawn larger than scale.

use maud::{Markup, html};
use model::geometry::{engaged_length, land_faces, port};
use model::unit::{BoreProfile, PortSide};

use super::hatch::{Area, hatch};
use super::{c, path};
use crate::quantity::{Quantity, Shown};
use crate::words;

const WIDTH: f64 = 700.0;
const MARGIN: f64 = 26.0;
const LABELS: f64 = 40.0;
/// A gap as drawn: a true one would vanish in the line.
const GAP: f64 = 2.6;
/// Least height of the bore as drawn, and most.
const BORE_HEIGHT: (f64, f64) = (56.0, 150.0);

/// Draws a bore with its spool at a stroke; `tested` names the lands whose leak a test showed.
/// Nothing when the dimensions can't be drawn.
pub(crate) fn section(
    profile: &BoreProfile,
    stroke_m: f64,
    tested: &[String],
    shown: &Shown,
) -> Option<Markup> {
    let bore = &profile.bore;
    let length = *bore.end_m - *bore.start_m;
    if !(length > 1e-4 && length < 1.0 && *bore.diameter_m > 1e-4 && *bore.diameter_m < 0.2) {
        return None;
    }
    let scale = ((WIDTH - 2.0 * MARGIN) / length).min(BORE_HEIGHT.1 / *bore.diameter_m);
    let draw = Drawing::new(profile, scale, stroke_m);
    let height = draw.bottom + draw.wall + LABELS + 26.0;
    let title = format!("{} in section", crate::text::line(&bore.name));
    Some(html! {
        svg class="section" viewBox=(format!("0 0 {WIDTH} {height:.0}")) role="img" aria-label=(title) {
            (draw.walls())
            (draw.ports())
            (draw.spring())
            (draw.spool())
            (draw.leaks(tested))
            line class="chain" x1=(c(draw.x(*bore.start_m) - 14.0)) x2=(c(draw.x(*bore.end_m) + 14.0))
                y1=(c(draw.axis())) y2=(c(draw.axis())) {}
            (draw.scale_bar(shown, height - 10.0))
        }
    })
}

struct Drawing<'a> {
    profile: &'a BoreProfile,
    scale: f64,
    stroke_m: f64,
    left: f64,
    top: f64,
    bottom: f64,
    wall: f64,
}

impl<'a> Drawing<'a> {
    fn new(profile: &'a BoreProfile, scale: f64, stroke_m: f64) -> Self {
        let bore = &profile.bore;
        let drawn = (*bore.end_m - *bore.start_m) * scale;
        let height = (*bore.diameter_m * scale).max(BORE_HEIGHT.0 / 3.0);
        let wall = (height * 0.42).clamp(18.0, 46.0);
        let top = LABELS + wall;
        Self {
            profile,
            scale,
            stroke_m,
            left: (WIDTH - drawn) / 2.0,
            top,
            bottom: top + height,
            wall,
        }
    }

    fn x(&self, at_m: f64) -> f64 {
        self.left + (at_m - *self.profile.bore.start_m) * self.scale
    }

    fn axis(&self) -> f64 {
        (self.top + self.bottom) / 2.0
    }

    /// Body above and below, cut where ports open.
    fn walls(&self) -> Markup {
        let bore = &self.profile.bore;
        let mut cut = String::new();
        let mut outline = Vec::new();
        for side in [PortSide::Above, PortSide::Below] {
            let y = if side == PortSide::Above {
                self.top - self.wall
            } else {
                self.bottom
            };
            let mut gaps: Vec<_> = bore
                .ports
                .iter()
                .filter(|port| port.side == side)
                .map(|port| (self.x(*port.start_m), self.x(*port.end_m)))
                .collect();
            gaps.sort_by(|a, b| a.0.total_cmp(&b.0));
            let mut from = self.x(*bore.start_m) - 12.0;
            let end = self.x(*bore.end_m) + 12.0;
            for (start, stop) in gaps.into_iter().chain([(end, end)]) {
                if start - from > 0.5 {
                    let area = Area {
                        x: from,
                        y,
                        width: start - from,
                        height: self.wall,
                    };
                    cut.push_str(&hatch(area, 7.0, false));
                    outline.push(area);
                }
                from = from.max(stop);
            }
        }
        html! {
            path class="hatch" d=(cut) {}
            @for area in outline {
                rect class="cut" x=(c(area.x)) y=(c(area.y)) width=(c(area.width)) height=(c(area.height)) {}
            }
        }
    }

    /// Passages and their names.
    fn ports(&self) -> Markup {
        let bore = &self.profile.bore;
        let mut last = [f64::NEG_INFINITY; 2];
        let mut raised = [false; 2];
        let mut ports: Vec<_> = bore.ports.iter().collect();
        ports.sort_by(|a, b| a.start_m.total_cmp(&b.start_m));
        html! {
            @for port in ports {
                @let above = port.side == PortSide::Above;
                @let (from, to) = (self.x(*port.start_m), self.x(*port.end_m));
                @let outer = if above { self.top - self.wall - 12.0 } else { self.bottom + self.wall + 12.0 };
                @let inner = if above { self.top } else { self.bottom };
                @let side = usize::from(!above);
                @let middle = (from + to) / 2.0;
                @let name = words::node(port.node);
                @let wide = name.len() as f64 * 6.8;
                // A name that would touch its neighbour goes one line further out.
                @let up = if middle - last[side] < wide && !raised[side] { 13.0 } else { 0.0 };
                @let () = { last[side] = middle; raised[side] = up > 0.0; };
                path class="cut" d=(format!(
                    "M{0} {2}V{3}M{1} {2}V{3}", c(from), c(to), c(inner), c(outer)
                )) {}
                text class="port" x=(c(middle)) text-anchor="middle"
                    y=(c(if above { outer - 4.0 - up } else { outer + 12.0 + up })) { (name) }
            }
        }
    }

    fn spool(&self) -> Markup {
        let axis = self.axis();
        let stem = (*self.profile.bore.spool.stem_diameter_m * self.scale / 2.0).max(2.0);
        let full = (self.bottom - self.top) / 2.0 - GAP;
        let widest = self
            .profile
            .lands
            .iter()
            .filter_map(|land| land.diameter_m)
            .map(|diameter| *diameter)
            .fold(*self.profile.bore.diameter_m * 0.5, f64::max);
        let lands: Vec<_> = self
            .profile
            .lands
            .iter()
            .map(|land| {
                let (start, end) = land_faces(self.profile, land, self.stroke_m);
                let diameter = land.diameter_m.map_or(widest, |diameter| *diameter);
                let half = full - (widest - diameter) * self.scale / 2.0;
                (self.x(start), self.x(end), half.max(stem))
            })
            .collect();
        // Once round: along the top from left to right, back along the bottom.
        let mut upper = Vec::new();
        for (i, &(start, end, half)) in lands.iter().enumerate() {
            if i > 0 {
                upper.push((start, axis - stem));
            }
            upper.push((start, axis - half));
            upper.push((end, axis - half));
            if i + 1 < lands.len() {
                upper.push((end, axis - stem));
            }
        }
        let lower: Vec<_> = upper
            .iter()
            .rev()
            .map(|&(x, y)| (x, 2.0 * axis - y))
            .collect();
        html! { path class="spool" d={ (path(upper.into_iter().chain(lower))) "z" } {} }
    }

    fn spring(&self) -> Markup {
        let bore = &self.profile.bore;
        let faces = self
            .profile
            .lands
            .iter()
            .map(|land| land_faces(self.profile, land, self.stroke_m));
        let ends = if bore.spring_on_left {
            faces
                .map(|face| face.0)
                .reduce(f64::min)
                .map(|face| (*bore.start_m, face))
        } else {
            faces
                .map(|face| face.1)
                .reduce(f64::max)
                .map(|face| (face, *bore.end_m))
        };
        let Some((from, to)) = ends.filter(|(from, to)| to > from) else {
            return html! {};
        };
        let (from, to) = (self.x(from) + 2.0, self.x(to) - 2.0);
        let half = (self.bottom - self.top) * 0.34;
        let turns = 12_u32;
        let coil = (0..=turns).map(|i| {
            let x = from + (to - from) * f64::from(i) / f64::from(turns);
            (
                x,
                if i % 2 == 0 {
                    self.axis() - half
                } else {
                    self.axis() + half
                },
            )
        });
        html! { path class="coil" d=(path(coil)) {} }
    }

    /// Where the air of a test went: dashed along the tested lands.
    fn leaks(&self, tested: &[String]) -> Markup {
        html! {
            @for land in self.profile.lands.iter().filter(|land| tested.contains(&land.name)) {
                @for seal in &land.seals {
                    @let length = engaged_length(self.profile, land, seal, self.stroke_m);
                    @if length > 0.0 {
                        @let (face, _) = land_faces(self.profile, land, self.stroke_m);
                        @let bound = seal.left_port.as_deref().and_then(|name| port(self.profile, name));
                        @let start = bound.map_or(face, |port| face.max(*port.end_m));
                        @let (from, to) = (self.x(start), self.x(start + length));
                        @for y in [self.top + GAP / 2.0, self.bottom - GAP / 2.0] {
                            path class="leak" d=(format!("M{} {}H{}", c(from - 5.0), c(y), c(to + 5.0))) {}
                        }
                    }
                }
            }
        }
    }

    fn scale_bar(&self, shown: &Shown, y: f64) -> Markup {
        let unit = shown.unit(Quantity::Length);
        let whole = (WIDTH / 4.0 / self.scale / unit.factor).log10().floor();
        let step = 10f64.powf(whole);
        let times = [5.0, 2.0, 1.0]
            .into_iter()
            .find(|times| times * step * unit.factor * self.scale < WIDTH / 4.0)
            .unwrap_or(1.0);
        let drawn = times * step * unit.factor * self.scale;
        let from = WIDTH - MARGIN - drawn;
        let decimals = (-(times * step).log10().floor()).clamp(0.0, 4.0) as i32;
        html! {
            path class="cut" d=(format!("M{0} {1}v6M{0} {2}H{3}M{3} {1}v6", c(from), c(y - 3.0), c(y), c(from + drawn))) {}
            text class="tick" x=(c(from - 6.0)) y=(c(y + 4.0)) text-anchor="end" {
                (shown.number(times * step, decimals)) " " (unit.symbol)
            }
        }
    }
}
