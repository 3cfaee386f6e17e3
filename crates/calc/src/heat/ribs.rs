//! Walls whose insulation is bridged by metal ribs.
//!
//! Two bounds enclose the truth: heat that never turns aside (parallel paths) is the least loss, heat that spreads without resistance in
//! every plane between layers (isothermal planes) the greatest. The mean of the two resistances, which ISO 6946 calls the combined method, is
//! **outside its scope** where metal bridges insulation; for a thin steel web the bounds lie a factor four apart. The zone method of the
//! ASHRAE handbook lets heat spread only near the rib; for four walls of vans it came within 6 % of conduction in two dimensions, where the
//! combined method was 8 to 22 % off, too high or too low (tests/reference/make_building_reference.py).

use crate::citation::{Citation, Mark};
use crate::input::{InputError, need_entries, need_not_negative, need_positive, need_within, outcome};
use crate::interval::Interval;

/// Metal in a layer: the width that it takes of each spacing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Metal {
    /// Width along the wall, m: the web's thickness or the flange's width.
    pub width: f64,
    /// Conductivity, W/(m·K).
    pub conductivity: f64,
}

/// A layer of a wall with ribs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RibbedLayer {
    /// Thickness, m.
    pub thickness: f64,
    /// Conductivity beside the rib, W/(m·K).
    pub fill: f64,
    /// What of the rib stands in this layer; `None` where the layer runs through.
    pub metal: Option<Metal>,
}

/// A wall with equal ribs at equal spacing; flanges and webs share one centre line.
#[derive(Debug, Clone, PartialEq)]
pub struct RibbedWall {
    /// Spacing of the ribs, m.
    pub spacing: f64,
    /// Inside surface resistance, m²·K/W.
    pub inner_surface: f64,
    /// Layers from outside to inside.
    pub layers: Vec<RibbedLayer>,
    /// Outside surface resistance, m²·K/W.
    pub outer_surface: f64,
}

/// Heat transfer of a wall with metal ribs, W/(m²·K), by four methods.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RibbedU {
    /// Between parallel paths and isothermal planes; the true value lies within.
    pub bounds: Interval,
    /// Without any rib.
    pub clear: f64,
    /// By the zone method: the best single estimate of the four, not a bound.
    pub zone: f64,
    /// Width of the zone, m.
    pub zone_width: f64,
    /// From the mean of the two resistances (ISO 6946 combined method).
    pub combined: f64,
    /// True where metal bridges the wall: the combined method is then outside the scope of ISO 6946.
    pub combined_outside_scope: bool,
}

impl RibbedU {
    /// Source of the zone method.
    pub const ZONE_METHOD: Citation = Citation {
        document: "ASHRAE Handbook of Fundamentals, zone method",
        place: "zone width = widest metal + 2 × distance to the surface, this not below 13 mm",
        edition: "paraphrased on a page",
        mark: Mark::SecondHand,
        address: "https://www.civilengineeringhandbook.tk/energy-management/933-the-ashrae-zone-method.html",
    };

    /// Source of the limit of the combined method.
    pub const SCOPE: Citation = Citation {
        document: "ISO 6946",
        place: "scope: insulation that metal bridges is not covered",
        edition: "2007",
        mark: Mark::Read,
        address: "https://theiteh.com/catalog/standards/cen/91562c12-0c28-4ca5-ac3c-6bac9c8df13c/en-iso-6946-2007",
    };
}

/// Least distance from the metal to the surface in the zone method, m (0.5 in, for the air film).
const ZONE_LEAST_COVER: f64 = 0.0127;

impl RibbedWall {
    fn check(&self) -> Result<(), InputError> {
        need_positive("spacing of the ribs", self.spacing)?;
        need_not_negative("inside surface resistance", self.inner_surface)?;
        need_not_negative("outside surface resistance", self.outer_surface)?;
        need_positive("surface resistances", self.inner_surface + self.outer_surface)?;
        for layer in need_entries("layers", &self.layers)? {
            need_positive("thickness of the layer", layer.thickness)?;
            need_positive("conductivity of the fill", layer.fill)?;
            if let Some(metal) = layer.metal {
                need_within("width of the metal", metal.width, 0.0, self.spacing)?;
                need_positive("conductivity of the metal", metal.conductivity)?;
            }
        }
        Ok(())
    }

    /// Resistance at a distance from the rib's centre line, given as twice that distance.
    fn path(&self, width: f64) -> f64 {
        let films = self.inner_surface + self.outer_surface;
        films + self.layers.iter().map(|layer| layer.thickness / layer.conductivity_at(width)).sum::<f64>()
    }

    /// Heat transfer of the strip of that width round the rib, heat going straight through.
    fn parallel(&self, strip: f64) -> f64 {
        let mut widths: Vec<f64> =
            self.layers.iter().filter_map(|layer| layer.metal).map(|metal| metal.width.min(strip)).collect();
        widths.push(strip);
        widths.sort_by(f64::total_cmp);
        let (mut from, mut sum) = (0.0, 0.0);
        for to in widths {
            sum += (to - from) / self.path(from);
            from = to;
        }
        sum / strip
    }

    /// Heat transfer of the strip of that width round the rib, each plane between layers at one temperature.
    fn isothermal(&self, strip: f64) -> f64 {
        let layers: f64 = self.layers.iter().map(|layer| layer.thickness / layer.mean_conductivity(strip)).sum();
        1.0 / (self.inner_surface + layers + self.outer_surface)
    }

    fn zone_width(&self) -> f64 {
        let widest = self.layers.iter().filter_map(|layer| layer.metal).map(|metal| metal.width).fold(0.0, f64::max);
        let cover = |layers: &mut dyn Iterator<Item = &RibbedLayer>| -> f64 {
            layers.take_while(|layer| layer.metal.is_none()).map(|layer| layer.thickness).sum()
        };
        let deepest = cover(&mut self.layers.iter()).max(cover(&mut self.layers.iter().rev()));
        (widest + 2.0 * deepest.max(ZONE_LEAST_COVER)).min(self.spacing)
    }
}

impl RibbedLayer {
    fn conductivity_at(&self, width: f64) -> f64 {
        match self.metal {
            Some(metal) if width < metal.width => metal.conductivity,
            _ => self.fill,
        }
    }

    fn mean_conductivity(&self, strip: f64) -> f64 {
        let Some(metal) = self.metal else { return self.fill };
        let share = (metal.width / strip).min(1.0);
        share * metal.conductivity + (1.0 - share) * self.fill
    }
}

/// Heat transfer of a wall with metal ribs: bounds, zone method and combined method (see the head of this module).
///
/// The skin counts as a layer of its own. Contact between rib, skin and lining is taken as perfect, so that a strip of foam under the lining
/// must be given as a layer. The zone width counts the cover on the deeper side.
///
/// # Errors
/// No layer; numbers that are not above zero; metal wider than the spacing; no surface resistance.
pub fn ribbed_u_value(wall: &RibbedWall) -> Result<RibbedU, InputError> {
    wall.check()?;
    let parallel = outcome("heat transfer", wall.parallel(wall.spacing))?;
    let isothermal = outcome("heat transfer", wall.isothermal(wall.spacing))?;
    let clear = outcome("heat transfer", 1.0 / wall.path(f64::INFINITY))?;
    let zone_width = wall.zone_width();
    let share = zone_width / wall.spacing;
    let zone = outcome("heat transfer", share * wall.isothermal(zone_width) + (1.0 - share) * clear)?;
    let combined = outcome("heat transfer", 2.0 / (1.0 / parallel + 1.0 / isothermal))?;
    // Both are one number where nothing bridges; the last digit may differ.
    let bounds = Interval::new(parallel.min(isothermal), isothermal.max(parallel))?;
    let combined_outside_scope = wall.layers.iter().any(|layer| layer.metal.is_some_and(|metal| metal.width > 0.0));
    Ok(RibbedU { bounds, clear, zone, zone_width, combined, combined_outside_scope })
}

/// Heat transfer of a face of which a share is ribs, W/(m²·K): the mean by area. For a face whose ribs are known by their share only; like
/// parallel paths, it is a lower bound of the loss.
///
/// # Errors
/// A heat transfer below zero; a share outside 0 to 1.
pub fn shared_u_value(clear: Interval, rib: Interval, rib_share: f64) -> Result<Interval, InputError> {
    let share = need_within("share of the ribs", rib_share, 0.0, 1.0)?;
    need_not_negative("heat transfer of the clear face", clear.least())?;
    need_not_negative("heat transfer of the rib", rib.least())?;
    clear.times(1.0 - share)?.plus(rib.times(share)?)
}
