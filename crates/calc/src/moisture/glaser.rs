//! Water inside a wall: the method of Glaser as in ISO 13788, in a steady state.
//!
//! Vapour flows through the layers like heat, each with its own resistance. Where the straight line of its pressure would pass above
//! saturation, water is left behind; the true line is the lowest convex line below the saturation pressures with the pressures of inside and
//! outside at its ends. Air that leaks behind a lining carries far more vapour than the method knows, so that an answer without water is no
//! proof of a dry wall.

use crate::input::{InputError, need_entries, need_not_negative, need_positive, need_within, outcome};
use crate::moisture::saturation::saturation_pressure;

/// Vapour permeability of still air, kg/(m·s·Pa), ISO 13788 (from memory).
pub const VAPOUR_PERMEABILITY_AIR: f64 = 2e-10;

/// A layer for [`glaser`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GlaserLayer {
    /// Thermal resistance, m²·K/W.
    pub resistance: f64,
    /// Thickness of the still air that would hold back as much vapour, m ([`vapour_thickness`]).
    pub vapour_thickness: f64,
}

/// Water that is left at a place in the wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Condensate {
    /// The layer, counted from outside from 0; the water lies at its inner face, or within it where `within` is true.
    pub layer: usize,
    /// True where the water lies inside the layer and not at its inner face.
    pub within: bool,
    /// Temperature there, K.
    pub temperature: f64,
    /// Rate, kg/(m²·s).
    pub rate: f64,
}

/// What the method tells of a wall.
#[derive(Debug, Clone, PartialEq)]
pub struct GlaserProfile {
    /// Temperature of the outer surface, of each interface and of the inner surface, from outside, K.
    pub temperatures: Vec<f64>,
    /// Vapour pressures there, Pa.
    pub vapour_pressures: Vec<f64>,
    /// Saturation pressures there, Pa.
    pub saturation_pressures: Vec<f64>,
    /// Where water is left; empty where none is.
    pub condensates: Vec<Condensate>,
}

impl GlaserProfile {
    /// Sum of the rates, kg/(m²·s).
    #[must_use]
    pub fn total_rate(&self) -> f64 {
        self.condensates.iter().map(|place| place.rate).sum()
    }
}

/// Thickness of still air that would hold back as much vapour, m: vapour resistance factor µ × thickness m.
///
/// # Errors
/// Numbers below zero.
pub fn vapour_thickness(thickness: f64, factor: f64) -> Result<f64, InputError> {
    outcome(
        "vapour thickness",
        need_not_negative("thickness", thickness)? * need_not_negative("vapour resistance factor", factor)?,
    )
}

/// Layers of more resistance than this are divided, since saturation is not a straight line across them, m²·K/W (ISO 13788, from memory).
const DIVIDE_ABOVE: f64 = 0.25;

/// Most parts of one layer; 50 m²·K/W is beyond any wall of a vehicle.
const MOST_PARTS: usize = 200;

/// A point of the wall on the axis of vapour thickness.
struct Point {
    at: f64,
    saturation: f64,
    temperature: f64,
    layer: usize,
    end_of_layer: bool,
}

/// Water in a wall in a steady state.
///
/// `layers` from outside to inside; surface resistances m²·K/W; temperatures K; vapour pressures Pa. Rates below a billionth of a gram for
/// each square metre and hour count as none. Water on the inner surface itself is not among the answers: see
/// [`surface_humidity`](crate::moisture::surface_humidity).
///
/// # Errors
/// No layer; numbers below zero; no resistance at all to heat or to vapour; temperatures outside −60 to 100 °C; a vapour pressure above the
/// saturation of its own air.
pub fn glaser(
    layers: &[GlaserLayer],
    surfaces: (f64, f64),
    outside: (f64, f64),
    inside: (f64, f64),
) -> Result<GlaserProfile, InputError> {
    let (outer_surface, inner_surface) = surfaces;
    let mut resistance = need_not_negative("outside surface resistance", outer_surface)?
        + need_not_negative("inside surface resistance", inner_surface)?;
    let mut thickness = 0.0;
    for layer in need_entries("layers", layers)? {
        resistance += need_not_negative("resistance of a layer", layer.resistance)?;
        thickness += need_not_negative("vapour thickness of a layer", layer.vapour_thickness)?;
    }
    need_positive("resistance of the wall", outcome("resistance of the wall", resistance)?)?;
    need_positive("vapour thickness of the wall", outcome("vapour thickness of the wall", thickness)?)?;
    let pressure = |(temperature, pressure): (f64, f64)| -> Result<f64, InputError> {
        let most = saturation_pressure(temperature)?;
        need_within("vapour pressure", pressure, 0.0, most)
    };
    let (outside_pressure, inside_pressure) = (pressure(outside)?, pressure(inside)?);

    let temperature_at = |behind: f64| outside.0 + (inside.0 - outside.0) * (behind / resistance).min(1.0);
    let mut points = Vec::new();
    let (mut heat_behind, mut vapour_behind) = (outer_surface, 0.0);
    points.push(point(vapour_behind, temperature_at(heat_behind), 0, true)?);
    for (index, layer) in layers.iter().enumerate() {
        let parts = ((layer.resistance / DIVIDE_ABOVE).ceil() as usize).clamp(1, MOST_PARTS);
        for part in 1..=parts {
            let share = part as f64 / parts as f64;
            let at = vapour_behind + layer.vapour_thickness * share;
            points.push(point(at, temperature_at(heat_behind + layer.resistance * share), index, part == parts)?);
        }
        heat_behind += layer.resistance;
        vapour_behind += layer.vapour_thickness;
    }

    // A surface that is itself below the dew point holds the pressure at its saturation; water on it is the matter of `surface_humidity`.
    let on_surface = |at: f64, pressure: f64| {
        points
            .iter()
            .filter(|point| point.at <= at && at <= point.at)
            .map(|point| point.saturation)
            .fold(pressure, f64::min)
    };
    let end = points.last().map_or(0.0, |point| point.at);
    let ends = (on_surface(0.0, outside_pressure), on_surface(end, inside_pressure));
    let line = lowest_line(&points, ends.0, ends.1);
    Ok(profile(&points, &line, ends))
}

fn point(at: f64, temperature: f64, layer: usize, end_of_layer: bool) -> Result<Point, InputError> {
    Ok(Point { at, saturation: saturation_pressure(temperature)?, temperature, layer, end_of_layer })
}

/// A corner of the pressure's line: (vapour thickness, pressure, index of the point; `None` at the two ends).
type Corner = (f64, f64, Option<usize>);

/// The lowest convex line below the saturation pressures between the two ends.
fn lowest_line(points: &[Point], outside: f64, inside: f64) -> Vec<Corner> {
    let end = points.last().map_or(0.0, |point| point.at);
    let inner = points.iter().enumerate().filter(|(_, point)| point.at > 0.0 && point.at < end);
    let corners = inner.map(|(index, point)| (point.at, point.saturation, Some(index)));
    let mut line: Vec<Corner> = vec![(0.0, outside, None)];
    for corner in corners.chain([(end, inside, None)]) {
        while let [.., before, last] = line[..] {
            let rising = (last.1 - before.1) * (corner.0 - before.0) >= (corner.1 - before.1) * (last.0 - before.0);
            if !rising {
                break;
            }
            line.pop();
        }
        // Of two points at one place the lower counts.
        match line.last() {
            Some(last) if corner.0 <= last.0 && last.2.is_some() && corner.1 >= last.1 => {}
            _ => line.push(corner),
        }
    }
    line
}

/// Rates that are smaller than this are rounding, kg/(m²·s).
const NO_RATE: f64 = 1e-9 * 1e-3 / 3_600.0;

fn profile(points: &[Point], line: &[Corner], ends: (f64, f64)) -> GlaserProfile {
    let mut condensates = Vec::new();
    for corners in line.windows(3) {
        let [before, here, after] = corners else { continue };
        let Some(point) = here.2.and_then(|index| points.get(index)) else { continue };
        let inflow = (after.1 - here.1) / (after.0 - here.0);
        let outflow = (here.1 - before.1) / (here.0 - before.0);
        let rate = VAPOUR_PERMEABILITY_AIR * (inflow - outflow);
        if rate > NO_RATE {
            let (layer, temperature) = (point.layer, point.temperature);
            condensates.push(Condensate { layer, within: !point.end_of_layer, temperature, rate });
        }
    }
    let pressure_at = |at: f64| {
        line.windows(2)
            .find_map(|pair| match pair {
                [one, other] if at <= other.0 && other.0 > one.0 => {
                    Some(one.1 + (other.1 - one.1) * (at - one.0) / (other.0 - one.0))
                }
                _ => None,
            })
            .unwrap_or(ends.1)
    };
    let faces = || points.iter().filter(|point| point.end_of_layer);
    GlaserProfile {
        temperatures: faces().map(|point| point.temperature).collect(),
        vapour_pressures: faces().map(|point| pressure_at(point.at)).collect(),
        saturation_pressures: faces().map(|point| point.saturation).collect(),
        condensates,
    }
}
